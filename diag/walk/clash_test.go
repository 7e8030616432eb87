package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
)

// A starter can't raise its battery: 12.62 V at rest and 13.4 V cranking are no pair.
func TestAPairThatCantBeProvesNothingAndIsTakenAgain(t *testing.T) {
	lib := shipped(t)
	j := &tallied{t: t, lib: lib}
	j.intake("slow").read("battery_rest", "12.62 V")
	require.Nil(t, j.where().Results["battery_rest"].Clash)
	p := j.read("batt_held", "13.40 V").where()
	require.NotNil(t, p.Results["batt_held"].Clash)
	require.NotNil(t, p.Results["battery_rest"].Clash)
	require.Equal(t, Passed, p.Results["posts_sag"].Mark, "nothing is worked out of them")
	require.True(t, p.Disputed)
	require.Equal(t, "battery_rest", p.Test.ID, "what needs no power goes first")
	require.Contains(t, p.Verdict.Unclear[0].Why, "can't raise its battery")

	p = j.read("battery_rest", "12.62 V").where()
	require.Equal(t, "batt_held", p.Test.ID)
	// It was the cranking reading that slipped: 11.2 V, and 11.2 V again.
	p = j.read("batt_held", "11.20 V").where()
	require.Equal(t, "batt_held", p.Test.ID, "13.4 and 11.2 disagree")
	p = j.read("batt_held", "11.20 V").where()
	require.False(t, p.Disputed)
	require.Nil(t, p.Results["batt_held"].Clash)
	require.Equal(t, Read, p.Results["posts_sag"].Mark)
}

// What stays after both were taken twice is left in doubt, and asked no more.
func TestAPairThatStaysImpossibleIsLeftInDoubt(t *testing.T) {
	j := &tallied{t: t, lib: shipped(t)}
	p := j.intake("slow").read("battery_rest", "12.62 V").read("batt_held", "13.40 V").read("battery_rest", "12.62 V").read("batt_held", "13.40 V").where()
	require.False(t, p.Disputed)
	require.NotNil(t, p.Results["batt_held"].Clash)
	require.Len(t, p.Verdict.Unclear, 2)
}

func TestOtherPairsThatCantBe(t *testing.T) {
	for _, tc := range []struct {
		name, one, reads, other, shows string
		clash                          bool
	}{
		{"more lost than there is", "battery_rest", "12.40 V", "ground_drop", "13.60 V", true},
		{"a solenoid that is open shows the whole battery", "battery_rest", "12.40 V", "sol_drop", "12.40 V", false},
		{"out of a contact more than into it", "sol_in_held", "9.00 V", "sol_out_held", "10.20 V", true},
		{"as much out as in", "sol_in_held", "9.00 V", "sol_out_held", "9.10 V", false},
		{"a switch that gives more than it gets", "brake_in_hot", "8.00 V", "brake_out_hot", "11.00 V", true},
		{"a bulb that raises the posts", "battery_rest", "12.40 V", "posts_bulb", "13.00 V", true},
		{"a battery the wrong way round proves no pair wrong", "battery_rest", "-12.40 V", "batt_held", "0.00 V", false},
		{"another try, a little higher", "battery_rest", "12.40 V", "batt_held", "12.55 V", false},
	} {
		j := &tallied{t: t, lib: shipped(t)}
		p := j.intake("slow").read(tc.one, tc.reads).read(tc.other, tc.shows).where()
		require.Equal(t, tc.clash, p.Results[tc.one].Clash != nil, tc.name)
		require.Equal(t, tc.clash, p.Results[tc.other].Clash != nil, tc.name)
	}
}

// Amps that flow through the holder of a fuse flow through the fuse, out or back.
func TestAFuseThatCurrentFlowsThroughIsWhole(t *testing.T) {
	lib := shipped(t)
	for _, system := range []string{"charge-diode", "charge-regulated"} {
		for amps, whole := range map[string]bool{"4.0 A": true, "1.0 A": true, "-6.0 A": true, "0.0 A": false} {
			r, err := measure.Parse(amps, measure.ClampAmps)
			require.NoError(t, err)
			facts, err := job.Fold([]job.Event{
				{Seq: 1, Kind: job.KindIntake, Intake: &job.Intake{System: system, Complaint: "no-charge", Celsius: 20, Meter: lib.Instruments("clamp")}},
				{Seq: 2, Kind: job.KindRead, Read: &job.Read{Test: "charge_clamp", Reading: r}},
			})
			require.NoError(t, err)
			require.Equal(t, whole, Where(lib, facts).Verdict.Clears("charge.fuse"), "%s, %s", system, amps)
		}
	}
}
