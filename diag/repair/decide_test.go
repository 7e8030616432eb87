package repair

import (
	"math"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/shop"
)

var (
	packOnly   = Likely{Faults: []string{"pack.no-output"}, Probability: 1}
	withStart  = Likely{Faults: []string{"pack.no-output", "starter.open"}, Probability: 1}
	dearRope   = []string{`"45.00"`, `"145.00"`}
	sixOfTen   = []Likely{at(packOnly, 0.6), at(withStart, 0.4)}
	tellsWhich = []Outcome{
		{Answer: "turns", Probability: 0.6, Suspects: []Likely{packOnly}},
		{Answer: "stands", Probability: 0.4, Suspects: []Likely{withStart}},
	}
)

func at(l Likely, p float64) Likely {
	l.Probability = p
	return l
}

// lasting is the book of a shop whose parts never fail.
func lasting(b *PriceBook) *PriceBook {
	b.Shop.Grades = nil
	return b
}

func deciding(t *testing.T, suspects []Likely, open ...Open) []Deciding {
	t.Helper()
	return offersFor(t, lasting(edited(t, dearRope...)), Choices{Suspects: suspects, Open: open}, "pack.no-output").Deciding
}

// The pack is found, and in 40 of 100 the starter is bad besides. New pack: 84.00 + 8.00
// + 6.30 = 98.30. New starter alone: 95.00 + 36.00 + 7.13 (7.125 up) = 138.13. Both:
// 236.43. Rope start, which settles both: 145.00 + 48.00 + 10.88 (10.875 up) = 203.88.
//
// Without the test the pack alone is best: 98.30 + 0.4 x (8.00 again + 138.13) = 156.752.
// With it: the pack in 0.6 for 98.30, the rope start in 0.4 for 203.88; the pack would
// come to 98.30 + 146.13 = 244.43 then. 58.98 + 81.552 = 140.532. Saved 16.22; five
// minutes at 48.00 an hour are 4.00; worth 12.22.
func TestWorthOfADecidingTest(t *testing.T) {
	d := deciding(t, sixOfTen, Open{Test: "feed", Title: "Starter fed directly", Minutes: 5, Outcomes: tellsWhich})
	require.Len(t, d, 1)
	require.Equal(t, "feed", d[0].Test)
	require.Equal(t, "12.22", d[0].Worth.StringFixed(2))
	require.Equal(t, `"Starter fed directly" first, 5 min: worth 12.22 USD. `+
		`If "turns": Fit a new pack (original); if "stands": Convert to rope start (aftermarket).`, d[0].Says)
}

// The most valuable first: one of 2.5 minutes is worth 14.22. 20.5 minutes cost 16.40,
// more than the 16.22 they save. What never changes what is done is not named, however
// short: at 50 of 100 the pack is still best, 98.30 + 0.5 x 146.13 = 171.365.
func TestWhichTestsAreNamed(t *testing.T) {
	leans := []Outcome{
		{Answer: "warm", Probability: 0.5, Suspects: []Likely{at(packOnly, 0.7), at(withStart, 0.3)}},
		{Answer: "cold", Probability: 0.5, Suspects: []Likely{at(packOnly, 0.5), at(withStart, 0.5)}},
	}
	d := deciding(t, sixOfTen,
		Open{Test: "long", Minutes: 20.5, Outcomes: tellsWhich},
		Open{Test: "feed", Minutes: 5, Outcomes: tellsWhich},
		Open{Test: "touch", Outcomes: leans},
		Open{Test: "quick", Minutes: 2.5, Outcomes: tellsWhich},
	)
	require.Len(t, d, 2)
	require.Equal(t, []string{"quick", "feed"}, []string{d[0].Test, d[1].Test})
	require.Equal(t, "14.22", d[0].Worth.StringFixed(2))
}

// In one of ten the test can't be read, and tells nothing: 0.54 x 98.30 + 0.36 x 203.88 +
// 0.1 x 156.752 = 53.082 + 73.3968 + 15.6752 = 142.154. Saved 14.598, less 4.00: 10.60.
func TestAnAnswerThatMayNotCome(t *testing.T) {
	part := []Outcome{tellsWhich[0], tellsWhich[1]}
	part[0].Probability, part[1].Probability = 0.54, 0.36
	d := deciding(t, sixOfTen, Open{Test: "feed", Minutes: 5, Outcomes: part})
	require.Equal(t, "10.60", d[0].Worth.StringFixed(2))
}

