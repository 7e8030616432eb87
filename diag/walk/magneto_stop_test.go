package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
)

// magneto begins a job on an engine with a magneto and nothing on its stop wire but the
// switch.
func magneto(t *testing.T, label map[string]string) *log {
	l := &log{t: t, lib: shipped(t)}
	l.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "magneto-stop", Complaint: "no-spark", Celsius: 20, Meter: *l.lib.Meters["clamp"], Digest: l.lib.Digest, LabelText: label,
	}})
	return l
}

func (l *log) ohms(test, text string) *log { return l.measured(test, text, measure.Ohms) }

// 0.3 ohm on stop is what a good stop reads, and what a wire reads that is rubbed
// through to the block. Only open on run tells them apart.
func TestAWireThatGroundsAllTheTimeProvesNoStop(t *testing.T) {
	stops := []string{"stop.open", "switch.stop-open", "stop.ground"}
	l := magneto(t, nil).seen("stop_look", "nothing wrong").ohms("off_ohms", "0.3")
	require.NotSubset(t, cleared(l.where().Verdict), []string{"switch.stop-open"}, "nothing is read on run")

	good := *l
	good.events = append([]job.Event{}, l.events...)
	good.ohms("run_ohms", "OL")
	require.Subset(t, cleared(good.where().Verdict), stops)

	l.ohms("run_ohms", "0.3").seen("oil_switch_there", "none").ohms("switch_run", "OL").seen("seat_fitted", "none").ohms("bare_wire", "0.3")
	v := l.where().Verdict
	require.Equal(t, []string{"stop.grounded"}, found(v))
	var masked []string
	for _, m := range v.Masked {
		masked = append(masked, m.Fault.ID)
	}
	for _, fault := range stops {
		require.NotContains(t, cleared(v), fault)
		require.Contains(t, masked, fault)
	}
}

// The wire alone is the first reading after it was mended. What was not mended is found
// again by it.
func TestAStopWireThatStillGroundsIsFoundAgain(t *testing.T) {
	l := magneto(t, nil).seen("stop_look", "nothing wrong").ohms("off_ohms", "0.3").ohms("run_ohms", "0.3").
		seen("oil_switch_there", "none").ohms("switch_run", "OL").seen("seat_fitted", "none").ohms("bare_wire", "0.3")
	l.shows("stop.grounded")
	r, sys := l.lib.Repairs["renew-stop-wire"], l.lib.Systems["magneto-stop"]
	l.choose("", r.ID).add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: r.ID, Stales: StaledBy(l.lib, sys, r)}}).shows()
	p := l.where()
	require.Equal(t, "bare_wire", p.Test.ID)
	require.Empty(t, found(p.Verdict))
	l.ohms("bare_wire", "0.4")
	require.Equal(t, []string{"stop.grounded"}, found(l.where().Verdict))
}

// Without a seat nobody is asked to rise from it, and a machine that is walked behind
// has none.
func TestWithoutASeatNobodyRisesFromIt(t *testing.T) {
	if raced {
		t.Skip("no goroutine is in it, and it takes a minute")
	}
	safety := func(l *log) []string {
		facts, err := job.Fold(l.events)
		require.NoError(t, err)
		return SafetyOf(l.lib.Systems["magneto-stop"], facts)
	}
	require.Contains(t, safety(magneto(t, nil)), "seat_stops")
	require.Contains(t, safety(magneto(t, nil).seen("seat_fitted", "fitted")), "seat_stops")
	require.NotContains(t, safety(magneto(t, nil).seen("seat_fitted", "none")), "seat_stops")
	require.NotContains(t, safety(magneto(t, map[string]string{"tool": "walked blade"})), "seat_stops")
}
