package app

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
)

// shopAt runs the program on one record, so that several runs build on each other.
func shopAt(t testing.TB) (record string, run func(args ...string) (code int, out, errs string)) {
	t.Helper()
	record = filepath.Join(t.TempDir(), "record.db")
	return record, func(args ...string) (int, string, string) {
		var o, e bytes.Buffer
		code := Run(context.Background(), args, Streams{In: strings.NewReader(""), Out: &o, Err: &e}, testEnv(record))
		require.NotContains(t, o.String()+e.String(), "\x1b", "an escape came through")
		return code, o.String(), e.String()
	}
}

func fileOf(t testing.TB, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "table.csv")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	return name
}

const smallTable = `part,grade,price,supplier,number,date,note
starter,original,168.00,Nordtal,NT-10,2025-01-03,
starter,aftermarket,84.00,Südhang,4711,,"=HYPERLINK(""x"")"
battery-12v,aftermarket,54.00,,,,
`

// The demo's book goes out as a table, comes into the record, and goes out again as
// the same bytes.
func TestAPriceBookGoesOutAndComesBack(t *testing.T) {
	record, run := shopAt(t)
	first, second := filepath.Join(t.TempDir(), "1.csv"), filepath.Join(t.TempDir(), "2.csv")
	code, _, errs := run("prices", "export", first)
	require.Equal(t, ExitDone, code, errs)
	require.NoFileExists(t, record, "looking at prices makes no record")
	code, out, errs := run("prices", "import", first)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "changed 0, as before 0, gone 0")
	code, out, errs = run("prices", "export", second)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "The record's own prices.")
	one, err := os.ReadFile(first)
	require.NoError(t, err)
	two, err := os.ReadFile(second)
	require.NoError(t, err)
	require.Greater(t, bytes.Count(one, []byte("\n")), 100)
	require.Equal(t, string(one), string(two))
	code, out, _ = run("prices", "import", second, "--replace", "--dry-run")
	require.Equal(t, ExitDone, code)
	require.Contains(t, out, "New 0, changed 0")
	require.Contains(t, out, "gone 0")
}

func TestALookChangesNothing(t *testing.T) {
	record, run := shopAt(t)
	code, out, errs := run("prices", "import", fileOf(t, smallTable), "--dry-run")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "New 3")
	require.Contains(t, out, "nothing was changed")
	require.NoFileExists(t, record)
}

