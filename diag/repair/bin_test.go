package repair

import (
	"fmt"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/shop"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// lying are pieces of the bin: two packs, the dearer one first, and a starter.
func lying() []job.Shelved {
	return []job.Shelved{
		{Name: "b1", Part: "pack", Shown: []string{"holds 24 h"}, Asking: "30.00", Currency: "USD"},
		{
			Name: "14.9", Job: 14, Part: "pack", Words: "grey case", Shown: []string{"holds 24 h", "92 % capacity"}, Asking: "20.00", Currency: "USD",
			Place: "shelf 2",
		},
		{Name: "3.4", Job: 3, Part: "starter", Shown: []string{"9 A free"}, Asking: "40.00", Currency: "USD"},
	}
}

// fromBin are the pieces that are offered for one finding: name and total.
func fromBin(t *testing.T, b *PriceBook, pieces []job.Shelved, found string) map[string]string {
	t.Helper()
	out := map[string]string{}
	o := offersFor(t, b, Choices{Pieces: pieces}, found)
	paths := o.Paths
	for _, f := range o.Folded {
		paths = append(paths, f.Path)
	}
	for _, p := range paths {
		for _, l := range p.FromBin() {
			out[l.Piece] = p.Total.StringFixed(2)
		}
	}
	return out
}

func TestAPieceOfTheBinIsOfferedWithWhatWasShown(t *testing.T) {
	o := offersFor(t, edited(t), Choices{Pieces: lying()}, "pack.weak")
	p := o.Paths[0]
	require.Equal(t, "new-pack: pack=bin (grey case; holds 24 h; 92 % capacity; shelf 2; piece 14.9 from job 14)", p.ID)
	require.Equal(t, "29.50", p.Total.StringFixed(2)) // 20.00 + 8.00 + 1.50
	l := p.Lines[0]
	require.Equal(t, []any{Bin, "14.9", true, 0}, []any{l.Grade, l.Piece, l.InHand, l.LeadDays})
	require.Equal(t, []string{"holds 24 h", "92 % capacity"}, l.Shown)
	require.Equal(t, []job.QuoteLine{{
		Part: "pack", Grade: "bin", Qty: 1, Each: "20.00", Piece: "14.9", InHand: true,
		Note: "grey case; holds 24 h; 92 % capacity; shelf 2; piece 14.9 from job 14",
	}}, p.Chosen().Lines)
	require.Equal(t, "costs 10.75 USD less", o.Folded[0].Because[strings.LastIndex(o.Folded[0].Because, "costs"):],
		"the dearer pack: 30.00 + 8.00 + 2.25 = 40.25")
}

func TestWhichPiecesAreOffered(t *testing.T) {
	change := func(do func(s *job.Shelved)) []job.Shelved {
		pieces := lying()[:1]
		do(&pieces[0])
		return pieces
	}
	for name, c := range map[string]struct {
		pieces []job.Shelved
		want   map[string]string
	}{
		"as it is":         {change(func(*job.Shelved) {}), map[string]string{"b1": "40.25"}},
		"another part":     {change(func(s *job.Shelved) { s.Part = "starter" }), map[string]string{}},
		"taken":            {change(func(s *job.Shelved) { s.Drawn = 7 }), map[string]string{}},
		"sold":             {change(func(s *job.Shelved) { s.Gone.How = job.Sold }), map[string]string{}},
		"other money":      {change(func(s *job.Shelved) { s.Currency = "EUR" }), map[string]string{}},
		"no price":         {change(func(s *job.Shelved) { s.Asking = "" }), map[string]string{}},
		"a price that is":  {change(func(s *job.Shelved) { s.Asking = "a lot" }), map[string]string{}},
		"nothing shown":    {change(func(s *job.Shelved) { s.Shown = nil }), map[string]string{}},
		"for nothing":      {change(func(s *job.Shelved) { s.Asking = "0" }), map[string]string{"b1": "8.00"}},
		"what it is for":   {lying(), map[string]string{"b1": "40.25", "14.9": "29.50"}},
		"nothing in there": {nil, map[string]string{}},
	} {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, fromBin(t, edited(t), c.pieces, "pack.weak")) })
	}
}

// A class of part that never lies in the bin is not offered, though somebody put
// one there; nor is a piece that lacks what the trees ask for by now.
func TestAPieceIsHeldAgainstTheTreesOfToday(t *testing.T) {
	lib, sys := bench()
	lib.Parts["pack"].BinNeeds = []string{"Holds 24 h.", "Capacity"}
	pieces := append(lying(), job.Shelved{Name: "b9", Part: "switch", Shown: []string{"clicks"}, Asking: "1.00", Currency: "USD"})
	offered := func() (out []string) {
		o, err := Paths(lib, sys, verdict(sys, "pack.weak", "lever.bypassed"), edited(t), decimal.Zero, Choices{Pieces: pieces})
		require.NoError(t, err)
		for _, p := range o.Paths {
			for _, l := range p.FromBin() {
				out = append(out, l.Piece)
			}
		}
		return out
	}
	require.Empty(t, offered(), "nobody said what its capacity is")
	pieces[1].Shown = []string{"holds 24 h: yes, 11.1 V", "capacity, yes 92 %"}
	require.Equal(t, []string{"14.9"}, offered())
}

