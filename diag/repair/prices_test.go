package repair

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/money"
	"benchlead/diag/shape"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

func TestLoadPricesReadsEverything(t *testing.T) {
	b := book(t, `
shop:
  currency: EUR
  labour rate: 61.5
  minimum labour: "15.00"
  tax percent: 19
  tax on: both
  warn above percent: 40
  round to: 0.05
  diagnostic fee: 20
  fee credited: no
  consumables: 2
prices:
  - part: pack
    grade: bin
    price: "30.00"
    stock: 2
    lead days: 1
    returnable: yes
    freight: 1
    disposal: 2
    core deposit: 3
    note: "held 24 h\e[31m"
`)
	require.Equal(t, "EUR", b.Shop.Currency)
	require.Equal(t, "61.5", b.Shop.LabourRate.String())
	require.Equal(t, shop.TaxBoth, b.Shop.TaxOn)
	require.Equal(t, "0.05", b.Shop.RoundTo.String())
	require.False(t, b.Shop.FeeCredited)
	p := b.Prices[0]
	require.Equal(t, "held 24 h", p.Note, "escape sequences are taken out")
	require.Equal(t, []any{Bin, 2, 1, true}, []any{p.Grade, p.Stock, p.LeadDays, p.Returnable})
	require.Equal(t, []string{"1", "2", "3"}, []string{p.Freight.String(), p.Disposal.String(), p.Core.String()})
	require.Equal(t, source.Place{File: "prices.yaml", Line: 14, Column: 5}, p.Place)
}

const head = "shop: {currency: USD, labour rate: 48, tax percent: 7, tax on: none, warn above percent: 50}\n"

func TestLoadPricesRefuses(t *testing.T) {
	one := func(price string) string { return "prices: [" + price + "]\n" }
	tests := []struct {
		name, text string // ¤ marks where it is reported
		code       source.Code
		says       string
	}{
		{"nothing", "¤", shape.CodeEmpty, "holds nothing"},
		{"not YAML", "prices: {a: [¤}", shape.CodeSyntax, "opened before"},
		{"a list", "¤- a", shape.CodeWrongKind, "keys and values"},
		{"no prices", "¤worth: {a: 1}", shape.CodeMissing, `lacks "prices"`},
		{"unknown key", "prices: []\n¤wroth: {}\n", shape.CodeUnknownField, `did you mean "worth"?`},
		{"key twice", one(`{part: a, ¤part: b, grade: bin, price: 1}`), shape.CodeDuplicateKey, "twice"},
		{"negative", one(`{part: a, grade: bin, price: ¤"-1"}`), money.CodeAmount, "negative"},
		{"not a number", one(`{part: a, grade: bin, price: ¤free}`), money.CodeAmount, "not an amount"},
		{"absurd", one(`{part: a, grade: bin, price: ¤9999999}`), money.CodeAmount, "decimal point"},
		{"comma", one(`{part: a, grade: bin, price: ¤"1,50"}`), money.CodeAmount, "comma"},
		{"grade", one(`{part: a, grade: ¤orignal, price: 1}`), money.CodeWord, `did you mean "original"?`},
		{"stock", one(`{part: a, grade: bin, price: 1, stock: ¤-1}`), money.CodeCount, "whole number"},
		{"lead days", one(`{part: a, grade: bin, price: 1, lead days: ¤1.5}`), money.CodeCount, "whole number"},
		{"yes", one(`{part: a, grade: bin, price: 1, returnable: ¤maybe}`), shape.CodeWrongKind, "neither true nor false"},
		{"empty", one(`{part: ¤"", grade: bin, price: 1}`), shape.CodeNothing, "empty"},
		{"list for a value", one(`{part: ¤[a], grade: bin, price: 1}`), shape.CodeWrongKind, "one value"},
		{"alias", one(`{part: &a x, grade: bin, price: 1}, {part: ¤*a, grade: original, price: 1}`), shape.CodeAlias, "write it out"},
		{"tag", one(`{part: ¤!!str x, grade: bin, price: 1}`), shape.CodeTag, "tag"},
		{"merge", one(`{¤<<: {part: a}, part: b, grade: bin, price: 1}`), shape.CodeAlias, "merges"},
		{"same line twice", one(`{part: a, grade: bin, price: 1}, ¤{part: a, grade: bin, price: 2}`), CodeTwice, "on line 1 already"},
		{"broken bytes", "prices: ¤\xff", source.CodeNotText, "UTF-8"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before, after, _ := strings.Cut(tt.text, "¤")
			lines := strings.Split(before, "\n")
			b, issues := LoadPrices(source.File{Name: "prices.yaml", Text: before + after})
			require.Nil(t, b)
			i := slices.IndexFunc(issues, func(i source.Issue) bool { return i.Code == tt.code })
			require.GreaterOrEqual(t, i, 0, "%v", issues)
			require.Contains(t, issues[i].Message+" "+issues[i].Hint, tt.says)
			require.Equal(t, []int{len(lines), len(lines[len(lines)-1]) + 1}, []int{issues[i].Place.Line, issues[i].Place.Column}, "%s", issues[i])
		})
	}
	_, second := LoadPrices(source.File{Name: "p", Text: "prices: []\n---\na: b\n"})
	require.Equal(t, shape.CodeSecondDocument, second[0].Code)
}

