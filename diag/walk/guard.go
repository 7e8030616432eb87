package walk

import (
	"cmp"
	"maps"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// guard puts what must come first in front: a danger that was not yet
// acknowledged, then make-safe conditions that are not confirmed.
func (w *where) guard(p *Position) {
	if p.Stage == AtClosed {
		return
	}
	p.Standing, p.StillTurns = w.ev.dangers(), w.stillTurns()
	for _, d := range p.Standing {
		if w.facts.HeededAt(d.Caution.ID, d.Test) < w.sheet.of(d.Test).Seq {
			p.Danger = append(p.Danger, d)
		}
	}
	p.Safe = w.unconfirmed(w.needs(p))
	switch {
	case len(p.Danger) > 0:
		p.Stage = AtDanger
	case len(p.Safe) > 0 && p.Stage != AtTerms:
		p.Stage = AtSafe
	}
}

// needs are the make-safe conditions of what comes next; of a service those that this
// system has.
func (w *where) needs(p *Position) map[string]string {
	need := map[string]string{}
	add := func(from map[string]string) {
		for item, setting := range from {
			need[item] = setting
		}
	}
	switch {
	case p.Test != nil:
		return NeedsOf(w.lib, w.system, p.Test, w.facts)
	case p.Work != nil:
		add(p.Work.Needs)
	case p.Repair != nil:
		add(w.offFirst())
		add(p.Repair.Needs)
	case p.Serving != nil:
		add(w.offFirst())
		add(w.lib.SafeOf(w.system).Of(p.Serving.Needs))
	case p.Stage == AtClose && !w.takenApart():
		return w.putBack(false) // the outcome is not known yet
	}
	return need
}

// takenApart says whether the machine is not put together again.
func (w *where) takenApart() bool {
	return w.facts.Chosen != nil && w.facts.Chosen.Path == job.PathPartOut
}

// meterLead is the make-safe item that tracks which jack the red lead is in.
const meterLead = "meter-lead"

// NeedsOf are the make-safe conditions of one test: its state's, its setups', and for
// a meter the jack that the red lead belongs in. What it says nothing of is as built
// when a meter reads or something runs: what another test unplugged or held goes back first.
func NeedsOf(lib *tree.Library, sys *tree.System, test *tree.Test, facts job.Facts) map[string]string {
	need := map[string]string{}
	if test.Kind == tree.Metered || sys.State(test.State).Live() {
		need = (&where{lib: lib, system: sys, facts: facts}).offFirst()
	}
	maps.Copy(need, sys.Needs(test))
	if test.Kind == tree.Observed && !sys.State(test.State).Live() {
		return (&where{lib: lib, system: sys, facts: facts}).toLook(need)
	}
	if lib.Safe[meterLead] == nil || test.Kind != tree.Metered {
		return need
	}
	delete(need, meterLead)
	switch {
	case test.Function == measure.DCAmps:
		need[meterLead] = "amps"
	case inJack(test) && (&where{lib: lib, facts: facts}).inAmps():
		need[meterLead] = "volts"
	}
	return need
}

// toLook are the make-safe conditions of something that is asked, or looked at on a dead
// machine: none where all of them are how the machine is left anyway, and nothing has
// changed that. A card before a question in which no hand is on anything is soon
// confirmed unread, and then so is the next one.
func (w *where) toLook(need map[string]string) map[string]string {
	for id, setting := range need {
		item := w.lib.Safe[id]
		if item == nil {
			continue
		}
		as := left(item, back)
		if !slices.Contains(as, setting) || w.changed(item, as) {
			return need
		}
	}
	return map[string]string{}
}

// inJack says whether a test puts the red lead somewhere. In the amps jack it is a dead
// short from there to black.
func inJack(test *tree.Test) bool {
	return test.Red != "" && test.Function != measure.ClampAmps
}

// unconfirmed lists the conditions that are not confirmed as needed, in the
// order of doing.
func (w *where) unconfirmed(need map[string]string) []SafeAsk {
	return slices.DeleteFunc(w.asks(need), func(a SafeAsk) bool {
		return w.facts.Safe[a.Item.ID] == a.Setting.ID && !w.handsWereIn(a.Item)
	})
}

// people is the make-safe item that says that everyone is clear.
const people = "stand"

// handsWereIn says whether a service was done since everyone was last said to be clear.
func (w *where) handsWereIn(item *tree.SafeItem) bool {
	return item.ID == people && w.facts.ServedLast > w.facts.LastSafe[people].Seq
}

// asks are settings of items to be confirmed, in the order of doing.
func (w *where) asks(need map[string]string) []SafeAsk {
	items := slices.Sorted(maps.Keys(need))
	slices.SortStableFunc(items, func(a, b string) int { return cmp.Compare(w.order(a, need[a]), w.order(b, need[b])) })
	var out []SafeAsk
	for _, id := range items {
		item := w.lib.Safe[id]
		if item == nil {
			continue
		}
		for _, s := range item.Settings {
			if s.ID == need[id] {
				out = append(out, SafeAsk{Item: item, Setting: s, Was: w.facts.Safe[id]})
			}
		}
	}
	return out
}

// order is where a setting of a make-safe item stands in the order of doing: twice the
// place of the item, or just behind the one it comes after.
func (w *where) order(id, setting string) int {
	item := w.lib.Safe[id]
	if item == nil {
		return 0
	}
	for _, s := range item.Settings {
		if before := w.lib.Safe[s.After]; s.ID == setting && before != nil {
			return 2*before.Order + 1
		}
	}
	return 2 * item.Order
}

// stillTurns says whether the machine turned in the test that was answered last, with no
// card confirmed and no work done since.
func (w *where) stillTurns() bool {
	last, moved := int64(0), false
	for id, answers := range w.facts.Answers {
		t := w.system.Test(id)
		for _, a := range answers {
			if t != nil && a.Cant == nil && a.Seq > last {
				state := w.system.State(t.State)
				last, moved = a.Seq, state != nil && state.Moving
			}
		}
	}
	since := max(w.facts.MendedLast, w.facts.ServedLast)
	for _, c := range w.facts.LastSafe {
		since = max(since, c.Seq)
	}
	for _, d := range w.facts.Worked {
		since = max(since, d.Seq)
	}
	return moved && last > since
}
