package jobtest

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// binned are the cases of the parts bin.
var binned = map[string]func(*testing.T, job.Store){
	"an empty bin":                          emptyBin,
	"a piece goes in and out with its job":  inAndOut,
	"a piece without a job":                 loose,
	"a piece that is taken":                 takenPiece,
	"a piece that never was":                noPiece,
	"what is drawn comes back when undone":  givenBack,
	"what is binned goes when undone":       tookOff,
	"a piece that is gone for good":         gone,
	"a bin and its log fail together":       binIsAtomic,
	"a job may begin with pieces":           beginsWithPieces,
	"the bin keeps text as it is":           binHostile,
	"the bin shares nothing with callers":   binUnshared,
	"two benches want the same pieces":      func(t *testing.T, s job.Store) { BothWant(t, s, s) },
	"bin calls that were called off":        binCalledOff,
	"an event taken back twice moves once":  undoneTwice,
	"taken back and drawn again in one go":  swapped,
	"a piece drawn for the machine it left": ownPiece,
}

// Starter is an invented piece that was proved good.
func Starter() job.Binned {
	return job.Binned{
		Part: "starter", Words: "ten teeth", Shown: []string{"9 A running free", "turns the engine"},
		Asking: "22.50", Currency: "EUR", Place: "shelf 2",
	}
}

func binEvent(b job.Binned) job.Event { return job.Event{At: 77, Kind: job.KindBinned, Binned: &b} }

func drawEvent(name string) job.Event {
	return job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: name, Part: "starter"}}
}

func undoEvent(seq int64) job.Event {
	return job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: seq}}
}

// bin is what lies in the bin; and every log that the bin speaks of must say the
// same of it.
func bin(t *testing.T, s job.Store) []job.Shelved {
	t.Helper()
	out, err := s.Bin(t.Context())
	require.NoError(t, err)
	Agree(t, s)
	return out
}

// add adds events to a job that is to take them.
func add(t *testing.T, s job.Store, id int64, events ...job.Event) {
	t.Helper()
	_, err := s.Append(t.Context(), id, int64(len(load(t, s, id))), events)
	require.NoError(t, err)
}

// refusedAs has a job refuse events, and looks that nothing changed.
func refusedAs(t *testing.T, s job.Store, want error, id int64, events ...job.Event) error {
	t.Helper()
	before, pieces := load(t, s, id), bin(t, s)
	_, err := s.Append(t.Context(), id, int64(len(before)), events)
	require.ErrorIs(t, err, want)
	require.Equal(t, before, load(t, s, id))
	require.Equal(t, pieces, bin(t, s))
	return err
}

func emptyBin(t *testing.T, s job.Store) {
	begin(t, s)
	require.Empty(t, bin(t, s))
}

func inAndOut(t *testing.T, s job.Store) {
	a, b := begin(t, s), begin(t, s)
	add(t, s, a, Note("first"), binEvent(Starter()), binEvent(job.Binned{Part: "lead", Shown: []string{"2 mohm"}}))
	want := []job.Shelved{
		{
			Name: "1.3", Part: "starter", Words: "ten teeth", Shown: []string{"9 A running free", "turns the engine"},
			Asking: "22.50", Currency: "EUR", Place: "shelf 2", Job: a, Seq: 3, At: 77,
		},
		{Name: "1.4", Part: "lead", Shown: []string{"2 mohm"}, Job: a, Seq: 4, At: 77},
	}
	require.Equal(t, want, bin(t, s))
	require.True(t, bin(t, s)[0].Free())

	add(t, s, b, Note("needs a starter"), drawEvent("1.3"))
	want[0].Drawn, want[0].DrawnBy = b, 3
	require.Equal(t, want, bin(t, s), "the order stays")
	require.False(t, bin(t, s)[0].Free())
}

func loose(t *testing.T, s job.Store) {
	id := begin(t, s)
	for i, want := range []string{"b1", "b2", "b3"} {
		name, err := s.Shelve(t.Context(), Starter(), int64(i))
		require.NoError(t, err)
		require.Equal(t, want, name)
		add(t, s, id, binEvent(Starter()))
	}
	var names []string
	for _, p := range bin(t, s) {
		names = append(names, p.Name)
	}
	require.Equal(t, []string{"b1", "1.2", "b2", "1.3", "b3", "1.4"}, names, "in the order they went in")
	add(t, s, id, drawEvent("b2"))
	require.Equal(t, id, bin(t, s)[2].Drawn)
	require.NoError(t, s.Discard(t.Context(), "b1", job.Gone{How: job.Sold, Why: "over the counter", At: 5}))
	name, err := s.Shelve(t.Context(), Starter(), 9)
	require.NoError(t, err)
	require.Equal(t, "b4", name, "a name is never given twice")

	for _, bad := range []job.Binned{{}, {Part: "starter"}, {Part: "starter", Shown: []string{" "}}, {Part: "x", Shown: []string{"\xff"}}} {
		_, err := s.Shelve(t.Context(), bad, 1)
		var event *job.BadEvent
		require.ErrorAs(t, err, &event)
	}
	require.Len(t, bin(t, s), 7)
}

