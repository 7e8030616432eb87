package app

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/repair"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// binProgram runs the program on a record of the test, with the shipped trees.
func binProgram(t *testing.T) func(args ...string) (code int, out, errs string) {
	t.Helper()
	record := filepath.Join(t.TempDir(), "record.db")
	return func(args ...string) (int, string, string) {
		return run(t, "", append([]string{"--record", record}, args...)...)
	}
}

func TestTheBinFromTheCommandLine(t *testing.T) {
	do := binProgram(t)
	for _, c := range []struct {
		args      []string
		code      int
		out, errs string
	}{
		{[]string{"bin"}, ExitInput, "", "no record"},
		{[]string{"bin", "out", "b1", "--sold", "x"}, ExitInput, "", "no record"},
		{[]string{"bin", "add", "pack-starter", "--shown", "1: yes, 9 A\x1b[2J free", "--shown", "2: yes", "--asking", "12", "--place", "shelf 2"}, ExitDone, "piece b1", ""},
		{[]string{"bin", "add", "starter", "--shown", "1: yes, cranks", "--shown", "2: yes, ten", "--words", "ten teeth", "--asking", "30.5"}, ExitDone, "piece b2", ""},
		{[]string{"bin", "add", "fuse", "--shown", "whole", "--asking", "1"}, ExitInput, "", "never goes in the parts bin: A fuse that has carried"},
		{[]string{"bin", "add", "guard", "--asking", "1"}, ExitInput, "", "only with this shown on it: 1 No crack"},
		{[]string{"bin", "add", "starter", "--shown", "2: yes, ten", "--asking", "1"}, ExitInput, "", "only with this shown on it: 1 Spins when fed"},
		{[]string{"bin", "add", "pack", "--shown", "1: went to 0.4 V once", "--shown", "2: 61 %", "--shown", "3: fell to 9 V", "--shown", "4: swollen", "--asking", "1"}, ExitInput, "", "61 % is below 80 %"},
		{[]string{"bin", "add", "pack", "--shown", "1: yes", "--shown", "2: 84 %", "--shown", "3: 24 h", "--shown", "4: swollen", "--asking", "1"}, ExitInput, "", "only with this shown on it: 4 Case flat"},
		{[]string{"bin", "add", "battery-12v", "--shown", "1: 12.1 V", "--shown", "2: 9.8 V", "--shown", "3: yes", "--asking", "1"}, ExitInput, "", "12.1 V is below 12.6 V"},
		{[]string{"bin", "add", "battery-12v", "--shown", "1: 12.7 V", "--shown", "2: 8.2 V", "--shown", "3: yes", "--asking", "1"}, ExitInput, "", "8.2 V is below 9.6 V"},
		{[]string{"bin", "add", "guard", "--shown", "1: yes"}, ExitInput, "", "asking price"},
		{[]string{"bin", "add", "startr", "--shown", "cranks", "--asking", "1"}, ExitInput, "", `did you mean "starter"`},
		{[]string{"bin", "add"}, ExitUsage, "", `one part; see "benchlead bin add --help"`},
		{[]string{"bin", "fnd"}, ExitUsage, "", "no arguments but find"},
		{[]string{"bin", "find"}, ExitUsage, "", "a word or more"},
		{[]string{"bin", "find", "TEN", "starter"}, ExitDone, "b2", ""},
		{[]string{"bin", "find", "ten", "thumbs"}, ExitDone, `has "ten thumbs" in it`, ""},
		{[]string{"bin", "out", "b2"}, ExitUsage, "", "--sold"},
		{[]string{"bin", "out", "b2", "--sold", "x", "--thrown", "y"}, ExitUsage, "", "either"},
		{[]string{"bin", "out", "b7", "--sold", "x"}, ExitInput, "", "no such piece"},
		{[]string{"bin", "out", "b2", "--thrown", "dropped\x1b[1m"}, ExitDone, "thrown away", ""},
		{[]string{"bin", "out", "b2", "--sold", "x"}, ExitInput, "", "was thrown away"},
		{[]string{"bin", "find", "starter", "--all"}, ExitDone, "dropped", ""},
	} {
		code, out, errs := do(c.args...)
		require.Equal(t, c.code, code, "%v: %s%s", c.args, out, errs)
		require.Contains(t, out, c.out, c.args)
		require.Contains(t, errs, c.errs, c.args)
		require.NotContains(t, out+errs, "\x1b")
	}

	_, out, _ := do("bin")
	require.Contains(t, out, "b1")
	require.NotContains(t, out, "b2", "what is gone is not there")
	_, out, _ = do("bin", "--all", "--json")
	require.NotContains(t, out, "null")
	var got struct {
		Pieces []struct {
			Name, Part, Asking, Currency, Place, Gone, Why string
			Shown                                          []string
			Free, Offered                                  bool
			Job, Drawn                                     int64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Pieces, 2)
	require.Equal(t, []string{"b1", "pack-starter", "12.00", "USD", "shelf 2"}, []string{
		got.Pieces[0].Name, got.Pieces[0].Part, got.Pieces[0].Asking, got.Pieces[0].Currency, got.Pieces[0].Place,
	})
	require.Len(t, got.Pieces[0].Shown, 2)
	require.True(t, got.Pieces[0].Free && got.Pieces[0].Offered)
	require.False(t, got.Pieces[1].Free || got.Pieces[1].Offered)
	require.Equal(t, string(job.Thrown), got.Pieces[1].Gone)
}

// What is needed before a class of part may lie in the bin is named, in order.
func TestTheBinAsksForWhatHasToBeShown(t *testing.T) {
	lib, err := (&program{env: func(string) string { return "" }}).library()
	require.NoError(t, err)
	for id, part := range lib.Parts {
		_, err := repair.NoPrices().ToBin(lib, repair.Used{Part: id, Shown: []string{"looks good"}, Asking: "1"})
		switch {
		case part.NoBin != "":
			require.ErrorContains(t, err, part.NoBin)
		case len(part.BinNeeds) > 0:
			for _, need := range part.BinNeeds {
				require.ErrorContains(t, err, strings.TrimRight(need, "."))
			}
			var shown []string
			for i, need := range part.BinNeeds {
				answer := "yes, read"
				if f, asks := part.BinFigures[need]; asks {
					answer = fmt.Sprintf("%g %s", f.Least, f.Unit)
				}
				shown = append(shown, strconv.Itoa(i+1)+": "+answer)
			}
			_, err = repair.NoPrices().ToBin(lib, repair.Used{Part: id, Shown: shown, Asking: "1"})
			require.NoError(t, err, id)
		default:
			require.NoError(t, err, id)
		}
	}
}

func TestEveryVerbOfTheBinHasHelpWithAnExample(t *testing.T) {
	p := &program{streams: Streams{}}
	for _, cmd := range p.binVerb().Commands() {
		code, out, _ := run(t, "", "bin", cmd.Name(), "--help")
		require.Equal(t, ExitDone, code)
		require.NotEmpty(t, cmd.Example)
		require.Contains(t, out, cmd.Example)
	}
}

// benchOn is a bench with the shipped trees on a record, as one program has it.
func benchOn(t *testing.T, record string) ui.Bench {
	t.Helper()
	p := &program{demo: true, env: func(string) string { return "" }, now: func() int64 { return 1_700_000_000_000_000 }}
	lib, err := p.library()
	require.NoError(t, err)
	in, err := p.priceBook(lib, nil)
	require.NoError(t, err)
	db, err := recorddb.Open(t.Context(), record)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	return ui.Bench{Library: lib, Prices: in.book, Store: db, Now: p.now}
}

// buttonStart takes in a push-button machine and types what was seen on it.
func buttonStart(t *testing.T, b ui.Bench, lines ...string) *ui.Session {
	t.Helper()
	s, err := ui.Begin(t.Context(), b, job.Intake{
		System: "button-start-pack", Complaint: "silent", Celsius: 20, Worth: "180",
		Label: map[string]float64{"pack_volts": 10.8, "cells": 3, "charger_volts": 12.45},
		Meter: b.Library.Instruments("pocket"),
	})
	require.NoError(t, err)
	for _, l := range lines {
		typed(t, s, l)
	}
	return s
}

// typed types a line, once all that stands before it is confirmed.
func typed(t *testing.T, s *ui.Session, l string) []string {
	t.Helper()
	for s.Position().Stage == walk.AtSafe || s.Position().Stage == walk.AtDanger {
		_, err := s.Enter(t.Context(), "yes")
		require.NoError(t, err)
	}
	r, err := s.Enter(t.Context(), l)
	require.NoError(t, err, l)
	return r.Said
}

// wayFromBin is the number of the first path that takes a piece of the bin; 0
// without one.
func wayFromBin(s *ui.Session) int {
	return 1 + slices.IndexFunc(s.Offer().Paths, func(p repair.Path) bool { return len(p.FromBin()) > 0 })
}

// The whole way of a piece: a job bins a good starter, another job is offered it
// with what was shown and takes it, a second bench that wants it is told, and
// taking the choice back frees it.
func TestAStarterGoesFromOneMachineToAnother(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	here, there := benchOn(t, record), benchOn(t, record)

	// Its compression is never released: the engine is done for, the starter spins.
	donor := buttonStart(t, here, "crank_symptom slow", "crank_plug_out fast", "release_feel full")
	require.Contains(t, foundIn(donor.Position().Verdict), "engine.release")
	way := len(donor.Offer().Paths) + 1 + slices.IndexFunc(donor.Offer().Leave, func(l repair.Leave) bool { return l.Kind == repair.ChoosePartOut })
	typed(t, donor, "choose "+strconv.Itoa(way))
	_, err := donor.Enter(t.Context(), "bin pack-charger; 5; shelf 1; lights up")
	require.ErrorContains(t, err, here.Library.Parts["pack-charger"].NoBin)
	shown := "no play"
	for i := range here.Library.Parts["pack-starter"].BinNeeds {
		shown += "; " + strconv.Itoa(i+1) + ": yes, read"
	}
	said := typed(t, donor, "bin pack-starter; 12.00; shelf 2; "+shown)
	require.Contains(t, said[1], "Spins freely")
	name := job.PieceOf(donor.ID(), int64(len(donor.Events())))

	one, two := buttonStart(t, here, "direct_feed silent"), buttonStart(t, there, "direct_feed silent")
	require.Equal(t, []string{"starter.open"}, foundIn(one.Position().Verdict))
	lines := strings.Join(one.PathLines(), "\n")
	for _, want := range []string{"no play", "Spins freely", "shelf 2", "piece " + name + " from job 1"} {
		require.Contains(t, lines, want)
	}
	require.Positive(t, wayFromBin(two))
	stale := "choose " + strconv.Itoa(wayFromBin(two))

	typed(t, one, "choose "+strconv.Itoa(wayFromBin(one)))
	require.Equal(t, "12.00", one.Facts().Chosen.Quote.Parts)
	_, err = two.Enter(t.Context(), stale)
	require.ErrorIs(t, err, job.ErrTaken)
	require.ErrorContains(t, err, "another bench took it")
	require.Zero(t, wayFromBin(two), "the list is new")
	_, out, _ := run(t, "", "--record", record, "bin", "--all")
	require.Contains(t, out, "taken for job 2")
	jobtest.Agree(t, here.Store)

	typed(t, one, "undo")
	require.Nil(t, one.Facts().Chosen)
	_, out, _ = run(t, "", "--record", record, "bin")
	require.Contains(t, out, name)
	require.Contains(t, out, "from job 1")
	two, _, err = ui.Resume(context.Background(), there, two.ID())
	require.NoError(t, err)
	typed(t, two, "choose "+strconv.Itoa(wayFromBin(two)))
	pieces, err := there.Store.Bin(t.Context())
	require.NoError(t, err)
	require.Equal(t, two.ID(), pieces[0].Drawn)
	jobtest.Agree(t, there.Store)
}
