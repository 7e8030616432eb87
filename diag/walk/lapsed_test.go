package walk

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

func (l *log) lapsed() (found, cleared, failed []string) {
	l.t.Helper()
	facts, err := job.Fold(l.events)
	require.NoError(l.t, err)
	out := LapsedOf(l.lib, facts, l.where())
	for _, f := range out.Found {
		found = append(found, f.ID)
	}
	for _, f := range out.Cleared {
		cleared = append(cleared, f.ID)
	}
	for _, test := range out.Failed {
		failed = append(failed, test.ID)
	}
	return found, cleared, failed
}

func TestWhatWorkMakesUnknownHasLapsed(t *testing.T) {
	l := begin(t).read("held", "11.3").read("motor", "0.0").seen("safe_stop", "runs on")
	found, cleared, failed := l.lapsed()
	require.Empty(t, found, "it is found")
	require.Empty(t, cleared)
	require.Empty(t, failed)
	l.did("recharge", "held", "motor", "safe_stop")
	found, cleared, failed = l.lapsed()
	require.Equal(t, []string{"sw.open"}, found)
	require.Equal(t, []string{"bat.weak"}, cleared)
	require.Equal(t, []string{"safe_stop"}, failed)
	found, cleared, failed = l.read("motor", "11.0").read("held", "9.0").seen("safe_stop", "stops").lapsed()
	require.Empty(t, found, "it was seen otherwise")
	require.Empty(t, cleared, "it was read anew")
	require.Empty(t, failed)
}

// A finding that was repaired since has not lapsed; one made after its repair has.
func TestARepairAnswersWhatWasFoundBeforeIt(t *testing.T) {
	l := openSwitch(t).choose("1", "new-switch").ticks("new-switch")
	found, cleared, _ := l.lapsed()
	require.Empty(t, found)
	require.Equal(t, []string{"bat.weak"}, cleared, "its test was made unknown by the repair")
	l.read("motor", "0.0").read("held", "11.3").did("recharge", "held", "motor")
	found, _, _ = l.lapsed()
	require.Equal(t, []string{"sw.open"}, found, "the new switch does not switch either")
}

// A safety function that failed before a repair is proved again after it.
func TestARepairHasTheSafetyFunctionsProvedAgain(t *testing.T) {
	l := openSwitch(t).seen("safe_stop", "runs on").choose("1", "new-switch").ticks("new-switch")
	_, _, failed := l.lapsed()
	require.Empty(t, failed)
}

// What a repair made unknown again was tested before it; what nobody read was not.
func TestWhatWasTestedBeforeTheRepair(t *testing.T) {
	l := openSwitch(t)
	require.Empty(t, l.where().TestedBefore)
	p := l.choose("1", "new-switch").ticks("new-switch").where()
	ids := []string{}
	for _, f := range p.TestedBefore {
		ids = append(ids, f.ID)
	}
	require.Equal(t, []string{"bat.weak"}, ids)
	require.Empty(t, l.read("held", "11.3").where().TestedBefore, "it is cleared again")
}
