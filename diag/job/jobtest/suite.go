// Package jobtest is the test that every job.Store must pass, and an invented
// job to try things on. Only tests import it.
//
//	func TestStore(t *testing.T) {
//		jobtest.Suite(t, func(t *testing.T) job.Store { return new(job.Memory) })
//	}
package jobtest

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// Suite holds a Store to what the interface promises. fresh gives an empty one.
func Suite(t *testing.T, fresh func(t *testing.T) job.Store) {
	for name, test := range map[string]func(*testing.T, job.Store){
		"a new store is empty":               empty,
		"a log comes back as it went in":     comesBack,
		"jobs are numbered from one":         numbered,
		"order is by number, not by clock":   orderBySeq,
		"a stale bench is told":              stale,
		"an unknown job is told":             unknownJob,
		"many events go in together or not":  atomic,
		"what can't be kept is refused":      refused,
		"a closed job takes notes only":      closedJob,
		"jobs don't touch each other":        isolated,
		"callers share nothing with it":      unshared,
		"hostile text stays as it is":        hostile,
		"numbers keep their last bit":        exact,
		"long logs":                          long,
		"a call that was called off":         calledOff,
		"the list says how jobs stand":       summaries,
		"two benches at once lose no events": func(t *testing.T, s job.Store) { Benches(t, s, s) },
	} {
		t.Run(name, func(t *testing.T) { test(t, fresh(t)) })
	}
	for name, test := range binned {
		t.Run(name, func(t *testing.T) { test(t, fresh(t)) })
	}
}

func empty(t *testing.T, s job.Store) {
	jobs, err := s.Jobs(t.Context())
	require.NoError(t, err)
	require.Empty(t, jobs)
}

// begin starts a job and gives its number.
func begin(t *testing.T, s job.Store) int64 {
	t.Helper()
	id, err := s.Create(t.Context(), []job.Event{Intake()})
	require.NoError(t, err)
	return id
}

func load(t *testing.T, s job.Store, id int64) []job.Event {
	t.Helper()
	events, err := s.Load(t.Context(), id)
	require.NoError(t, err)
	return events
}

func comesBack(t *testing.T, s job.Store) {
	life := Life()
	id, err := s.Create(t.Context(), life[:2])
	require.NoError(t, err)
	for i, e := range life[2:] {
		e.Seq = 0 // the store gives it
		got, err := s.Append(t.Context(), id, int64(i)+2, []job.Event{e})
		require.NoError(t, err)
		require.Equal(t, []job.Event{life[i+2]}, got)
	}
	require.Equal(t, life, load(t, s, id))
	_, err = job.Fold(load(t, s, id))
	require.NoError(t, err)
}

func numbered(t *testing.T, s job.Store) {
	require.EqualValues(t, 1, begin(t, s))
	require.EqualValues(t, 2, begin(t, s))
	require.EqualValues(t, 3, begin(t, s))
}

func orderBySeq(t *testing.T, s job.Store) {
	id := begin(t, s)
	for i := range 5 {
		note := Note(strings.Repeat("x", i+1))
		note.At = int64(1000 - i) // the clock runs backwards
		_, err := s.Append(t.Context(), id, int64(i)+1, []job.Event{note})
		require.NoError(t, err)
	}
	for i, e := range load(t, s, id) {
		require.EqualValues(t, i+1, e.Seq)
		if i > 0 {
			require.Equal(t, strings.Repeat("x", i), e.Noted.Text)
			require.EqualValues(t, 1001-i, e.At)
		}
	}
}

func stale(t *testing.T, s job.Store) {
	id := begin(t, s)
	_, err := s.Append(t.Context(), id, 1, []job.Event{Note("first bench")})
	require.NoError(t, err)
	for _, expected := range []int64{-1, 0, 1, 3, math.MaxInt64} {
		_, err = s.Append(t.Context(), id, expected, []job.Event{Note("second bench")})
		require.ErrorIs(t, err, job.ErrConflict, "expected %d", expected)
		_, err = s.Append(t.Context(), id, expected, nil)
		require.ErrorIs(t, err, job.ErrConflict, "nothing to add, expected %d", expected)
	}
	require.Len(t, load(t, s, id), 2)
	got, err := s.Append(t.Context(), id, 2, nil)
	require.NoError(t, err)
	require.Empty(t, got)
}

func unknownJob(t *testing.T, s job.Store) {
	begin(t, s)
	for _, id := range []int64{-1, 0, 2, math.MaxInt64} {
		_, err := s.Load(t.Context(), id)
		require.ErrorIs(t, err, job.ErrNoJob)
		_, err = s.Append(t.Context(), id, 0, []job.Event{Note("lost")})
		require.ErrorIs(t, err, job.ErrNoJob)
		_, err = s.Append(t.Context(), id, 0, []job.Event{Intake()})
		require.ErrorIs(t, err, job.ErrNoJob)
	}
	jobs, err := s.Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 1)
}