// Nothing is found yet, and it is the pack or the starter, even. The pack first: 98.30 +
// 0.5 x (8.00 + 138.13) = 171.365. The starter first: 138.13 + 0.5 x (36.00 + 98.30) =
// 205.28. Rope 203.88, both parts 236.43. Told which: 0.5 x 98.30 + 0.5 x 138.13 =
// 118.215. Saved 53.15, less 4.00: 49.15. No path is offered all the same.
func TestATestDecidesBeforeAnythingIsFound(t *testing.T) {
	starter := Likely{Faults: []string{"starter.open"}}
	o := offersFor(t, lasting(edited(t, dearRope...)), Choices{
		Suspects: []Likely{at(packOnly, 0.5), at(starter, 0.5)},
		Open: []Open{{Test: "feed", Minutes: 5, Outcomes: []Outcome{
			{Answer: "turns", Probability: 0.5, Suspects: []Likely{packOnly}},
			{Answer: "stands", Probability: 0.5, Suspects: []Likely{at(starter, 1)}},
		}}},
	})
	require.Empty(t, o.Paths)
	require.Equal(t, "49.15", o.Deciding[0].Worth.StringFixed(2))
}

// A part that fails under warranty counts: the used pack is cheaper, 29.50 for 61.75, and
// expected to cost 90 % of 20.00, 18.00, again. So it stays best; at 20.00 x 170 % it
// would not.
func TestExchangeCountsInTheChoice(t *testing.T) {
	for percent, want := range map[string]string{"90": "bin", "170": "aftermarket"} {
		b := edited(t, append(append([]string{}, used...), dearRope...)...)
		b.Shop.Grades = map[string]shop.GradeTerms{"bin": {WarrantyDays: 30, FailPercent: dec(percent)}}
		o := offersFor(t, b, Choices{Suspects: sixOfTen, Open: []Open{{Test: "feed", Outcomes: tellsWhich}}}, "pack.no-output")
		require.Contains(t, o.Deciding[0].Says, `"turns": Fit a new pack (`+want+")", percent)
	}
}

func TestNothingDecidesWithoutSuspectsOrPrices(t *testing.T) {
	open := []Open{{Test: "feed", Outcomes: tellsWhich}}
	require.Empty(t, offersFor(t, edited(t), Choices{Open: open}, "pack.no-output").Deciding)
	require.Empty(t, offersFor(t, nil, Choices{Suspects: sixOfTen, Open: open}, "pack.no-output").Deciding)
}

// Whatever comes in as a probability is counted to four places, or refused.
func TestProbabilitiesAreCounted(t *testing.T) {
	b, err := believe([]Likely{at(packOnly, 1.0/3), at(withStart, 0.00004)})
	require.NoError(t, err)
	require.Equal(t, "0.3333", b.of[0].p.String())
	require.Equal(t, "0", b.of[1].p.String())
	require.Equal(t, "0.6667", b.others.String())
	for _, p := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -0.1, 1.1} {
		_, err := believe([]Likely{at(packOnly, p)})
		require.Error(t, err, p)
	}
	_, err = believe([]Likely{at(packOnly, 0.8), at(withStart, 0.5)})
	require.ErrorContains(t, err, "1.3")
}

func TestBadTestsAreRefused(t *testing.T) {
	lib, sys := bench()
	ask := func(c Choices) error {
		_, err := Paths(lib, sys, verdict(sys, "pack.no-output"), edited(t), decimal.Zero, c)
		return err
	}
	require.ErrorContains(t, ask(Choices{Suspects: []Likely{at(packOnly, 2)}}), "pack.no-output")
	require.ErrorContains(t, ask(Choices{Open: []Open{{Test: "feed", Minutes: math.NaN()}}}), "feed")
	require.ErrorContains(t, ask(Choices{Open: []Open{{Test: "feed", Minutes: -1}}}), "-1")
	require.ErrorContains(t, ask(Choices{Open: []Open{{Test: "feed", Outcomes: []Outcome{{Answer: "turns", Probability: 7}}}}}), `"turns"`)
	require.ErrorContains(t, ask(Choices{Open: []Open{{Test: "feed", Outcomes: []Outcome{{Suspects: []Likely{at(packOnly, 3)}}}}}}), "feed")
	require.ErrorContains(t, ask(Choices{Open: []Open{{Test: "feed", Outcomes: []Outcome{{Probability: 0.9}, {Probability: 0.9}}}}}), "1.8")
	require.ErrorContains(t, ask(Choices{Aim: "dearest"}), "cheapest now")
	// A fault that the system doesn't have changes nothing and breaks nothing.
	require.NoError(t, ask(Choices{
		Suspects: []Likely{{Faults: []string{"moon.full"}, Probability: 0.5}, at(packOnly, 0.5)},
		Open:     []Open{{Test: "feed", Outcomes: tellsWhich}},
	}))
}
