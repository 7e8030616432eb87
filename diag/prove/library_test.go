package prove

import (
	"cmp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

const root = "../.."

// load makes a library of files in which each old text was changed to the new.
func load(t testing.TB, files []source.File, changes ...string) *tree.Library {
	t.Helper()
	lib, issues := tree.Load(treetest.Change(t, files, changes...))
	for _, i := range issues {
		t.Log(i.Render(nil))
	}
	require.Empty(t, issues)
	return lib
}

// pump is the small library with its circuit, whose tree is right: the charger is
// judged before the battery, and every fault is found.
func pump(t testing.TB, changes ...string) *tree.Library {
	t.Helper()
	right := []string{"low: charge, full: held, unsure: held", "low: charge, full: charger, unsure: held"}
	return load(t, pumpFiles(t), append(right, changes...)...)
}

// pumpFiles is the small library as it lies in testdata, with its circuit, and
// with a complaint for machines that nothing is wrong with.
func pumpFiles(t testing.TB) []source.File {
	t.Helper()
	files := append(treetest.Read(t, root, "testdata/trees/pump"), treetest.Read(t, root, "diag/prove/testdata")...)
	const dead = "trees: [no-run]}"
	// Behind a weak battery the motor stands too, and is whole.
	const (
		condemned = "by: {motor: [there], turns: [stands]}"
		proper    = "by: {held: [holds], motor: [there], turns: [stands]}"
	)
	for i := range files {
		files[i].Text = strings.Replace(files[i].Text, condemned, proper, 1)
		files[i].Text = strings.Replace(files[i].Text, dead, dead+"\n  - {complaint: well, title: Look it over, trees: [charging]}", 1)
	}
	return files
}

// proved runs all units of a plan.
func proved(t testing.TB, lib *tree.Library, o Options) Report {
	t.Helper()
	o.Draws = cmp.Or(o.Draws, 30)
	o.Seed = cmp.Or(o.Seed, 1)
	plan, err := NewPlan(lib, o)
	require.NoError(t, err)
	units := plan.Units()
	results := make([]Result, len(units))
	tech := NewTech(plan, plan.Simulated)
	for _, load := range plan.Loads(units) {
		for _, i := range load {
			results[i] = tech.Run(units[i])
			require.Empty(t, results[i].Failed)
		}
	}
	return plan.Sum(results)
}

// of is what came of one fault in one tree.
func of(t testing.TB, r Report, tree, fault string) FaultReport {
	t.Helper()
	for _, tr := range r.Trees {
		for _, f := range tr.Faults {
			if tr.Tree == tree && f.Fault == fault {
				return f
			}
		}
	}
	t.Fatalf("the report has no %s of %s", fault, tree)
	return FaultReport{}
}
