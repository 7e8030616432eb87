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

// intake begins the job with nothing read of the label.
func (j *tallied) intake(complaint string) *tallied {
	return j.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "key-start-12v", Complaint: complaint, Celsius: 20, Meter: j.lib.Instruments("pocket"),
	}})
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

// sealed is a small sealed battery on its wall charger, of which nobody read the label.
func sealed(t *testing.T, label map[string]float64, readings ...[2]string) Position {
	t.Helper()
	lib := shipped(t)
	events := []job.Event{{Seq: 1, Kind: job.KindIntake, Intake: &job.Intake{
		System: "sealed-12v", Complaint: lib.Systems["sealed-12v"].Complaints[0].ID, Celsius: 20, Label: label, Meter: lib.Instruments("pocket"),
	}}}
	for _, r := range readings {
		reading, err := measure.Parse(r[1], lib.Systems["sealed-12v"].Test(r[0]).Function)
		require.NoError(t, err)
		events = append(events, job.Event{Seq: int64(len(events)) + 1, Kind: job.KindRead, Read: &job.Read{Test: r[0], Reading: reading}})
	}
	facts, err := job.Fold(events)
	require.NoError(t, err)
	return Where(lib, facts)
}

// 4.6 V under load is more than 0.36 of 12 V (4.32 V), and less than 0.36 of 15 V (5.4 V).
func TestAChargerWhoseVoltsNobodyReadIsNotCalledNearItsLimit(t *testing.T) {
	load := [2]string{"wall_load", "4.60 V"}
	require.Equal(t, measure.ByLabel, sealed(t, nil, load).Results["wall_load"].Call().Answer)
	require.Equal(t, measure.Called, sealed(t, map[string]float64{"charger_volts": 12}, load).Results["wall_load"].Call().Answer)
	// 2 V is under 0.36 of every charger.
	require.Equal(t, "feeble", sealed(t, nil, [2]string{"wall_load", "2.00 V"}).Results["wall_load"].Best())
	require.Equal(t, measure.Called, sealed(t, nil, [2]string{"wall_load", "2.00 V"}).Results["wall_load"].Call().Answer)
}

// clutch_ohms is worked out from clutch_amps where the book was not read: 12 V / 4 A is 3 ohm,
// of which two thirds are 2; of 12 V / 5 A = 2.4 ohm they are 1.6. A clutch of 1.8 ohm is
// shorted by the one and sound by the other.
func TestALimitOnALabelWorkedOutFromAnUnreadOneIsNotCalledEither(t *testing.T) {
	lib := shipped(t)
	where := func(label map[string]float64) Result {
		r, err := measure.Parse("1.8 ohm", measure.Ohms)
		require.NoError(t, err)
		facts, err := job.Fold([]job.Event{
			{Seq: 1, Kind: job.KindIntake, Intake: &job.Intake{System: "blade-clutch", Complaint: lib.Systems["blade-clutch"].Complaints[0].ID, Celsius: 20, Label: label, Meter: lib.Instruments("bench")}},
			{Seq: 2, Kind: job.KindRead, Read: &job.Read{Test: "clutch_ohms", Reading: r}},
		})
		require.NoError(t, err)
		return Where(lib, facts).Results["clutch_20"]
	}
	require.Equal(t, []string{"clutch_amps"}, where(nil).Unread)
	require.Equal(t, measure.ByLabel, where(nil).Call().Answer)
	require.Empty(t, where(map[string]float64{"clutch_amps": 4}).Unread)
	require.Empty(t, where(map[string]float64{"clutch_ohms": 3}).Unread, "what the book says is no guess")
}
