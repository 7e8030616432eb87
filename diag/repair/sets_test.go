package repair

import (
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
)

// A charger goes with the pack. A pack alone must match the one that stays; both of one
// grade, seller and set match by themselves.
func TestSetsMustMatch(t *testing.T) {
	lib, sys := bench()
	sys.Faults = append(sys.Faults, &tree.Fault{ID: "charger.dead", Title: "The charger gives nothing", Part: "charger"})
	lib.Parts["charger"] = &tree.Part{ID: "charger", Title: "Charger", With: []string{"pack"}}
	lib.Parts["pack"].With = []string{"charger"}
	lib.Repairs["new-charger"] = &tree.Repair{
		ID: "new-charger", Title: "Fit a charger", Systems: []string{"button"}, Clears: []string{"charger.dead"}, Minutes: 5,
		Parts: []tree.PartUse{{Part: "charger", Qty: 1}},
	}
	b := edited(t, packs(
		`{part: charger, grade: original, price: "30.00"}`,
		`{part: charger, grade: aftermarket, price: "20.00"}`,
	)...)
	match := func(id string, found ...string) []string {
		o, err := Paths(lib, sys, verdict(sys, found...), b, decimal.Zero, Choices{})
		require.NoError(t, err)
		var out []string
		for _, w := range pathOf(t, o, id).Warn {
			if strings.HasPrefix(w, "must match: ") {
				out = append(out, w)
			}
		}
		return out
	}
	require.Equal(t, []string{"must match: battery pack (original) and charger, which stays"}, match("new-pack: pack=original", "pack.weak"))
	require.Equal(t, []string{"must match: charger (aftermarket) and battery pack, which stays"}, match("new-charger: charger=aftermarket", "charger.dead"))
	require.Equal(t, []string{"must match: battery pack (original) and charger (aftermarket) are bought apart"},
		match("new-pack+new-charger: pack=original, charger=aftermarket", "pack.weak", "charger.dead"))
	require.Empty(t, match("new-pack+new-charger: pack=original, charger=original", "pack.weak", "charger.dead"))
	// Another seller or another set is apart, too.
	pack, charger := &b.Prices[0], &b.Prices[5]
	pack.Supplier, charger.Supplier = "North", "South"
	require.Equal(t, []string{"must match: battery pack (original, North) and charger (original, South) are bought apart"},
		match("new-pack+new-charger: pack=original (North), charger=original (South)", "pack.weak", "charger.dead"))
	charger.Supplier, pack.Set = "North", "A"
	require.Len(t, match("new-pack+new-charger: pack=original (North), charger=original (North)", "pack.weak", "charger.dead"), 1)
	charger.Set = "A"
	require.Empty(t, match("new-pack+new-charger: pack=original (North), charger=original (North)", "pack.weak", "charger.dead"))
	// The conversion takes the charger off with the pack: it clears its fault, too.
	lib.Repairs["rope-start"].Clears = append(lib.Repairs["rope-start"].Clears, "charger.dead")
	lib.Parts["rope"].With = []string{"pack", "charger"}
	require.Empty(t, match("rope-start: rope=aftermarket", "pack.weak"))
}

// What a seller sells as a set belongs together whatever the trees say: cable and starter
// here. The set's cable is not bought with another starter, nor the starter alone.
func TestASellersSetIsBoughtTogether(t *testing.T) {
	b := edited(t, packs(`{part: cable, grade: aftermarket, price: "9.00", set: heavy side}`, `{part: starter, grade: aftermarket, price: "60.00", set: heavy side}`)...)
	warned := func(id string, found ...string) []string {
		return slices.DeleteFunc(slices.Clone(pathOf(t, offersFor(t, b, Choices{}, found...), id).Warn), func(w string) bool { return !strings.HasPrefix(w, "must match: ") })
	}
	require.Equal(t, []string{"must match: ground cable (aftermarket) and starter motor, which stays"}, warned("new-ground: cable=aftermarket", "ground.lossy"))
	require.Equal(t, []string{"must match: ground cable (aftermarket) and starter motor (original) are bought apart"},
		warned("new-ground+new-starter: cable=aftermarket, starter=original", "ground.lossy", "starter.open"))
	require.Equal(t, []string{"must match: starter motor (aftermarket) and ground cable (original) are bought apart"},
		warned("new-ground+new-starter: cable=original, starter=aftermarket", "ground.lossy", "starter.open"), "told by the one that names the other")
	require.Empty(t, warned("new-ground+new-starter: cable=aftermarket, starter=aftermarket", "ground.lossy", "starter.open"))
	require.Empty(t, warned("new-ground: cable=original", "ground.lossy"))
}
