package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// rider is a job on a key-start machine that turns slowly: 12.62 V at rest, 9.1 V while
// cranking at 110 A, and 0.75 V on the ground side. That is 32 milliohms in the battery and
// 6.8 in the ground side.
func rider(t *testing.T, lib *tree.Library, label map[string]float64) *tallied {
	t.Helper()
	j := &tallied{t: t, lib: lib}
	j.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "key-start-12v", Complaint: "slow", Celsius: 20, Label: label, Meter: lib.Instruments("pocket"),
	}})
	j.read("battery_rest", "12.62 V").read("batt_held", "9.10 V").read("ground_drop", "0.750 V").read("starter_amps", "110 A")
	j.add(job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: "start_sound", Choice: "slow"}})
	return j
}

// tallied is a job of shipped trees, event by event.
type tallied struct {
	t      *testing.T
	lib    *tree.Library
	events []job.Event
}

func (j *tallied) add(e job.Event) *tallied {
	e.Seq = int64(len(j.events)) + 1
	j.events = append(j.events, e)
	return j
}

func (j *tallied) read(test, text string) *tallied {
	r, err := measure.Parse(text, j.lib.Systems["key-start-12v"].Test(test).Function)
	require.NoError(j.t, err)
	return j.add(job.Event{Kind: job.KindRead, Read: &job.Read{Test: test, Reading: r}})
}

func (j *tallied) where() Position {
	facts, err := job.Fold(j.events)
	require.NoError(j.t, err)
	return Where(j.lib, facts)
}

// lead_ohms of a 200 A battery puts the cut at 38 milliohms or so, of a 400 A one at half of
// that: 32 is good in the one and not in the other.
func TestALimitOnAnUnreadLabelClearsNothingThatAnotherUsualLabelWouldNot(t *testing.T) {
	lib := shipped(t)
	j := rider(t, lib, nil)
	p := j.where()
	r := p.Results["battery_mohm"]
	require.Equal(t, []string{"battery_cca"}, r.Unread)
	require.Equal(t, measure.ByLabel, r.Call().Answer)
	require.False(t, p.Verdict.Clears("battery.high-resistance"))

	j = rider(t, lib, map[string]float64{"battery_cca": 200})
	p = j.where()
	require.Empty(t, p.Results["battery_mohm"].Unread)
	require.Equal(t, measure.Called, p.Results["battery_mohm"].Call().Answer)
	require.True(t, p.Verdict.Clears("battery.high-resistance"))

	j = rider(t, lib, map[string]float64{"battery_cca": 400})
	require.False(t, j.where().Verdict.Clears("battery.high-resistance"))
}

// (12.62 - 11.60) V / 110 A is 9 milliohms: good with any usual label.
func TestALimitOnAnUnreadLabelCountsWhereEveryUsualLabelAgrees(t *testing.T) {
	lib := shipped(t)
	j := &tallied{t: t, lib: lib}
	j.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "key-start-12v", Complaint: "slow", Celsius: 20, Meter: lib.Instruments("pocket"),
	}})
	p := j.read("battery_rest", "12.62 V").read("batt_held", "11.60 V").read("starter_amps", "110 A").where()
	require.Empty(t, p.Results["battery_mohm"].Unread)
	require.Equal(t, measure.Called, p.Results["battery_mohm"].Call().Answer)
}

// 0.2 V for each 100 A is 2 milliohms a cable; 6.8 for the cable and one joint is more than
// three times that.
func TestAGroundSideOverThreeTimesTheRuleIsNotCleared(t *testing.T) {
	j := rider(t, shipped(t), nil)
	p := j.where()
	require.Equal(t, "fair", p.Results["ground_mohm"].Best())
	require.False(t, p.Verdict.Clears("cable.ground"))
	require.False(t, p.Verdict.Clears("bond.engine"))

	p = j.read("ground_drop", "0.300 V").read("ground_drop", "0.300 V").where() // 2.7 milliohms
	require.True(t, p.Verdict.Clears("cable.ground"))
}

func TestNothingIsWorkedOutOfReadingsThatDisagree(t *testing.T) {
	j := rider(t, shipped(t), map[string]float64{"battery_cca": 200})
	require.Equal(t, Read, j.where().Results["ground_mohm"].Mark)
	p := j.read("ground_drop", "0.300 V").where()
	require.True(t, p.Results["ground_drop"].Astray)
	require.Equal(t, Passed, p.Results["ground_mohm"].Mark)
	require.Contains(t, p.Results["ground_mohm"].Why, "disagree")
	require.False(t, p.Verdict.Clears("cable.ground"))

	p = j.read("ground_drop", "0.300 V").where() // taken again, it stays
	require.False(t, p.Results["ground_drop"].Astray)
	require.Equal(t, Read, p.Results["ground_mohm"].Mark)
	require.True(t, p.Verdict.Clears("cable.ground"))
}