func atomic(t *testing.T, s job.Store) {
	id := begin(t, s)
	got, err := s.Append(t.Context(), id, 1, []job.Event{Note("a"), Note("b"), Note("c")})
	require.NoError(t, err)
	require.EqualValues(t, []int64{2, 3, 4}, []int64{got[0].Seq, got[1].Seq, got[2].Seq})

	before := load(t, s, id)
	_, err = s.Append(t.Context(), id, 4, []job.Event{Note("d"), Note("e"), Note("")})
	require.Error(t, err)
	require.Equal(t, before, load(t, s, id))

	_, err = s.Create(t.Context(), []job.Event{Intake(), Note("")})
	require.Error(t, err)
	jobs, err := s.Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 1, "a job whose first events are refused is no job")
}

func refused(t *testing.T, s job.Store) {
	id := begin(t, s)
	for name, e := range map[string]job.Event{
		"no payload":        {Kind: job.KindRead},
		"two payloads":      {Kind: job.KindNoted, Noted: &job.Noted{Text: "x"}, Done: &job.Done{Work: "w"}},
		"no kind":           {Noted: &job.Noted{Text: "x"}},
		"empty id":          Volts("", 1, "1"),
		"not a number":      Volts("pack_rest", math.NaN(), "?"),
		"endless":           Volts("pack_rest", math.Inf(1), "OL"),
		"not UTF-8":         Note("\xff\xfe"),
		"a second intake":   Intake(),
		"undoes the future": {Kind: job.KindUndone, Undone: &job.Undone{Seq: 2}},
	} {
		_, err := s.Append(t.Context(), id, 1, []job.Event{e})
		var bad *job.BadEvent
		require.ErrorAs(t, err, &bad, name)
		require.EqualValues(t, 2, bad.Seq, name)
	}
	_, err := s.Append(t.Context(), id, 1, []job.Event{{Kind: "weighed"}})
	require.ErrorIs(t, err, job.ErrNewer)
	for _, first := range [][]job.Event{nil, {Note("no intake")}, {Note("late"), Intake()}} {
		_, err := s.Create(t.Context(), first)
		require.Error(t, err)
	}
	require.Len(t, load(t, s, id), 1)
}

func closedJob(t *testing.T, s job.Store) {
	life := Life()
	id, err := s.Create(t.Context(), life)
	require.NoError(t, err)
	last := int64(len(life))
	for _, e := range []job.Event{
		Volts("pack_rest", 1, "1"),
		{Kind: job.KindUndone, Undone: &job.Undone{Seq: 17}},
		{Kind: job.KindClosed, Closed: &job.Closed{Outcome: job.Unsafe}},
	} {
		_, err := s.Append(t.Context(), id, last, []job.Event{e})
		require.ErrorIs(t, err, job.ErrClosed)
	}
	_, err = s.Append(t.Context(), id, last, []job.Event{{Kind: job.KindOpened}, Note("came back in spring")})
	require.NoError(t, err)
	_, err = job.Fold(load(t, s, id))
	require.NoError(t, err)

	other := begin(t, s)
	closing := life[len(life)-1]
	_, err = s.Append(t.Context(), other, 1, []job.Event{closing, Volts("pack_rest", 1, "1")})
	require.ErrorIs(t, err, job.ErrClosed, "closed within the same call")
	require.Len(t, load(t, s, other), 1)
}

func isolated(t *testing.T, s job.Store) {
	a, b := begin(t, s), begin(t, s)
	_, err := s.Append(t.Context(), a, 1, []job.Event{Note("for a"), Note("for a too")})
	require.NoError(t, err)
	_, err = s.Append(t.Context(), b, 1, []job.Event{Note("for b")})
	require.NoError(t, err)
	require.Len(t, load(t, s, a), 3)
	require.Len(t, load(t, s, b), 2)
	require.Equal(t, "for b", load(t, s, b)[1].Noted.Text)
}

func unshared(t *testing.T, s job.Store) {
	first := []job.Event{Intake()}
	id, err := s.Create(t.Context(), first)
	require.NoError(t, err)
	require.Zero(t, first[0].Seq, "the caller's events are not written to")
	first[0].Intake.Label["cells"] = 99
	first[0].Intake.Machine = "changed"

	mine := load(t, s, id)
	require.Equal(t, Intake().Intake, mine[0].Intake)
	mine[0].Intake.Label["cells"] = 98
	require.Equal(t, Intake().Intake, load(t, s, id)[0].Intake)
}

