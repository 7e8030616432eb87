package repair

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// packs adds lines to the price book.
func packs(lines ...string) []string {
	return []string{"\nworth:", "\n  - " + strings.Join(lines, "\n  - ") + "\nworth:"}
}

// The pack alone, with a life of 2 seasons: original 98.30, over three 188.60, 4 days, at
// cost 92.00, margin 43.00; aftermarket, 50.00 in hand, 61.75, over three 61.75 + 53.75 =
// 115.50, margin 180.00 - 45.00 - 58.00 = 77.00. The rope start: 96.38 now and later, 3
// days, margin 180.00 - 45.00 - 93.00 = 42.00. All ten-minute packs, and an hour.
func TestEachAimRanksWithItsSentence(t *testing.T) {
	const aftermarket, original, rope = "new-pack: pack=aftermarket", "new-pack: pack=original", "rope-start: rope=aftermarket"
	tests := []struct {
		aim   Aim
		want  []string
		first string
	}{
		{"", []string{aftermarket, rope, original}, "cheapest now: 34.63 USD less than \"Convert to rope start\", because it takes 50 minutes less work"},
		{CheapestOver, []string{rope, aftermarket, original}, "cheapest over 3 seasons: 19.12 USD less than \"Fit a new pack\", because nothing of it wears out within them"},
		{Quickest, []string{aftermarket, rope, original}, "quickest: its parts are in hand; \"Convert to rope start\" waits 3 days"},
		{BestMargin, []string{aftermarket, original, rope}, "best margin: 35.00 USD more than \"Convert to rope start\", because it costs the shop 35.00 USD less"},
	}
	for _, tt := range tests {
		w := worked{
			edit: packs(`{part: pack, grade: aftermarket, price: "50.00", stock: 1}`), lib: lasts(2),
			found: []string{"pack.no-output"}, choices: Choices{Aim: tt.aim},
		}
		o := w.offers(t)
		require.Equal(t, tt.want, ids(o.Paths), tt.aim)
		require.Equal(t, tt.first, o.First)
		for _, p := range o.Paths {
			require.Equal(t, o.Aim, p.Aim)
		}
		again, err := w.offers(t).By(tt.aim)
		require.NoError(t, err)
		require.Equal(t, ids(o.Paths), ids(again.Paths))
	}
}

// Names of more than one word run into each other unless each stands in quotes.
func TestAnUnknownAimNamesThoseThereAre(t *testing.T) {
	_, err := Offers{}.By("dearest")
	require.EqualError(t, err, `"dearest" is no aim; there are: ["cheapest now" "cheapest over the seasons" "quickest" "best margin"]`)
}

// The shop's own machine: with a pack at 150.00 the rope start leaves 42.00, selling it as
// it is nothing, the pack 180.00 - 45.00 - 158.00 = -23.00, parting out -57.00. Handing
// back stands beside.
func TestLeavingRanksByMarginForTheShopsOwn(t *testing.T) {
	b := edited(t, `"84.00"`, `"150.00"`)
	o := offersFor(t, b, Choices{Aim: BestMargin, Own: true}, "pack.no-output")
	require.Equal(t, []string{
		"Convert to rope start (aftermarket)", "Sell it as it is, with its faults told", "Fit a new pack (original)",
		"Take it apart for its good parts", "Hand it back unrepaired",
	}, waysOf(o))
	// 180.00 after it, and 45.00 as it is: 135.00 more for 93.00.
	require.Equal(t, "best margin: 42.00 USD more than \"Sell it as it is, with its faults told\", because the machine brings 135.00 USD more", o.First)
	require.Nil(t, o.Phone, "nobody to ring")

	o = offersFor(t, b, Choices{Aim: BestMargin}, "pack.no-output")
	require.Equal(t, []string{
		"Convert to rope start (aftermarket)", "Fit a new pack (original)", "Sell it as it is, with its faults told",
		"Take it apart for its good parts", "Hand it back unrepaired",
	}, waysOf(o), "a customer's machine isn't the shop's to sell")
	o = offersFor(t, b, Choices{Aim: CheapestNow, Own: true}, "pack.no-output")
	require.Equal(t, "Sell it as it is, with its faults told", waysOf(o)[2])

	// Where every repair costs more than it brings, selling as it is is the first.
	o = offersFor(t, edited(t, `"84.00"`, `"150.00"`, `"45.00"`, `"95.00"`), Choices{Aim: BestMargin, Own: true}, "pack.no-output")
	require.Equal(t, "Sell it as it is, with its faults told", waysOf(o)[0])
	// 180.00 - 45.00 - 143.00 = -8.00; it costs 143.00 less and brings 135.00 less.
	require.Equal(t, "best margin: 8.00 USD more than \"Convert to rope start\", because it costs the shop 143.00 USD less", o.First)

	// What may only go for parts is not sold as it is.
	o = offersFor(t, b, Choices{Aim: BestMargin, Own: true}, "lever.bypassed")
	require.Equal(t, []string{"Fit a lever switch (original)", "Take it apart for its good parts"}, waysOf(o)[:2])
}

func waysOf(o Offers) []string {
	var out []string
	for _, w := range o.Ways() {
		out = append(out, w.Title())
	}
	return out
}
