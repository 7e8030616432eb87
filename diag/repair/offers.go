package repair

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// mostPaths bounds how many paths are built for one verdict.
const mostPaths = 600

// Choices is what the shop decided beforehand.
type Choices struct {
	Grades []Grade // the only ones wanted; none: all
	// Pieces are those of the parts bin, the ones that were taken too. Of a part
	// that ever lay there the book's lines of grade bin count no more.
	Pieces []job.Shelved
	// Tried are repairs already done on this machine. One whose fault is found
	// all the same did not clear it, and is offered again only when nothing else
	// would clear it.
	Tried []string
}

// Offers is everything that can be done with the machine.
type Offers struct {
	Paths  []Path // best first
	Folded []Fold // beaten in everything by another path
	Leave  []Leave
	// NoRepair are findings that no repair of this system clears. There are
	// no paths then.
	NoRepair []*tree.Fault
	// Cut is set when there were too many sets or mixes to list them all.
	Cut bool
}

// Fold is a path that another one beats, with the reason.
type Fold struct {
	Path    Path
	By      string // the ID of the path that beats it
	Because string
}

// ask is one question for offers.
type ask struct {
	lib     *tree.Library
	system  *tree.System
	verdict walk.Verdict
	found   []*tree.Fault
	open    []*tree.Fault // masked or untested
	book    *PriceBook
	worth   decimal.Decimal
	choices Choices
}

// Paths lists what can be done about a verdict. worth is the value of the sound
// machine; when it is zero the book's figure for this kind of machine is used.
// A nil book gives paths with minutes and no money. Without a finding there is
// nothing to repair, and only handing the machine back is offered. The error
// says that the library or system is missing, or worth is negative.
func Paths(lib *tree.Library, sys *tree.System, v walk.Verdict, book *PriceBook, worth decimal.Decimal, choices Choices) (Offers, error) {
	switch {
	case lib == nil || sys == nil:
		return Offers{}, errors.New("repair paths need a library and a system")
	case worth.IsNegative():
		return Offers{}, fmt.Errorf("the machine's worth is %s; write zero or more", worth)
	}
	a := newAsk(lib, sys, v, book, worth, choices)
	offers := Offers{Leave: a.leave()}
	if len(a.found) == 0 {
		return offers, nil
	}
	repairs := a.repairs()
	offers.NoRepair = unrepaired(repairs, a.found)
	if len(offers.NoRepair) > 0 {
		return offers, nil
	}
	paths, cut := a.paths(repairs)
	offers.Paths, offers.Folded = fold(paths)
	offers.Cut = cut
	return offers, nil
}

func newAsk(lib *tree.Library, sys *tree.System, v walk.Verdict, book *PriceBook, worth decimal.Decimal, choices Choices) *ask {
	if book == nil {
		book = &PriceBook{}
	}
	if worth.IsZero() {
		worth = book.worthOf(sys)
	}
	a := &ask{lib: lib, system: sys, verdict: v, book: book, worth: worth, choices: choices}
	for _, f := range v.Found {
		a.found = append(a.found, f.Fault)
	}
	for _, m := range v.Masked {
		a.open = append(a.open, m.Fault)
	}
	for _, u := range v.Untested {
		a.open = append(a.open, u.Fault)
	}
	return a
}

// repairs are those for this system that clear a finding.
func (a *ask) repairs() []*tree.Repair {
	var out []*tree.Repair
	for _, r := range a.lib.Repairs {
		clears := slices.ContainsFunc(a.found, func(f *tree.Fault) bool { return slices.Contains(r.Clears, f.ID) })
		if clears && slices.Contains(r.Systems, a.system.ID) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(x, y *tree.Repair) int { return strings.Compare(x.ID, y.ID) })
	fresh := slices.DeleteFunc(slices.Clone(out), func(r *tree.Repair) bool { return slices.Contains(a.choices.Tried, r.ID) })
	if len(unrepaired(fresh, a.found)) == 0 {
		return fresh
	}
	return out
}

func unrepaired(repairs []*tree.Repair, found []*tree.Fault) []*tree.Fault {
	var out []*tree.Fault
	for _, f := range found {
		if !slices.ContainsFunc(repairs, func(r *tree.Repair) bool { return slices.Contains(r.Clears, f.ID) }) {
			out = append(out, f)
		}
	}
	return out
}

func (a *ask) paths(repairs []*tree.Repair) (paths []Path, cut bool) {
	sets, cut := covers(repairs, a.found)
	for _, set := range sets {
		wants := needs(a.lib, set)
		var offers [][]Price
		for _, n := range wants {
			if o := a.offersFor(n); len(o) > 0 {
				offers = append(offers, o)
			}
		}
		all, some := mixes(offers)
		cut = cut || some
		for _, mix := range all {
			if len(paths) == mostPaths {
				return paths, true
			}
			paths = append(paths, a.build(set, wants, mix))
		}
	}
	return paths, cut
}
