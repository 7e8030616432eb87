package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// PutBack lists the make-safe items that have to be changed before the job ends with
// this outcome. What was taken off, shut, strapped or clipped on is put back, whether
// the machine was repaired or not; what never came off is not asked for. A machine
// that is not to be run keeps off what would let it run, and of an unsafe one that is
// confirmed. One that is parted out stays as it is.
func PutBack(lib *tree.Library, sys *tree.System, facts job.Facts, outcome job.Outcome) []SafeAsk {
	w := &where{lib: lib, system: sys, facts: facts}
	switch outcome {
	case job.PartedOut:
		return nil
	case job.Unsafe, job.SoldAsIs:
		need := w.putBack(false)
		if outcome == job.Unsafe {
			w.keptOff(need)
		}
		return w.asks(need)
	}
	return w.asks(w.putBack(true))
}

// putBack are the settings of what has to be put back. Items that are left otherwise
// in a machine that is not to be run are among them when this one is to be.
func (w *where) putBack(runs bool) map[string]string {
	need := map[string]string{}
	for id, settings := range w.lib.SafeOf(w.system) {
		item := w.lib.Safe[id]
		if item == nil || !runs && len(left(item, unfit)) > 0 {
			continue
		}
		if as := left(item, back); len(as) > 0 && w.cameOff(item, as) {
			need[id] = as[0]
			if at := slices.IndexFunc(as, func(s string) bool { return slices.Contains(settings, s) }); at >= 0 {
				need[id] = as[at]
			}
		}
	}
	if w.inAmps() {
		need[meterLead] = "volts"
	}
	return need
}

// inAmps says whether the red lead was last put into the amps jack. No state asks for
// that; the tests themselves do.
func (w *where) inAmps() bool {
	return w.lib.Safe[meterLead] != nil && w.facts.LastSafe[meterLead].Setting == "amps"
}

// offFirst are the settings of what a test unplugged, held or clipped on, as it is put
// back before anything that knows nothing of it. What is left otherwise in a machine
// that is not to be run stays so, and covers stay off as long as somebody works behind
// them.
func (w *where) offFirst() map[string]string {
	need := w.putBack(false)
	delete(need, covers)
	return need
}

// keptOff adds what lets a machine run, as it is left when it is not to.
func (w *where) keptOff(need map[string]string) {
	for id, settings := range w.lib.SafeOf(w.system) {
		if item := w.lib.Safe[id]; item != nil {
			if as := left(item, unfit); len(as) > 0 && slices.Contains(settings, as[0]) && w.facts.Safe[id] != as[0] {
				need[id] = as[0]
			}
		}
	}
}

func back(s tree.Setting) bool  { return s.Back }
func unfit(s tree.Setting) bool { return s.Unfit }

// left are the settings in which an item is left.
func left(item *tree.SafeItem, when func(tree.Setting) bool) []string {
	var out []string
	for _, s := range item.Settings {
		if when(s) {
			out = append(out, s.ID)
		}
	}
	return out
}

// covers is the make-safe item that tracks shroud and guards.
const covers = "covers"

// cameOff says whether an item was last confirmed otherwise than as it is left, in the
// job's whole life. One with no other setting is asked for until it is confirmed:
// nothing tells that it changed. Covers come off without a word too: for a point behind
// one, and for a repair.
func (w *where) cameOff(item *tree.SafeItem, as []string) bool {
	last := w.facts.LastSafe[item.ID]
	switch {
	case len(item.Settings) == len(as):
		return !slices.Contains(as, w.facts.Safe[item.ID])
	case last.Setting != "" && !slices.Contains(as, last.Setting):
		return true
	}
	return item.ID == covers && (w.facts.MendedLast > last.Seq || w.behindCover(last.Seq))
}

// changed says whether an item may stand otherwise than as it is left: it came off, was
// asked for and passed over, a repair was done since it was confirmed, or a test was
// answered that has it otherwise. A reading that is typed early has no card.
func (w *where) changed(item *tree.SafeItem, as []string) bool {
	since := w.facts.LastSafe[item.ID].Seq
	if w.cameOff(item, as) || w.facts.MendedLast > since || slices.Contains(w.facts.Unmade, item.ID) {
		return true
	}
	for id, answers := range w.facts.Answers {
		t := w.system.Test(id)
		if t == nil || !slices.ContainsFunc(answers, func(a job.Answer) bool { return a.Cant == nil && a.Seq > since }) {
			continue
		}
		if has := w.system.Needs(t)[item.ID]; has != "" && !slices.Contains(as, has) {
			return true
		}
	}
	return false
}

// behindCover says whether something behind a cover was measured after an event.
func (w *where) behindCover(seq int64) bool {
	for test, answers := range w.facts.Answers {
		t := w.system.Test(test)
		if t == nil || !w.covered(t.Red) && !w.covered(t.Black) {
			continue
		}
		if slices.ContainsFunc(answers, func(a job.Answer) bool { return a.Read != nil && a.Seq > seq }) {
			return true
		}
	}
	return false
}

func (w *where) covered(point string) bool {
	p := w.system.Point(point)
	return p != nil && p.Cover != ""
}
