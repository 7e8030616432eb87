package pricebook

import (
	"fmt"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/repair"
)

func titles(part string) string { return shelf().Parts[part].Title }

func TestFind(t *testing.T) {
	book := bookOf(t, stored)
	for words, want := range map[string][]string{
		"":                 {"starter N-1", "starter S-9", "cable ", "pack N-7"},
		"start":            {"starter N-1", "starter S-9"},
		"MOTOR":            {"starter N-1", "starter S-9"}, // by the part's name
		"nord orig":        {"starter N-1", "pack N-7"},
		"orig nord star":   {"starter N-1"},
		"sü":               {"starter S-9"},
		"7":                {"pack N-7"},
		"n-7":              {"pack N-7"},
		"arter":            nil, // not a beginning
		"starter cable":    nil,
		"spray":            {"cable "},
		"  from   sprayer": {"cable "},
	} {
		found, all := Find(book, titles, words, 9)
		require.Equal(t, want, parts(found), words)
		require.Equal(t, len(want), all, words)
	}
	_, all := Find(book, nil, "motor", 9)
	require.Zero(t, all)
	_, all = Find(nil, titles, "x", 9)
	require.Zero(t, all)
	found, all := Find(book, titles, "orig", 1)
	require.Equal(t, []string{"starter N-1"}, parts(found), "no more than are wanted")
	require.Equal(t, 2, all, "and how many there are")
}

// A line is found by any beginnings of its own words, in any order.
func TestEveryLineIsFoundByItsOwnWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		own := strings.FieldsFunc(strings.Join([]string{p.Part, string(p.Grade), p.Supplier, p.Number, p.Set, p.Note}, " "), func(r rune) bool {
			return strings.ContainsRune(" ,;\"'=+/＝-@", r)
		})
		var typed []string
		for range rapid.IntRange(1, 4).Draw(t, "words") {
			word := []rune(rapid.SampledFrom(own).Draw(t, "word"))
			typed = append(typed, string(word[:rapid.IntRange(1, len(word)).Draw(t, "letters")]))
		}
		_, all := Find([]repair.Price{p}, nil, strings.Join(typed, " "), 1)
		require.Equal(t, 1, all, "%q", typed)
	})
}

// large is a table of a shop with many suppliers, in the words of its file.
func large(n int) string {
	var b strings.Builder
	b.WriteString("part,grade,supplier,number,price,core deposit,freight,lead days,returnable,stock,date,note\n")
	ids := []string{"pack", "cable", "starter", "switch"}
	for i := range n {
		fmt.Fprintf(&b, "%s,%s,Supplier %d,NR-%05d/%d,%d.%02d,%d.00,6.50,%d,yes,%d,2026-0%d-11,Lot %d of the spring list\n",
			ids[i%4], []string{"original", "aftermarket"}[i/4%2], i%17, i, i%9, i%300, i%100, i%30, i%14, i%5, i%9+1, i)
	}
	return b.String()
}

func BenchmarkTenThousand(b *testing.B) {
	text, lib := large(10_000), shelf()
	list, issues := read(b, text, Options{Library: lib})
	require.Empty(b, issues)
	require.Len(b, list.Prices, 10_000)
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			f, _ := Open("t.csv", []byte(text))
			if _, issues := Read(f, Options{Library: lib}); len(issues) > 0 {
				b.Fatal(issues)
			}
		}
	})
	b.Run("compare", func(b *testing.B) {
		for b.Loop() {
			Compare(list.Prices, list, true, "")
		}
	})
	for _, words := range []string{"s", "sup 11", "nothing-like-it", "lot 77 spring start"} {
		b.Run("find "+words, func(b *testing.B) {
			for b.Loop() {
				Find(list.Prices, titles, words, 40)
			}
		})
	}
	require.Equal(b, decimal.Zero.String(), list.Prices[0].Disposal.String())
}
