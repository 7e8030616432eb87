package repair

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/tree"
)

// faults are the ids of what is found.
func (s small) found() []string {
	var out []string
	for _, f := range s.verdict.Found {
		out = append(out, f.Fault.ID)
	}
	return out
}

// Whatever the job: the paths are every minimal set of repairs with every offer, each
// with the same figures to the cent; those that another beats are folded, and no others;
// and each aim ranks them in the same order.
func TestPathsAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSmall(t)
		all := map[string]*forced{}
		for _, f := range s.every(s.found()) {
			all[f.key] = f
		}
		o, err := Paths(s.lib, s.system, s.verdict, s.book, decimal.Zero, s.choices)
		require.NoError(t, err)
		require.False(t, o.Cut)
		paths := slices.Clone(o.Paths)
		for _, f := range o.Folded {
			paths = append(paths, f.Path)
		}
		require.Len(t, paths, len(all))
		byKey := map[string]Path{}
		for _, p := range paths {
			f := all[p.forcedKey()]
			require.NotNil(t, f, p.ID)
			same(t, f, p)
			byKey[f.key] = p
		}
		for _, aim := range Aims() {
			ranked, err := o.By(aim)
			require.NoError(t, err)
			require.Equal(t, s.ranking(all, byKey, aim), ids(ranked.Paths), aim)
			require.Equal(t, len(ranked.Paths) > 0, ranked.First != "")
			require.Contains(t, append(ids(ranked.Paths), ""), s.firstOf(all, byKey, aim), "the first of all is never folded")
		}
	})
}

// same compares one path with what was worked out by force.
func same(t *rapid.T, f *forced, p Path) {
	require.Equal(t, f.priced, p.Priced())
	for name, pair := range map[string][2]*big.Rat{
		"total": {f.total, rat(p.Total)}, "over": {f.over, rat(p.OverSeasons)}, "margin": {f.margin, rat(p.Margin)}, "deposit": {f.deposit, rat(p.Deposit)},
		"exchange": {f.exchange, rat(p.Comeback.Exchange)},
	} {
		if name == "exchange" && !p.Comeback.Known {
			continue
		}
		require.Zero(t, pair[0].Cmp(pair[1]), "%s of %s: %s by force, %s here", name, p.ID, pair[0].FloatString(4), pair[1].FloatString(4))
	}
	require.Equal(t, []int{f.minutes, f.days, f.open, f.apart}, []int{p.Minutes, p.LeadDays, len(p.Waits), p.apart}, p.ID)
}

// order compares under an aim: what it asks, then total, minutes, days, grades and id.
func order(f, g *forced, aim Aim, byKey map[string]Path) int {
	asked := 0
	switch aim {
	case CheapestOver:
		asked = f.over.Cmp(g.over)
	case Quickest:
		asked = cmp.Or(f.days-g.days, f.minutes-g.minutes)
	case BestMargin:
		asked = g.margin.Cmp(f.margin)
	}
	unpriced := func(f *forced) int {
		if f.priced {
			return 0
		}
		return 1
	}
	return cmp.Or(unpriced(f)-unpriced(g), asked, f.total.Cmp(g.total), f.minutes-g.minutes, f.days-g.days, f.poor-g.poor,
		cmp.Compare(byKey[f.key].ID, byKey[g.key].ID))
}

// ranking are the ids of what nothing is ahead of, in the order of an aim.
func (s small) ranking(all map[string]*forced, byKey map[string]Path, aim Aim) []string {
	var kept []*forced
	for _, f := range all {
		beaten := false
		for _, g := range all {
			beaten = beaten || g.ahead(f)
		}
		if !beaten {
			kept = append(kept, f)
		}
	}
	slices.SortFunc(kept, func(f, g *forced) int { return order(f, g, aim, byKey) })
	var out []string
	for _, f := range kept {
		out = append(out, byKey[f.key].ID)
	}
	return out
}

// firstOf is the id of the first of all, beaten or not; empty when there is none.
func (s small) firstOf(all map[string]*forced, byKey map[string]Path, aim Aim) string {
	var first *forced
	for _, f := range all {
		if first == nil || order(f, first, aim, byKey) < 0 {
			first = f
		}
	}
	if first == nil {
		return ""
	}
	return byKey[first.key].ID
}

// The margin of the shop's own machine ranks leaving among the paths.
func TestOwnMarginAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSmall(t)
		s.choices.Own, s.choices.Aim = true, BestMargin
		o, err := Paths(s.lib, s.system, s.verdict, s.book, decimal.Zero, s.choices)
		require.NoError(t, err)
		ways := o.Ways()
		require.Len(t, ways, len(o.Paths)+len(o.Leave))
		require.Equal(t, ChooseReturn, ways[len(ways)-1].Leave.Kind)
		worth := rat(s.book.Worth["m"])
		last := ways[0]
		for _, w := range ways[:len(ways)-1] {
			if w.Leave != nil && w.Leave.Kind == ChoosePartOut {
				// 30 % of worth, less 10 minutes at 37.00, 6.17, less what it costs, 25 %.
				want := sub(cents(mul(worth, big.NewRat(30, 100))), sum(big.NewRat(617, 100), cents(mul(worth, big.NewRat(25, 100)))))
				require.Zero(t, want.Cmp(rat(w.Leave.Margin)))
			}
			if worth.Sign() > 0 && w.last() == last.last() {
				require.False(t, w.Margin().GreaterThan(last.Margin()))
			}
			last = w
		}
	})
}