func TestLoadPricesReportsAllAtOnce(t *testing.T) {
	_, issues := LoadPrices(source.File{Name: "p", Text: "prices:\n- {part: a, grade: x, price: -1}\n- {grade: bin, prise: 1}\n"})
	require.Len(t, issues, 4, "%v", issues) // grade, price; prise, which was meant for price, and no part
}

func TestCheckAgainstLibrary(t *testing.T) {
	lib, _ := bench()
	b := book(t, head+`prices:
- {part: pakc, grade: original, price: 1}
- {part: switch, grade: bin, price: 1}
- {part: pack, grade: bin, price: 1}
worth: {buton: 5, walk-behind: 6, button: 7}
`)
	issues := b.Check(lib)
	require.Equal(t, []source.Code{CodeUnknownPart, CodeNeverBin, CodeUnknownKind}, []source.Code{issues[0].Code, issues[1].Code, issues[2].Code})
	require.Len(t, issues, 3)
	require.Equal(t, `did you mean "pack"?`, issues[0].Hint)
	require.Contains(t, issues[1].Message, "not proved in both positions")
	require.Equal(t, 6, issues[2].Place.Line)
}

func FuzzLoadPrices(f *testing.F) {
	f.Add(shopText)
	f.Add("prices: [{part: *x}]")
	f.Add("{{}: 1}\nprices: {a: b}\nworth: []\n")
	f.Fuzz(func(t *testing.T, text string) {
		b, issues := LoadPrices(source.File{Name: "p", Text: text})
		require.Equal(t, b == nil, len(issues) > 0)
	})
}

// Every mistake of the broken book is reported at its line, and nothing else.
func TestBrokenBook(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "money", "broken.yaml"))
	require.NoError(t, err)
	b, issues := LoadPrices(source.File{Name: "broken.yaml", Text: string(data)})
	require.Nil(t, b)
	want, got := map[int][]string{}, map[int][]string{}
	for i, line := range strings.Split(string(data), "\n") {
		if _, codes, ok := strings.Cut(line, " # "); ok {
			want[i+1] = strings.Fields(codes)
		}
	}
	for _, i := range issues {
		got[i.Place.Line] = append(got[i.Place.Line], string(i.Code))
	}
	for line := range want {
		require.ElementsMatch(t, want[line], got[line], "line %d", line)
	}
	require.Len(t, got, len(want), "%v", issues)
}

// The shipped price book fits the shipped trees: every part of a repair has a
// price, and nothing is priced that no library has.
func TestShippedPricesFitTheTrees(t *testing.T) {
	root := filepath.Join("..", "..", "trees")
	var files []source.File
	require.NoError(t, filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || filepath.Ext(name) != ".yaml" || strings.Contains(name, "demo") {
			return err
		}
		data, err := os.ReadFile(name)
		files = append(files, source.File{Name: name, Text: string(data)})
		return err
	}))
	lib, issues := tree.Load(files)
	require.Empty(t, issues, "%v", issues)
	data, err := os.ReadFile(filepath.Join(root, "demo", "prices.yaml"))
	require.NoError(t, err)
	b, issues := LoadPrices(source.File{Name: "prices.yaml", Text: string(data)})
	require.Empty(t, issues, "%v", issues)
	require.Empty(t, b.Check(lib), "%v", b.Check(lib))
	for id, r := range lib.Repairs {
		for _, use := range r.Parts {
			require.NotEmpty(t, b.offers(use.Part), "%s needs %s, which has no price", id, use.Part)
		}
	}
	for id, sys := range lib.Systems {
		require.True(t, b.worthOf(sys).IsPositive(), id)
	}
}
