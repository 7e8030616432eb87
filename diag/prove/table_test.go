package prove

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/source"
)

// stored is a table as a person could have typed it.
const stored = `# made by hand
draws 30
seed 7

tree system fault draws found group close masked missed wrong min left
no-run spray-pump bat.weak 30 20 5 2 1 1 1 12.5 0.25
no-run spray-pump no fault 10 0 0 0 0 0 0 4 0
`

func TestATableIsRead(t *testing.T) {
	table, issues := ReadTable(source.File{Name: "t", Text: stored})
	require.Empty(t, issues)
	require.Equal(t, Table{Draws: 30, Seed: 7, Rows: []Row{
		{Tree: "no-run", System: "spray-pump", Fault: "bat.weak", Counts: Counts{Draws: 30, Found: 20, Group: 5, Close: 2, Masked: 1, Missed: 1, Wrong: 1}, Minutes: 12.5, Left: 0.25},
		{Tree: "no-run", System: "spray-pump", Fault: "no fault", Counts: Counts{Draws: 10}, Minutes: 4},
	}}, table)
}

func TestABadTableSaysWhereAndWhat(t *testing.T) {
	for _, c := range []struct{ name, old, is, says string }{
		{"no draws", "draws 30\n", "", "t:7:1: the file does not say how many draws"},
		{"no seed", "seed 7\n", "", "t:7:1: the file does not say which seed"},
		{"draws of nothing", "draws 30", "draws 0", `t:2:7: a number of machines is a whole number from 1 to 100000, not "0"`},
		{"too many draws", "draws 30", "draws 100001", "t:2:7: a number of machines"},
		{"draws in words", "draws 30", "draws many", "t:2:7: a number of machines"},
		{"a seed below 0", "seed 7", "seed -7", `t:3:6: the seed is a whole number from 0 to 18446744073709551615, not "-7"`},
		{"a seed too large", "seed 7", "seed 18446744073709551616", "t:3:6: the seed"},
		{"an unknown line", "seed 7", "sed 7", "t:3:1: before the rows stand"},
		{"columns in another order", "found group", "group found", "t:5:1: before the rows stand"},
		{"a column too few", " left\n", "\n", "t:5:1: before the rows stand"},
		{"a figure too few", "5 2 1 1 1", "5 2 1 1", "t:6:1: a row has a tree, a system, a fault and 9 figures"},
		{"a figure too few after two words", "10 0", "0", `t:7:22: a number of machines is a whole number from 0 to 100000, not "fault"`},
		{"a name too few", "spray-pump bat.weak ", "", "t:6:1: a row has a tree, a system, a fault and 9 figures"},
		{"a figure below 0", "5 2 1 1 1", "5 -2 1 1 1", `t:6:36: a number of machines is a whole number from 0 to 100000, not "-2"`},
		{"a figure with a point", "5 2 1 1 1", "5 2.0 1 1 1", "t:6:36: a number"},
		{"a figure too large", "5 2 1 1 1", "5 99999999999999999999 1 1 1", "t:6:36: a number"},
		{"an average below 0", "12.5", "-1", `t:6:44: an average is a number from 0 to 1e+06, not "-1"`},
		{"an average of nothing", "12.5", "NaN", "t:6:44: an average"},
		{"more than the draws", "30 20", "29 20", "t:6:28: the figures add up to more than the draws"},
		{"a row twice", "no-run spray-pump no fault", "no-run spray-pump bat.weak", "t:7:1: bat.weak in no-run stands in line 6 already"},
		{"a name that acts on a terminal", "bat.weak", "bat\x1b[2J", "t:6:19: the name has characters that can't be shown"},
		{"a merge left half done", "no-run spray-pump no", "<<<<<<< HEAD\nno-run spray-pump no", "t:7:1: a row has"},
		{"nothing but the head", stored[strings.Index(stored, "no-run"):], "", "t:6:1: the file has no rows"},
		{"nothing", stored, "", "t:1:1: the file does not say how many draws"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, 1, strings.Count(stored, c.old))
			_, issues := ReadTable(source.File{Name: "t", Text: strings.Replace(stored, c.old, c.is, 1)})
			require.NotEmpty(t, issues)
			require.Contains(t, issues[0].String(), c.says)
			require.Contains(t, issues[0].Hint, "benchlead prove --store FILE")
		})
	}
}

