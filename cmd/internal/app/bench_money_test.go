package app

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/repair"
)

// The machine of the job beside: pack and charger found dead, worth 180.00 sound. By the
// demo's prices and settings, with 54.00 an hour, consumables 1.50 and 7.5 % tax on parts
// (charger, guide: original O or aftermarket A; pack, recoil: with bin B):
//
//	wake the pack, charger: 35 minutes 31.50, consumables and the old charger 2.50
//	  A  27.50 + 31.50 + 2.50 + 2.06 (2.0625) =  63.56, 2 days
//	  O  44.00 + 31.50 + 2.50 + 3.30          =  81.30, 6 days
//	pack, charger: 30 minutes 27.00, consumables, old pack and charger 4.50, freight of
//	the pack O 7.50, A 5.00
//	  BA 61.50 + 27.00 + 4.50 + 4.61 (4.6125) =  97.61, 2 days
//	  BO 78.00 + 27.00 + 4.50 + 5.85          = 115.35, 6 days
//	  AA 85.50 + 27.00 + 9.50 + 6.41 (6.4125) = 128.41, 3 days
//	  AO 102.00 + 27.00 + 9.50 + 7.65         = 146.15, 6 days
//	  OA 123.50 + 27.00 + 12.00 + 9.26 (.2625) = 171.76, 6 days
//	  OO 140.00 + 27.00 + 12.00 + 10.50       = 189.50, 6 days
//	rope, guide: 75 minutes 67.50, consumables 1.50; what isn't in stock takes 5 days
//	  BA 15.10 + 69.00 + 1.13 (1.1325)        =  85.23
//	  BO 17.60 + 69.00 + 1.32                 =  87.92, 5 days
//	  AA 27.60 + 69.00 + 2.07                 =  98.67
//	  AO 30.10 + 69.00 + 2.26 (2.2575)        = 101.36, 5 days
//	  OA 42.10 + 69.00 + 3.16 (3.1575)        = 114.26, 5 days
//	  OO 44.60 + 69.00 + 3.35 (3.345)         = 116.95, 5 days
//
// Over 3 seasons a pack with its usual life of 4 is not bought again. A used one has 2
// left: 34.00 + 2.55 more. One that was woken has 2 left, and the cheapest new one
// follows: 58.00 + 4.35 more. Nothing of the rope start wears.
//
//	wake A 63.56 + 62.35 = 125.91, O 81.30 + 62.35 = 143.65
//	pack BA 97.61 + 36.55 = 134.16, BO 115.35 + 36.55 = 151.90
//
// As it is it is worth 30 %, 54.00, and 126.00 more when it is repaired. At cost, without
// tax: wake A 61.50, so 64.50 are left; O 78.00, 48.00; rope BA 84.10, 41.90; BO 86.60,
// 39.40; AA 96.60, 29.40; AO 99.10, 26.90; OA 111.10, 14.90; OO 113.60, 12.40; pack BA
// 93.00, 33.00; BO 109.50, 16.50; AA 122.00, 4.00; AO 138.50, -12.50; OA 162.50, -36.50;
// OO 179.00, -53.00. Sold as it is, 0.00. Parted out, 45.00 - 54.00 - 54.00 = -63.00.
func TestDeadPackAndDeadChargerByEachAim(t *testing.T) {
	const sold, parted, back = "sell as is", "part out", "return unrepaired"
	tests := []struct {
		aim   repair.Aim
		own   bool
		want  string
		first string
	}{
		{
			repair.CheapestNow, false,
			"wake A, wake O, rope BA, rope BO, pack BA, rope AA, rope AO, rope OA, pack BO, rope OO, pack AA, pack AO, pack OA, pack OO, " + sold + ", " + parted + ", " + back,
			// 85.23 - 63.56; work 36.00 less, parts 12.40 more.
			`cheapest now: 21.67 USD less than "Convert to a rope start", because it takes 40 minutes less work`,
		},
		{
			repair.CheapestOver, false,
			"rope BA, rope BO, rope AA, rope AO, rope OA, rope OO, wake A, pack AA, pack BA, wake O, pack AO, pack BO, pack OA, pack OO, " + sold + ", " + parted + ", " + back,
			// 125.91 - 85.23.
			`cheapest over 3 seasons: 40.68 USD less than "Wake the pack on a matched charger + Fit a new charger that matches the pack", because nothing of it wears out within them`,
		},
		{
			repair.Quickest, false,
			"rope BA, rope AA, pack BA, wake A, pack AA, rope BO, rope AO, rope OA, rope OO, pack BO, pack AO, pack OA, pack OO, wake O, " + sold + ", " + parted + ", " + back,
			`quickest: its parts are in hand; "Fit a new pack + Fit a new charger that matches the pack" waits 2 days`,
		},
		{
			repair.BestMargin, true,
			"wake A, wake O, rope BA, rope BO, pack BA, rope AA, rope AO, pack BO, rope OA, rope OO, pack AA, " + sold + ", pack AO, pack OA, pack OO, " + parted + ", " + back,
			// 64.50 - 41.90.
			`best margin: 22.60 USD more than "Convert to a rope start", because it costs the shop 22.60 USD less`,
		},
	}
	s := bench1(t)
	goOn(t, s, deadPackDeadCharger)
	v := s.Position().Verdict
	require.ElementsMatch(t, []string{"pack.no-output", "charger.no-output"}, foundIn(v))
	p := &program{demo: true, env: func(string) string { return "" }, now: func() int64 { return 1_700_000_000_000_000 }}
	lib, err := p.library()
	require.NoError(t, err)
	in, err := p.priceBook(lib, nil)
	require.NoError(t, err)
	for _, tt := range tests {
		o, err := repair.Paths(lib, s.Position().System, v, in.book, decimal.NewFromInt(180), repair.Choices{Aim: tt.aim, Own: tt.own})
		require.NoError(t, err)
		require.Empty(t, o.Folded)
		require.Equal(t, tt.want, waysInShort(o), tt.aim)
		require.Equal(t, tt.first, o.First)
		if tt.own {
			continue
		}
		require.Len(t, o.Phone, 2)
		for _, line := range o.Phone {
			require.LessOrEqual(t, utf8.RuneCountInString(line), 70, line)
		}
	}
}

// waysInShort names the ways by the repair and the grades of its two parts.
func waysInShort(o repair.Offers) string {
	var out []string
	for _, w := range o.Ways() {
		if w.Leave != nil {
			out = append(out, w.Leave.Kind)
			continue
		}
		name := map[string]string{"wake-pack": "wake", "replace-pack": "pack", "rope-start-conversion": "rope"}[w.Path.Repairs[0].ID] + " "
		for _, l := range w.Path.Lines {
			name += strings.ToUpper(string(l.Grade[:1]))
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}