func TestAnImportShowsWhatChanges(t *testing.T) {
	_, run := shopAt(t)
	code, out, errs := run("prices", "import", fileOf(t, smallTable))
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "Taken into the record: 3 prices")
	require.Contains(t, out, "Rows without a date: 2.")
	next := "grade;part;price;number;Shelf;replaced by\noriginal;starter;176,40;NT-10;A3;NT-99\nbin;solenoid;12,00;NT-11;B1;\n"
	code, out, errs = run("prices", "import", fileOf(t, next), "--supplier", "nordtal", "--replace", "--date", "2026-02-01")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "New 1, changed 1, as before 0, gone 0") // the others are of other suppliers
	require.Contains(t, out, "solenoid, bin, Nordtal NT-11: 12.00", "the supplier as the book spells it")
	require.Contains(t, out, "starter, original, Nordtal NT-10: price 168.00 -> 176.40 (+5 %); date 2025-01-03 -> 2026-02-01; replaced by none -> NT-99")
	require.Contains(t, out, "Columns passed over: Shelf.")
	require.Contains(t, out, "NT-10 is replaced by NT-99, which has no price for starter")
	code, out, errs = run("prices", "import", fileOf(t, "part,grade,price,supplier,number\nstarter,original,1764.00,Nordtal,NT-10\n"), "--replace")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "New 0, changed 1, as before 0, gone 3")
	require.Contains(t, out, "(+900 %), look twice")
	code, out, _ = run("prices", "--json")
	require.Equal(t, ExitDone, code)
	var got struct {
		Prices []listedPrice `json:"prices"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Prices, 1)
	require.Equal(t, []string{"1764", "2026-02-01", "NT-99"}, []string{got.Prices[0].Price, got.Prices[0].Date, got.Prices[0].ReplacedBy}, "what the table has no column for stays")
}

// With a mistake nothing is taken, and every mistake is shown where it stands.
func TestATableWithMistakesIsNotTaken(t *testing.T) {
	record, run := shopAt(t)
	code, _, errs := run("prices", "import", fileOf(t, smallTable))
	require.Equal(t, ExitDone, code, errs)
	bad := fileOf(t, "part,grade,price,note\nstarter,original,170,\nstrater,original,\"1,234\",\x1b[31mred\nmains-cordset,bin,-4,3/8\" bolt\n")
	code, out, errs := run("prices", "import", bad, "--replace")
	require.Equal(t, ExitInput, code)
	require.Empty(t, out)
	for _, says := range []string{"table.csv:3:1: ", `did you mean "starter"`, "table.csv:3:18: ", "1234 or 1.234", "table.csv:4:1: mains-cordset never goes", "table.csv:4:19: ", "is negative", "table.csv:4:25: ", "5 to mend"} {
		require.Contains(t, errs, says)
	}
	db, err := recorddb.Open(t.Context(), record)
	require.NoError(t, err)
	defer db.Close()
	prices, err := db.Prices(t.Context())
	require.NoError(t, err)
	require.Len(t, prices, 3)
	require.Equal(t, "168", prices[0].Each.String())
}

// Numbers may go round only when the table meets the book.
func TestNumbersThatGoRoundInTheBookAreRefused(t *testing.T) {
	_, run := shopAt(t)
	const head = "part,grade,price,supplier,number,replaced by\n"
	code, _, errs := run("prices", "import", fileOf(t, head+"starter,original,168,Nordtal,A,B\n"))
	require.Equal(t, ExitDone, code, errs)
	for _, dry := range [][]string{{"--dry-run"}, nil} {
		code, _, errs = run(append([]string{"prices", "import", fileOf(t, head+"starter,original,168,Nordtal,B,A\n")}, dry...)...)
		require.Equal(t, ExitInput, code)
		require.Contains(t, errs, "A (the record), B (")
		require.Contains(t, errs, "table.csv:2:1)")
	}
	code, out, _ := run("prices", "find", "nordtal")
	require.Equal(t, ExitDone, code)
	require.Contains(t, out, "Nordtal A, replaced by B")
	require.NotContains(t, out, "Nordtal B")
}

func TestWhosePricesAreUsed(t *testing.T) {
	_, run := shopAt(t)
	first := func(args ...string) string {
		code, out, errs := run(args...)
		require.Equal(t, ExitDone, code, errs)
		line, _, _ := strings.Cut(out, "\n")
		return line
	}
	require.Equal(t, "The demo's prices, invented.", first("prices"))
	require.Equal(t, "Prices of "+pumpPrices+".", first("prices", "--prices", pumpPrices, "--trees", pumpTrees))
	code, _, errs := run("prices", "import", fileOf(t, smallTable))
	require.Equal(t, ExitDone, code, errs)
	require.Equal(t, "The record's own prices.", first("prices"))
	require.Equal(t, "Prices of "+pumpPrices+".", first("prices", "--prices", pumpPrices, "--trees", pumpTrees), "a file goes before the record")
	require.Equal(t, "The demo's prices, invented.", first("prices", "--demo"), "the demo knows nothing of the record")
	// Other trees: the record's parts are not theirs, and the bench opens all the same.
	require.Equal(t, "The record's own prices. 3 lines are left out: these trees don't have the part, or allow no used one.", first("prices", "--trees", pumpTrees))
}

// The note that stands by prices says whose they are.
func TestTheNoteSaysWhosePricesTheyAre(t *testing.T) {
	record, run := shopAt(t)
	note := func(p *program) string {
		p.env, p.now, p.streams = testEnv(record), func() int64 { return 1_780_000_000_000_000 }, Streams{Err: os.Stderr}
		b, shut, err := p.open(t.Context())
		require.NoError(t, err)
		shut()
		return b.PriceNote
	}
	require.Contains(t, note(&program{}), "invented, for the demo")
	require.Empty(t, note(&program{treeDir: pumpTrees, prices: pumpPrices}))
	code, _, errs := run("prices", "import", fileOf(t, smallTable))
	require.Equal(t, ExitDone, code, errs)
	require.Equal(t, "The prices are the record's own.", note(&program{}))
	require.Equal(t, "Prices of "+pumpPrices+", not the record's own.", note(&program{treeDir: pumpTrees, prices: pumpPrices}))
	require.Contains(t, note(&program{demo: true}), "invented, for the demo")
}

func TestPricesOnTheCommandLine(t *testing.T) {
	record, run := shopAt(t)
	table := fileOf(t, smallTable)
	code, _, errs := run("prices", "import", table)
	require.Equal(t, ExitDone, code, errs)
	for _, c := range []struct {
		code int
		says string
		args []string
	}{
		{ExitDone, "older than 180 days", []string{"prices", "show", "starter"}},
		{ExitDone, "It has no price", []string{"prices", "show", "solenoid"}},
		{ExitInput, `did you mean "starter"?`, []string{"prices", "show", "startre"}},
		{ExitDone, "old: 2025-01-03", []string{"prices", "find", "168", "nord"}[:3:3]},
		{ExitInput, "no price has", []string{"prices", "find", "zebra"}},
		{ExitUsage, "a word or two", []string{"prices", "find", " "}},
		{ExitUsage, "find, show, import and export", []string{"prices", "fnid"}},
		{ExitUsage, "comma or point", []string{"prices", "import", table, "--decimal", "dot"}},
		{ExitUsage, "or today", []string{"prices", "import", table, "--date", "31.3.2026"}},
		{ExitUsage, "one CSV file", []string{"prices", "import"}},
		{ExitUsage, "without --demo", []string{"prices", "import", table, "--demo"}},
		{ExitInput, "other-supplier", []string{"prices", "import", table, "--supplier", "Westufer"}},
		{ExitInput, "holds no price", []string{"prices", "import", fileOf(t, "part,grade,price\n"), "--replace"}},
		{ExitInput, "no such file", []string{"prices", "import", table + "x"}},
		{ExitInput, "not a plain file", []string{"prices", "import", t.TempDir()}},
		{ExitInput, "not UTF-8", []string{"prices", "import", record}},
		{ExitInput, "is the record", []string{"prices", "export", record}},
		{ExitInput, "was not written", []string{"prices", "export", filepath.Join(record, "x.csv")}},
		{ExitUsage, "one file at most", []string{"prices", "export", "a", "b"}},
		{ExitDone, "'=HYPERLINK", []string{"prices", "export"}},
	} {
		if len(c.args) > 1 && c.args[1] == "find" && c.code == ExitDone {
			c.args[2] = "nord"
		}
		code, out, errs := run(c.args...)
		require.Equal(t, c.code, code, "%v: %s%s", c.args, out, errs)
		require.Contains(t, out+errs, c.says, "%v", c.args)
	}
}

// manyRows is a table of n prices of parts that the trees have.
func manyRows(n int) string {
	var b strings.Builder
	b.WriteString("part,grade,supplier,number,price,core deposit,freight,lead days,returnable,stock,date,note\n")
	ids := []string{"starter", "battery-12v", "solenoid", "key-switch", "stator", "flywheel", "seat-switch", "cable-ground", "pack", "guard"}
	for i := range n {
		fmt.Fprintf(&b, "%s,%s,Supplier %d,NR-%05d/%d,%d.%02d,%d.00,6.50,%d,yes,%d,2026-0%d-11,Lot %d of the spring list\n",
			ids[i%len(ids)], []string{"original", "aftermarket"}[i/10%2], i%17, i, i%9, i%300, i%100, i%30, i%14, i%5, i%9+1, i)
	}
	return b.String()
}

// BenchmarkTenThousandPrices is the command itself: trees opened, the table read,
// compared and written to the disk. Open is what ten thousand prices add to the bench.
func BenchmarkTenThousandPrices(b *testing.B) {
	table := fileOf(b, manyRows(10_000))
	b.Run("import", func(b *testing.B) {
		for b.Loop() {
			_, run := shopAt(b)
			code, _, errs := run("prices", "import", table)
			require.Equal(b, ExitDone, code, errs)
		}
	})
	record, run := shopAt(b)
	code, _, errs := run("prices", "import", table)
	require.Equal(b, ExitDone, code, errs)
	p := &program{env: testEnv(record), now: func() int64 { return 1_780_000_000_000_000 }, streams: Streams{Err: os.Stderr}}
	lib, err := p.library()
	require.NoError(b, err)
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			own, err := p.recordedPrices(b.Context())
			require.NoError(b, err)
			_, err = p.priceBook(lib, own)
			require.NoError(b, err)
		}
	})
}
