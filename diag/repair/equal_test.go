package repair

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// Two pieces at 20.00 and one at 30.00: of the equal ones that with the newer test is
// offered, and the first is held against what costs something else.
func TestOfEqualPiecesTheNewerTestIsOffered(t *testing.T) {
	pieces := []job.Shelved{
		{Name: "b1", Part: "pack", Shown: []string{"91 %"}, Asking: "20.00", Currency: "USD", At: 1},
		{Name: "b2", Part: "pack", Shown: []string{"88 %"}, Asking: "20.0", Currency: "USD", At: 9},
		{Name: "b3", Part: "pack", Shown: []string{"95 %"}, Asking: "30.00", Currency: "USD", At: 5},
	}
	require.Equal(t, map[string]string{"b2": "29.50", "b3": "40.25"}, fromBin(t, edited(t), pieces, "pack.weak"))
	o := offersFor(t, edited(t), Choices{Pieces: pieces}, "pack.weak")
	require.Contains(t, o.Paths[0].Warn, "Battery pack: one of 2 pieces at the same price, the one tested last")
	require.NotContains(t, o.First, "level")
	require.Contains(t, o.First, "less than")
	alone := offersFor(t, edited(t), Choices{Pieces: pieces[1:]}, "pack.weak")
	require.NotContains(t, alone.Paths[0].Warn, "Battery pack: one of 2 pieces at the same price, the one tested last")
}

// Two sellers of one grade: each title names its seller, and only those that need it.
func TestTitlesOfPathsThatWouldReadTheSame(t *testing.T) {
	o := offersFor(t, edited(t, "\nworth:", `
  - {part: pack, grade: aftermarket, price: "50.00", stock: 0, lead days: 9, supplier: Slow Parts}
  - {part: pack, grade: aftermarket, price: "60.00", stock: 1, supplier: Near Parts, number: A1}
  - {part: pack, grade: aftermarket, price: "66.00", stock: 1, supplier: Near Parts, number: A2}
worth:`), Choices{}, "pack.no-output")
	paths := o.Paths
	for _, f := range o.Folded {
		paths = append(paths, f.Path)
	}
	titles := map[string]bool{}
	for _, p := range paths {
		require.False(t, titles[p.Title()], p.Title())
		titles[p.Title()] = true
	}
	require.True(t, titles["Fit a new pack (original)"])
	require.True(t, titles["Fit a new pack (aftermarket from Slow Parts)"])
	require.Len(t, titles, 5)
}
