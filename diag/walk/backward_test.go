package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
)

// 0.5 V lost with the leads turned is shown as -0.5 V. It is no small drop: that part may
// be the bad one.
func TestADropReadWithTheLeadsTurnedIsNoSmallOne(t *testing.T) {
	j := rider(t, shipped(t), nil).read("sol_drop", "-0.5 V")
	p := j.where()
	r := p.Results["sol_drop"]
	require.True(t, r.Backward)
	require.Equal(t, measure.ByLeads, r.Call().Answer)
	require.Equal(t, Passed, p.Results["solenoid_mohm"].Mark, "nothing is worked out of it")
	require.False(t, p.Verdict.Clears("solenoid.contacts"))
	var why string
	for _, u := range p.Verdict.Unclear {
		if u.Test.ID == "sol_drop" {
			why = u.Why
		}
	}
	require.Contains(t, why, "turn them")

	// Turned and taken again, there is nothing to dispute.
	p = j.read("sol_drop", "0.50 V").where()
	require.False(t, p.Results["sol_drop"].Astray)
	require.False(t, p.Results["sol_drop"].Backward)
	require.Equal(t, "fair", p.Results["sol_drop"].Best())
	require.Equal(t, Read, p.Results["solenoid_mohm"].Mark)
}

// A meter without a lead on anything wanders about nothing, and a few millivolts the wrong
// way say the same as a few the right way.
func TestAFewMillivoltsBelowNothingAreNothing(t *testing.T) {
	r := rider(t, shipped(t), nil).read("sol_drop", "-0.004 V").where().Results["sol_drop"]
	require.False(t, r.Backward)
	require.Equal(t, "quiet", r.Best())
}

// Tests that can read below nothing have a limit there.
func TestAReversedBatteryIsStillReadAsOne(t *testing.T) {
	p := rider(t, shipped(t), nil).read("battery_rest", "-12.6 V").read("battery_rest", "-12.6 V").where()
	require.False(t, p.Results["battery_rest"].Backward)
	require.Equal(t, "reversed", p.Results["battery_rest"].Best())
}

// Battery volts on a magneto's stop wire destroy the module. Read with the leads turned
// they are shown as -12.4 V, which clears no wire and raises the danger all the same.
func TestADangerReadWithTheLeadsTurnedIsHeeded(t *testing.T) {
	lib := shipped(t)
	r, err := measure.Parse("-12.4 V", measure.DCVolts)
	require.NoError(t, err)
	facts, err := job.Fold([]job.Event{
		{Seq: 1, Kind: job.KindIntake, Intake: &job.Intake{System: "magneto-stop", Complaint: lib.Systems["magneto-stop"].Complaints[0].ID, Celsius: 20, Meter: lib.Instruments("pocket")}},
		{Seq: 2, Kind: job.KindRead, Read: &job.Read{Test: "wire_volts_on", Reading: r}},
	})
	require.NoError(t, err)
	p := Where(lib, facts)
	require.True(t, p.Results["wire_volts_on"].Backward)
	require.Equal(t, AtDanger, p.Stage)
}
