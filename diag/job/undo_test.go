package job_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

func TestWhatMayBeTakenBack(t *testing.T) {
	intake := jobtest.Intake()
	closing := job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: job.Unrepaired}}
	trees := job.Event{Kind: job.KindTrees, Trees: &job.Trees{Digest: "d2"}}
	for name, c := range map[string]struct {
		log []job.Event
		seq int64
		by  int64 // what stands in the way; -1: it may go; 0: refused for itself
	}{
		"a correction":                     {[]job.Event{intake, corrected("a"), volts("a", 1)}, 2, -1},
		"a correction, corrected again":    {[]job.Event{intake, corrected("a"), corrected("b")}, 2, 3},
		"a reading":                        {[]job.Event{intake, volts("a", 1)}, 2, -1},
		"a reading before readings":        {[]job.Event{intake, volts("a", 1), volts("a", 2), seen("b", "x")}, 2, -1},
		"a reading before work":            {[]job.Event{intake, volts("a", 1), done("w")}, 2, 3},
		"a reading before undone work":     {[]job.Event{intake, volts("a", 1), done("w"), undo(3)}, 2, -1},
		"a choice before a repair":         {[]job.Event{intake, seen("a", "x"), ticked("r")}, 2, 3},
		"a passing-over before a choice":   {[]job.Event{intake, cant("a"), chosen("r")}, 2, 3},
		"anything before closing":          {[]job.Event{intake, jobtest.Note("n"), closing}, 2, 3},
		"a path":                           {[]job.Event{intake, chosen("r")}, 2, -1},
		"a path with a repair done":        {[]job.Event{intake, chosen("r"), ticked("r")}, 2, 3},
		"a path whose repair was undone":   {[]job.Event{intake, chosen("r"), ticked("r"), undo(3)}, 2, -1},
		"work":                             {[]job.Event{intake, volts("a", 1), done("w", "a")}, 3, -1},
		"work, its test read again":        {[]job.Event{intake, done("w", "a"), volts("a", 2)}, 2, 3},
		"work, its test passed over":       {[]job.Event{intake, done("w", "a"), cant("a")}, 2, 3},
		"work, another test read":          {[]job.Event{intake, done("w", "a"), volts("b", 2)}, 2, -1},
		"work before a path":               {[]job.Event{intake, done("w"), chosen("r")}, 2, 3},
		"a repair, its check taken":        {[]job.Event{intake, chosen("r"), ticked("r", "a"), volts("a", 2)}, 3, 4},
		"a repair, its check taken back":   {[]job.Event{intake, chosen("r"), ticked("r", "a"), volts("a", 2), undo(4)}, 3, -1},
		"a path with a piece drawn":        {[]job.Event{intake, chosen("r"), drawn("b1")}, 2, 3},
		"a piece drawn":                    {[]job.Event{intake, chosen("r"), drawn("b1")}, 3, -1},
		"a path, its piece put back":       {[]job.Event{intake, chosen("r"), drawn("b1"), undo(3)}, 2, -1},
		"a piece drawn and fitted":         {[]job.Event{intake, chosen("r"), drawn("b1"), ticked("r")}, 3, 4},
		"a piece drawn, work begun":        {[]job.Event{intake, chosen("r"), drawn("b1"), lined("r")}, 3, 4},
		"a piece drawn, the owner asked":   {[]job.Event{intake, chosen("r"), drawn("b1"), asked()}, 3, 4},
		"an answer, a piece drawn on it":   {[]job.Event{intake, chosen("r"), asked(), drawn("b1")}, 3, 4},
		"an answer, its piece put back":    {[]job.Event{intake, chosen("r"), asked(), drawn("b1"), undo(4)}, 3, -1},
		"a piece binned":                   {[]job.Event{intake, chosen("r"), binned("p")}, 3, -1},
		"a piece binned, the job closed":   {[]job.Event{intake, chosen("r"), binned("p"), closing}, 3, 4},
		"a reading before a piece went in": {[]job.Event{intake, chosen("r"), volts("a", 1), binned("p")}, 3, 4},
		"work before a piece went in":      {[]job.Event{intake, done("w"), binned("p")}, 2, 3},
		"a repair before a piece went in":  {[]job.Event{intake, chosen("r"), ticked("r"), binned("p")}, 3, 4},
		"parting out before a piece":       {[]job.Event{intake, chosen("r"), binned("p")}, 2, 3},
		"a repair, its piece taken back":   {[]job.Event{intake, chosen("r"), ticked("r"), binned("p"), undo(4)}, 3, -1},
		"make-safe":                        {[]job.Event{intake, safe("fuel", "off")}, 2, -1},
		"make-safe before it was reopened": {[]job.Event{intake, safe("fuel", "off"), opened()}, 2, 3},
		"a heeded danger":                  {[]job.Event{intake, volts("a", 1), heeded("hot", "a"), volts("b", 1)}, 3, -1},
		"the intake":                       {[]job.Event{intake}, 1, 0},
		"an opening":                       {[]job.Event{intake, opened()}, 2, 0},
		"a change of trees":                {[]job.Event{intake, trees}, 2, 0},
		"an undo":                          {[]job.Event{intake, volts("a", 1), undo(2)}, 3, 0},
		"what is undone already":           {[]job.Event{intake, volts("a", 1), undo(2)}, 2, 3},
		"a closing":                        {[]job.Event{intake, closing}, 2, 0},
		"before the first":                 {[]job.Event{intake}, 0, 0},
		"after the last":                   {[]job.Event{intake, volts("a", 1)}, 3, 0},
		"far off":                          {[]job.Event{intake}, -1 << 63, 0},
	} {
		t.Run(name, func(t *testing.T) {
			err := job.CanUndo(number(c.log...), c.seq)
			if c.by < 0 {
				require.NoError(t, err)
				return
			}
			var no *job.NotUndoable
			require.ErrorAs(t, err, &no)
			require.Equal(t, c.seq, no.Seq)
			require.Equal(t, c.by, no.By)
			require.NotEmpty(t, no.Why)
		})
	}
}

