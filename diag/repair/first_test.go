package repair

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
)

// Why the first is the first, case by case.
func TestFirstSentences(t *testing.T) {
	two := func(lines ...string) []string {
		return append(packs(lines...), `  - {part: pack, grade: original, price: "84.00", stock: 0, lead days: 4, returnable: no}`+"\n", "")
	}
	noRope := func(l *tree.Library) { delete(l.Repairs, "rope-start") }
	tests := []struct {
		name  string
		w     worked
		first string
	}{{
		// 40.00 and 50.00, both grades kept: 10.00 + 0.75 tax.
		"parts",
		worked{lib: noRope, edit: two(`{part: pack, grade: aftermarket, price: "50.00", stock: 1}`, `{part: pack, grade: bin, price: "40.00", stock: 1}`)},
		"cheapest now: 10.75 USD less than the next, because its parts cost 10.00 USD less",
	}, {
		"no part",
		worked{found: []string{"ground.lossy"}, edit: []string{`"48.00"`, `"12.00"`, `"14.00"`, `"45.00"`}, choices: Choices{Aim: CheapestNow}},
		// Cleaning 12.00 x 15/60 = 3.00; the rope start 45.00 + 12.00 + 3.38 = 60.38.
		"cheapest now: 57.38 USD less than \"Convert to rope start\", because no part has to be bought",
	}, {
		// A better grade at the same price folds the other; with a longer wait it doesn't.
		"level, sooner",
		worked{lib: noRope, edit: two(`{part: pack, grade: original, price: "50.00", lead days: 2}`, `{part: pack, grade: bin, price: "50.00", stock: 1}`)},
		"cheapest now: level with the next; its parts are there 2 days sooner",
	}, {
		// Freight 12.00 for the one that has to be ordered: 50.00 + 8.00 + 3.75 + 12.00.
		"freight",
		worked{lib: noRope, edit: two(`{part: pack, grade: original, price: "50.00", lead days: 2, freight: "12.00"}`, `{part: pack, grade: aftermarket, price: "50.00", stock: 1}`)},
		"cheapest now: 12.00 USD less than the next, because freight and disposal cost 12.00 USD less",
	}, {
		"comes sooner",
		worked{edit: two(`{part: pack, grade: original, price: "50.00", lead days: 5}`), choices: Choices{Aim: Quickest}},
		"quickest: its parts come in 3 days, 2 days before those of \"Fit a new pack\"", // the rope's 3
	}, {
		"less work",
		worked{edit: two(`{part: pack, grade: original, price: "50.00", lead days: 3}`), choices: Choices{Aim: Quickest}},
		"quickest: 50 minutes less work than \"Convert to rope start\", and parts as soon",
	}, {
		"quickest without a part",
		worked{found: []string{"ground.lossy"}, choices: Choices{Aim: Quickest}},
		"quickest: it needs no part; \"Convert to rope start\" waits 3 days",
	}, {
		"level in time",
		worked{lib: noRope, edit: two(`{part: pack, grade: original, price: "60.00", lead days: 1}`, `{part: pack, grade: aftermarket, price: "50.00", lead days: 1}`), choices: Choices{Aim: Quickest}},
		"quickest: level with the next, and 10.75 USD less", // 10.00 and 0.75 tax
	}, {
		"the only one", worked{found: []string{"lever.bypassed"}}, "cheapest now: there is no other way on file",
	}, {
		"over the seasons, for what it costs now",
		worked{edit: two(`{part: pack, grade: original, price: "50.00", stock: 1}`), choices: Choices{Aim: CheapestOver}},
		"cheapest over 3 seasons: 34.63 USD less than \"Convert to rope start\", because it takes 50 minutes less work",
	}, {
		// Aftermarket 25.00 + 8.00 + 1.88 (1.875 up) = 34.88, once again 26.88: 61.76. Used
		// 29.50, with half of 2 seasons twice again, 40.00 + 3.00: 72.50. Dearer by 5.38 now, it
		// saves 16.12 later.
		"less wear",
		worked{
			edit: two(`{part: pack, grade: aftermarket, price: "25.00", stock: 1}`, `{part: pack, grade: bin, price: "20.00", stock: 1}`),
			lib:  func(l *tree.Library) { lasts(2)(l); noRope(l) }, choices: Choices{Aim: CheapestOver},
		},
		"cheapest over 3 seasons: 10.74 USD less than the next, because what wears out costs 16.12 USD less",
	}, {
		"no price",
		worked{edit: two(`{part: cable, grade: bin, price: "1.00"}`), found: []string{"pack.no-output"}},
		"cheapest now: the next has not all its prices",
	}}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.w.found == nil {
				tt.w.found = []string{"pack.no-output"}
			}
			require.Equal(t, tt.first, tt.w.offers(t).First)
		})
	}
	require.Equal(t, "no path has all its prices: the least work comes first", offersFor(t, nil, Choices{}, "ground.lossy").First)
	require.Empty(t, offersFor(t, edited(t), Choices{}).First, "nothing is found")
}
