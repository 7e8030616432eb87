package suspect

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/benchtime"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/trees/treetest"
)

// shipped makes a maker of the key-start system, with its dozens of faults.
func shipped(b *testing.B) (*virtual.Maker, Options) {
	b.Helper()
	lib, issues := tree.Load(treetest.Read(b, root, "trees"))
	require.NoError(b, issues.Err())
	maker, err := virtual.NewMaker(lib.Systems["key-start-12v"], virtual.Conditions{Celsius: 20})
	require.NoError(b, err)
	return maker, Options{Seed: 1, Machines: 20, Meter: lib.Instruments("pocket")}
}

// BenchmarkBuild builds the clouds of one complaint: 20 machines of each
// hypothesis.
func BenchmarkBuild(b *testing.B) {
	maker, o := shipped(b)
	b.ResetTimer()
	for b.Loop() {
		c, err := Build(maker, "slow", o)
		require.NoError(b, err)
		b.ReportMetric(float64(c.Machines()), "machines")
		b.ReportMetric(float64(len(c.Hypotheses())), "hypotheses")
	}
}

// BenchmarkWeigh holds eight answers against 8,000 machines, as many as 40 hypotheses
// of 200 have, and looks for the test that would tell most. It should take at most 2 ms
// and 3 ms.
func BenchmarkWeigh(b *testing.B) {
	maker, o := shipped(b)
	o.Machines = 8000 / len(Hypotheses(maker.System()))
	c, err := Build(maker, "", o)
	require.NoError(b, err)
	readings := []Reading{
		volts("battery_rest", 12.6), volts("batt_held", 11.2), volts("stud_held", 9.4), volts("pos_drop", 0.1),
		volts("ground_drop", 1.4), volts("sol_drop", 0.1), seen("start_sound", "slow"), seen("by_hand", "free"),
	}
	var w Weighing
	b.Run("weigh", func(b *testing.B) {
		for b.Loop() {
			w = c.Weigh(readings)
		}
		b.ReportMetric(float64(c.Machines()), "machines")
	})
	b.Run("next", func(b *testing.B) {
		for b.Loop() {
			w.Next(At{Access: benchtime.New(c.system)})
		}
	})
}
