package tree

import (
	"fmt"
	"slices"

	"benchlead/diag/formula"
)

// tried is one quantity of a part, for trying it out.
type tried struct {
	part  *CircuitPart
	q     quantity
	f     *formula.Formula
	once  bool // it is the same whatever the label, the values and the state
	still bool // it is the same in every state
}

// quantitiesOf are all quantities of all parts.
func (c *circuitNotes) quantitiesOf() []tried {
	var out []tried
	for i := range c.out.Parts {
		p := &c.out.Parts[i]
		for _, q := range quantities {
			f := p.Numbers[q.name]
			if f == nil {
				continue
			}
			needs := f.Needs()
			out = append(out, tried{part: p, q: q, f: f, once: len(needs) == 0, still: !slices.ContainsFunc(needs, c.moves.has)})
		}
	}
	return out
}

// checkNumbers tries values and quantities with the label at its defaults and at
// its ends, every value as it usually is, in every state. It says whether all is well.
func (b *builder) checkNumbers(c *circuitNotes) bool {
	all := c.quantitiesOf()
	for i, s := range c.usual {
		k := formula.NewKnown(s.values)
		if b.valuesFall(c, k, s) {
			return false
		}
		for j, state := range c.system.States {
			c.put(k, state.ID)
			for _, t := range all {
				if t.once && i+j > 0 || t.still && j > 0 {
					continue
				}
				if b.impossible(t, k, s, state.ID) {
					return false
				}
			}
			if j == 0 && b.holdOn(c, k) {
				return false
			}
		}
	}
	return true
}

// put makes the settings known that positions have in a state.
func (c *circuitNotes) put(k *formula.Known, state string) {
	for _, m := range c.out.Positions {
		if len(m.Settings) > 0 {
			k.SetWord(m.ID, m.Settings[0])
		}
	}
	for position, setting := range c.out.States[state] {
		k.SetWord(position, setting)
	}
}

// valuesFall reports the first value that isn't between its ends, and makes all
// known as they usually are.
func (b *builder) valuesFall(c *circuitNotes, k *formula.Known, s sample) bool {
	for _, v := range c.out.Values {
		if len(v.Words) > 0 {
			k.SetWord(v.ID, v.Words[0])
			continue
		}
		usual, from, to, err := v.Span(k)
		if err != nil {
			b.report(CodeBadNumber, v.Place, fmt.Sprintf("%s the value %q can't be worked out: %v", at(s), v.ID, err), "bound what it is made of with min() or max()")
			return true
		}
		if from > usual || usual > to {
			unit := func(x float64) string { return shownIn(x, v.Unit, v.PerUnit) }
			b.report(CodeSpan, v.Place, fmt.Sprintf("%s %q is usually %s, and runs from %s to %s", at(s), v.ID, unit(usual), unit(from), unit(to)), "put from, usual and to in rising order")
			return true
		}
		k.Set(v.ID, usual)
	}
	return false
}

// above are the quantities that must be more than nothing.
var above = []string{"amps", "pulls_in", "coil_ohms", "ke", "viscous", "watts", "hertz", "farads", "most_amps", "metres"}

// impossible reports a quantity that no part can have.
func (b *builder) impossible(t tried, k *formula.Known, s sample, state string) bool {
	v, err := t.f.EvalIn(k)
	why := ""
	switch {
	case err != nil:
		why = err.Error()
	case v < 0 && t.q.key != "volts" && t.q.key != "gauge":
		why = fmt.Sprintf("comes to %s, below 0", number64(v))
	case v == 0 && slices.Contains(above, t.q.name):
		why = "comes to 0"
	default:
		return false
	}
	b.report(CodeBadNumber, t.f.Origin().Start(), fmt.Sprintf("%s, in the state %q, %q of %q %s", at(s), state, t.q.key, t.part.ID, why),
		"bound it with min() or max(), or mend the value it is made of")
	return true
}

// holdOn reports the first relay that drops out at no less than it pulls in at.
func (b *builder) holdOn(c *circuitNotes, k *formula.Known) bool {
	for i := range c.out.Parts {
		p := &c.out.Parts[i]
		if p.Numbers["pulls_in"] == nil || p.Numbers["drops_out"] == nil {
			continue
		}
		in, errIn := p.Numbers["pulls_in"].EvalIn(k)
		out, errOut := p.Numbers["drops_out"].EvalIn(k)
		if errIn == nil && errOut == nil && out >= in {
			b.report(CodeBadNumber, p.Numbers["drops_out"].Origin().Start(),
				fmt.Sprintf("%q drops out at %s A, not below the %s A at which it pulls in", p.ID, number64(out), number64(in)), "swap them")
			return true
		}
	}
	return false
}
