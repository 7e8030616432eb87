package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// asksBack are the items and settings asked for before a job ends with an outcome.
func (l *log) asksBack(outcome job.Outcome) map[string]string {
	l.t.Helper()
	facts, err := job.Fold(l.events)
	require.NoError(l.t, err)
	out := map[string]string{}
	for _, a := range PutBack(l.lib, l.lib.Systems["spray-pump"], facts, outcome) {
		out[a.Item.ID] = a.Setting.ID
	}
	return out
}

// outcomesToRun are the ways in which a machine goes back to be run.
var outcomesToRun = []job.Outcome{job.Proved, job.NotProved, job.Unrepaired}

// leavable has a lead that is on, or off when the machine is not to be run; a tap that
// is open; a lid that comes off for a point; and a lever with one setting alone.
func leavable(t *testing.T) *log {
	l := begin(t)
	safe := func(id string, settings ...tree.Setting) {
		l.lib.Safe[id] = &tree.SafeItem{ID: id, Title: id, Order: len(l.lib.Safe), Settings: settings}
	}
	safe("spark-lead", tree.Setting{ID: "off", Unfit: true}, tree.Setting{ID: "on", Back: true}, tree.Setting{ID: "tester"}, tree.Setting{ID: "diesel", Back: true})
	safe("fuel", tree.Setting{ID: "off"}, tree.Setting{ID: "on", Back: true})
	safe("covers", tree.Setting{ID: "off"}, tree.Setting{ID: "on", Back: true})
	safe("lever", tree.Setting{ID: "down", Back: true})
	sys := l.lib.Systems["spray-pump"]
	sys.States[0].Needs = map[string]string{"covers": "on", "lever": "down"}
	return l.safe("lever", "down")
}

func TestWhatCameOffIsPutBack(t *testing.T) {
	for _, outcome := range outcomesToRun {
		l := leavable(t)
		require.Empty(t, l.asksBack(outcome), "nothing came off")
		l.safe("spark-lead", "off", "fuel", "off")
		require.Equal(t, map[string]string{"spark-lead": "on", "fuel": "on"}, l.asksBack(outcome))
		l.add(job.Event{Kind: job.KindOpened})
		require.Equal(t, map[string]string{"spark-lead": "on", "fuel": "on", "lever": "down"}, l.asksBack(outcome), "of the lever nothing is known now")
		l.safe("spark-lead", "tester", "lever", "down")
		require.Equal(t, "on", l.asksBack(outcome)["spark-lead"])
		l.safe("spark-lead", "diesel", "fuel", "on")
		require.Empty(t, l.asksBack(outcome), "a diesel has none")
	}
}

func TestAMachineThatIsNotToBeRunStaysOff(t *testing.T) {
	l := leavable(t).safe("spark-lead", "off", "fuel", "off")
	require.Equal(t, map[string]string{"fuel": "on"}, l.asksBack(job.SoldAsIs), "the lead stays as it is")
	require.Equal(t, map[string]string{"fuel": "on"}, l.asksBack(job.Unsafe))
	require.Empty(t, l.asksBack(job.PartedOut))
	l.safe("spark-lead", "on")
	require.Equal(t, map[string]string{"spark-lead": "off", "fuel": "on"}, l.asksBack(job.Unsafe), "it ran")
	require.NotContains(t, l.asksBack(job.SoldAsIs), "spark-lead")
	l.safe("spark-lead", "off").add(job.Event{Kind: job.KindOpened})
	require.Equal(t, "off", l.asksBack(job.Unsafe)["spark-lead"], "somebody may have put it on meanwhile")
}

// A lid that was opened for a reading or a repair, and of which nobody was asked, is
// put back too.
func TestACoverThatCameOffWithoutAWordIsPutBack(t *testing.T) {
	l := leavable(t).read("rest", "12.8")
	require.NotContains(t, l.asksBack(job.Unrepaired), "covers", "that is no point behind it")
	l.read("motor", "11.4")
	require.Equal(t, "on", l.asksBack(job.Unrepaired)["covers"])
	require.NotContains(t, l.safe("covers", "on").asksBack(job.Unrepaired), "covers")
	require.Equal(t, "on", l.choose("1", "new-switch").ticks("new-switch").asksBack(job.NotProved)["covers"])
}

// In the shipped trees a machine that goes back to be run has spark, fuel and battery,
// and one that is unsafe has not.
func TestTheShippedTreesSayHowAMachineIsLeft(t *testing.T) {
	lib := shipped(t)
	for id, sys := range lib.Systems {
		has := lib.SafeOf(sys)
		facts := job.Facts{Safe: map[string]string{}, LastSafe: map[string]job.Confirmed{}}
		off := map[string]string{"spark-lead": "off", "fuel": "off", "battery-negative": "off", "pack": "out", "any-battery": "off"}
		on := map[string]string{"spark-lead": "on", "fuel": "on", "battery-negative": "on", "pack": "in", "any-battery": "on"}
		for item, setting := range off {
			if has.Has(item, setting) {
				facts.LastSafe[item] = job.Confirmed{Seq: 1, Setting: setting}
			}
		}
		require.NotEmpty(t, facts.LastSafe, id)
		asked := map[string]string{}
		for _, a := range PutBack(lib, sys, facts, job.Proved) {
			asked[a.Item.ID] = a.Setting.ID
		}
		for item := range facts.LastSafe {
			require.Equal(t, on[item], asked[item], id)
		}
		unsafe := map[string]string{}
		for _, a := range PutBack(lib, sys, facts, job.Unsafe) {
			unsafe[a.Item.ID] = a.Setting.ID
		}
		for item := range facts.LastSafe {
			require.Equal(t, off[item], unsafe[item], "%s: nobody has confirmed it since the job was opened", id)
		}
	}
}