// The book's stock is for shops that keep no bin here. Once a part ever lay in the
// record's bin the record says what there is, also when the last one is taken.
func TestTheBooksStockIsForShopsWithoutABin(t *testing.T) {
	b := edited(t, "\nworth:", grades)
	has := func(pieces []job.Shelved) bool {
		for _, p := range offersFor(t, b, Choices{Pieces: pieces}, "pack.weak").Paths {
			if p.ID == "new-pack: pack=bin" {
				return true
			}
		}
		return false
	}
	require.True(t, has(nil))
	require.True(t, has(lying()[2:]), "of another part")
	require.False(t, has(lying()))
	taken := lying()[:1]
	taken[0].Drawn = 3
	require.False(t, has(taken))
	none := edited(t, "\nworth:", strings.Replace(grades, `"20.00", stock: 1`, `"20.00", stock: 0`, 1))
	require.NotContains(t, ids(offersFor(t, none, Choices{}, "pack.weak").Paths), "new-pack: pack=bin", "a line without stock is nothing")
}

// Two of a part are never put together from two pieces.
func TestAPieceIsOne(t *testing.T) {
	lib, sys := bench()
	lib.Repairs["new-pack"].Parts[0].Qty = 2
	o, err := Paths(lib, sys, verdict(sys, "pack.weak"), edited(t), decimal.Zero, Choices{Pieces: lying()})
	require.NoError(t, err)
	for _, p := range o.Paths {
		require.Empty(t, p.FromBin(), p.ID)
	}
}

// A bin full of one part crowds nothing else out: the cheapest are offered, of
// equal ones the first of the newest.
func TestAFullBinCrowdsNothingOut(t *testing.T) {
	var pieces []job.Shelved
	for i := range 500 {
		s := lying()[1]
		s.Name, s.Asking = fmt.Sprint("b", i), fmt.Sprint(20+i%2)
		pieces = append(pieces, s)
	}
	require.Equal(t, map[string]string{"b0": "29.50", "b1": "30.58"}, fromBin(t, edited(t), pieces, "pack.weak"))
	require.Contains(t, ids(offersFor(t, edited(t), Choices{Pieces: pieces}, "pack.weak").Paths), "rope-start: rope=aftermarket")
}

// Text of the record comes clean into what is shown.
func TestThePiecesWordsAreHarmless(t *testing.T) {
	s := lying()[0]
	s.Words, s.Place, s.Shown = "\x1b[2Jgrey", "a\nb", []string{"holds\x00"}
	p := offersFor(t, edited(t), Choices{Pieces: []job.Shelved{s}}, "pack.weak").Paths[0]
	require.NotContains(t, p.ID, "\x1b")
	require.NotContains(t, p.ID, "\n")
	require.NotContains(t, p.ID, "\x00")
}

func TestWhyAPieceIsNotOffered(t *testing.T) {
	lib, _ := bench()
	lib.Parts["pack"].BinNeeds = []string{"Holds 24 h."}
	b := edited(t)
	require.ErrorContains(t, b.NotOffered(lib, lying()[0]), "what was read is missing")
	held := lying()[0]
	held.Shown = []string{"Holds 24 h: yes"}
	require.NoError(t, b.NotOffered(lib, held))
	for say, change := range map[string]func(*job.Shelved){
		"not confirmed":                   func(s *job.Shelved) { s.Shown = []string{"Holds 24 h: 11.1 V"} },
		"Holds 24 h":                      func(s *job.Shelved) { s.Shown = []string{"runs"} },
		"never goes in the parts bin":     func(s *job.Shelved) { s.Part = "switch" },
		"no part is called":               func(s *job.Shelved) { s.Part = "gone" },
		"in EUR, the shop's money is USD": func(s *job.Shelved) { s.Currency = "EUR" },
		"asking price":                    func(s *job.Shelved) { s.Asking = "" },
	} {
		s := held
		change(&s)
		require.ErrorContains(t, b.NotOffered(lib, s), say)
	}
}

