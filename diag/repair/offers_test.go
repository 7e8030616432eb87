package repair

import (
	"fmt"
	"testing"

	"benchlead/diag/shop"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Cleaning (12.00, no part) beats a new cable (30.00 + tax) and both stand
// beside the conversion. Findings are two, so every path clears both.
func TestPathsRankedWithConversionBeside(t *testing.T) {
	o := offersFor(t, edited(t), Choices{}, "pack.no-output", "ground.lossy")
	require.Equal(t, []string{
		"rope-start: rope=aftermarket",         // 45.00 + 48.00 + 3.38 (3.375 up) = 96.38
		"new-pack+clean-ground: pack=original", // 84.00 + 20.00 + 6.30 = 110.30
	}, ids(o.Paths))
	require.Equal(t, "96.38 USD", o.Paths[0].Money(o.Paths[0].Total))
	require.Equal(t, "110.30 USD", o.Paths[1].Money(o.Paths[1].Total))
	require.True(t, o.Paths[0].Converts)
	require.Equal(t, []string{"The flywheel accepts a recoil."}, o.Paths[0].Before)
	require.Len(t, o.Paths[0].Law, 1)
	require.Equal(t, []string{"pack_held", "crank"}, o.Paths[1].Checks, "each check once")
	require.Equal(t, "lithium", o.Paths[1].Cautions[0].ID)

	require.Len(t, o.Folded, 1)
	require.Equal(t, "new-pack+new-ground: pack=original, cable=original", o.Folded[0].Path.ID)
	require.Equal(t, "new-pack+clean-ground: pack=original", o.Folded[0].By)
	// 98.00 + 24.00 + 7.35 = 129.35; 19.05 more than 110.30.
	require.Equal(t, `beaten by "Fit a new pack + Clean the ground", which clears the same findings, costs 19.05 USD less and takes no longer`,
		o.Folded[0].Because)
}

// What isn't judged and isn't repaired anyway could still cost.
func TestWaitsAreWhatThePathLeavesOpen(t *testing.T) {
	o := offersFor(t, edited(t), Choices{}, "pack.no-output")
	var pack, rope []string
	for _, f := range pathOf(t, o, "new-pack: pack=original").Waits {
		pack = append(pack, f.ID)
	}
	for _, f := range pathOf(t, o, "rope-start: rope=aftermarket").Waits {
		rope = append(rope, f.ID)
	}
	require.Equal(t, []string{"starter.open", "ground.lossy", "lever.bypassed"}, pack, "the new pack also settles pack.weak")
	require.Equal(t, []string{"lever.bypassed"}, rope)
}

func TestNothingFoundOffersNoRepair(t *testing.T) {
	o := offersFor(t, edited(t), Choices{})
	require.Empty(t, o.Paths)
	require.Empty(t, o.Folded)
	require.Len(t, o.Leave, 1)
	require.Equal(t, ChooseReturn, o.Leave[0].Kind)
}

func TestNoRepairIsSaid(t *testing.T) {
	lib, sys := bench()
	delete(lib.Repairs, "new-switch")
	o, err := Paths(lib, sys, verdict(sys, "lever.bypassed", "pack.weak"), edited(t), decimal.Zero, Choices{})
	require.NoError(t, err)
	require.Empty(t, o.Paths)
	require.Equal(t, "lever.bypassed", o.NoRepair[0].ID)
	require.Len(t, o.Leave, 3)
}

func TestBypassedIsNeverSoldToRun(t *testing.T) {
	o := offersFor(t, edited(t), Choices{}, "lever.bypassed")
	require.Contains(t, o.Leave[0].Refused, "parts only")
	require.True(t, o.Leave[0].Fetches.IsZero())
	require.Empty(t, o.Leave[1].Refused)
	require.Contains(t, o.Leave[2].Disclose[len(o.Leave[2].Disclose)-1], "Not to be used")
	require.Contains(t, o.Leave[0].Disclose, "Known fault: The lever switch is bridged.")

	for id, want := range map[string]bool{
		"interlock.bypassed": true, "switch.seat-stuck-closed": true, "switch.brake-stuck": true,
		"switch.stuck-open": false, "switch.lever": false, "button.stuck": false, "bypass.open": false, "pack.weak": false, "": false,
	} {
		require.Equal(t, want, Bypassed(&tree.Fault{ID: id}), id)
	}
	require.True(t, Bypassed(&tree.Fault{ID: "seat.no-stop", Danger: "interlock-bypassed"}))
}

// What a hand-back test shows is as bad as a bypass.
func TestFailedSafetyIsNeverSoldToRun(t *testing.T) {
	lib, sys := bench()
	sys.HandBack = []string{"stop_time"}
	lib.Trees = map[string]*tree.Tree{"t": {ID: "t", Systems: []string{"button"}, Steps: []*tree.Step{
		{Kind: tree.Find, Fault: "ground.lossy", By: []tree.Evidence{{Test: "crank"}, {Test: "stop_time"}}},
		{Kind: tree.Find, Fault: "pack.weak", By: []tree.Evidence{{Test: "crank"}}},
	}}}
	for fault, refused := range map[string]bool{"ground.lossy": true, "pack.weak": false} {
		o, err := Paths(lib, sys, verdict(sys, fault), edited(t), decimal.Zero, Choices{})
		require.NoError(t, err)
		require.Equal(t, refused, o.Leave[0].Refused != "", fault)
	}
}

func TestPartsLeft(t *testing.T) {
	lib, sys := bench()
	v := verdict(sys, "pack.no-output")
	v.Untested = nil
	for _, id := range []string{"ground.lossy", "lever.bypassed", "pack.weak"} {
		v.Cleared = append(v.Cleared, walk.Clearing{Fault: sys.Fault(id)})
	}
	o, err := Paths(lib, sys, v, edited(t), decimal.Zero, Choices{})
	require.NoError(t, err)
	out := o.Leave[1]
	require.Len(t, out.Good, 1)
	require.Equal(t, "cable", out.Good[0].ID, "not the pack (found), the starter (masked) or the switch (never)")
	require.Equal(t, "switch", out.Never[0].Part.ID)
}

const grades = `
  - {part: pack, grade: aftermarket, price: "50.00", stock: 1}
  - {part: pack, grade: bin, price: "20.00", stock: 1}
  - {part: pack, grade: aftermarket, price: "55.00", stock: 1, note: second seller}
  - {part: switch, grade: bin, price: "1.00", stock: 9}
worth:`

func TestGrades(t *testing.T) {
	b := edited(t, "\nworth:", grades)
	o := offersFor(t, b, Choices{}, "pack.weak")
	// 20.00+8.00+1.50 = 29.50; 50.00+8.00+3.75 = 61.75; rope 96.38; 98.30.
	require.Equal(t, []string{
		"new-pack: pack=bin", "new-pack: pack=aftermarket", "rope-start: rope=aftermarket", "new-pack: pack=original",
	}, ids(o.Paths))
	require.Len(t, o.Folded, 1)
	require.Equal(t, "new-pack: pack=aftermarket (second seller)", o.Folded[0].Path.ID)
	// 55.00+8.00+4.125 up 4.13 = 67.13; 5.38 more than 61.75.
	require.Equal(t, "beaten by the same repairs with a cheaper Battery pack of the same grade (50.00 USD for 55.00 USD), which costs 5.38 USD less", o.Folded[0].Because)

	require.Equal(t, []string{"new-pack: pack=original"},
		ids(offersFor(t, b, Choices{Grades: []Grade{Original}}, "pack.weak").Paths)[:1])
	require.Equal(t, []string{"new-switch: switch=original"},
		ids(offersFor(t, b, Choices{}, "lever.bypassed").Paths), "a switch never comes from the bin")
}

// An original that costs less than an aftermarket part leaves no reason for it.
func TestBetterGradeFoldsDearerOne(t *testing.T) {
	b := edited(t, "\nworth:", "\n  - {part: cable, grade: aftermarket, price: \"14.00\", stock: 3}\nworth:")
	lib, sys := bench()
	delete(lib.Repairs, "clean-ground")
	o, err := Paths(lib, sys, verdict(sys, "ground.lossy"), b, decimal.Zero, Choices{})
	require.NoError(t, err)
	require.Equal(t, "new-ground: cable=aftermarket", o.Folded[0].Path.ID)
	require.Equal(t, "beaten by the same repairs with the better grade of Ground cable (original for aftermarket), which costs the same", o.Folded[0].Because)
}

func TestUnpricedComesLast(t *testing.T) {
	b := edited(t, `  - {part: pack, grade: original, price: "84.00", stock: 0, lead days: 4, returnable: no}`+"\n", "")
	o := offersFor(t, b, Choices{}, "pack.weak")
	require.Equal(t, []string{"rope-start: rope=aftermarket", "new-pack"}, ids(o.Paths))
	require.Equal(t, "pack", o.Paths[1].Unpriced[0].ID)
	require.False(t, o.Paths[1].Priced())
	require.Equal(t, "no price on file for battery pack", o.Paths[1].Lacks())
	require.Equal(t, []string{"pack"}, o.Paths[1].Chosen().Unpriced, "the record knows what the total leaves out")
	require.Empty(t, o.Paths[0].Lacks())
	require.Contains(t, o.Paths[1].Warn, "Battery pack has no price: the total leaves it out")
}

func TestNoBookStillListsPaths(t *testing.T) {
	o := offersFor(t, nil, Choices{}, "ground.lossy")
	require.Equal(t, []string{"clean-ground", "new-ground", "rope-start"}, ids(o.Paths))
	require.False(t, o.Paths[0].Priced())
	require.Equal(t, "no price on file", o.Paths[0].Lacks())
	require.Equal(t, 15, o.Paths[0].Minutes)
}

func TestNotReturnableWarns(t *testing.T) {
	p := pathOf(t, offersFor(t, edited(t), Choices{}, "pack.weak"), "new-pack: pack=original")
	require.Contains(t, p.Warn, "Battery pack can't be returned: be sure before it is ordered")
	p = pathOf(t, offersFor(t, edited(t), Choices{}, "starter.open"), "new-starter: starter=original")
	require.NotContains(t, p.Warn, "Starter motor can't be returned: be sure before it is ordered")
}

func TestBadAskIsAnError(t *testing.T) {
	lib, sys := bench()
	_, err := Paths(nil, sys, walk.Verdict{}, nil, decimal.Zero, Choices{})
	require.Error(t, err)
	_, err = Paths(lib, sys, walk.Verdict{}, nil, decimal.NewFromInt(-1), Choices{})
	require.ErrorContains(t, err, "-1")
}

func TestChosenFreezes(t *testing.T) {
	o := offersFor(t, edited(t), Choices{}, "pack.weak")
	c := pathOf(t, o, "new-pack: pack=original").Chosen()
	require.Equal(t, ChooseRepair, c.Path)
	require.Equal(t, []string{"new-pack"}, c.Repairs)
	require.Equal(t, []string{"pack=original"}, c.Grades)
	require.Equal(t, "98.30", c.Quote.Total)
	c = o.Leave[0].Chosen()
	require.Equal(t, ChooseAsIs, c.Path)
	require.NotNil(t, c.Repairs)
	require.Equal(t, "0.00", c.Quote.Total)
}

// Many parts in many grades: bounded, and the policies are there.
func TestMixesAreBounded(t *testing.T) {
	var offers [][]Price
	for i := range 8 {
		var o []Price
		for rank, g := range Grades() {
			o = append(o, Price{Part: fmt.Sprint("p", i), Grade: g, Each: decimal.NewFromInt(int64(30 - 10*rank))})
		}
		offers = append(offers, o)
	}
	all, cut := mixes(offers)
	require.True(t, cut)
	require.Len(t, all, 3, "original, aftermarket, bin; the cheapest is the bin's")
	require.Equal(t, Original, all[0][7].Grade)
	require.Equal(t, Bin, all[2][0].Grade)
}

// Whatever the prices: folding loses no path, keeps none that is beaten, and
// ranks by total; each total is the sum of its lines.
func TestFoldingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lib, sys := bench()
		b := &PriceBook{Shop: shop.Settings{Currency: "USD", LabourRate: decimal.NewFromInt(48), TaxOn: shop.TaxBoth, TaxPercent: decimal.NewFromInt(9)}}
		for _, part := range []string{"pack", "cable", "rope", "starter", "switch"} {
			for range rapid.IntRange(0, 4).Draw(t, "offers") {
				b.Prices = append(b.Prices, Price{
					Part: part, Grade: rapid.SampledFrom(Grades()).Draw(t, "grade"),
					Each:  decimal.New(int64(rapid.IntRange(0, 3).Draw(t, "price")), 1),
					Stock: rapid.IntRange(0, 1).Draw(t, "stock"), LeadDays: rapid.IntRange(0, 2).Draw(t, "days"),
					Returnable: rapid.Bool().Draw(t, "returns"), Note: fmt.Sprint(len(b.Prices)),
				})
			}
		}
		v := verdict(sys, rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"pack.weak", "ground.lossy", "starter.open", "lever.bypassed"}), 1, 4, rapid.ID).Draw(t, "found")...)
		a := newAsk(lib, sys, v, b, decimal.Zero, Choices{})
		all, _ := a.paths(a.repairs(a.found), a.found) // with many offers, only some mixes of them
		kept, folded := fold(all)
		require.Len(t, all, len(kept)+len(folded))
		for i, p := range kept {
			require.True(t, p.Total.Equal(decimal.Sum(p.Parts, p.Labour, p.Other, p.Tax)))
			for _, q := range all {
				require.False(t, q.beats(p))
			}
			if i > 0 && p.Priced() == kept[i-1].Priced() {
				require.False(t, p.Total.LessThan(kept[i-1].Total))
			}
		}
		for _, f := range folded {
			require.NotEmpty(t, f.Because)
		}
	})
}

// A shop that said which tools it owns is told of those that a way needs besides.
func TestToolsThatTheShopLacksAreMarked(t *testing.T) {
	lib, sys := bench()
	lib.Repairs["new-pack"].Tools = []string{"meter", "screwdrivers", "torque wrench"}
	b := edited(t)
	marked := func() []string {
		o, err := Paths(lib, sys, verdict(sys, "pack.no-output"), b, decimal.Zero, Choices{})
		require.NoError(t, err)
		return pathOf(t, o, "new-pack: pack=original").Warn
	}
	require.NotContains(t, fmt.Sprint(marked()), "tools")
	b.Shop.Tools = []string{"screwdriver"}
	require.Contains(t, marked(), "not among the shop's tools: torque wrench")
}
