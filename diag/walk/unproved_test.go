package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// shows writes the findings into the last event, as a session does.
func (l *log) shows(faults ...string) *log {
	l.events[len(l.events)-1].Shown = &faults
	return l
}

func unproved(l *log) (out []string) {
	facts, err := job.Fold(l.events)
	require.NoError(l.t, err)
	for _, f := range Unproved(l.lib, l.where(), facts) {
		out = append(out, f.ID)
	}
	return out
}

// The check of this switch's repair says nothing of the switch. What would is asked
// for, once.
func TestARepairThatItsChecksLeaveOpenIsDecidedFirst(t *testing.T) {
	l := openSwitch(t).shows("sw.open")
	l.lib = library(t, "pump", "parts: [{part: sw, qty: 1}], minutes: 20, steps: [Fit it.], checks: [motor]",
		"parts: [{part: sw, qty: 1}], minutes: 20, steps: [Fit it.], checks: [held]")
	l.choose("10.00", "new-switch").approved("10", "USD").ticks("new-switch").safe("spark-lead", "off", "fuel", "off").shows().
		read("held", "11.3")
	p := l.where()
	require.Equal(t, AtCheck, p.Stage)
	require.Equal(t, "motor", p.Test.ID)
	require.Equal(t, []string{"sw.open"}, unproved(l))

	refused := *l
	refused.pass("motor")
	require.Equal(t, []string{"sw.open"}, unproved(&refused))
	require.NotEqual(t, AtCheck, refused.where().Stage, "what was passed over is not asked for again")

	l.read("motor", "11.1")
	require.Empty(t, unproved(l))
	require.NotEqual(t, AtCheck, l.where().Stage)
}

// A ground drop in the band where milliohms decide proves no cleaned cable: the
// amps are asked for. 0.5 V at 60 A is 8.3 milliohms, which is undecided too; 0.24 V
// at 60 A is 4, below the 7 of a sound cable.
func TestAFairGroundDropProvesNothing(t *testing.T) {
	for drop, want := range map[string][]string{"0.5": {"cable.ground"}, "0.24": nil} {
		l := &log{t: t, lib: shipped(t)}
		l.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
			System: "key-start-12v", Complaint: "one-click", Celsius: 20, Meter: *l.lib.Meters["clamp"], Digest: l.lib.Digest,
			Label: map[string]float64{"battery_volts": 12, "battery_cca": 200}, LabelText: map[string]string{"chemistry": "flooded"},
		}})
		l.seen("start_sound", "one click").read("batt_held", "12.1").read("frame_drop", "7.8")
		require.Contains(t, found(l.where().Verdict), "cable.ground")
		l.shows("cable.ground")
		r, sys := l.lib.Repairs["clean-ground-ends"], l.lib.Systems["key-start-12v"]
		l.choose("", r.ID).add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: r.ID, Stales: StaledBy(l.lib, sys, r)}}).shows()
		l.read("frame_drop", drop).read("ground_drop", "0.6").seen("start_sound", "cranks normally")
		for _, e := range sys.Well {
			if len(l.where().Results[e.Test].Chance) == 0 && l.where().Results[e.Test].Mark == Unknown {
				l.seen(e.Test, e.Bands[0])
			}
		}
		p := l.where()
		require.Equal(t, "starter_amps", p.Test.ID, drop)
		require.Equal(t, []string{"cable.ground"}, unproved(l))
		l.amps("starter_amps", "60")
		require.Equal(t, want, unproved(l), drop)
	}
}

// Under 0.2 V on the cable itself while it cranks, and 0.25 V on the whole side: the side is
// left to milliohms. With a meter that has no amps the bulb is asked for next; the posts,
// which fall from 12.7 to 11.3 V, clear the cable too. What is lacking is named.
func TestWithoutAmpsTheCablesOwnDropProvesIt(t *testing.T) {
	l := &log{t: t, lib: shipped(t)}
	l.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "key-start-12v", Complaint: "one-click", Celsius: 20, Meter: *l.lib.Meters["pocket"], Digest: l.lib.Digest,
		Label: map[string]float64{"battery_volts": 12}, LabelText: map[string]string{},
	}})
	l.seen("start_sound", "one click").read("batt_held", "12.3").read("frame_drop", "8.0").shows("cable.ground")
	r, sys := l.lib.Repairs["clean-ground-ends"], l.lib.Systems["key-start-12v"]
	l.choose("", r.ID).add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: r.ID, Stales: StaledBy(l.lib, sys, r)}}).shows()
	l.read("frame_drop", "0.15").read("ground_drop", "0.25").seen("start_sound", "cranks normally").seen("crank_again", "every time")
	require.Equal(t, "starter_amps", l.where().Test.ID)
	l.pass("starter_amps")
	require.Equal(t, "frame_bulb", l.where().Test.ID)
	require.Equal(t, []string{"cable.ground"}, unproved(l))

	bulb := *l
	bulb.read("frame_bulb", "0.012")
	require.Empty(t, unproved(&bulb))

	l.pass("frame_bulb")
	require.NotEqual(t, AtCheck, l.where().Stage, "nobody is pressed")
	require.Equal(t, "ground_bulb", Proving(l.lib, l.where(), "cable.ground").ID, "one answer, and no power")
	l.read("battery_rest", "12.7").read("batt_held", "11.3")
	require.Empty(t, unproved(l))
}

func (l *log) amps(test, text string) *log {
	l.t.Helper()
	return l.measured(test, text, l.lib.Systems["key-start-12v"].Test(test).Function)
}

// Whoever hands a machine back unrepaired is asked for no more readings.
func TestAWayWithoutARepairEndsTheTests(t *testing.T) {
	l := begin(t).safe("spark-lead", "off", "fuel", "off").read("rest", "12.9")
	require.Equal(t, AtTest, l.where().Stage)
	for _, path := range []string{"return unrepaired", "sell as is", job.PathPartOut} {
		at := *l
		at.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: path, Repairs: []string{}}})
		require.Equal(t, AtClose, at.where().Stage, path)
	}
}
