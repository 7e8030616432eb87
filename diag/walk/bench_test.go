package walk

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

// shipped loads the library as it lies in trees/.
func shipped(t testing.TB) *tree.Library {
	t.Helper()
	return loaded(t, treetest.Read(t, root, "trees"))
}

// answered is a job of a system with a number of answers to what the walk asks
// for: outcomes drawn by the seed, each reading in the middle of its band.
func answered(t testing.TB, lib *tree.Library, system string, seed uint64, answers int) []job.Event {
	t.Helper()
	draw := rand.New(rand.NewPCG(seed, 0))
	sys := lib.Systems[system]
	complaint := sys.Complaints[draw.IntN(len(sys.Complaints))].ID
	events := []job.Event{{Seq: 1, Kind: job.KindIntake, Intake: &job.Intake{
		System: system, Complaint: complaint, Celsius: 20, Meter: lib.Instruments("pocket"),
	}}}
	add := func(e job.Event) {
		e.Seq = int64(len(events)) + 1
		events = append(events, e)
	}
	for range 300 {
		facts, err := job.Fold(events)
		require.NoError(t, err)
		p := Where(lib, facts)
		switch {
		case answers == 0:
			return events
		case p.Stage == AtDanger:
			add(job.Event{Kind: job.KindHeeded, Heeded: &job.Heeded{Caution: p.Danger[0].Caution.ID, Test: p.Danger[0].Test}})
		case p.Stage == AtSafe:
			set := map[string]string{}
			for _, ask := range p.Safe {
				set[ask.Item.ID] = ask.Setting.ID
			}
			add(job.Event{Kind: job.KindSafe, Safe: &job.Safe{Confirmed: set}})
		case p.Stage == AtWork:
			add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Work: p.Work.ID, Why: "not at hand"}})
		case p.Stage == AtTest:
			add(answer(t, lib, facts, p.Test, draw))
			answers--
		default:
			// The walk is at its end: what it left is answered all the same.
			left := slices.DeleteFunc(slices.Clone(sys.Tests), func(test *tree.Test) bool {
				return test.Kind == tree.Worked || p.Results[test.ID].Mark != Unknown
			})
			add(answer(t, lib, facts, left[draw.IntN(len(left))], draw))
			answers--
		}
	}
	require.Fail(t, "the job goes round")
	return nil
}

// answer gives a test one of its outcomes.
func answer(t testing.TB, lib *tree.Library, facts job.Facts, test *tree.Test, draw *rand.Rand) job.Event {
	t.Helper()
	if test.Kind == tree.Observed {
		choice := test.Choices[draw.IntN(len(test.Choices))].Name
		return job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test.ID, Choice: choice}}
	}
	values, _ := Values(lib.Systems[facts.Intake.System], *facts.Intake)
	low, high := math.Inf(-1), math.Inf(1)
	n := draw.IntN(len(test.Bands))
	for i, band := range test.Bands[:n+1] {
		cut, err := band.Cut(values)
		require.NoError(t, err)
		if i < n {
			low = cut
		}
		high = cut
	}
	value := (low + high) / 2
	switch {
	case math.IsInf(low, -1) && math.IsInf(high, 1):
		value = 1
	case math.IsInf(low, -1):
		value = high / 2
	case math.IsInf(high, 1):
		value = low * 1.2
	}
	return job.Event{Kind: job.KindRead, Read: &job.Read{Test: test.ID, Reading: measure.Reading{
		Function: test.Function, Kind: measure.Number, Value: value,
	}}}
}

// usual is a few jobs of each system with as many answers as a job commonly has.
func usual(b *testing.B, lib *tree.Library) map[string][]job.Facts {
	b.Helper()
	out := map[string][]job.Facts{}
	for id := range lib.Systems {
		for seed := range uint64(8) {
			facts, err := job.Fold(answered(b, lib, id, seed, 18))
			require.NoError(b, err)
			out[id] = append(out[id], facts)
		}
	}
	return out
}

// overJobs runs what is measured over the usual jobs of each system.
func overJobs(b *testing.B, measured func(lib *tree.Library, facts job.Facts)) {
	b.Helper()
	lib := shipped(b)
	for id, jobs := range usual(b, lib) {
		b.Run(id, func(b *testing.B) {
			b.ReportAllocs()
			n := 0
			for b.Loop() {
				measured(lib, jobs[n%len(jobs)])
				n++
			}
		})
	}
}

// Ahead is asked after every answer of every trial of a proof: well under 0.1 ms
// on the shipped trees.
func BenchmarkAhead(b *testing.B) {
	overJobs(b, func(lib *tree.Library, facts job.Facts) { Ahead(lib, facts) })
}

func BenchmarkWhere(b *testing.B) {
	overJobs(b, func(lib *tree.Library, facts job.Facts) { Where(lib, facts) })
}

func BenchmarkResults(b *testing.B) {
	overJobs(b, func(lib *tree.Library, facts job.Facts) { Results(lib.Systems[facts.Intake.System], facts) })
}

func BenchmarkFold(b *testing.B) {
	lib := shipped(b)
	events := answered(b, lib, "button-start-pack", 1, 18)[:20]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := job.Fold(events); err != nil {
			b.Fatal(err)
		}
	}
}
