package prove

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// sign tells one way of going wrong from another: what was condemned or cleared
// and by what, or where the walk ended with which readings.
func (o *outcome) sign(class Class) string {
	var out []string
	if class == Wrong {
		for _, f := range o.False {
			out = append(out, "finds "+f.Fault.ID+" at "+key(f.Tree, f.Step))
		}
		for _, c := range o.Denied {
			out = append(out, "clears "+c.Fault.ID)
			for _, e := range c.Evidence {
				out = append(out, e.Test.ID+" "+e.Says)
			}
		}
		return strings.Join(out, "; ")
	}
	for _, v := range o.run.pos.Trail {
		if v.Kind == tree.Ask {
			out = append(out, key(v.Tree, v.Step)+" "+v.Outcome)
		}
	}
	const last = 2 // steps: what led to the end
	return strings.Join(out[max(0, len(out)-last):], "; ")
}

// why says what is wrong with the tree.
func (b *batch) why(o *outcome, d Draw, class Class) []string {
	var out []string
	n := &places{plan: b.tech.plan, system: b.reach.system}
	for _, f := range o.False {
		out = append(out, fmt.Sprintf("finds %s, which is not there: step %s, by %s", f.Fault.ID, n.step(f.Tree, f.Step), said(f.Evidence)))
	}
	for _, c := range o.Denied {
		out = append(out, n.clearers(c.results, c.Fault.ID)...)
	}
	out = append(out, b.blamed(n, o, d)...)
	if o.run.endless && !o.run.pos.Loop {
		out = append(out, fmt.Sprintf("does not end: after %d answers it still asks; see the steps above", o.run.moves))
	}
	if class == Wrong {
		return out
	}
	for _, fault := range d.Faults {
		if o.of(fault) == class {
			out = append(out, b.left(n, o, fault)...)
		}
	}
	return append(out, b.unasked(o, d)...)
}

// blamed are the readings by which a wrong is done: how the machine stood, where
// the band ends, and what they are without the fault. The band may be right and
// the reading one that can't see the fault.
func (b *batch) blamed(n *places, o *outcome, d Draw) []string {
	var tests []*tree.Test
	read := map[*tree.Test]walk.Result{} // when the wrong was done, before any repair of it
	add := func(evidence []walk.Evidence, results map[string]walk.Result) {
		for _, e := range evidence {
			if _, had := read[e.Test]; !had && e.Test.Kind == tree.Metered {
				tests, read[e.Test] = append(tests, e.Test), results[e.Test.ID]
			}
		}
	}
	for _, f := range o.False {
		add(f.Evidence, f.results)
	}
	for _, c := range o.Denied {
		add(c.Evidence, c.results)
	}
	d.Faults = nil
	well, err := b.ask(d, tests)
	if err != nil {
		return nil
	}
	var out []string
	for _, test := range tests {
		is := read[test]
		line := fmt.Sprintf("%s (%s) is read in state %q", test.ID, at(test.Place), test.State)
		if len(test.With) > 0 {
			line += " with " + strings.Join(test.With, ", ")
		}
		line += spanned(is)
		if without := well[test.ID]; without.Mark == walk.Read {
			line += "; without the fault it reads " + reads(without)
			if is.Mark == walk.Read && called(is) == called(without) {
				line += ": the same band, so here it tells nothing"
			}
		}
		out = append(out, line)
	}
	return out
}

// spanned says between which limits the called band of a reading lies.
func spanned(r walk.Result) string {
	band := r.Call().Band
	if r.Mark != walk.Read || r.Mute() || len(r.Chance) == 0 || len(r.Cuts) == 0 {
		return ""
	}
	show := func(v float64) string { return measure.Format(v, r.Test.Unit, r.Test.PerUnit, 0) }
	switch {
	case band == 0:
		return fmt.Sprintf("; %q is under %s", r.Test.Bands[band].Name, show(r.Cuts[0]))
	case band >= len(r.Cuts):
		return fmt.Sprintf("; %q is from %s", r.Test.Bands[band].Name, show(r.Cuts[band-1]))
	}
	return fmt.Sprintf("; %q is from %s to %s", r.Test.Bands[band].Name, show(r.Cuts[band-1]), show(r.Cuts[band]))
}

// said is evidence in words.
func said(evidence []walk.Evidence) string {
	var out []string
	for _, e := range evidence {
		out = append(out, fmt.Sprintf("%s %q (%.0f %%)", e.Test.ID, e.Says, 100*e.Chance))
	}
	return strings.Join(out, ", ")
}

// clearers names the bands, choices and steps that cleared a fault.
func (n *places) clearers(results map[string]walk.Result, fault string) []string {
	var out []string
	say := func(format string, args ...any) {
		out = append(out, fmt.Sprintf("clears %s, which is there: ", fault)+fmt.Sprintf(format, args...))
	}
	for _, test := range n.system.Tests {
		r := results[test.ID]
		for _, band := range test.Bands {
			if chance, _, ok := r.Within([]string{band.Name}); ok && chance > 1-measure.SureAt && slices.Contains(band.Clears, fault) {
				say("the band %q of %s (%s), which reads %s", band.Name, test.ID, at(band.Place), reads(r))
			}
		}
		for _, c := range test.Choices {
			if r.Mark == walk.Seen && r.Choice == c.Name && slices.Contains(c.Clears, fault) {
				say("the choice %q of %s (%s)", c.Name, test.ID, at(c.Place))
			}
		}
	}
	for _, t := range n.plan.lib.TreesFor(n.system.ID) {
		for _, s := range t.Steps {
			if s.Kind == tree.Clear && s.Fault == fault && holds(s.By, results) {
				by, _ := wants(s.By, results)
				say("step %s, by %s", n.step(t.ID, s.ID), by)
			}
		}
	}
	return out
}

