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
	Aim   Aim  // what is ranked by; none: cheapest now
	Own   bool // the machine is the shop's own, to be sold
	// Suspects are all that may be wrong, weighed; none: nobody weighed it.
	Suspects []Likely
	// Open are the tests that are still to be taken, each with what its answers would
	// make of the suspects.
	Open []Open
}

// Offers is everything that can be done with the machine.
type Offers struct {
	Paths  []Path // best first, by the aim
	Folded []Fold // beaten in everything by another path; never one that is first under some aim
	Leave  []Leave
	Aim    Aim
	Own    bool     // the machine is the shop's own
	First  string   // why the first way is the first, in a sentence; empty when there is only leaving
	Phone  []string // two lines to read to the owner; none for the shop's own machine
	// Deciding are the tests that are worth their minutes before money is spent, the
	// most valuable first.
	Deciding []Deciding
	// NoRepair are findings that no repair of this system clears. There are
	// no paths then.
	NoRepair []*tree.Fault
	// Cut is set when there were too many sets or mixes to list them all.
	Cut bool

	found []*tree.Fault
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

	belief   belief
	settings map[string]string
}

// Paths lists what can be done about a verdict. worth is the value of the sound
// machine; when it is zero the book's figure for this kind of machine is used.
// A nil book gives paths with minutes and no money. Without a finding there is
// nothing to repair, and only handing the machine back is offered. The error
// says that the library or system is missing, worth is negative, the aim is none,
// or a probability is none.
func Paths(lib *tree.Library, sys *tree.System, v walk.Verdict, book *PriceBook, worth decimal.Decimal, choices Choices) (Offers, error) {
	switch {
	case lib == nil || sys == nil:
		return Offers{}, errors.New("repair paths need a library and a system")
	case worth.IsNegative():
		return Offers{}, fmt.Errorf("the machine's worth is %s; write zero or more", worth)
	}
	a := newAsk(lib, sys, v, book, worth, choices)
	var err error
	if a.belief, err = believe(choices.Suspects); err != nil {
		return Offers{}, err
	}
	open, err := expected(choices.Open)
	if err != nil {
		return Offers{}, err
	}
	offers := a.offers()
	offers.Deciding = a.deciding(open)
	return offers.By(choices.Aim)
}

// offers are those of a verdict, in no order.
func (a *ask) offers() Offers {
	offers := Offers{Leave: a.leave(), Own: a.choices.Own, found: a.found}
	repairs := a.repairs(a.found)
	offers.NoRepair = unrepaired(repairs, a.found)
	if len(a.found) == 0 || len(offers.NoRepair) > 0 {
		return offers
	}
	paths, cut := a.paths(repairs, a.found)
	a.seasons(paths)
	tellApart(paths)
	offers.Paths, offers.Folded = fold(paths)
	offers.Cut = cut
	return offers
}

func newAsk(lib *tree.Library, sys *tree.System, v walk.Verdict, book *PriceBook, worth decimal.Decimal, choices Choices) *ask {
	if book == nil {
		book = &PriceBook{}
	}
	if worth.IsZero() {
		worth = book.worthOf(sys)
	}
	a := &ask{lib: lib, system: sys, verdict: v, book: book, worth: worth, choices: choices, settings: book.Shop.Used()}
	if book.from != "" {
		a.settings[pricesFrom] = book.from
	}
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

// money writes an amount with the shop's currency.
func (a *ask) money(d decimal.Decimal) string {
	return strings.TrimSpace(a.book.Shop.Format(d) + " " + a.book.Shop.Currency)
}

// repairs are those for this system that clear some of the faults.
func (a *ask) repairs(faults []*tree.Fault) []*tree.Repair {
	var out []*tree.Repair
	for _, r := range a.lib.Repairs {
		clears := slices.ContainsFunc(faults, func(f *tree.Fault) bool { return slices.Contains(r.Clears, f.ID) })
		if clears && slices.Contains(r.Systems, a.system.ID) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(x, y *tree.Repair) int { return strings.Compare(x.ID, y.ID) })
	fresh := slices.DeleteFunc(slices.Clone(out), func(r *tree.Repair) bool { return slices.Contains(a.choices.Tried, r.ID) })
	if len(unrepaired(fresh, faults)) == 0 {
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

// paths are all ways to clear some faults: every minimal set of repairs, with every
// mix of offers. What tells them apart over the seasons is not in them.
func (a *ask) paths(repairs []*tree.Repair, faults []*tree.Fault) (paths []Path, cut bool) {
	sets, cut := covers(repairs, faults)
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

// tellApart lets the titles of paths that would read the same tell where their parts
// are from, no more than it takes.
func tellApart(paths []Path) {
	for told := tellSeller; told <= tellAll; told++ {
		same := map[string]int{}
		for _, p := range paths {
			same[p.Title()]++
		}
		var alike []int
		for i, p := range paths {
			if same[p.Title()] > 1 {
				alike = append(alike, i)
			}
		}
		for _, i := range alike {
			paths[i].told = told
		}
	}
}