func takenPiece(t *testing.T, s job.Store) {
	a, b, c := begin(t, s), begin(t, s), begin(t, s)
	add(t, s, a, binEvent(Starter()))
	add(t, s, b, drawEvent("1.2"))
	err := refusedAs(t, s, job.ErrTaken, c, Note("goes with it"), drawEvent("1.2"))
	require.ErrorContains(t, err, "job 2")
	refusedAs(t, s, job.ErrTaken, b, drawEvent("1.2"))
	err = refusedAs(t, s, job.ErrTaken, a, undoEvent(2))
	require.ErrorContains(t, err, "job 2")
	require.ErrorIs(t, s.Discard(t.Context(), "1.2", job.Gone{How: job.Thrown, Why: "worn"}), job.ErrTaken)
}

func noPiece(t *testing.T, s job.Store) {
	id := begin(t, s)
	add(t, s, id, binEvent(Starter()))
	for _, name := range []string{"1.1", "1.20", "2.2", "b1", "01.2", "'; drop table bin; --", "\x00"} {
		refusedAs(t, s, job.ErrNoPiece, id, drawEvent(name))
		require.ErrorIs(t, s.Discard(t.Context(), name, job.Gone{How: job.Sold, Why: "x"}), job.ErrNoPiece)
	}
	other := job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: "1.2", Part: "lead"}}
	_, err := s.Append(t.Context(), id, 2, []job.Event{other})
	var bad *job.BadEvent
	require.ErrorAs(t, err, &bad)
	require.ErrorContains(t, err, `"starter"`)
	require.True(t, bin(t, s)[0].Free())
}

func givenBack(t *testing.T, s job.Store) {
	a, b, c := begin(t, s), begin(t, s), begin(t, s)
	add(t, s, a, binEvent(Starter()))
	before := bin(t, s)
	add(t, s, b, drawEvent("1.2"))
	add(t, s, b, undoEvent(2))
	require.Equal(t, before, bin(t, s))
	add(t, s, c, drawEvent("1.2"))
	require.Equal(t, c, bin(t, s)[0].Drawn)
}

func tookOff(t *testing.T, s job.Store) {
	a, b := begin(t, s), begin(t, s)
	add(t, s, a, binEvent(Starter()), binEvent(Starter()))
	add(t, s, a, undoEvent(2))
	require.Len(t, bin(t, s), 1)
	refusedAs(t, s, job.ErrNoPiece, b, drawEvent("1.2"))
	add(t, s, a, binEvent(Starter()))
	require.Equal(t, []string{"1.3", "1.5"}, []string{bin(t, s)[0].Name, bin(t, s)[1].Name})

	add(t, s, b, drawEvent("1.3"), undoEvent(2))
	add(t, s, a, undoEvent(3))
	require.Len(t, bin(t, s), 1, "it was back, so its binning can be taken back")
}

func gone(t *testing.T, s job.Store) {
	id := begin(t, s)
	add(t, s, id, binEvent(Starter()), binEvent(Starter()))
	for _, bad := range []job.Gone{{}, {How: job.Sold}, {How: job.Sold, Why: "\n"}, {How: "lost", Why: "who knows"}, {How: job.Sold, Why: "\xff"}} {
		require.Error(t, s.Discard(t.Context(), "1.2", bad))
	}
	require.True(t, bin(t, s)[0].Free())
	how := job.Gone{How: job.Thrown, Why: "dropped", At: 99}
	require.NoError(t, s.Discard(t.Context(), "1.2", how))
	require.Equal(t, how, bin(t, s)[0].Gone)
	require.False(t, bin(t, s)[0].Free())
	require.ErrorIs(t, s.Discard(t.Context(), "1.2", how), job.ErrTaken)
	err := refusedAs(t, s, job.ErrTaken, id, drawEvent("1.2"))
	require.ErrorContains(t, err, "thrown away")
	refusedAs(t, s, job.ErrTaken, id, undoEvent(2))
	require.True(t, bin(t, s)[1].Free())
}
