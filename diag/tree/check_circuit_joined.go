package tree

import (
	"fmt"
	"slices"

	"benchlead/diag/formula"
)

// ends are the nodes that the part touches; none twice.
func (p *CircuitPart) ends() []string {
	var out []string
	for _, n := range []string{p.From, p.To, p.Coil[0], p.Coil[1], p.Sense} {
		if n != "" && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

// uses are the parts at each node.
func (c *circuitNotes) uses() map[string][]string {
	out := map[string][]string{}
	for i := range c.out.Parts {
		for _, node := range c.out.Parts[i].ends() {
			out[node] = append(out[node], c.out.Parts[i].ID)
		}
	}
	return out
}

// joined: every joint joins something, and every node has some way to ground,
// open switches counted.
func (b *builder) joined(c *circuitNotes) {
	used := c.uses()
	for _, j := range c.out.Joints {
		switch at := used[j.ID]; len(at) {
		case 0:
			b.report(CodeDeadEnd, j.Place, fmt.Sprintf("no part is at the joint %q", j.ID), "take it away, or connect parts to it")
		case 1:
			b.report(CodeDeadEnd, j.Place, fmt.Sprintf("only %q is at the joint %q, so nothing flows there", at[0], j.ID), "connect another part to it")
		}
	}
	if c.out.Ground != "" && len(used[c.out.Ground]) == 0 {
		b.report(CodeNoGround, c.file.Ground.Place, fmt.Sprintf("no part is at %q, from which volts are counted", c.out.Ground), "name a point that parts are at")
		return
	}
	reached := c.reached()
	for i := range c.out.Parts {
		p := &c.out.Parts[i]
		for _, node := range p.ends() {
			if c.out.Ground != "" && !reached[node] {
				b.report(CodeNoGround, p.Place, fmt.Sprintf("no parts lead from %q, where %q is, to %q", node, p.ID, c.out.Ground), "connect them, if only by a high resistance")
				break
			}
		}
	}
}

// reached are the nodes that some way of parts joins to ground. A contact and
// its coil are two ways that have nothing to do with each other; what only
// senses is no way.
func (c *circuitNotes) reached() set {
	out := set{c.out.Ground: true}
	for grew := true; grew; {
		grew = false
		for i := range c.out.Parts {
			p := &c.out.Parts[i]
			for _, way := range [][2]string{{p.From, p.To}, p.Coil} {
				if out[way[0]] != out[way[1]] && way[0] != "" && way[1] != "" {
					out[way[0]], out[way[1]], grew = true, true, true
				}
			}
		}
	}
	return out
}

// unusedNames reports values and positions that no formula mentions: what sets
// them then does nothing.
func (b *builder) unusedNames(c *circuitNotes) {
	used := set{}
	for _, f := range c.formulas() {
		if f == nil {
			continue
		}
		for _, name := range f.Needs() {
			used[name] = true
		}
	}
	for _, v := range c.out.Values {
		if !used[v.ID] {
			b.report(CodeUnused, v.Place, fmt.Sprintf("no formula mentions the value %q", v.ID), "use it in a part, or take it away")
		}
	}
	for _, m := range c.out.Positions {
		if !used[m.ID] {
			b.report(CodeUnused, m.Place, fmt.Sprintf("no formula mentions the position %q", m.ID), "use it in a part, or take it away")
		}
	}
}

// formulas are all of the circuit.
func (c *circuitNotes) formulas() []*formula.Formula {
	var out []*formula.Formula
	for _, v := range c.out.Values {
		out = append(out, v.Usual, v.From, v.To)
	}
	for _, p := range c.out.Parts {
		out = append(out, p.When)
		for _, q := range quantities {
			out = append(out, p.Numbers[q.name], p.Conditions[q.name])
		}
	}
	for _, f := range c.out.Faults {
		if f.Holds != nil {
			out = append(out, f.Holds.When)
		}
		for _, w := range f.Ways {
			out = append(out, changed(w.Set)...)
		}
	}
	for _, w := range c.out.Work {
		out = append(out, changed(w.Set)...)
	}
	for _, s := range c.out.Shows {
		for _, choice := range s.Choices {
			out = append(out, whens(choice.When)...)
		}
	}
	for _, r := range c.out.Reads {
		out = append(out, r.Value)
	}
	for _, x := range c.out.Complaints {
		out = append(out, whens(x.When)...)
	}
	return out
}

func changed(list []Change) []*formula.Formula {
	var out []*formula.Formula
	for _, s := range list {
		out = append(out, s.To)
	}
	return out
}

func whens(conditions []Condition) []*formula.Formula {
	var out []*formula.Formula
	for _, x := range conditions {
		out = append(out, x.When)
	}
	return out
}
