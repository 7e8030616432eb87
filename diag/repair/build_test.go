package repair

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// An invented machine: a pack that may be dead or weak, a corroded ground, a
// starter that can't be tested while the pack is dead, and a lever switch.
func bench() (*tree.Library, *tree.System) {
	sys := &tree.System{ID: "button", Title: "Button start", Machine: "walk-behind", Faults: []*tree.Fault{
		{ID: "pack.no-output", Title: "The pack gives nothing", Part: "pack", Masks: []string{"starter.open"}},
		{ID: "pack.weak", Title: "The pack is weak", Part: "pack"},
		{ID: "ground.lossy", Title: "The ground cable loses volts", Part: "cable"},
		{ID: "starter.open", Title: "The starter is open", Part: "starter"},
		{ID: "lever.bypassed", Title: "The lever switch is bridged", Part: "switch"},
	}}
	lib := &tree.Library{
		Systems: map[string]*tree.System{"button": sys},
		Parts: map[string]*tree.Part{
			"pack":    {ID: "pack", Title: "Battery pack"},
			"cable":   {ID: "cable", Title: "Ground cable"},
			"starter": {ID: "starter", Title: "Starter motor"},
			"switch":  {ID: "switch", Title: "Lever switch", NoBin: "not proved in both positions"},
			"rope":    {ID: "rope", Title: "Recoil starter"},
		},
		Cautions: map[string]*tree.Caution{"lithium": {ID: "lithium", Title: "Lithium pack"}},
		Repairs:  map[string]*tree.Repair{},
	}
	for _, r := range []*tree.Repair{
		{
			ID: "new-pack", Title: "Fit a new pack", Clears: []string{"pack.no-output", "pack.weak"}, Minutes: 10,
			Parts: []tree.PartUse{{Part: "pack", Qty: 1}}, Checks: []string{"pack_held", "crank"}, Cautions: []string{"lithium"},
		},
		{ID: "clean-ground", Title: "Clean the ground", Clears: []string{"ground.lossy"}, Minutes: 15, Checks: []string{"crank"}},
		{
			ID: "new-ground", Title: "Fit a ground cable", Clears: []string{"ground.lossy"}, Minutes: 20,
			Parts: []tree.PartUse{{Part: "cable", Qty: 1}}, Checks: []string{"crank"},
		},
		{ID: "new-starter", Title: "Fit a starter", Clears: []string{"starter.open"}, Minutes: 45, Parts: []tree.PartUse{{Part: "starter", Qty: 1}}},
		{ID: "new-switch", Title: "Fit a lever switch", Clears: []string{"lever.bypassed"}, Minutes: 25, Parts: []tree.PartUse{{Part: "switch", Qty: 1}}},
		{
			ID: "rope-start", Title: "Convert to rope start", Kind: tree.Conversion, Minutes: 60,
			Clears: []string{"pack.no-output", "pack.weak", "ground.lossy", "starter.open"},
			Parts:  []tree.PartUse{{Part: "rope", Qty: 1}}, Before: []string{"The flywheel accepts a recoil."},
			Law: []tree.Rule{{Cite: "16 CFR 1205.5(a)(1)(iv)", Says: "One of three must hold.", Ways: []string{"a", "b", "c"}}},
		},
		{ID: "elsewhere", Title: "Not for this system", Systems: []string{"key"}, Clears: []string{"pack.no-output"}, Minutes: 1},
	} {
		if r.Systems == nil {
			r.Systems = []string{"button"}
		}
		lib.Repairs[r.ID] = r
	}
	return lib, sys
}

// verdict finds some faults; what they mask is masked, and the rest untested.
func verdict(sys *tree.System, found ...string) walk.Verdict {
	var v walk.Verdict
	taken := map[string]bool{}
	for _, id := range found {
		f := sys.Fault(id)
		taken[id] = true
		v.Found = append(v.Found, walk.Finding{Fault: f})
		for _, m := range f.Masks {
			if !taken[m] {
				taken[m] = true
				v.Masked = append(v.Masked, walk.Masking{Fault: sys.Fault(m), By: f})
			}
		}
	}
	for _, f := range sys.Faults {
		if !taken[f.ID] {
			v.Untested = append(v.Untested, walk.Untested{Fault: f})
		}
	}
	return v
}

const shopText = `
shop: {currency: USD, labour rate: "48.00", tax percent: "7.5", tax on: parts, warn above percent: 50}
prices:
  - {part: pack, grade: original, price: "84.00", stock: 0, lead days: 4, returnable: no}
  - {part: cable, grade: original, price: "14.00", stock: 2}
  - {part: starter, grade: original, price: "95.00", lead days: 6, returnable: yes}
  - {part: switch, grade: original, price: "22.50", stock: 1}
  - {part: rope, grade: aftermarket, price: "45.00", lead days: 3}
worth: {button: "180.00"}
leaving: {as is percent: 25, part out percent: 20, part out minutes: 60}
`

func book(t *testing.T, text string) *PriceBook {
	t.Helper()
	// What stands before the prices is the shop's settings. The prices keep their lines.
	settings, _, _ := strings.Cut(text, "prices:")
	prices := strings.Repeat("\n", strings.Count(settings, "\n")) + strings.TrimPrefix(text, settings)
	b, issues := LoadPrices(source.File{Name: "prices.yaml", Text: prices})
	require.Empty(t, issues)
	b.Shop, issues = shop.Load(source.File{Name: "settings.yaml", Text: settings})
	require.Empty(t, issues)
	return b
}

// edited is the shop with some text of its price book replaced.
func edited(t *testing.T, pairs ...string) *PriceBook {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, shopText, pairs[i])
	}
	return book(t, strings.NewReplacer(pairs...).Replace(shopText))
}

func offersFor(t *testing.T, b *PriceBook, choices Choices, found ...string) Offers {
	t.Helper()
	lib, sys := bench()
	o, err := Paths(lib, sys, verdict(sys, found...), b, decimal.Zero, choices)
	require.NoError(t, err)
	return o
}

func ids(paths []Path) []string {
	var out []string
	for _, p := range paths {
		out = append(out, p.ID)
	}
	return out
}
