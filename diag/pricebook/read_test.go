package pricebook

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// shelf is a library of four parts, one of which never goes in the bin.
func shelf() *tree.Library {
	return &tree.Library{Parts: map[string]*tree.Part{
		"pack": {ID: "pack", Title: "Battery pack"}, "cable": {ID: "cable", Title: "Ground cable"},
		"starter": {ID: "starter", Title: "Starter motor"},
		"switch":  {ID: "switch", Title: "Lever switch", NoBin: "not proved in both positions"},
	}}
}

func read(t testing.TB, text string, o Options) (List, source.Issues) {
	t.Helper()
	if o.Library == nil {
		o.Library = shelf()
	}
	f, issues := Open("t.csv", []byte(text))
	if len(issues) > 0 {
		return List{}, issues
	}
	return Read(f, o)
}

func TestReadTakesEverything(t *testing.T) {
	list, issues := read(t, "\uFEFFPart;Grade;Vendor;Part No.;Unit price;Core;Freight;Disposal;On hand;LEAD_TIME;Returnable;As of;Superseded by;Kit;Remarks;Shelf\r\n"+
		"starter;Original;Nordtal;0042;\"1.084,50\";25;6,5;;3;5;Y;2026-03-31;0043;starter and drive;\"says \"\"new\"\",\nsecond line\";A3\r\n"+
		";;;;;;;;;;;;;;;\r\n"+
		"pack;BIN;;;60,00;;;;;;;;;;\x1b[31m'=1+1;\r\n", Options{Supplier: "", Currency: "EUR"})
	require.Empty(t, issues, "%v", issues)
	require.Equal(t, []Column{{"Shelf", source.Place{File: "t.csv", Line: 1, Column: 122, Length: 5}}}, list.Ignored)
	require.Equal(t, 1, list.Undated)
	require.Len(t, list.Prices, 2)
	p := list.Prices[0]
	require.Equal(t, []string{"1084.5", "25", "6.5", "0"}, []string{p.Each.String(), p.Core.String(), p.Freight.String(), p.Disposal.String()})
	p.Each, p.Core, p.Freight, p.Disposal = repair.Price{}.Each, repair.Price{}.Core, repair.Price{}.Freight, repair.Price{}.Disposal
	require.Equal(t, repair.Price{
		Part: "starter", Grade: repair.Original, Supplier: "Nordtal", Number: "0042", Stock: 3, LeadDays: 5, Returnable: true,
		Date: "2026-03-31", ReplacedBy: "0043", Set: "starter and drive", Note: `says "new", second line`,
		Place: source.Place{File: "t.csv", Line: 2, Column: 1, Length: 7},
	}, p)
	require.Equal(t, []any{repair.Bin, "=1+1"}, []any{list.Prices[1].Grade, list.Prices[1].Note}, "escapes are taken out, and the apostrophe that guards")
}

func TestTheSeparatorIsTold(t *testing.T) {
	for _, comma := range []string{",", ";", "\t"} {
		list, issues := read(t, strings.ReplaceAll("\n \nprice,part,grade\n60,pack,bin\n", ",", comma), Options{})
		require.Empty(t, issues, "%q: %v", comma, issues)
		require.Equal(t, "60", list.Prices[0].Each.String())
		require.Equal(t, 4, list.Prices[0].Place.Line)
	}
}

// What the caller knows of the list goes into rows that don't say it.
func TestWhatIsKnownOfTheList(t *testing.T) {
	list, issues := read(t, "part,grade,price,supplier,date,currency\npack,bin,60,,,\npack,original,80,NORDTAL,2025-01-01,eur\n",
		Options{Supplier: "Nordtal", Date: "2026-01-31", Currency: "EUR"})
	require.Empty(t, issues, "%v", issues)
	require.Equal(t, []string{"Nordtal", "2026-01-31", "Nordtal", "2025-01-01"},
		[]string{list.Prices[0].Supplier, list.Prices[0].Date, list.Prices[1].Supplier, list.Prices[1].Date})
	require.Zero(t, list.Undated)
	list, issues = read(t, "part,grade,price,supplier\npack,bin,60,nordtal\npack,original,80,süd\npack,aftermarket,80,SÜD\n", Options{Known: []string{"Nordtal"}})
	require.Empty(t, issues)
	require.Equal(t, []string{"Nordtal", "süd", "süd"}, []string{list.Prices[0].Supplier, list.Prices[1].Supplier, list.Prices[2].Supplier}, "one spelling of each")
}

// Each file of testdata/money/tables has beside it every problem that must be
// reported: line, column and code.
func TestBadTables(t *testing.T) {
	folder := filepath.Join("..", "..", "testdata", "money", "tables")
	names, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(names), 15)
	for _, name := range names {
		t.Run(filepath.Base(name), func(t *testing.T) {
			data, err := os.ReadFile(name)
			require.NoError(t, err)
			want, err := os.ReadFile(strings.TrimSuffix(name, ".csv") + ".want")
			require.NoError(t, err)
			list, issues := read(t, string(data), Options{Currency: "USD", Supplier: "", Library: shelf()})
			require.Empty(t, list.Prices, "nothing is taken from a table with a mistake")
			var got []string
			for _, i := range issues {
				got = append(got, fmt.Sprintf("%d:%d %s", i.Place.Line, i.Place.Column, i.Code))
				require.NotRegexp(t, "[\x00-\x09\x0b-\x1f\x7f]", i.Render(nil))
				require.NotEmpty(t, i.Hint, i.Message)
			}
			require.Equal(t, strings.TrimSpace(string(want)), strings.Join(got, "\n"), "%v", issues)
		})
	}
}

// A table of a thousand mistakes and more tells the first thousand, and how many more.
func TestTooManyMistakes(t *testing.T) {
	_, issues := read(t, "part,grade,price\n"+strings.Repeat("pack,used,1\n", 1200), Options{})
	require.Len(t, issues, mostIssues+1)
	last := issues[mostIssues]
	require.Equal(t, CodeMany, last.Code)
	require.Contains(t, last.Message, "1399 more") // 1200 grades, and 1199 lines twice
	require.Equal(t, issues[mostIssues-1].Place.Line, last.Place.Line)
}

func TestATooLargeTable(t *testing.T) {
	_, issues := Open("t.csv", []byte(strings.Repeat(" ", MaxBytes+1)))
	require.Equal(t, source.CodeTooBig, issues[0].Code)
}
