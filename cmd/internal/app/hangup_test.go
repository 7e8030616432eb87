//go:build !windows

package app

import (
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/terminal"
	"benchlead/diag/job"
)

// atTheMotor is a job of the pump with two readings, waiting for the third with half
// of it typed.
func atTheMotor(t *testing.T) (s onScreen, record string) {
	t.Helper()
	record = filepath.Join(t.TempDir(), "record.db")
	s = pumpOn(t, record)
	s.takes(takeIn...)
	s.takes(toVerdict[:3]...)
	s.press("11.")
	return s, record
}

// goesOn opens the job after its program is gone: what was acknowledged is there, what
// was half typed isn't, and the job is brought to its end.
func goesOn(t *testing.T, record string) {
	t.Helper()
	before := []job.Kind{job.KindIntake, job.KindRead, job.KindSafe, job.KindRead}
	require.Equal(t, before, kinds(recorded(t, record)))
	s := pumpOn(t, record)
	s.takes(step{"", "Yard pump"}, step{"1\r", "Make safe before: Volts at the motor"}, step{"yes\r", "[R] red      Motor positive"})
	for _, part := range [][]step{toVerdict[3:], toRepair, toHandBack} {
		s.takes(part...)
	}
	s.press("q\r")
	require.NoError(t, s.Ends())
	events := recorded(t, record)
	require.Equal(t, job.Proved, events[len(events)-1].Closed.Outcome)
}

// A terminal that goes away ends the program and harms nothing: the line that breaks,
// the signal alone, and the end that a supervisor asks for.
func TestAJobGoesOnAfterTheTerminalWentAway(t *testing.T) {
	for name, goes := range map[string]func(s onScreen) error{
		"line breaks":   func(s onScreen) error { return s.HangUp() },
		"hang-up":       func(s onScreen) error { return s.Signal(syscall.SIGHUP) },
		"asked to end":  func(s onScreen) error { return s.Signal(syscall.SIGTERM) },
		"window closed": func(s onScreen) error { _ = s.Signal(syscall.SIGHUP); return s.HangUp() },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s, record := atTheMotor(t)
			require.NoError(t, goes(s))
			require.NotErrorIs(t, s.Ends(), terminal.ErrStays)
			goesOn(t, record)
		})
	}
}

// Started so that a hang-up is not heard, the program still ends when its terminal is
// gone: one that stays would hold the record with nobody before it.
func TestTheProgramEndsWithItsTerminalThoughNoHangUpIsHeard(t *testing.T) {
	signal.Ignore(syscall.SIGHUP) // which a program inherits
	defer signal.Reset(syscall.SIGHUP)
	s, record := atTheMotor(t)
	require.NoError(t, s.HangUp())
	require.NotErrorIs(t, s.Ends(), terminal.ErrStays)
	goesOn(t, record)
}

// The plain face at the end of its input, which a terminal sends as Ctrl-D: the job is
// kept, what is half typed is no answer.
func TestTheEndOfInputKeepsTheJob(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	s := pumpOn(t, record, "walk")
	for _, l := range intakeLines {
		s.press(l + "\n")
	}
	s.takes(step{"", "This is job 1."}, step{"12.6\n", "12.60 plus or minus"}, step{"yes\n", "Hold the switch."})
	s.press("11\x04\x04") // the first hands over what is typed, the second is the end
	s.wait("Job 1 is kept as it stands")
	require.NoError(t, s.Ends())
	require.Equal(t, []job.Kind{job.KindIntake, job.KindRead, job.KindSafe}, kinds(recorded(t, record)))

	again := pumpOn(t, record, "walk", "1")
	again.takes(step{"", "Spark lead: Pull it off"}, step{"yes\n", "Hold the switch."}, step{"\x04", "kept as it stands"})
	require.NoError(t, again.Ends())

	// Before the last question of an intake nothing is recorded.
	third := pumpOn(t, record, "walk")
	third.takes(step{"1\n1\n", "Machine, in your words"}, step{"\x04", "nothing was recorded"})
	require.NoError(t, third.Ends())
	require.Len(t, kinds(recorded(t, record)), 4, "of the second sitting only that it was made safe")
}

// Ctrl-C where the terminal hands it on as a signal, and the signal by itself: both
// faces end at once, each time, and nothing of a job is lost.
func TestAnInterruptEndsBothFaces(t *testing.T) {
	t.Run("lines", func(t *testing.T) {
		record := filepath.Join(t.TempDir(), "record.db")
		s := pumpOn(t, record, "walk")
		s.takes(step{strings.Join(intakeLines, "\n") + "\n", "This is job 1."}, step{"12.6\n", "12.60 plus or minus"})
		s.takes(step{"\x03", "Job 1 is kept as it stands"})
		require.NoError(t, s.Ends())
		require.Len(t, recorded(t, record), 2)
	})
	for round := range 5 { // what hangs, hangs by chance
		t.Run(fmt.Sprintf("screen %d", round), func(t *testing.T) {
			s := pumpOn(t, filepath.Join(t.TempDir(), "record.db"))
			s.takes(takeIn...)
			require.NoError(t, s.Signal(os.Interrupt))
			require.NoError(t, s.Ends())
		})
	}
}

// Without a terminal at both ends there is no screen: nobody could see it, or press a
// key.
func TestTheBenchWantsATerminalAtBothEnds(t *testing.T) {
	name, err := binary()
	require.NoError(t, err)
	for what, redirected := range map[string]string{"input": "<", "output": ">"} {
		t.Run(what, func(t *testing.T) {
			s := onShell(t, name+" --demo "+redirected+os.DevNull)
			s.wait("the bench needs a terminal")
			require.Error(t, s.Ends())
		})
	}
}
