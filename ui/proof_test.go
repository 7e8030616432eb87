package ui_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// Before and after stand on the same line of bands. The battery's limit while the
// switch is held is 9.6 V; a line with one limit is two halves, each as wide as the
// limit is high. 8.2 V stands at 0.5 x (1 - 1.4/9.6) = 0.427, 11.4 V at 0.5 +
// 0.5 x 1.8/9.6 = 0.594.
func TestBeforeAndAfterStandOnOneLine(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 13.5", "held 8.2")
	held := s.Position().System.Test("held")
	require.True(t, math.IsNaN(s.Line(held, "").Was), "nothing was repaired yet")
	enter(t, s, "choose 1", "pass ours", "yes", "all", "done")
	said := enter(t, s, "12.8", "yes")
	require.NotContains(t, strings.Join(said, " "), "before", "it had not been read")
	require.Equal(t, walk.AtCheck, s.Position().Stage)
	require.Equal(t, []string{"before: 8.2 V, sags"}, s.Prompt().SoFar)
	line := s.Line(held, "11.4")
	require.Equal(t, "before 8.2 V, sags", line.WasSays)
	require.InDelta(t, 0.4271, line.Was, 1e-4)
	require.InDelta(t, 0.5938, line.At, 1e-4)
	said = enter(t, s, "11.4")
	require.Equal(t, "Battery with the switch held: before 8.2 V, sags; now 11.40 +- 0.11 V, holds.", said[0])
}

// What was seen before is said too, and a display that never settled has no place
// on the line.
func TestBeforeInWords(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "rest 12.8", "yes", "held flicker", "motor 0.1", "held 11.4", "yes", "2", "held flicker")
	require.Equal(t, walk.AtVerdict, s.Position().Stage)
	enter(t, s, "undo", "choose 1", "pass ours", "all", "done", "yes")
	require.Equal(t, "motor", s.Position().Test.ID)
	said := enter(t, s, "11.2", "11.4", "yes", "turns")
	require.Equal(t, "Volts at the motor: before 0.1 V, none; now 11.20 +- 0.11 V, there.", said[0])
	require.Contains(t, said, "Does it turn: before stands; now turns.")
}

// A check reading in the band that failed opens the walk again: the fault is found
// again, it is said what was tried, and that is not offered once more.
func TestAFailedCheckOpensTheWalkAgain(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12.8", "yes", "11.4", "0.0", "yes", "stands", "choose 1", "pass ours", "all", "done", "yes")
	require.Equal(t, walk.AtCheck, s.Position().Stage)
	said := enter(t, s, "0.0", "11.4")
	enter(t, s, "yes")
	require.Contains(t, said, "Found again: The switch is open. Tried already: Fit a switch.")
	require.Equal(t, walk.AtTest, s.Position().Stage, "the walk goes on")
	enter(t, s, "stands")
	require.Equal(t, walk.AtVerdict, s.Position().Stage)
	require.Contains(t, s.PathLines(), "Tried already, and the fault is still there: Fit a switch.")
	said = enter(t, s, "close")
	require.NotContains(t, strings.Join(said, "\n"), string(job.Proved))
}

// A check reading that is too close to call proves nothing, though nothing is found
// by it: the repair can't be closed as proved.
func TestACheckThatIsTooCloseIsNoProof(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 13.5", "held 8.2", "choose 1", "pass ours", "yes", "all", "done", "12.8", "yes", "9.6", "11.2", "yes", "turns", "pass", "stops")
	require.Empty(t, s.Position().Verdict.Found)
	require.Equal(t, walk.AtClose, s.Position().Stage)
	said := enter(t, s, "close")
	require.NotContains(t, strings.Join(said, "\n"), "  close 1  "+string(job.Proved))
	require.Contains(t, said[1], string(job.NotProved)+" (the check readings do not clear this: The battery is weak)")
	enter(t, s, "close 1 the owner can't wait", "yes")
	require.Equal(t, "the owner can't wait", s.Facts().Closed.Why)
}

