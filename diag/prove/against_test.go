package prove

import (
	"bytes"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// figure sets one figure of the first row.
func figure(set func(c *Counts)) func(t *Table) {
	return func(t *Table) { set(&t.Rows[0].Counts) }
}

func TestADropIsSeen(t *testing.T) {
	was := Table{Draws: 30, Seed: 1, Rows: []Row{
		{Tree: "a", System: "s", Fault: "one", Counts: Counts{Draws: 30, Found: 20, Group: 5, Close: 2, Masked: 1, Missed: 1, Wrong: 1}, Minutes: 50, Left: 1},
		{Tree: "a", System: "s", Fault: "two", Counts: Counts{Draws: 30, Found: 30}},
		{Tree: "b", System: "s", Fault: "one", Counts: Counts{Draws: 30, Found: 30}},
		{Tree: "b", System: "s", Fault: "two", Counts: Counts{Draws: 30, Found: 30}},
	}}
	for _, c := range []struct {
		name  string
		bend  func(t *Table)
		worse []string // as "tree fault says"
		other int
	}{
		{"nothing changed", func(*Table) {}, nil, 0},
		{"fewer found", figure(func(c *Counts) { c.Found = 19 }), []string{"a one found, by itself or in a group: 24, was 25"}, 0},
		{"fewer in a group", figure(func(c *Counts) { c.Group = 3 }), []string{"a one found, by itself or in a group: 23, was 25"}, 0},
		{"more close", figure(func(c *Counts) { c.Close = 3 }), []string{"a one close: 3, was 2"}, 0},
		{"more masked", figure(func(c *Counts) { c.Masked = 2 }), []string{"a one masked: 2, was 1"}, 0},
		{"more missed", figure(func(c *Counts) { c.Missed = 2 }), []string{"a one missed: 2, was 1"}, 0},
		{"more wrong", figure(func(c *Counts) { c.Wrong = 2 }), []string{"a one wrong: 2, was 1"}, 0},
		{"found for wrong", figure(func(c *Counts) { c.Found, c.Wrong = 18, 3 }), []string{"a one found, by itself or in a group: 23, was 25; wrong: 3, was 1"}, 0},
		{"one better, one worse", figure(func(c *Counts) { c.Missed, c.Masked = 0, 2 }), []string{"a one masked: 2, was 1"}, 0},
		{"found instead of a group", figure(func(c *Counts) { c.Found, c.Group = 25, 0 }), nil, 1},
		{"a group instead of found", figure(func(c *Counts) { c.Found, c.Group = 0, 25 }), nil, 1},
		{"nothing missed any more", figure(func(c *Counts) { c.Found, c.Missed = 21, 0 }), nil, 1},
		{"more machines, all else the same", figure(func(c *Counts) { c.Draws = 31 }), nil, 1},
		{"a minute and a tenth more", func(t *Table) { t.Rows[0].Minutes = 51.1 }, nil, 1},
		{"more minutes", func(t *Table) { t.Rows[0].Minutes = 51.2 }, []string{"a one slower: 51.2 min on average, was 50.0"}, 0},
		{"fewer minutes", func(t *Table) { t.Rows[0].Minutes = 20 }, nil, 1},
		{"more left", func(t *Table) { t.Rows[0].Left = 1.04 }, []string{"a one more left neither found nor cleared: 1.04 on average, was 1.00"}, 0},
		{"hardly more left", func(t *Table) { t.Rows[0].Left = 1.02 }, nil, 1},
		{"no more than a file shows", func(t *Table) { t.Rows[0].Minutes, t.Rows[0].Left = 50.04, 1.004 }, nil, 0},
		{"it could not be run", func(t *Table) { t.Rows[0].Failed = "no current" }, []string{"a one could not be run: no current"}, 0},
		{"the last row is worse", func(t *Table) { t.Rows[3].Counts = Counts{Draws: 30, Found: 29, Wrong: 1} }, []string{"b two found, by itself or in a group: 29, was 30; wrong: 1, was 0"}, 0},
		{"a fault gone", func(t *Table) { t.Rows = t.Rows[1:] }, []string{"a one is in the table and is no longer proved"}, 0},
		{"a tree gone", func(t *Table) { t.Rows = t.Rows[2:] }, []string{"a  is in the table and is no longer proved"}, 0},
		{"all gone", func(t *Table) { t.Rows = nil }, []string{"a  is in the table and is no longer proved", "b  is in the table and is no longer proved"}, 0},
		{"a new fault", func(t *Table) { t.Rows = append(t.Rows, Row{Tree: "a", System: "s", Fault: "new"}) }, []string{"a new is not in the table"}, 0},
		{"a new tree", func(t *Table) {
			t.Rows = append(t.Rows, Row{Tree: "c", System: "s", Fault: "one"}, Row{Tree: "c", System: "s", Fault: "two"})
		}, []string{"c  is not in the table"}, 0},
		{"the tree in another system", func(t *Table) { t.Rows[0].System, t.Rows[1].System = "z", "z" }, []string{"a  is in the table and is no longer proved", "a  is not in the table"}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			now := was
			now.Rows = slices.Clone(was.Rows)
			c.bend(&now)
			got := now.Against(was)
			var worse []string
			for _, w := range got.Worse {
				says := w.Tree + " " + w.Fault + " "
				for i, s := range w.Says {
					if i > 0 {
						says += "; "
					}
					says += s
				}
				worse = append(worse, says)
			}
			require.Equal(t, c.worse, worse)
			require.Equal(t, c.other, got.Other)
			require.Equal(t, len(c.worse) > 0, got.Err("t") != nil)
		})
	}
}

