package line

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/trees/treetest"
	"benchlead/ui"
)

// pump is a bench with the small library of testdata, its prices and settings.
func pump(t testing.TB) ui.Bench {
	t.Helper()
	lib, issues := tree.Load(treetest.Read(t, "../..", "testdata/trees/pump"))
	require.Empty(t, issues)
	files := map[string]source.File{}
	for _, f := range treetest.Read(t, "../..", "testdata/trees") {
		files[f.Name] = f
	}
	book, issues := repair.LoadPrices(files["testdata/trees/pump-prices.yaml"])
	require.Empty(t, issues)
	book.Shop, issues = shop.Load(files["testdata/trees/pump-settings.yaml"])
	require.Empty(t, issues)
	at := int64(1_700_000_000_000_000)
	return ui.Bench{Library: lib, Prices: book, Now: func() int64 { at += 1_250_000; return at }}
}

// played types lines into the face: an intake, and the job. The job is nil when the
// lines end before it.
func played(t *testing.T, b ui.Bench, typed string) (out string, s *ui.Session) {
	t.Helper()
	var said bytes.Buffer
	f := New(strings.NewReader(typed), &said)
	f.Width = func() int { return 78 }
	in, err := f.Intake(b)
	if err != nil {
		require.True(t, errors.Is(err, ErrEnd) || errors.Is(err, ErrLeft), err)
		return said.String(), nil
	}
	s, err = ui.Begin(context.Background(), b, in)
	require.NoError(t, err)
	if err := f.Walk(context.Background(), s); err != nil {
		require.ErrorIs(t, err, ErrEnd)
	}
	return said.String(), s
}

// A job in lines, from the intake to its end.
const (
	taken    = "1\n1\nyard pump\n\n1\n12\n\n20\n\n120\n"
	judged   = taken + "0.37\nyes\n0\nyes\n8.2\n7.9\nyes\n2\n"
	mended   = judged + "choose 1\napprove 400,50 Mrs. K, by telephone\nyes\nall\ndone\nall\ndone\nall\ndone\n"
	finished = mended + "12.7\nyes\n11.2\n13.5\nyes\n1\n11.2\n7\n2\npass\n1\nclose 1\nyes\n"
)

// FuzzLines: whatever lines are typed, the face ends, says nothing that acts on a
// terminal and nothing too wide, and what it said is recorded is on record.
func FuzzLines(f *testing.F) {
	b := pump(f)
	for _, lines := range []string{
		finished, mended + "undo\nundo\nundo\nlist\nbin\nbin mot runs\n", judged + "aim\naim 2\npaths\ndeclined Mrs. K\nclose\nclose 1 too dear\nyes\n",
		taken + "126\nkeep\nundo\n12.3..12.7\nflicker\ntake turns\nyes\ntime\nstop\nrest 12; held 9; motor 1 V\nleft\nfound\nwhy\nhelp\nleave\n",
		"1?\nback\n1\nback\n?\n7\n1\n1\n\x1b[31m\n\n9\n-3\nx\n68 F\n\n1e9\n", "\xff\n\u202e\n1\r\n1\r\n", judged[:len(judged)-1], strings.Repeat("9", longest+2) + "\n" + taken,
	} {
		f.Add(lines)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		b := b
		b.Store = &job.Memory{}
		out, s := played(t, b, typed)
		for _, l := range strings.Split(out, "\n") {
			require.LessOrEqual(t, ansi.StringWidth(l), 78, "%q", l)
			require.Equal(t, source.CleanLine(l), l)
		}
		if s == nil {
			jobs, err := b.Store.Jobs(context.Background())
			require.NoError(t, err)
			require.Empty(t, jobs)
			return
		}
		events, err := b.Store.Load(context.Background(), s.ID())
		require.NoError(t, err)
		require.Equal(t, string(job.Canonical(events)), string(job.Canonical(s.Events())))
		facts, err := job.Fold(events)
		require.NoError(t, err)
		require.NotEmpty(t, walk.Where(b.Library, facts).Stage)
		_, err = s.Document()
		require.NoError(t, err)
	})
}

func TestTheLinesOfTheFuzzerGoAllTheWay(t *testing.T) {
	b := pump(t)
	b.Store = &job.Memory{}
	out, s := played(t, b, finished)
	require.Equal(t, walk.AtClosed, s.Position().Stage, out)
	require.Equal(t, job.Proved, s.Facts().Closed.Outcome)
}
