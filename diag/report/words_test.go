package report

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

func fault(id, title, says string) *tree.Fault { return &tree.Fault{ID: id, Title: title, Says: says} }

func TestSentence(t *testing.T) {
	sys := &tree.System{
		Label:      []tree.LabelField{{ID: "cells", Ask: "Cells in series"}},
		Complaints: []tree.Complaint{{ID: "flat", Trouble: "flat"}, {ID: "no-spark", Trouble: "no-start"}},
	}
	pack, ground := fault("pack.no-output", "The pack gives nothing", "Not cells shown dead: it may be asleep."), fault("ground", "The ground is lossy", "")
	spark, rest := &tree.Test{Title: "Spark, at the tester"}, &tree.Test{Title: "Battery: is it full?"}
	done := walk.Verdict{Finished: true, Cleared: []walk.Clearing{
		{Fault: ground, Evidence: []walk.Evidence{{Test: spark}, {Test: rest}}},
		{Fault: pack, Evidence: []walk.Evidence{{Test: rest}}},
	}}
	open := done
	open.Untested = []walk.Untested{{Fault: fault("regulator", "The regulator gives nothing", "")}}
	supplied := done
	supplied.Cleared = append(slices.Clone(done.Cleared), walk.Clearing{Fault: fault("fuel.not-electrical", "Not electrical: fuel supply", "")})
	many := walk.Verdict{Finished: true}
	for i := range 9 {
		many.Untested = append(many.Untested, walk.Untested{Fault: fault("f", fmt.Sprintf("Fault %d", i), "")})
	}
	tests := []struct {
		name      string
		v         walk.Verdict
		want      string
		complaint string
	}{
		{"nothing known", walk.Verdict{Untested: []walk.Untested{{Fault: ground}}}, "No fault is shown yet. 1 not tested: the ground is lossy.", "flat"},
		{"all ruled out", walk.Verdict{Finished: true, Cleared: []walk.Clearing{{Fault: ground}}}, "No fault was found, and every fault on the list is ruled out.", "flat"},
		{
			"two found",
			walk.Verdict{Found: []walk.Finding{{Fault: pack}, {Fault: ground}}},
			"Found: the pack gives nothing (Not cells shown dead: it may be asleep); the ground is lossy.", "flat",
		},
		{"masked, doubted, defaults", walk.Verdict{
			Found: []walk.Finding{{Fault: ground}}, Masked: []walk.Masking{{Fault: pack, By: ground}},
			Untested: []walk.Untested{{Fault: fault("x", "X is odd", ""), Doubt: []walk.Evidence{{}}}}, Defaults: []string{"cells", "pack_volts"},
		}, "Found: the ground is lossy. 1 can't be tested until that is repaired: the pack gives nothing; " +
			"readings contradict each other on 1: X is odd. " +
			"Taken as usual for the type, because the label was not read: cells in series, pack volts.", "flat"},
		{
			"an engine that turns and does not start", done,
			"No fault was found, and every fault on the list is ruled out. What is wrong with it is then not electrical, as far as was tested. " +
				"These tests showed it: spark, at the tester; battery: is it full? Compression, fuel and air come next.", "no-spark",
		},
		{
			"an engine that does not start, with its fuel ruled out", supplied,
			"No fault was found, and every fault on the list is ruled out. What is wrong with it is then nothing on that list, as far as was tested. " +
				"These tests showed it: spark, at the tester; battery: is it full?", "no-spark",
		},
		{
			"a battery that goes flat", done,
			"No fault was found, and every fault on the list is ruled out. What is wrong with it is then nothing on that list, as far as was tested. " +
				"These tests showed it: spark, at the tester; battery: is it full?", "flat",
		},
		{"one is open", open, "No fault was found. 1 not tested: the regulator gives nothing.", "no-spark"},
		{"many", many, "No fault was found. 9 not tested: fault 0, fault 1, fault 2, fault 3, fault 4, fault 5 and 3 more.", "flat"},
		{"hostile", walk.Verdict{Found: []walk.Finding{{Fault: fault("x", "Bad \x1b[2Jthing\u202e", "a\nb")}}}, "Found: bad thing (a b).", "flat"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Sentence(tt.v, sys, tt.complaint)
			require.Equal(t, tt.want, got)
			require.LessOrEqual(t, strings.Count(got, ". ")+1, 4, got)
		})
	}
	require.Equal(t, "No fault is shown yet. 1 not tested: the ground is lossy.", Sentence(tests[0].v, nil, "flat"))
}

func TestUntested(t *testing.T) {
	require.Equal(t, []string{}, Untested(walk.Verdict{}))
	require.Equal(t, []string{"Masked", "Open"}, Untested(walk.Verdict{
		Masked: []walk.Masking{{Fault: fault("m", "Masked", "")}}, Untested: []walk.Untested{{Fault: fault("o", "Open", "")}},
	}))
}

func TestDecimals(t *testing.T) {
	// One figure of the uncertainty, two when it begins with a 1.
	for u, want := range map[float64]int{0.004: 3, 0.0119: 3, 0.011: 3, 0.2: 1, 0.15: 2, 3: 0, 14: 0, 0.98: 1, 1.2: 1, 1e-9: 6} {
		require.Equal(t, want, decimals(u), u)
	}
}

func TestAlong(t *testing.T) {
	cuts := []float64{1, 2, 4}
	for v, want := range map[float64]float64{1: 0.25, 1.5: 0.375, 2: 0.5, 3: 0.625, 4: 0.75, 7: 1, 100: 1, -2: 0, -100: 0, -0.5: 0.125} {
		require.InDelta(t, want, along(v, cuts), 1e-12, v)
	}
	require.InDelta(t, 0.5, along(2, []float64{2}), 1e-12)
	require.InDelta(t, 0.5, along(0, []float64{0}), 1e-12)
}
