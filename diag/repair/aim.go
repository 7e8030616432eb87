package repair

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
)

// Aim is what the ways are ranked by.
type Aim string

// The aims. Their text is in the record.
const (
	CheapestNow  Aim = "cheapest now"
	CheapestOver Aim = "cheapest over the seasons"
	Quickest     Aim = "quickest" // days until the parts are there, then minutes
	BestMargin   Aim = "best margin"
)

// Aims lists them; the first is the usual one.
func Aims() []Aim { return []Aim{CheapestNow, CheapestOver, Quickest, BestMargin} }

// known is the aim, or the usual one for none.
func (a Aim) known() (Aim, error) {
	switch {
	case a == "":
		return CheapestNow, nil
	case !slices.Contains(Aims(), a):
		return "", fmt.Errorf("%q is no aim; there are: %q", string(a), Aims())
	}
	return a, nil
}

// compare ranks paths under an aim: those with every price first, then by the aim.
// Where that is equal total, minutes, days and grades decide, so that no path stands
// before one that beats it; ids come last.
func (p Path) compare(other Path, aim Aim) int {
	return cmp.Or(
		cmp.Compare(lastIf(!p.Priced()), lastIf(!other.Priced())),
		p.towards(other, aim),
		p.Total.Cmp(other.Total),
		cmp.Compare(p.Minutes, other.Minutes),
		cmp.Compare(p.LeadDays, other.LeadDays),
		cmp.Compare(p.ranks(), other.ranks()),
		cmp.Compare(p.ID, other.ID),
	)
}

// towards compares by the aim alone.
func (p Path) towards(other Path, aim Aim) int {
	switch aim {
	case CheapestOver:
		return p.OverSeasons.Cmp(other.OverSeasons)
	case Quickest:
		return cmp.Or(cmp.Compare(p.LeadDays, other.LeadDays), cmp.Compare(p.Minutes, other.Minutes))
	case BestMargin:
		return other.Margin.Cmp(p.Margin)
	}
	return p.Total.Cmp(other.Total)
}

// ranks adds up how poor the grades of the parts are.
func (p Path) ranks() int {
	sum := 0
	for _, l := range p.Lines {
		sum += l.Grade.rank()
	}
	return sum
}

// Way is one line of the whole list: a path, or a way to end without a repair.
// Exactly one is set.
type Way struct {
	Path  *Path
	Leave *Leave
}

// Title is the way in a few words.
func (w Way) Title() string {
	if w.Path != nil {
		return w.Path.Title()
	}
	return w.Leave.Title
}

// Chosen is the event that takes the way.
func (w Way) Chosen() job.Chosen {
	if w.Path != nil {
		return w.Path.Chosen()
	}
	return w.Leave.Chosen()
}

// Margin is what the way leaves a shop that bought the machine as it is.
func (w Way) Margin() decimal.Decimal {
	if w.Path != nil {
		return w.Path.Margin
	}
	return w.Leave.Margin
}

// Ways is all that can be done in the order of the aim. Leaving stands after the
// repairs; only under the best margin of a machine that is the shop's own do selling
// as is and parting out rank among them.
func (o *Offers) Ways() []Way {
	ranked, beside := o.ways()
	return append(ranked, beside...)
}

// ways are those that the aim ranks, best first, and those beside them.
func (o *Offers) ways() (ranked, beside []Way) {
	for i := range o.Paths {
		ranked = append(ranked, Way{Path: &o.Paths[i]})
	}
	for i := range o.Leave {
		w := Way{Leave: &o.Leave[i]}
		if o.Own && o.Aim == BestMargin && w.Leave.ranks() {
			ranked = append(ranked, w)
		} else {
			beside = append(beside, w)
		}
	}
	if len(ranked) > len(o.Paths) {
		slices.SortStableFunc(ranked, func(x, y Way) int { return cmp.Or(x.last()-y.last(), y.Margin().Cmp(x.Margin())) })
	}
	return ranked, beside
}

// last is 1 for a path without a price: its margin isn't known.
func (w Way) last() int { return lastIf(w.Path != nil && !w.Path.Priced()) }

// ranks says whether the way brings the shop that owns the machine money that is
// known, and may be gone.
func (l Leave) ranks() bool { return l.Kind != ChooseReturn && l.Known && l.Refused == "" }

// By is the same offers ranked by another aim. What was taken out of Paths stays out.
func (o Offers) By(aim Aim) (Offers, error) {
	aim, err := aim.known()
	if err != nil {
		return Offers{}, err
	}
	o.Aim = aim
	o.Paths, o.Leave = slices.Clone(o.Paths), slices.Clone(o.Leave)
	slices.SortFunc(o.Paths, func(p, q Path) int { return p.compare(q, aim) })
	for i := range o.Paths {
		o.Paths[i].Aim = aim
	}
	for i := range o.Leave {
		o.Leave[i].Aim = aim
	}
	ranked, _ := o.ways()
	o.First = first(ranked, aim)
	o.Phone = o.phone()
	return o, nil
}