func TestToBin(t *testing.T) {
	lib, _ := bench()
	lib.Parts["pack"].BinNeeds = []string{"Holds 24 h.", "Capacity"}
	good := Used{Part: "starter", Words: " ten teeth ", Shown: []string{"9 A free", " ", "9 A free"}, Asking: "22", Place: "shelf 2"}
	got, err := edited(t).ToBin(lib, good)
	require.NoError(t, err)
	require.Equal(t, job.Binned{Part: "starter", Words: "ten teeth", Shown: []string{"9 A free"}, Asking: "22.00", Currency: "USD", Place: "shelf 2"}, got)
	got, err = (*PriceBook)(nil).ToBin(lib, good)
	require.NoError(t, err)
	require.Equal(t, []string{"22.00", ""}, []string{got.Asking, got.Currency})

	pack := Used{Part: "pack", Shown: []string{"1: yes, 11.1 V", "2: Yes 92 %", "3: new plug"}, Asking: "30"}
	got, err = edited(t).ToBin(lib, pack)
	require.NoError(t, err)
	require.Equal(t, []string{"Holds 24 h: yes, 11.1 V", "Capacity: Yes 92 %", "3: new plug"}, got.Shown)

	for say, change := range map[string]func(*Used){
		`did you mean "starter"`:             func(u *Used) { u.Part = "startr" },
		"its id stands in the parts":         func(u *Used) { u.Part = "\x1b[1mzzzzzzzzzz" },
		"not proved in both positions":       func(u *Used) { u.Part = "switch" },
		"with what was shown":                func(u *Used) { u.Shown = []string{"\t"} },
		"shown on it: 2 Capacity":            func(u *Used) { u.Part, u.Shown = "pack", []string{"holds 24 h: yes", "capacitor fine"} },
		"shown on it: 1 Holds 24 h (nothing": func(u *Used) { u.Part = "pack" },
		"write a point":                      func(u *Used) { u.Asking = "22,00" },
		"asking price":                       func(u *Used) { u.Asking = "" },
	} {
		u := good
		change(&u)
		_, err := edited(t).ToBin(lib, u)
		require.ErrorContains(t, err, say)
		require.NotContains(t, err.Error(), "\x1b")
	}
}

func TestProvedGood(t *testing.T) {
	_, sys := bench()
	volts, amps := &tree.Test{ID: "v"}, &tree.Test{ID: "a"}
	cleared := func(fault string, tests ...*tree.Test) walk.Clearing {
		c := walk.Clearing{Fault: sys.Fault(fault)}
		for _, test := range tests {
			c.Evidence = append(c.Evidence, walk.Evidence{Test: test, Says: "good"})
		}
		return c
	}
	both := walk.Verdict{Cleared: []walk.Clearing{cleared("pack.weak", volts, amps), cleared("pack.no-output", volts)}}
	evidence, err := ProvedGood(sys, both, &tree.Part{ID: "pack", Title: "Pack"})
	require.NoError(t, err)
	require.Len(t, evidence, 2, "each test once")

	removed := walk.Verdict{Cleared: []walk.Clearing{{Fault: sys.Fault("starter.open"), Removed: true}}}
	found := walk.Verdict{Cleared: both.Cleared[:1], Found: []walk.Finding{{Fault: sys.Fault("pack.no-output")}}}
	for say, c := range map[string]struct {
		v    walk.Verdict
		part string
	}{
		"not cleared: the starter is open": {walk.Verdict{}, "starter"},
		"not cleared: the starter":         {removed, "starter"}, // a conversion took it off: that proves nothing
		"found: the pack gives nothing":    {found, "pack"},
		"not cleared: the pack gives":      {walk.Verdict{Cleared: both.Cleared[:1]}, "pack"},
		"no test of this machine":          {both, "rope"},
	} {
		_, err := ProvedGood(sys, c.v, &tree.Part{ID: c.part, Title: "It"})
		require.ErrorContains(t, err, say)
	}
}

// What is asked for a piece is what the customer pays, whatever the markup on used parts
// that are bought: 20.00 + 48.00 x 10/60 + 7.5 % of 20.00 = 29.50. A used pack of the
// book at 20.00 with 50 % on it comes to 30.00 + 8.00 + 2.25 = 40.25.
func TestNoMarkupOnAPiece(t *testing.T) {
	b := edited(t, used...)
	b.Shop.Grades = map[string]shop.GradeTerms{"bin": {Markup: dec("50")}}
	piece := lying()[1]
	o := offersFor(t, b, Choices{Pieces: []job.Shelved{piece}}, "pack.weak")
	require.Equal(t, "29.50", o.Paths[0].Total.StringFixed(2))
	require.Equal(t, piece.Name, o.Paths[0].Chosen().Lines[0].Piece)
	o = offersFor(t, b, Choices{}, "pack.weak")
	require.Equal(t, "40.25", o.Paths[0].Total.StringFixed(2))
}
