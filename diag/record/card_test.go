package record

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// logOf numbers events from 1, each a minute after the one before.
func logOf(events ...job.Event) []job.Event {
	for i := range events {
		events[i].Seq, events[i].At = int64(i)+1, jobtest.Intake().At+int64(i)*minute
	}
	return events
}

const minute = 60_000_000

func note(text string) job.Event { return jobtest.Note(text) }

func undo(of int64) job.Event {
	return job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: of}}
}

func ticked(repair string) job.Event {
	return job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: repair}}
}

func chose(minutes int, parts ...string) job.Event {
	c := &job.Chosen{Path: "repair", Repairs: []string{"r"}, Quote: job.Quote{Currency: "EUR", Total: "1.00", Minutes: minutes}}
	for _, p := range parts {
		c.Lines = append(c.Lines, job.QuoteLine{Part: p, Grade: "original", Qty: 1, Each: "1.00", Note: "the seller in the old mill"})
	}
	return job.Event{Kind: job.KindChosen, Chosen: c}
}

// showing says that an event led to these findings.
func showing(e job.Event, faults ...string) job.Event {
	shown := append([]string{}, faults...)
	e.Shown = &shown
	return e
}

func closing(outcome job.Outcome, found ...string) job.Event {
	return job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: outcome, Found: found}}
}

func TestWords(t *testing.T) {
	for in, want := range map[string][]string{
		"":                                  {},
		"--":                                {},
		"Grey mower, 14 HP":                 {"grey", "mower", "14", "hp"},
		"cable.ground key-start":            {"cable", "ground", "key", "start"},
		"don't":                             {"don", "t"},
		"MÄHER süd Ω":                       {"mäher", "süd", "ω"},
		"हिन्दी":                            {"हिन्दी"},
		"0.37V":                             {"0", "37v"},
		"123456789012345678901234567890123": {"12345678901234567890123456789012"},
	} {
		require.Equal(t, want, append([]string{}, Words(in)...), in)
	}
}

func TestTheCardOfALife(t *testing.T) {
	life := jobtest.Life()
	c := CardOf(7, life)
	require.Equal(t, job.Summarize(7, life, life[len(life)-1].Closed), c.Summary)
	require.Equal(t, "the tall neighbour", c.Owner)
	require.Equal(t, life[len(life)-1].At, c.EndedAt)
	require.Equal(t, []string{"pack.no-output"}, c.Came)
	require.Equal(t, []string{"pack.no-output"}, c.Faults)
	require.Equal(t, []string{"replace-pack"}, c.Repairs)
	require.Equal(t, []string{"dock-contacts"}, c.Parts, "out of the parts bin; its quote lists no part")
	require.Equal(t, 10, c.Quoted)
	require.EqualValues(t, 24*minute, c.Spent, "25 events, a minute apart")
	for _, mark := range []string{
		"grey", "mower", "neighbour", "sits", "dirty", "smells", "reach", "charger", "shelf", "telephone",
		"/machine/door", "/owner/tall", "/system/button-start-pack", "/complaint/silent", "/fault/pack.no-output",
		"/repair/replace-pack", "/part/dock-contacts", "/outcome/repaired-and-proved",
	} {
		require.Contains(t, c.Marks, mark)
	}
	require.NotContains(t, c.Marks, "/outcome/open")
	require.NotContains(t, c.Marks, "370mv", "readings are not looked for by their text")
	require.IsIncreasing(t, c.Marks)
}

func TestFaultsOfAJob(t *testing.T) {
	read := jobtest.Volts("pack_rest", 1, "1")
	for _, c := range []struct {
		name         string
		log          []job.Event
		came, faults []string
	}{
		{"nothing was found", []job.Event{read}, nil, nil},
		{"it stands", []job.Event{showing(read, "b", "a")}, []string{"a", "b"}, []string{"a", "b"}},
		{"it was taken back before any repair", []job.Event{showing(read, "a"), showing(undo(2))}, nil, nil},
		{"repaired", []job.Event{showing(read, "a"), showing(ticked("r"))}, []string{"a"}, []string{"a"}},
		{"a second one came out", []job.Event{showing(read, "a"), showing(ticked("r")), showing(read, "b"), showing(ticked("q"))}, []string{"a"}, []string{"a", "b"}},
		{"one is left at the end", []job.Event{showing(read, "a"), showing(ticked("r")), showing(read, "c"), closing(job.NotProved, "c")}, []string{"a"}, []string{"a", "c"}},
		{"the repair was taken back", []job.Event{showing(read, "a"), showing(ticked("r")), showing(undo(3), "a"), showing(read, "b"), ticked("q")}, []string{"b"}, []string{"b"}},
		{"shown after an event that was taken back", []job.Event{showing(read, "a"), undo(2)}, []string{"a"}, []string{"a"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			card := CardOf(1, logOf(append([]job.Event{jobtest.Intake()}, c.log...)...))
			require.Equal(t, c.came, card.Came, "before the first repair")
			require.Equal(t, c.faults, card.Faults)
		})
	}
}