// holds says whether evidence is called for the bands that count.
func holds(by []tree.Evidence, results map[string]walk.Result) bool {
	for _, e := range by {
		if chance, _, ok := results[e.Test].Within(e.Bands); !ok || chance < measure.SureAt {
			return false
		}
	}
	return true
}

// worse is how much more a test lacks that came out otherwise, against one that
// was not asked.
const worse = 2

// wants is evidence as a step wants it, beside what was read; and what it lacks.
func wants(by []tree.Evidence, results map[string]walk.Result) (text string, lacks int) {
	var out []string
	for _, e := range by {
		r := results[e.Test]
		text := e.Test + " wants " + strings.Join(e.Bands, " or ")
		switch chance, _, ok := r.Within(e.Bands); {
		case ok && chance >= measure.SureAt:
			text = e.Test + " is " + strings.Join(e.Bands, " or ")
		case r.Mark == walk.Unknown:
			text += ", not asked"
			lacks++
		default:
			text += ", reads " + reads(r)
			lacks += worse
		}
		out = append(out, text)
	}
	return strings.Join(out, "; "), lacks
}

// nearest is how many steps are named that would have found a fault.
const nearest = 3

// left says what would have found a fault that was left untested: the steps that
// lack the least, first.
func (b *batch) left(n *places, o *outcome, fault string) []string {
	var out []string
	for _, u := range o.run.pos.Verdict.Untested {
		if u.Fault.ID == fault && len(u.Doubt) > 0 {
			out = append(out, fmt.Sprintf("%s is both found and cleared: %s", fault, said(u.Doubt)))
			out = append(out, n.clearers(o.run.pos.Results, fault)...)
		}
	}
	type wanting struct {
		line  string
		lacks int
	}
	var steps []wanting
	for _, t := range b.reach.trees {
		for _, s := range t.Steps {
			if s.Kind == tree.Find && s.Fault == fault {
				text, lacks := wants(s.By, o.run.pos.Results)
				late := after(s, o)
				steps = append(steps, wanting{fmt.Sprintf("%s would be found by %s: %s%s", fault, n.step(t.ID, s.ID), text, late), lacks})
			}
		}
	}
	slices.SortStableFunc(steps, func(x, y wanting) int { return cmp.Compare(x.lacks, y.lacks) })
	for _, s := range steps[:min(nearest, len(steps))] {
		out = append(out, s.line)
	}
	if more := len(steps) - nearest; more > 0 {
		out = append(out, fmt.Sprintf("%d more steps would find it, which lack more", more))
	}
	return out
}

// after names the faults that a finding waits for.
func after(s *tree.Step, o *outcome) string {
	var out []string
	for _, id := range s.After {
		if !o.found[id] && !o.cleared[id] {
			out = append(out, id)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "; and waits for " + strings.Join(out, ", ")
}

// mostUnasked is how many tests are named that would have told.
const mostUnasked = 4

// unasked names tests that the walk went past though this machine, as it came
// in, answers them otherwise than without the fault.
func (b *batch) unasked(o *outcome, d Draw) []string {
	var left []*tree.Test
	for _, test := range b.reach.tests {
		if o.run.taken[test.ID] == 0 && o.run.pos.Results[test.ID].Mark == walk.Unknown {
			left = append(left, test)
		}
	}
	speaks := b.evidence(d.Faults)
	slices.SortStableFunc(left, func(x, y *tree.Test) int { return cmp.Compare(speaks[y.ID], speaks[x.ID]) })
	sick, err := b.ask(d, left)
	if err != nil {
		return nil
	}
	d.Faults = nil
	well, err := b.ask(d, left)
	if err != nil {
		return nil
	}
	var out []string
	for _, test := range left {
		if is := sick[test.ID]; called(is) != called(well[test.ID]) && len(out) < mostUnasked {
			out = append(out, fmt.Sprintf("never asked: %s (%s), which reads %s; without the fault %s",
				test.ID, at(test.Place), reads(is), reads(well[test.ID])))
		}
	}
	if len(out) == 0 {
		out = append(out, "no other test of the tree reads otherwise than without the fault")
	}
	return out
}

// ask puts tests to a machine as it comes in.
func (b *batch) ask(d Draw, tests []*tree.Test) (map[string]walk.Result, error) {
	m, err := b.maker.Build(d)
	if err != nil {
		return nil, err
	}
	return b.tech.plan.everything(b.reach, m, tests...)
}

// evidence are the tests by which the trees find faults: 1 for each.
func (b *batch) evidence(faults []string) map[string]int {
	out := map[string]int{}
	for _, t := range b.reach.trees {
		for _, s := range t.Steps {
			if s.Kind == tree.Find && slices.Contains(faults, s.Fault) {
				for _, e := range s.By {
					out[e.Test] = 1
				}
			}
		}
	}
	return out
}
