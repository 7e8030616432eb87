package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// A cell at 1.0 V holds up, and is below 0.8 x 1.5 = 1.2 V: no fault is shown by it.
func weak(t *testing.T, lib *tree.Library) []job.Event {
	t.Helper()
	return []job.Event{intake(lib), volts(t, "cell_lit", "1.0")}
}

func TestAnUndecidedJobSaysWhatWasReadAndWhatComesNext(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(weak(t, lib)...))
	d.Weighed(counsel.Counsel{Readings: 1, Faults: []counsel.Fault{
		{Fault: &tree.Fault{ID: "a", Title: "The bulb is burnt"}, P: 0.6}, {Fault: &tree.Fault{ID: "b", Title: "Rare"}, P: 0.19},
	}})
	text := atOnce(written(t, OwnerText, d))
	require.Contains(t, text, "WHAT WE HAVE SEEN SO FAR Not everything is as it should be. What it comes from is not decided yet. "+
		"- Cell while lit: we measured 1 volt, where 1.2 to 1.65 volts is right.")
	require.Contains(t, text, "possible faults are not ruled out yet. These fit best what was read so far; none of them is shown: the bulb is burnt. COST")
	require.Contains(t, text, "Where it stands: being tested. Next we test this: bulb while lit.")
	require.NotContains(t, text, "not found anything wrong")
	for _, f := range d.Untested {
		require.NotContains(t, text, f.Title)
	}
	require.Equal(t, "green lamp, job 14: It is being tested. We write when we know more. "+
		"Not as it should be: Cell while lit: we measured 1 volt, where 1.2 to 1.65 volts is right. What it comes from is not decided yet. "+
		"Next we test this: bulb while lit.", Message(d))
	require.Equal(t, "About green lamp: Not as it should be: Cell while lit: we measured 1 volt, where 1.2 to 1.65 volts is right. "+
		"What it comes from is not decided yet.", d.Phone[0])
}

func TestAJobThatReadWellSaysThatNothingIsFound(t *testing.T) {
	lib := fullLamp(t)
	for _, c := range []struct {
		name   string
		events []job.Event
		want   string
	}{
		{"nothing read", []job.Event{intake(lib)}, "SO FAR Nothing was tested yet."},
		{"read well", []job.Event{intake(lib), volts(t, "cell_lit", "1.5")}, "SO FAR We have not found anything wrong so far."},
		{"closed", append(weak(t, lib), closed(job.Unrepaired)), "WHAT WE HAVE SEEN Not everything is as it should be. What it comes from was not found. - Cell"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, atOnce(written(t, OwnerText, build(t, lib, log(c.events...)))), c.want)
		})
	}
}
