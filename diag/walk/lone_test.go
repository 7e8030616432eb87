package walk

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
)

// -12.62 V is a battery charged backwards, or a sound one with the probes swapped.
func TestOneReadingBelowNothingProvesNothing(t *testing.T) {
	j := &tallied{t: t, lib: shipped(t)}
	p := j.intake("slow").read("battery_rest", "-12.62 V").where()
	r := p.Results["battery_rest"]
	require.True(t, r.Lone)
	require.Equal(t, measure.ByOne, r.Call().Answer)
	require.NotContains(t, found(p.Verdict), "battery.reversed")
	require.Equal(t, "battery_rest", p.Test.ID, "it is asked for again")
	require.True(t, p.Disputed)
	require.Equal(t, AtDanger, p.Stage, "the danger is heeded all the same")

	p = j.read("battery_rest", "-12.61 V").where()
	require.False(t, p.Results["battery_rest"].Lone)
	require.Contains(t, found(p.Verdict), "battery.reversed")
	require.False(t, p.Disputed)
}

// It was the probes: 12.62 V. One of the two has to come once more.
func TestAReadingBelowNothingThatDoesNotComeAgainIsSettledByAThird(t *testing.T) {
	j := &tallied{t: t, lib: shipped(t)}
	p := j.intake("slow").read("battery_rest", "-12.62 V").read("battery_rest", "12.62 V").where()
	require.True(t, p.Results["battery_rest"].Astray)
	require.True(t, p.Disputed)
	p = j.read("battery_rest", "12.62 V").where()
	require.Equal(t, "charged", p.Results["battery_rest"].Best())
	require.NotContains(t, found(p.Verdict), "battery.reversed")
	require.True(t, p.Verdict.Clears("battery.reversed"))
}

// Who was asked and stood by it has looked where the probes are.
func TestAReadingBelowNothingThatWasKeptCounts(t *testing.T) {
	lib := shipped(t)
	r, err := measure.Parse("-12.62 V", measure.DCVolts)
	require.NoError(t, err)
	for _, kept := range []bool{true, false} {
		facts, err := job.Fold([]job.Event{
			{Seq: 1, Kind: job.KindIntake, Intake: &job.Intake{System: "key-start-12v", Complaint: "slow", Celsius: 20, Meter: lib.Instruments("pocket")}},
			{Seq: 2, Kind: job.KindRead, Read: &job.Read{Test: "battery_rest", Reading: r, Sure: kept}},
		})
		require.NoError(t, err)
		require.Equal(t, kept, slices.Contains(found(Where(lib, facts).Verdict), "battery.reversed"))
	}
}

// Posts at 9.1 V while cranking are above nothing: at rest they are no -12.62 V.
func TestPostsBelowNothingAtRestAndAboveItCrankingAreNoPair(t *testing.T) {
	for _, times := range []int{1, 2} {
		j := &tallied{t: t, lib: shipped(t)}
		j.intake("slow")
		for range times {
			j.read("battery_rest", "-12.62 V")
		}
		p := j.read("batt_held", "9.10 V").where()
		require.NotNil(t, p.Results["battery_rest"].Clash, times)
		require.NotNil(t, p.Results["batt_held"].Clash, times)
		require.NotContains(t, found(p.Verdict), "battery.reversed")
		require.Equal(t, Passed, p.Results["posts_sag"].Mark)
	}
}