func TestPartsAreThoseOfThePathThatWasWorked(t *testing.T) {
	in := jobtest.Intake()
	drawn := job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: "3.12", Part: "coil"}}
	for _, c := range []struct {
		name           string
		log            []job.Event
		parts, repairs []string
		quoted         int
	}{
		{"only chosen", []job.Event{chose(25, "pack")}, nil, nil, 25},
		{"worked", []job.Event{chose(25, "pack", "fuse"), ticked("r")}, []string{"fuse", "pack"}, []string{"r"}, 25},
		{"another path was taken", []job.Event{chose(25, "pack"), chose(40, "cable"), ticked("r")}, []string{"cable"}, []string{"r"}, 40},
		{"the repair was taken back", []job.Event{chose(25, "pack"), ticked("r"), undo(3)}, nil, nil, 25},
		{"the path was taken back", []job.Event{chose(25, "pack"), undo(2)}, nil, nil, 0},
		{"out of the parts bin", []job.Event{chose(25), drawn, drawn}, []string{"coil"}, nil, 25},
		{"not drawn after all", []job.Event{drawn, undo(2)}, nil, nil, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			card := CardOf(1, logOf(append([]job.Event{in}, c.log...)...))
			require.Equal(t, c.parts, card.Parts)
			require.Equal(t, c.repairs, card.Repairs)
			require.Equal(t, c.quoted, card.Quoted)
		})
	}
}

func TestANoteThatWasTakenBackIsNotFound(t *testing.T) {
	log := logOf(jobtest.Intake(), note("corroded eyelet"), note("loose"), undo(2))
	require.NotContains(t, CardOf(1, log).Marks, "eyelet")
	require.Contains(t, CardOf(1, log).Marks, "loose")
}

// Gaps of 29, 31 and 30 minutes, a clock that was set back, and one that jumps as
// far as there are numbers.
func TestTimeAtTheBench(t *testing.T) {
	log := logOf(jobtest.Intake(), note("a"), note("b"), note("c"), note("d"), note("e"), note("f"))
	at := log[0].At
	for i, when := range []int64{at, at + 29*minute, at + 60*minute, at + 90*minute, at, -1 << 63, 1<<63 - 1} {
		log[i].At = when
	}
	require.EqualValues(t, (29+30)*minute, CardOf(1, log).Spent)
}

// Plain is what lets a record leave the marks alone: the card may only differ in
// when, and how long.
func TestPlainEventsChangeOnlyTheTimes(t *testing.T) {
	life := jobtest.Life()
	plain := 0
	for i, e := range life {
		if i == 0 || !Plain(e) {
			continue
		}
		plain++
		before, after := CardOf(1, life[:i]), CardOf(1, life[:i+1])
		before.LastAt, before.Spent = e.At, before.Spent+Between(life[i-1].At, e.At)
		require.Equal(t, before, after, "%d, %s", e.Seq, e.Kind)
	}
	require.Greater(t, plain, 5)
	require.False(t, Plain(showing(jobtest.Volts("t", 1, "1"))), "what it led to changes the faults")
}

// A log of a stranger is no reason to fail: what can be had is taken.
func TestACardOfAnything(t *testing.T) {
	require.True(t, CardOf(3, nil).Open)
	c := CardOf(3, []job.Event{{Seq: 1, Kind: "weighed"}, {Seq: 2, Kind: job.KindUndone, Undone: &job.Undone{Seq: 99}}})
	require.Equal(t, int64(3), c.ID)
	require.Contains(t, c.Marks, "/outcome/open")
}

func TestMark(t *testing.T) {
	require.Equal(t, "/fault/cable.ground", Mark(OfFault, "cable.ground"))
	require.Equal(t, "/outcome/repaired-and-proved", Mark(OfOutcome, string(job.Proved)))
	require.Equal(t, "/part/a-b-c", Mark(OfPart, " A\tb\x00c "))
	require.Len(t, []rune(Mark(OfPart, strings.Repeat("é", 500))), longestMark)
}