// One more machine in which a fault is found is no loss; taking it back is one.
func TestATableHoldsAgainstItselfAndOneNoBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		was := anyTable(t)
		require.Equal(t, Comparison{Same: len(was.Rows)}, was.Against(was))
		now := was
		now.Rows = slices.Clone(was.Rows)
		row := &now.Rows[rapid.IntRange(0, len(now.Rows)-1).Draw(t, "row")].Counts
		row.Found++
		row.Draws++
		require.Equal(t, Comparison{Other: 1, Same: len(was.Rows) - 1}, now.Against(was))
		require.Len(t, was.Against(now).Worse, 1)
	})
}

// A motor condemned on its standing alone is wrong for an open switch: that row
// is named, with both figures, the walk that shows it and what to do.
func TestADropIsShownWithItsWalk(t *testing.T) {
	was := proved(t, pump(t), Options{}).Table()
	r := proved(t, pump(t, "by: {held: [holds], motor: [there], turns: [stands]}", "by: {turns: [stands]}"), Options{})
	c := r.Table().Against(was)
	require.NotEmpty(t, c.Worse)
	var out bytes.Buffer
	require.NoError(t, AgainstText(&out, r, c, "kept.txt"))
	require.Contains(t, out.String(), "WORSE: no-run (spray-pump), sw.open: found, by itself or in a group: 0, was 30; wrong: 30, was 0\n")
	require.Regexp(t, `(?m)^    stored +30 +30 +0 +0 +0 +0 +0 +[\d.]+ +[\d.]+$`, out.String())
	require.Regexp(t, `(?m)^    now +30 +0 +0 +0 +0 +0 +30 +[\d.]+ +[\d.]+$`, out.String())
	require.Contains(t, out.String(), "finds mot.open, which is not there: step no-run/dead")
	require.ErrorContains(t, c.Err("kept.txt"), "mend the trees named")
	require.ErrorContains(t, c.Err("kept.txt"), "make update")
}

func TestBetterFiguresAreSaidOnOneLine(t *testing.T) {
	r := proved(t, pump(t), Options{})
	was := r.Table()
	for i, row := range was.Rows {
		if row.Tree == "no-run" && row.Fault == "sw.open" {
			was.Rows[i].Counts = Counts{Draws: 30, Missed: 30}
		}
	}
	c := r.Table().Against(was)
	require.NoError(t, c.Err("kept.txt"))
	var out bytes.Buffer
	require.NoError(t, AgainstText(&out, r, c, "kept.txt"))
	require.NotContains(t, out.String(), "WORSE")
	require.Contains(t, out.String(), "\n1 differ and are not worse: the table can be written anew (make update).\n")
}