// hostile is text that ends strings, statements, lines and pages, steers a
// terminal, or hides.
func hostile(t *testing.T, s job.Store) {
	texts := []string{
		"'; drop table events; --", `"quoted" \ back`, "<script>alert(1)</script> &amp;",
		"\x1b]0;title\x07\x1b[2J", "a\x00b", "line\r\nline\n\ttab", "a\u2028b\u2029c", "\ufefflead",
		"\u202egnp.exe", "Ω µ ° ± 漢字 👩🏽‍🔧", "%s %d $1 ?1 :name", " spaces ", "\ufffd",
		strings.Repeat("long ", 200_000),
	}
	id := begin(t, s)
	for i, text := range texts {
		_, err := s.Append(t.Context(), id, int64(i)+1, []job.Event{Note(text)})
		require.NoError(t, err)
	}
	for i, e := range load(t, s, id)[1:] {
		require.Equal(t, texts[i], e.Noted.Text)
	}

	in := Intake()
	in.Intake.Machine, in.Intake.Words = texts[0], texts[3]
	in.Intake.LabelText = map[string]string{texts[2]: texts[4]}
	other, err := s.Create(t.Context(), []job.Event{in})
	require.NoError(t, err)
	require.Equal(t, in.Intake, load(t, s, other)[0].Intake)
	jobs, err := s.Jobs(t.Context())
	require.NoError(t, err)
	require.Equal(t, texts[0], jobs[1].Machine)
	require.Equal(t, texts[3], jobs[1].Words)
}

func exact(t *testing.T, s job.Store) {
	values := []float64{
		0, math.Copysign(0, -1), 0.1, 1.0 / 3, -12.6, 1e-300, 5e-324, math.MaxFloat64,
		1 << 53, math.Nextafter(12.6, 13),
	}
	id := begin(t, s)
	for i, v := range values {
		e := Volts("pack_rest", v, "typed")
		e.At = math.MaxInt64 - int64(i)
		_, err := s.Append(t.Context(), id, int64(i)+1, []job.Event{e})
		require.NoError(t, err)
	}
	for i, e := range load(t, s, id)[1:] {
		require.Equal(t, math.Float64bits(values[i]), math.Float64bits(e.Read.Reading.Value))
		require.Equal(t, math.MaxInt64-int64(i), e.At)
	}
}

func long(t *testing.T, s job.Store) {
	const n = 5_000
	id := begin(t, s)
	batch := make([]job.Event, n)
	for i := range batch {
		batch[i] = Volts("pack_rest", float64(i), "typed")
	}
	_, err := s.Append(t.Context(), id, 1, batch)
	require.NoError(t, err)
	_, err = s.Append(t.Context(), id, n+1, []job.Event{Note("last")})
	require.NoError(t, err)
	events := load(t, s, id)
	require.Len(t, events, n+2)
	facts, err := job.Fold(events)
	require.NoError(t, err)
	require.Len(t, facts.Current("pack_rest"), n)
	require.EqualValues(t, n+2, facts.Last)
}

func calledOff(t *testing.T, s job.Store) {
	id := begin(t, s)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := s.Append(ctx, id, 1, []job.Event{Note("too late")})
	require.ErrorIs(t, err, context.Canceled)
	_, err = s.Create(ctx, []job.Event{Intake()})
	require.ErrorIs(t, err, context.Canceled)
	_, err = s.Load(ctx, id)
	require.ErrorIs(t, err, context.Canceled)
	_, err = s.Jobs(ctx)
	require.ErrorIs(t, err, context.Canceled)

	// It goes on working afterwards, and nothing was added.
	require.Len(t, load(t, s, id), 1)
	_, err = s.Append(t.Context(), id, 1, []job.Event{Note("in time")})
	require.NoError(t, err)
}

func summaries(t *testing.T, s job.Store) {
	life := Life()
	open, err := s.Create(t.Context(), life[:5])
	require.NoError(t, err)
	life = LifeOf(2)
	closed, err := s.Create(t.Context(), life)
	require.NoError(t, err)
	after := Note("called the owner")
	after.At = life[0].At + 7
	_, err = s.Append(t.Context(), closed, int64(len(life)), []job.Event{after})
	require.NoError(t, err)

	want := job.Summary{
		ID: open, Machine: "grey mower by the door", System: "button-start-pack", Complaint: "silent",
		Words: "it just sits there", OpenedAt: life[0].At, LastAt: life[4].At, Open: true,
	}
	jobs, err := s.Jobs(t.Context())
	require.NoError(t, err)
	require.Len(t, jobs, 2)
	require.Equal(t, want, jobs[0])

	want.ID, want.LastAt, want.Open = closed, after.At, false
	want.Outcome, want.Found = job.Proved, []string{"pack.no-output"}
	require.Equal(t, want, jobs[1], "last by number, whatever the clock said")
}
