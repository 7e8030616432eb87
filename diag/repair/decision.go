package repair

import (
	"cmp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
	"benchlead/diag/tree"
)

// decision holds what could be done while it isn't sure what is wrong.
type decision struct {
	*ask
	paths []Path
	rests map[string]*decimal.Decimal // by faults: the cheapest way to clear them; nil: there is none
}

// take gathers the paths to choose from: of each set of repairs that clears the
// findings, or the findings with a likely suspect, the mix of parts that is expected to
// cost least.
func (d *decision) take(open []test) {
	for _, faults := range append([][]string{nil}, d.suspected(open)...) {
		found := slices.Clone(d.found)
		for _, id := range faults {
			if f := d.system.Fault(id); f != nil && !slices.Contains(found, f) {
				found = append(found, f)
			}
		}
		for _, p := range d.clearing(found) {
			i := slices.IndexFunc(d.paths, p.sameRepairs)
			switch {
			case !p.Priced():
			case i < 0:
				d.paths = append(d.paths, p)
			case cmp.Or(p.expected().Cmp(d.paths[i].expected()), p.compare(d.paths[i], CheapestNow)) < 0:
				d.paths[i] = p
			}
		}
	}
}

// expected is what a path costs with the parts that fail under warranty.
func (p Path) expected() decimal.Decimal { return p.Total.Add(p.Comeback.Exchange) }

// suspected are the faults of suspects that are likely now, or after some answer.
func (d *decision) suspected(open []test) [][]string {
	beliefs := []belief{d.belief}
	for _, t := range open {
		for _, o := range t.outcomes {
			beliefs = append(beliefs, o.belief)
		}
	}
	var out [][]string
	for _, b := range beliefs {
		for _, h := range b.of {
			had := slices.ContainsFunc(out, func(faults []string) bool { return slices.Equal(faults, h.faults) })
			if h.p.GreaterThan(likely) && len(h.faults) > 0 && !had {
				out = append(out, h.faults)
			}
		}
	}
	return out
}

// clearing are all ways to clear some faults; none when one has no repair.
func (d *decision) clearing(faults []*tree.Fault) []Path {
	repairs := d.repairs(faults)
	if len(faults) == 0 || len(unrepaired(repairs, faults)) > 0 {
		return nil
	}
	paths, _ := d.ask.paths(repairs, faults)
	return paths
}

// best is the path with the least expected cost, in sixtieths.
func (d *decision) best(b belief) (*Path, decimal.Decimal) {
	var best *Path
	var least decimal.Decimal
	for i := range d.paths {
		p := &d.paths[i]
		cost := d.cost(p, b)
		if best == nil || cmp.Or(cost.Cmp(least), p.compare(*best, CheapestNow)) < 0 {
			best, least = p, cost
		}
	}
	return best, least
}

// cost is what a path is expected to cost until the machine is right, in sixtieths:
// its total, parts that fail under warranty, and where it leaves something wrong the
// work done again for nothing, and the cheapest way to clear what is left.
func (d *decision) cost(p *Path, b belief) decimal.Decimal {
	again := d.again(p.Minutes)
	sum := p.expected().Mul(money.Sixty).Add(b.others.Mul(again))
	for _, h := range b.of {
		if h.cleared(p.Repairs) {
			continue
		}
		wrong := again
		if rest := d.rest(h.left(p.Repairs)); rest != nil {
			wrong = wrong.Add(rest.Mul(money.Sixty))
		}
		sum = sum.Add(h.p.Mul(wrong))
	}
	return sum
}

// rest is the cheapest way to clear some faults; nil when there is none.
func (d *decision) rest(faults []string) *decimal.Decimal {
	key := strings.Join(faults, " ")
	if rest, had := d.rests[key]; had {
		return rest
	}
	d.rests[key] = nil
	var found []*tree.Fault
	for _, id := range faults {
		f := d.system.Fault(id)
		if f == nil {
			return nil
		}
		found = append(found, f)
	}
	for _, p := range d.clearing(found) {
		if p.Priced() && (d.rests[key] == nil || p.Total.LessThan(*d.rests[key])) {
			d.rests[key] = &p.Total
		}
	}
	return d.rests[key]
}