func TestUndoGoesBackStepByStep(t *testing.T) {
	log := number(
		jobtest.Intake(), safe("fuel", "off"), volts("a", 1), done("w", "a"), volts("a", 2), opened(), chosen("r"), ticked("r", "a"),
	)
	var back []int64
	for {
		seq, ok := job.LastUndoable(log)
		if !ok {
			break
		}
		back = append(back, seq)
		log = number(append(log, undo(seq))...)
	}
	require.Equal(t, []int64{8, 7, 5, 4, 3}, back, "make-safe from before it was opened again is moot")

	_, ok := job.LastUndoable(jobtest.Life())
	require.False(t, ok, "closed")
	_, ok = job.LastUndoable([]job.Event{{Seq: 9, Kind: job.KindOpened}})
	require.False(t, ok, "no log at all")
}

// anyEvent draws an event that may stand anywhere after the intake.
func anyEvent(t *rapid.T) job.Event {
	test := rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "test")
	switch rapid.IntRange(0, 12).Draw(t, "kind") {
	case 0:
		return seen(test, "x")
	case 1:
		return cant(test)
	case 2:
		return done("w", test)
	case 3:
		return ticked("r-"+test, test)
	case 4:
		return chosen("r-" + test)
	case 5:
		return safe("item-"+test, "off")
	case 6:
		return heeded("hot", test)
	case 7:
		return opened()
	case 8:
		return binned("part-" + test)
	case 9:
		return drawn("b-" + test)
	}
	return volts(test, rapid.Float64Range(-100, 100).Draw(t, "volts"))
}

// A log from which something was taken back amounts to the same as the log in
// which a note stands in its place.
func TestUndoIsAsIfItHadNeverBeen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := number(append([]job.Event{jobtest.Intake()}, rapid.SliceOfN(rapid.Custom(anyEvent), 1, 30).Draw(t, "log")...)...)
		seq := rapid.Int64Range(2, int64(len(log))).Draw(t, "seq")
		if job.CanUndo(log, seq) != nil {
			t.Skip("not one that may go")
		}
		var without []job.Event
		without = append(without, log...)
		without[seq-1] = jobtest.Note("in its place")
		without = number(append(without, jobtest.Note("for the undo"))...)

		got, err := job.Fold(number(append(log, undo(seq))...))
		require.NoError(t, err)
		want, err := job.Fold(without)
		require.NoError(t, err)
		want.Notes = nil
		require.Equal(t, want, got)
	})
}

// What LastUndoable gives, CanUndo allows, and the log still folds.
func TestTheLastUndoableCanBeUndone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := number(append([]job.Event{jobtest.Intake()}, rapid.SliceOfN(rapid.Custom(anyEvent), 0, 20).Draw(t, "log")...)...)
		for {
			seq, ok := job.LastUndoable(log)
			if !ok {
				return
			}
			require.NoError(t, job.CanUndo(log, seq))
			log = number(append(log, undo(seq))...)
			_, err := job.Fold(log)
			require.NoError(t, err)
		}
	})
}
