package prove

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Trace is one walk, written so that its tree can be mended from it.
type Trace struct {
	Machine   int      // its number: the same seed makes it again
	Complaint string   // that it came in with
	Ways      []string // how each fault came about
	Values    []string // those that differ most from usual
	Lines     []string // the way through the trees
	Found     []string
	Slips     []string // tests whose answer was a slip of hand or eye
	Why       []string // what is wrong, and where it stands in the files
}

// oddest is how many values are shown that differ most from usual, if they
// differ by more than a fair share of their width.
const (
	oddest  = 3
	oddFrom = 0.2
)

// trace walks a machine again with notes taken.
func (b *batch) trace(d Draw, class Class) (Trace, error) {
	m, err := b.maker.Build(d)
	if err != nil {
		return Trace{}, err
	}
	complaint, err := m.Complaint()
	if err != nil {
		return Trace{}, err
	}
	t := Trace{Machine: d.Number, Complaint: complaint, Ways: m.Ways(), Values: odd(m.Drawn())}
	names := &places{plan: b.tech.plan, system: b.reach.system}
	w, err := take(b.tech.plan, b.reach, m, manner{notes: true, repairs: b.unit.double()}, func(pos walk.Position, work string) {
		t.Lines = append(t.Lines, names.way(pos)...)
		if work != "" {
			t.Lines = append(t.Lines, "work done: "+work+"; from the beginning again:")
		}
	})
	if err != nil {
		return Trace{}, err
	}
	t.Lines = withoutRepeats(t.Lines)
	t.Slips = sorted(w.slipped)
	o := outcomeOf(w, d.Faults)
	for _, f := range w.pos.Verdict.Found {
		t.Found = append(t.Found, f.Fault.ID)
	}
	t.Why = b.why(o, d, class)
	return t, nil
}

// odd are the values that differ most from usual.
func odd(drawn []Drawn) []string {
	drawn = slices.Clone(drawn)
	slices.SortStableFunc(drawn, func(a, b Drawn) int { return cmp.Compare(math.Abs(b.Off), math.Abs(a.Off)) })
	var out []string
	for _, d := range drawn[:min(oddest, len(drawn))] {
		if math.Abs(d.Off) < oddFrom {
			break
		}
		out = append(out, fmt.Sprintf("%s %s (usual %s)", tree.InSentence(d.Says), d.Text, d.Usual))
	}
	return out
}

// withoutRepeats leaves out what a second way through the trees has in common
// with the first, up to where they part.
func withoutRepeats(lines []string) []string {
	var out, last, now []string
	flush := func() {
		same := 0
		for same < len(now) && same < len(last) && now[same] == last[same] {
			same++
		}
		if same > 1 {
			out = append(out, fmt.Sprintf("(the same %d steps)", same))
		} else {
			same = 0
		}
		out = append(out, now[same:]...)
		last, now = now, nil
	}
	for _, l := range lines {
		if strings.HasPrefix(l, "work done: ") {
			flush()
			out = append(out, l)
			continue
		}
		now = append(now, l)
	}
	flush()
	return out
}

// places writes steps, tests and bands with where they stand.
type places struct {
	plan   *Plan
	system *tree.System
}

// at is a place in a file, short.
func at(p source.Place) string {
	if p.File == "" {
		return "no place"
	}
	return fmt.Sprintf("%s:%d", p.File, p.Line)
}

// way writes the steps that a position came through, a line each.
func (n *places) way(pos walk.Position) []string {
	var out []string
	for _, v := range pos.Trail {
		if v.Kind == tree.Find && v.Outcome != tree.Shown || v.Kind == tree.Clear && v.Outcome != tree.Cleared {
			continue // gone past, and of no effect
		}
		out = append(out, n.visit(v, pos.Results, pos.Verdict))
	}
	if pos.Loop && len(pos.Trail) > 0 {
		out = append(out, fmt.Sprintf("comes back to %s, which it had passed: it does not end", n.after(pos.Trail[len(pos.Trail)-1])))
	}
	return out
}

// after is the step that a visit led to.
func (n *places) after(v walk.Visit) string {
	s := n.plan.lib.Trees[v.Tree].Step(v.Step)
	return n.step(v.Tree, cmp.Or(s.Then[v.Outcome], s.Next))
}

func (n *places) step(treeID, stepID string) string {
	t := n.plan.lib.Trees[treeID]
	if t == nil || t.Step(stepID) == nil {
		return key(treeID, stepID)
	}
	return fmt.Sprintf("%s (%s)", key(treeID, stepID), at(t.Step(stepID).Place))
}

func (n *places) visit(v walk.Visit, results map[string]walk.Result, verdict walk.Verdict) string {
	line := n.step(v.Tree, v.Step) + " "
	s := n.plan.lib.Trees[v.Tree].Step(v.Step)
	switch v.Kind {
	case tree.Ask:
		return line + v.Test + ": " + reads(results[v.Test]) + " -> " + v.Outcome + " -> " + s.Then[v.Outcome]
	case tree.Do:
		return line + "do " + s.Work + " -> " + v.Outcome
	case tree.Sub:
		return line + "walk " + s.Tree + " -> " + v.Outcome
	case tree.Find, tree.Clear:
		return line + string(v.Kind) + " " + s.Fault + n.doubted(s.Fault, verdict)
	case tree.Stop:
		return line + "stop: " + s.Say
	}
	return line + string(v.Kind)
}

// doubted says of a fault that a step finds or clears that other answers say the
// contrary, so that the step comes to nothing.
func (n *places) doubted(fault string, v walk.Verdict) string {
	for _, u := range v.Untested {
		if u.Fault.ID == fault && len(u.Doubt) > 0 {
			return ", which other answers contradict: neither counts"
		}
	}
	return ""
}

// reads is a result with its bands: `10.42 V, very low (98 %)`.
func reads(r walk.Result) string {
	switch r.Mark {
	case walk.Seen:
		return r.Choice
	case walk.Passed:
		return "no answer (" + r.Why + ")"
	case walk.Unknown:
		return "not asked"
	}
	switch {
	case r.Flicker:
		return "flickers"
	case r.Over:
		return "over range"
	}
	return measure.Format(r.Estimate.Value, r.Test.Unit, r.Test.PerUnit, 0) + ", " + bands(r)
}

// bands are the bands a reading may be in, those of 5 % and more.
func bands(r walk.Result) string {
	var out []string
	for i, chance := range r.Chance {
		if chance > 1-measure.SureAt {
			out = append(out, fmt.Sprintf("%s (%.0f %%)", r.Test.Bands[i].Name, 100*chance))
		}
	}
	return strings.Join(out, " or ")
}

// sorted are the ids that a set has, in order.
func sorted(ids map[string]bool) []string {
	var out []string
	for id, has := range ids {
		if has {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}
