package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/trees/treetest"
)

// flatStanding is a job about a battery that goes flat, on the trees as they ship. The draw
// was read with the meter in the battery lead, and last the lamp switch was unplugged.
func flatStanding(t *testing.T) *log {
	l := begin(t)
	l.lib = loaded(t, treetest.Read(t, root, "trees"))
	in := *l.events[0].Intake
	in.System, in.Complaint, in.Label = "standing-12v", "flat-standing", nil
	l.events[0].Intake = &in
	return l.safe("battery-negative", "off", "added", "draw-meter", "meter-lead", "amps", "wiring", "lamps-off")
}

// needsOf are the make-safe conditions of a test as the facts are.
func (l *log) needsOf(test string) map[string]string {
	l.t.Helper()
	facts, err := job.Fold(l.events)
	require.NoError(l.t, err)
	sys := l.lib.Systems[facts.Intake.System]
	require.NotNil(l.t, sys.Test(test), test)
	return NeedsOf(l.lib, sys, sys.Test(test), facts)
}

// asksOf are the settings asked for, by item.
func asksOf(p Position) map[string]string {
	out := map[string]string{}
	for _, a := range p.Safe {
		out[a.Item.ID] = a.Setting.ID
	}
	return out
}

func TestATestsClipsComeOutBeforeARepair(t *testing.T) {
	p := flatStanding(t).choose("10", "replace-lamp-switch").approved("10", "USD").where()
	require.Equal(t, AtSafe, p.Stage)
	require.Equal(t, map[string]string{"added": "none", "wiring": "as-built", "meter-lead": "volts"}, asksOf(p), "the lead stays off")
}

func TestAfterARepairEverythingIsAskedAnew(t *testing.T) {
	l := flatStanding(t).choose("10", "replace-lamp-switch").approved("10", "USD").
		safe("added", "none", "wiring", "as-built", "meter-lead", "volts").ticks("replace-lamp-switch")
	p := l.where()
	require.Equal(t, AtSafe, p.Stage)
	require.Equal(t, "draw_now", p.Test.ID)
	require.Equal(t, map[string]string{"battery-negative": "off", "added": "draw-meter", "meter-lead": "amps"}, asksOf(p))
	l.undo(int64(len(l.events)))
	require.Equal(t, AtRepair, l.where().Stage, "nothing was done, nothing is asked anew")
}

// A reading that says nothing of what another test unplugged is of the machine as built.
func TestWhatAnotherTestUnpluggedGoesBackFirst(t *testing.T) {
	l := flatStanding(t)
	require.Equal(t, "as-built", l.needsOf("draw_now")["wiring"])
	require.Equal(t, "key-off", l.needsOf("draw_key")["wiring"])
	require.NotContains(t, l.needsOf("stood"), "wiring", "a question can be asked as it stands")
	l.safe("wiring", "as-built")
	require.NotContains(t, l.needsOf("draw_now"), "wiring")
}

// A question or a look on a dead machine has no card of its own, as long as nobody clipped
// anything on; who reads a meter or turns the machine has one.
func TestALookIsAskedWithoutACard(t *testing.T) {
	slow := func() *log {
		l := begin(t)
		l.lib = loaded(t, treetest.Read(t, root, "trees"))
		in := *l.events[0].Intake
		in.System, in.Complaint, in.Label = "key-start-12v", "slow", nil
		l.events[0].Intake = &in
		return l
	}
	l := slow()
	for _, look := range []string{"start_sound", "kind_of_machine", "oil", "battery_look"} {
		require.Empty(t, l.needsOf(look), look)
	}
	require.Equal(t, "none", l.needsOf("battery_rest")["added"])
	require.Equal(t, "off", l.needsOf("by_hand")["spark-lead"])
	require.Equal(t, "none", l.needsOf("by_hand")["added"], "hands are on what turns: all of it is asked")
	for says, l := range map[string]*log{
		"the load tester may still be on": slow().read("battery_load", "10.4"),
		"the bulb is still on":            slow().safe("added", "bulb"),
		"it was passed over":              slow().safe("added", "none").add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: "battery_load", Why: "passed over", Unmade: []string{"added"}}}),
	} {
		require.Equal(t, "none", l.needsOf("oil")["added"], says)
	}
	l = slow().read("battery_load", "10.4").safe("added", "none").add(job.Event{Kind: job.KindOpened})
	require.Empty(t, l.needsOf("oil"), "it came off")
}

func TestTheRedLeadLeavesTheAmpsJack(t *testing.T) {
	l := flatStanding(t)
	require.Equal(t, "volts", l.needsOf("battery_rest")["meter-lead"])
	require.Equal(t, "amps", l.needsOf("draw_now")["meter-lead"])
	l.add(job.Event{Kind: job.KindOpened})
	require.Equal(t, "volts", l.needsOf("battery_rest")["meter-lead"], "it is still there after the job was put aside")
	facts, err := job.Fold(l.events)
	require.NoError(t, err)
	for _, outcome := range append(outcomesToRun, job.Unsafe, job.SoldAsIs) {
		back := map[string]string{}
		for _, a := range PutBack(l.lib, l.lib.Systems["standing-12v"], facts, outcome) {
			back[a.Item.ID] = a.Setting.ID
		}
		require.Equal(t, "volts", back["meter-lead"], outcome)
	}
	l.safe("meter-lead", "volts")
	require.NotContains(t, l.needsOf("battery_rest"), "meter-lead")
}

// What was asked for and passed over is not known, whatever was confirmed before.
func TestWhatWasPassedOverIsAskedAgain(t *testing.T) {
	l := begin(t).read("rest", "12.9").safe("spark-lead", "off")
	l.waitsFor("held")
	l.add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: "held", Why: "passed over", Unmade: []string{"spark-lead"}}})
	p := l.where()
	require.Equal(t, AtSafe, p.Stage)
	require.Equal(t, "motor", p.Test.ID)
	require.Equal(t, "off", asksOf(p)["spark-lead"])
	facts, err := job.Fold(l.events)
	require.NoError(t, err)
	require.Equal(t, []string{"spark-lead"}, facts.Unmade)
	facts, err = job.Fold(l.safe("spark-lead", "off").events)
	require.NoError(t, err)
	require.Empty(t, facts.Unmade)
}