// A machine with a bypass is never closed as repaired, nor as handed back in order.
func TestABypassedMachineIsUnsafe(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "sw.open", "sw.bypassed")
	for name, lines := range map[string][]string{
		"nothing was done":      {"12.8", "yes", "11.4", "0.0", "yes", "stands"},
		"it goes back":          {"12.8", "yes", "11.4", "0.0", "yes", "stands", "choose 5"},
		"it was repaired first": {"charger 0", "12.8", "yes", "11.4", "0.0", "yes", "stands", "choose 1", "pass ours", "all", "done", "all", "done", "charger 13.5", "motor 0.0", "held 11.4"},
	} {
		s := beginPump(t, b)
		enter(t, s, lines...)
		said := enter(t, s, "close")
		require.Len(t, said, 2, "%s: %v", name, said)
		require.Contains(t, said[1], string(job.Unsafe)+" (The switch is open)", name)
	}
}

// Work that makes a test unknown again mends nothing: what was seen of a safety switch
// or a safety function stands until it is seen otherwise or repaired.
func TestWorkDoesNotMakeAMachineSafe(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "sw.open", "sw.bypassed", "stales: [rest], at most", "stales: [rest], stales powered: yes, at most")
	unsafe := "  close 1  " + string(job.Unsafe) + " (The switch is open)"
	s := beginPump(t, b)
	enter(t, s, "held 11.3", "motor 0.0", "rest 12.0")
	require.Equal(t, "sw.bypassed", s.Position().Verdict.Found[0].Fault.ID)
	require.Equal(t, unsafe, enter(t, s, "close")[1])
	enter(t, s, "done")
	require.Empty(t, s.Position().Verdict.Found, "nothing speaks of it any more")
	require.Equal(t, []string{"Close the job as:", unsafe}, enter(t, s, "close"))
	// Seen otherwise: it was not so.
	enter(t, s, "motor 11.1", "held 11.3")
	require.Contains(t, enter(t, s, "close")[1], string(job.Unrepaired))

	s = beginPump(t, b)
	enter(t, s, "safe_stop runs on", "yes", "rest 12.0", "done")
	require.Equal(t, walk.Unknown, s.Position().Results["safe_stop"].Mark)
	require.Equal(t, []string{"Close the job as:", "  close 1  " + string(job.Unsafe) + " (It stops when let go)"}, enter(t, s, "close"))
	enter(t, s, "safe_stop stops")
	require.Contains(t, enter(t, s, "close")[1], string(job.Unrepaired))
}

// What is repaired is not held against the machine, whatever is made unknown after it.
func TestARepairedBypassIsNotHeldAgainstTheMachine(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "sw.open", "sw.bypassed")
	s := beginPump(t, b)
	enter(t, s, "12.8", "yes", "11.4", "0.0", "yes", "pass", "choose 1", "pass ours", "all", "done", "yes", "11.1", "11.4", "yes", "turns", "pass", "stops")
	require.Equal(t, walk.AtClose, s.Position().Stage)
	require.Contains(t, enter(t, s, "close")[1], string(job.Proved))
}

// A safety function that this kind of machine has not is none that is unproved.
func TestWhatAMachineHasNotIsNotUnproved(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "hand back: [safe_stop]", "hand back: [safe_stop]\nnot for:\n  - {label: chemistry, says: [agm], leaves out: [safe_stop]}",
		"checks: [motor]", "checks: [motor, safe_stop]")
	in := ui.NewIntake(b.Library)
	for _, a := range []string{"1", "1", "", "", "", "", "agm", "", "", ""} {
		require.NoError(t, in.Answer(a))
	}
	s, err := ui.Begin(context.Background(), b, in.Result())
	require.NoError(t, err)
	enter(t, s, "12.8", "yes", "11.4", "0.0", "yes", "stands", "choose 1", "pass ours", "all", "done", "yes", "11.1", "11.4", "yes", "turns", "pass")
	require.Equal(t, walk.AtClose, s.Position().Stage)
	require.Contains(t, enter(t, s, "close")[1], string(job.Proved))
	doc, err := s.Document()
	require.NoError(t, err)
	require.Empty(t, doc.Safety)
}