// The worth of a test, by trying every path against every answer.
func TestDecidingAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSmall(t)
		s.verdict.Found = s.verdict.Found[:rapid.IntRange(0, 1).Draw(t, "found")]
		for i, f := range s.system.Faults { // each has a repair of its own
			id := fmt.Sprintf("r%d", 5+i)
			s.lib.Repairs[id] = &tree.Repair{ID: id, Title: id, Systems: []string{"m"}, Clears: []string{f.ID}, Minutes: 3 + i}
		}
		open := Open{Test: "t", Title: "T", Minutes: float64(rapid.IntRange(0, 8).Draw(t, "minutes")) / 4}
		left := 100
		for _, f := range s.system.Faults { // an answer that speaks for it
			n := min(left, rapid.IntRange(0, 60).Draw(t, "share"))
			left -= n
			is := rapid.SampledFrom([]float64{0.5, 0.9, 1}).Draw(t, "how sure")
			open.Outcomes = append(open.Outcomes, Outcome{Answer: f.ID, Probability: float64(n) / 100, Suspects: []Likely{
				{Faults: []string{f.ID}, Probability: is}, {Gone: true, Probability: 1 - is},
			}})
		}
		s.choices.Open = []Open{open}
		o, err := Paths(s.lib, s.system, s.verdict, s.book, decimal.Zero, s.choices)
		require.NoError(t, err)
		worth, changes := s.worthOf(open)
		if len(s.choices.Suspects) == 0 || !changes || worth.Sign() <= 0 {
			require.Empty(t, o.Deciding)
			return
		}
		require.Len(t, o.Deciding, 1)
		require.Zero(t, worth.Cmp(rat(o.Deciding[0].Worth)), "%s by force, %s here", worth.FloatString(4), o.Deciding[0].Worth)
		require.NotEmpty(t, o.Deciding[0].Says)
	})
}

// worthOf is what a test saves, to the cent, and whether it changes the choice.
func (s small) worthOf(open Open) (*big.Rat, bool) {
	all := s.choosable(open)
	if len(all) == 0 {
		return new(big.Rat), false
	}
	rests := map[string]*big.Rat{}
	now, cost := s.bestOf(all, s.choices.Suspects, rests)
	after, left, changes := new(big.Rat), whole(1), false
	for _, o := range open.Outcomes {
		p := hundredths(o.Probability)
		then, c := s.bestOf(all, o.Suspects, rests)
		changes = changes || p.Sign() > 0 && then != now
		after, left = sum(after, mul(p, c)), sub(left, p)
	}
	after = sum(after, mul(left, cost), mul(new(big.Rat).SetFloat64(open.Minutes), mul(rat(s.book.Shop.LabourRate), big.NewRat(1, 60))))
	return cents(sub(cost, after)), changes
}

func hundredths(p float64) *big.Rat { return big.NewRat(int64(p*100+0.5), 100) }

// choosable is everything that clears the findings, alone or with a suspect above 5 of 100.
func (s small) choosable(open Open) []*forced {
	lists := [][]Likely{s.choices.Suspects}
	for _, o := range open.Outcomes {
		lists = append(lists, o.Suspects)
	}
	out := s.every(s.found())
	for _, list := range lists {
		for _, l := range list {
			if hundredths(l.Probability).Cmp(big.NewRat(5, 100)) > 0 {
				faults := s.found()
				for _, f := range l.Faults {
					if !slices.Contains(faults, f) {
						faults = append(faults, f)
					}
				}
				out = append(out, s.every(faults)...)
			}
		}
	}
	return slices.DeleteFunc(out, func(f *forced) bool { return !f.priced })
}

// bestOf is the set of repairs with the least expected cost, and that cost.
func (s small) bestOf(all []*forced, suspects []Likely, rests map[string]*big.Rat) (string, *big.Rat) {
	var best *forced
	var least *big.Rat
	for _, f := range all {
		again := sum(mul(rat(s.book.Shop.LabourRate), big.NewRat(int64(f.minutes), 60)), rat(s.book.Shop.MinimumLabour))
		cost, others := sum(f.total, f.exchange), whole(1)
		for _, l := range suspects {
			p := hundredths(l.Probability)
			others = sub(others, p)
			if l.Gone || !clearsAll(f.repairs, l.Faults) {
				cost = sum(cost, mul(p, sum(again, s.restOf(f, l, rests))))
			}
		}
		cost = sum(cost, mul(others, again))
		if best == nil || cost.Cmp(least) < 0 || cost.Cmp(least) == 0 && s.sooner(f, best) {
			best, least = f, cost
		}
	}
	return forcedKey(best.repairs, nil), least
}

// sooner decides between what is expected to cost the same: total, minutes, days, grades.
func (s small) sooner(f, g *forced) bool {
	return cmp.Or(f.total.Cmp(g.total), f.minutes-g.minutes, f.days-g.days, f.poor-g.poor, cmp.Compare(f.key, g.key)) < 0
}

// restOf is the cheapest way to clear what is left of a suspect; nothing when there is none.
func (s small) restOf(f *forced, l Likely, rests map[string]*big.Rat) *big.Rat {
	var left []string
	for _, fault := range l.Faults {
		if !clearsAll(f.repairs, []string{fault}) {
			left = append(left, fault)
		}
	}
	key := strings.Join(left, " ")
	if rests[key] != nil {
		return rests[key]
	}
	rests[key] = new(big.Rat)
	none := true
	for _, g := range s.every(left) {
		if g.priced && (none || g.total.Cmp(rests[key]) < 0) {
			rests[key], none = g.total, false
		}
	}
	return rests[key]
}