// A name that is longer than its column moves the figures of its own line only.
func TestEachRowIsALineOfItsOwn(t *testing.T) {
	table := Table{Draws: 30, Seed: 7, Rows: []Row{
		{Tree: "a", System: "s", Fault: "short", Counts: Counts{Draws: 30, Found: 30}, Minutes: 7.14, Left: 1.0 / 3},
		{Tree: "a", System: "s", Fault: strings.Repeat("long", 20), Counts: Counts{Draws: 30, Wrong: 30}},
	}}
	with := strings.Split(written(t, table), "\n")
	table.Rows = table.Rows[:1]
	without := strings.Split(written(t, table), "\n")
	require.Len(t, with, len(without)+1)
	require.Equal(t, without[:len(without)-1], with[:len(without)-1])
	require.Regexp(t, `^a +s +short +30 +30 +0 +0 +0 +0 +0 +7\.1 +0\.33$`, with[len(without)-2])
}

func written(t require.TestingT, table Table) string {
	var out bytes.Buffer
	require.NoError(t, WriteTable(&out, table))
	return out.String()
}

func TestAFaultThatCouldNotBeRunIsNotStored(t *testing.T) {
	var out bytes.Buffer
	err := WriteTable(&out, Table{Draws: 1, Rows: []Row{{Tree: "a", System: "s", Fault: "f", Failed: "no current"}}})
	require.EqualError(t, err, "f in a could not be run, so it has no figures: no current")
	require.Empty(t, out.String())
}

func TestWhatIsWrittenIsReadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		table := anyTable(t)
		got, issues := ReadTable(source.File{Name: "t", Text: written(t, table)})
		require.Empty(t, issues)
		require.Equal(t, table, got)
	})
}

// anyTable draws a table with up to three faults in each of up to three trees.
func anyTable(t *rapid.T) Table {
	out := Table{Draws: rapid.IntRange(1, MaxDraws).Draw(t, "draws"), Seed: rapid.Uint64().Draw(t, "seed")}
	for _, tree := range []string{"a", "b-tree", "c"}[:rapid.IntRange(1, 3).Draw(t, "trees")] {
		for _, fault := range []string{"f.one", "f.two", "no fault"}[:rapid.IntRange(1, 3).Draw(t, "faults")] {
			row := Row{Tree: tree, System: "s", Fault: fault}
			for _, n := range row.Counts.figures()[1:] {
				*n = rapid.IntRange(0, 1000).Draw(t, "figure")
				row.Counts.Draws += *n
			}
			row.Minutes = float64(rapid.IntRange(0, 2000).Draw(t, "tenths")) / 10
			row.Left = float64(rapid.IntRange(0, 2000).Draw(t, "hundredths")) / 100
			out.Rows = append(out.Rows, row)
		}
	}
	return out
}

// The pump has a healthy machine and four faults in each of its two trees; a dead
// charger alone never comes in with a complaint that leads to no-run.
func TestTheTableHoldsWhatTheReportHas(t *testing.T) {
	r := proved(t, pump(t), Options{})
	table := r.Table()
	require.Equal(t, 30, table.Draws)
	require.Equal(t, uint64(1), table.Seed)
	got := map[string]Counts{}
	for _, row := range table.Of([]string{"no-run"}).Rows {
		require.Equal(t, "no-run", row.Tree)
		got[row.Fault] = row.Counts
	}
	require.Len(t, got, 5)
	require.Equal(t, Counts{Draws: 30, Found: 30}, got["sw.open"])
	require.Equal(t, Counts{}, got["chg.dead"])
	require.Contains(t, got, "no fault")
	require.Len(t, table.Of(nil).Rows, 10)
}

// Whatever the file holds, reading it ends; what is read can be written, and is
// then the same.
func FuzzReadTable(f *testing.F) {
	f.Add(stored)
	f.Add("draws 1\nseed 0\n" + strings.Join(columns, " ") + "\na b c d 1 0 0 0 0 0 1 1.26 0x1p-3\r\n#")
	f.Add("draws\nseed\n tree \x1b é 1")
	f.Fuzz(func(t *testing.T, text string) {
		file, issues := source.Open("t", []byte(text))
		if file == nil {
			require.NotEmpty(t, issues)
			return
		}
		table, issues := ReadTable(*file)
		for _, i := range issues {
			require.Equal(t, source.Clean(i.Render(file)), i.Render(file))
			require.LessOrEqual(t, i.Place.Line, strings.Count(file.Text, "\n")+1)
		}
		if len(issues) > 0 {
			return
		}
		again, issues := ReadTable(source.File{Name: "t", Text: written(t, table)})
		require.Empty(t, issues)
		require.Equal(t, table, again)
	})
}
