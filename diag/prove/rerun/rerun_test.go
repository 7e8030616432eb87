package rerun

import (
	"cmp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/prove"
	"benchlead/diag/prove/mutant"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

const root = "../../.."

// pump is the small library with its circuit and a tree that is right, in which
// each old text was changed to the new.
func pump(t *testing.T, changes ...string) []source.File {
	t.Helper()
	files := append(treetest.Read(t, root, "testdata/trees/pump"), treetest.Read(t, root, "diag/prove/testdata")...)
	changes = append([]string{
		"by: {motor: [there], turns: [stands]}", "by: {held: [holds], motor: [there], turns: [stands]}",
		"low: charge, full: held, unsure: held", "low: charge, full: charger, unsure: held",
		"trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}",
	}, changes...)
	return treetest.Change(t, files, changes...)
}

// tried is what comes of every mutant that loads, by its name without the file.
func tried(t *testing.T, files []source.File, o Options) map[string]Finding {
	t.Helper()
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	all, err := mutant.Make(files, lib)
	require.NoError(t, err)
	o.Seed, o.Draws = 1, cmp.Or(o.Draws, 20)
	bench, err := NewBench(lib, o)
	require.NoError(t, err)
	out := map[string]Finding{}
	for _, m := range all {
		changed, issues := tree.Load(m.Apply(files))
		if len(issues) > 0 {
			continue
		}
		_, name, _ := strings.Cut(m.Name, ": ")
		out[name], err = bench.Compare(changed, m.Touch)
		require.NoError(t, err)
	}
	return out
}

// Held, a sound battery shows 12.7 x 2.02/2.12 = 12.1 V and a weak one, of 1.6 to
// 4.1 ohm, 7.1 to 4.2 V. A cut of 0.7 x 9.6 = 6.7 V lets some weak ones hold, and
// one of 1.4 x 9.6 = 13.4 V lets sound ones sag.
func TestACutOnTheWrongSideOfAReadingIsCaught(t *testing.T) {
	got := tried(t, pump(t), Options{})
	low, high := got["cut held (sags) x0.7"], got["cut held (sags) x1.4"]
	require.Equal(t, Singles, low.By)
	require.Contains(t, low.Says, "no-run, bat.weak: ")
	require.Equal(t, Singles, high.By)
	require.Contains(t, high.Says, "no-run, sw.open: ")
	require.Contains(t, high.Says, "wrong: 4, was 0")
}

// The weak battery waits for the charger, which is not asked.
func TestAStepThatIsLeftOutIsCaught(t *testing.T) {
	got := tried(t, pump(t), Options{})["bypass charger"]
	require.Equal(t, Singles, got.By)
	require.Contains(t, got.Says, "no-run, bat.weak: ")
	require.Contains(t, got.Says, "missed: 4, was 0")
}

// At the motor stand 0 V or 12 V: a cut at 0.7 or 1.4 V does as well as one at
// 1 V. No step asks what is lost on the way. No circuit lets the motor smoke.
func TestWhatNoMachineComesNearSurvives(t *testing.T) {
	got := tried(t, pump(t), Options{})
	for _, name := range []string{"cut motor (none) x1.4", "cut lost (little) x0.7", "bypass smoke", "swap turns (turns, smokes)"} {
		require.Contains(t, got, name)
		require.Equal(t, Finding{}, got[name], name)
	}
}

// Every battery rests at 12.6 to 12.8 V: taken for low, it is charged for an hour
// for nothing, and everything is found as before.
func TestWhatOnlyTakesLongerIsCaught(t *testing.T) {
	got := tried(t, pump(t), Options{})["swap rest (low, full)"]
	require.Equal(t, Singles, got.By)
	require.Regexp(t, `^no-run, bat\.weak: slower: 73\.\d min on average, was 12\.\d; of 20 machines$`, got.Says)
}

// A dead charger alone brings no pump in; beside a weak battery it does. Here no
// repair but a conversion helps it, so it stays dead while the tree is walked.
func TestWhatOneFaultDoesNotShowTwoMay(t *testing.T) {
	files := pump(t, "shown: held, cleared: held, unsure: held", "shown: held, cleared: held, unsure: end", "clears: [chg.dead], parts", "clears: [mot.open], parts")
	const name = "swap charger (shown, unsure)"
	alone := tried(t, files, Options{})[name]
	require.Equal(t, Nothing, alone.By)
	require.Zero(t, alone.Near)
	two := tried(t, files, Options{PairDraws: 5})[name]
	require.Equal(t, Pairs, two.By)
	require.Contains(t, two.Says, "chg.dead")
}

// A change is tried on machines that come near it. That spares no machine that
// would have told: tried on all, it comes to the same.
func TestOnlyMachinesThatComeNearCanTell(t *testing.T) {
	files := pump(t)
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	all, err := mutant.Make(files, lib)
	require.NoError(t, err)
	bench, err := NewBench(lib, Options{Seed: 1, Draws: 20})
	require.NoError(t, err)
	for _, m := range all {
		changed, issues := tree.Load(m.Apply(files))
		if len(issues) > 0 {
			continue
		}
		near, err := bench.Compare(changed, m.Touch)
		require.NoError(t, err)
		everywhere := mutant.Touch{Tree: "no-run", Ways: []mutant.Way{{Step: "rest"}}}
		if m.Touch.Tree == "charging" {
			everywhere = mutant.Touch{Tree: "charging", Ways: []mutant.Way{{Step: "out"}}}
		}
		whole, err := bench.Compare(changed, everywhere)
		require.NoError(t, err)
		require.Equal(t, whole.By, near.By, m.Name)
	}
}

// What a machine answers is asked of it once, and is the same when it is built
// anew after some work.
func TestAMachineOfTheStockAnswersAsTheMachineItself(t *testing.T) {
	files := pump(t)
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	plan, err := prove.NewPlan(lib, prove.Options{Draws: 1, Seed: 1})
	require.NoError(t, err)
	sys := lib.Systems["spray-pump"]
	maker, err := plan.Simulated(sys)
	require.NoError(t, err)
	count := &counting{Maker: maker}
	s := newStock(sys, count)
	draw := prove.Draw{Seed: 1, Number: 3, Faults: []string{"bat.weak"}}
	hand := prove.Hand{Meter: lib.Instruments("pocket")}
	for range 2 {
		itself, err := maker.Build(draw)
		require.NoError(t, err)
		kept, err := s.Build(draw)
		require.NoError(t, err)
		for _, do := range []func(prove.Machine) error{
			func(m prove.Machine) error { return nil },
			func(m prove.Machine) error { return m.Do("recharge") },
			func(m prove.Machine) error { return m.Mend("bat.weak") },
		} {
			require.NoError(t, do(itself))
			require.NoError(t, do(kept))
			want, err := itself.Take(sys.Test("held"), hand)
			require.NoError(t, err)
			got, err := kept.Take(sys.Test("held"), hand)
			require.NoError(t, err)
			require.Equal(t, want, got)
			wantThere, err := itself.Present()
			require.NoError(t, err)
			there, err := kept.Present()
			require.NoError(t, err)
			require.Equal(t, wantThere, there)
		}
	}
	require.Equal(t, 2, count.built, "as it came in, and to be worked on; nothing the second time")
}

// counting counts the machines that are built.
type counting struct {
	prove.Maker
	built int
}

func (c *counting) Build(d prove.Draw) (prove.Machine, error) {
	c.built++
	return c.Maker.Build(d)
}
