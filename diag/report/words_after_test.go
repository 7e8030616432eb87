package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// switched is a job with an open switch that was replaced, all readings taken again.
func switched(t *testing.T, again ...job.Event) Document {
	t.Helper()
	lib := lamp(t)
	base := []job.Event{intake(lib), volts(t, "cell_lit", "1.500"), volts(t, "bulb_lit", "0.100")}
	base[2].Shown = &[]string{"switch.open"}
	_, _, offers := state(t, lib, log(base...))
	chosen := offers.Paths[0].Chosen()
	base = append(base, job.Event{Kind: job.KindChosen, Chosen: &chosen},
		job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new-switch", Stales: []string{"bulb_lit", "cell_lit"}}})
	return build(t, lib, log(append(base, again...)...))
}

const assumed = " Taken as usual for the type, because the label was not read: kind of cell."

func TestAfterTheRepairItSaysWhetherThatIsProved(t *testing.T) {
	for _, c := range []struct {
		name  string
		again []job.Event
		want  string
	}{
		{"not read again", nil, "Repaired, and not yet shown to be gone: the switch is open. 1 not tested: the bulb is open."},
		{"gone", []job.Event{volts(t, "bulb_lit", "1.450")}, "Shown to be gone by new readings: the switch is open. 1 not tested: the bulb is open."},
		{
			"still there",
			[]job.Event{volts(t, "cell_lit", "1.500"), volts(t, "bulb_lit", "0.100")},
			"Found: the switch is open (It passes nothing). 1 not tested: the bulb is open.",
		},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want+assumed, switched(t, c.again...).Now) })
	}
}

// Before a repair a reading that asks for another one decides nothing; as the check
// reading of a repair it says what it reads.
func TestACheckReadingIsNotSaidToDecideNothing(t *testing.T) {
	lib := lamp(t)
	require.Equal(t, "Bulb while lit", build(t, lib, log(intake(lib), volts(t, "bulb_lit", "0.100"))).Unclear[0].Test)
	require.Empty(t, switched(t, volts(t, "bulb_lit", "0.100")).Unclear)
}

// What is worked out means something for the fault that was looked for. After the
// repair it is shown without that.
func TestWhatAWorkedValueMeansIsNotSaidAfterTheRepair(t *testing.T) {
	d := switched(t, volts(t, "cell_lit", "1.500"), volts(t, "bulb_lit", "0.900"))
	for _, r := range d.Readings {
		if r.Test == "lost" {
			require.Equal(t, "That is lost in the switch.", r.Taken[0].Says)
			require.Equal(t, "much", r.Taken[1].Band)
			require.Empty(t, r.Taken[1].Says)
			return
		}
	}
	require.Fail(t, "the value is not there")
}
