package virtual

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// lacking is what the loader says of systems without trees and repairs, and of
// chargers that stand beside each other.
var lacking = []source.Code{
	tree.CodeUnjudged, tree.CodeNotCleared, "unknown-tree", tree.CodeHandBack, tree.CodeNoGround,
}

// library loads the systems of testdata, which must be right but for what
// they lack.
func library(t testing.TB) *tree.Library {
	t.Helper()
	names, err := filepath.Glob("testdata/*.yaml")
	require.NoError(t, err)
	var files []source.File
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		files = append(files, source.File{Name: name, Text: string(text)})
	}
	lib, issues := tree.Load(files)
	for _, i := range issues {
		require.Contains(t, lacking, i.Code, i.String())
	}
	return lib
}

// usual is the machine of a system with everything at its usual.
func usual(t testing.TB, system string, faults ...string) *Machine {
	t.Helper()
	return build(t, makerOf(t, system), Draw{Usual: true, Faults: faults})
}

func makerOf(t testing.TB, system string) *Maker {
	t.Helper()
	lib := library(t)
	m, err := NewMaker(lib.Systems[system], Conditions{Celsius: 20})
	require.NoError(t, err)
	return m
}

func build(t testing.TB, m *Maker, d Draw) *Machine {
	t.Helper()
	machine, err := m.Build(d)
	require.NoError(t, err)
	return machine
}

func testOf(t testing.TB, m *Machine, id string) *tree.Test {
	t.Helper()
	test := m.maker.sys.Test(id)
	require.NotNil(t, test, id)
	return test
}

func answerOf(t testing.TB, m *Machine, id string) Answer {
	t.Helper()
	a, err := m.Answer(testOf(t, m, id))
	require.NoError(t, err, id)
	return a
}

// pocket is a meter with a bare rectifier for ac, bench one with true RMS.
var (
	pocket = measure.Meter{ID: "pocket", Scales: []measure.Scale{
		{Function: measure.DCVolts, FullScale: 2, Resolution: 0.001, Percent: 0.5, Counts: 2, InputOhms: 1e6},
		{Function: measure.DCVolts, FullScale: 20, Resolution: 0.01, Percent: 0.5, Counts: 2, InputOhms: 1e6},
		{Function: measure.ACVolts, FullScale: 200, Resolution: 0.1, Percent: 1.2, Counts: 10, InputOhms: 450e3},
		{Function: measure.Ohms, FullScale: 200, Resolution: 0.1, Percent: 0.8, Counts: 5},
		{Function: measure.Ohms, FullScale: 2e6, Resolution: 1000, Percent: 1, Counts: 5},
	}}
	bench = measure.Meter{ID: "bench", TrueRMS: true, Scales: []measure.Scale{
		{Function: measure.DCVolts, FullScale: 60, Resolution: 0.01, Percent: 0.5, Counts: 2, InputOhms: 10e6},
		{Function: measure.ACVolts, FullScale: 60, Resolution: 0.01, Percent: 1, Counts: 3, InputOhms: 10e6},
		{Function: measure.Ohms, FullScale: 600, Resolution: 0.1, Percent: 0.9, Counts: 2},
		{Function: measure.Ohms, FullScale: 60e6, Resolution: 10, Percent: 0.9, Counts: 2},
	}}
)
