package decide

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/prove"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// handOnThePump is a bench with the pump of a library, whose hand never slips.
func handOnThePump(t *testing.T, lib *tree.Library) bench {
	t.Helper()
	sys, meter := lib.Systems["spray-pump"], lib.Instruments(prove.BenchMeter)
	plan, err := prove.NewPlan(lib, prove.Options{Draws: 1})
	require.NoError(t, err)
	b := bench{lib: lib, sys: sys, options: Options{Seed: 2, Meter: meter}}
	b.maker, err = plan.Simulated(sys)
	require.NoError(t, err)
	b.clouds, err = newClouds(sys, suspect.Options{Seed: 1, Machines: 80, Meter: meter})
	require.NoError(t, err)
	return b
}

// does is what came of one machine with some faults.
func (b bench) does(t *testing.T, way Way, complaint string, faults ...string) Done {
	t.Helper()
	d, err := b.work(Case{
		Hypothesis: suspect.Hypothesis{Faults: faults}, Draw: prove.Draw{Seed: b.options.Seed, Faults: faults}, Complaint: complaint,
	}, way)
	require.NoError(t, err)
	return d
}

func requireDone(t *testing.T, d Done, tests int, minutes float64, named ...string) {
	t.Helper()
	require.Equal(t, named, d.Named)
	require.Equal(t, tests, d.Tests)
	require.InDelta(t, minutes, d.Minutes, 1e-9)
}

// shorter ends the pump's tree at a weak battery, without waiting for the charger.
var shorter = []string{"{held: [sags]}, after: [chg.dead], then: motor}", "{held: [sags]}, then: end}"}

// The minutes of the pump: 1 to each post of the battery or the charger and 2 under
// the lid to the motor, each once; then rest, held, turns, charger and safe_stop 1,
// motor 2. The tree asks rest (3) and held (1). A weak battery is found by then; else
// it asks motor (2 + 2), which finds an open switch, and turns (1), which finds an open
// motor.
func TestTheTreesTakeTheirMinutesOnThePump(t *testing.T) {
	b := handOnThePump(t, pump(t, shorter...))
	requireDone(t, b.does(t, ByTrees, "dead", "bat.weak"), 2, 4, "bat.weak")
	requireDone(t, b.does(t, ByTrees, "dead", "sw.open"), 4, 9, "sw.open")
	requireDone(t, b.does(t, ByTrees, "dead", "mot.open"), 4, 9, "mot.open")
	requireDone(t, b.does(t, ByFirstFind, "dead", "sw.open"), 3, 8, "sw.open")
	requireDone(t, b.does(t, ByFirstFind, "dead", "mot.open"), 4, 9, "mot.open")

	// The charger is asked only when the battery rests at next to nothing: a dead one
	// is not found, and the machine comes back.
	both := b.does(t, ByTrees, "dead", "bat.weak", "chg.dead")
	requireDone(t, both, 2, 4, "bat.weak")
	require.True(t, both.Comeback())
	require.InDelta(t, 4+30, both.Cost(), 1e-9)
}

// Of what is wrong now, 3 of 8 are weak batteries, 2 open switches, 1 an open motor and
// 2 weak batteries with a dead charger; 5 in 100 are well again. Held tells the first
// and last from the others: 0.97 bits in 1 + 1 + 1 minutes, 0.32 a minute; the motor
// tells 1.4 bits in 1 + 2 + 2, 0.27; the charger 0.79 in 3, 0.26; turns too little. So
// held comes first. If it sags, only the charger is left to tell: 3 minutes more. If it
// holds, turns tells in 1 whether it is well again, 0.54 bits a minute, and the motor the
// rest in 2 + 2.
func TestTheSuspectsTakeTheirMinutesOnThePump(t *testing.T) {
	b := handOnThePump(t, pump(t))
	requireDone(t, b.does(t, BySuspects, "dead", "bat.weak"), 2, 6, "bat.weak")
	requireDone(t, b.does(t, BySuspects, "dead", "bat.weak", "chg.dead"), 2, 6, "bat.weak", "chg.dead")
	requireDone(t, b.does(t, BySuspects, "dead", "sw.open"), 3, 8, "sw.open")
	requireDone(t, b.does(t, BySuspects, "dead", "mot.open"), 3, 8, "mot.open")
}

// After 9 minutes the switch is changed. Its check is motor (2), now with volts; held
// (1) and turns (1) are taken with power on, so they are asked anew, and it stands: the
// motor is open, too. It is changed, and motor, turns and held are asked once more (4),
// and whether it stops (1).
func TestTheWalkGoesOnAfterRepairs(t *testing.T) {
	lib := pump(t, "{faults: [bat.weak, chg.dead], common: 2, charge: yes", "{faults: [sw.open, mot.open], common: 2")
	b := handOnThePump(t, lib)
	first := b.does(t, ByTrees, "dead", "sw.open", "mot.open")
	requireDone(t, first, 4, 9, "sw.open")
	require.True(t, first.Comeback())
	requireDone(t, b.does(t, ByRepairs, "dead", "sw.open", "mot.open"), 4+3+4, 9+4+5, "sw.open", "mot.open")
	// With the motor alone: turns, held, motor, and whether it stops.
	requireDone(t, b.does(t, ByRepairs, "dead", "mot.open"), 4+4, 9+5, "mot.open")
}

// A battery at 12 V is only flat: 12/2.12 is less than the 5.8 A that the pump takes to
// run. It is low at rest (3 minutes), so it is charged for 60 and read again (1); then
// held (1) holds, motor (4) is there and the pump turns (1). Nothing is found, and
// nothing is wrong any more.
func TestWhatTheWalkPutsRightIsNoComeback(t *testing.T) {
	lib := pump(t, "severity: {from: 1.5, to: 4, by: ratio}, set: {inside: was + severity}}]",
		`set: {rest_volts: "12"}}]`+"\n    holds: {when: rest_volts < 12.4, state: \"off\"}")
	d := handOnThePump(t, lib).does(t, ByTrees, "dead", "bat.weak")
	requireDone(t, d, 5, 3+60+1+1+4+1, "bat.weak")
	require.True(t, d.Exact())
}

// Of 60, 15 in 100 have two faults: 9, a weak battery and a dead charger. A dead charger
// alone stops no pump; the other 51 are weak 3, open switch 2, open motor 1.
func TestMachinesComeAsOftenAsTheyAreCommon(t *testing.T) {
	b := handOnThePump(t, pump(t, shorter...))
	all, err := mixed(b.maker, b.sys, b.options, 60)
	require.NoError(t, err)
	got := map[string]int{}
	for _, c := range all {
		got[c.Name()]++
		require.Equal(t, "dead", c.Complaint)
	}
	require.Len(t, all, 60)
	require.Equal(t, 9, got["bat.weak + chg.dead"])
	require.InDelta(t, 51*3.0/6, got["bat.weak"], 1.5)
	require.InDelta(t, 51*2.0/6, got["sw.open"], 1.5)
	require.InDelta(t, 51*1.0/6, got["mot.open"], 1.5)
	require.Zero(t, got["chg.dead"])

	rows, err := b.rows(all)
	require.NoError(t, err)
	suspects, trees := rows[0], rows[1]
	require.Equal(t, []Way{BySuspects, ByTrees}, []Way{suspects.Way, trees.Way})
	// 4 minutes for 25.5 weak batteries, 9 for the 25.5 others, and 4 + 30 for 9 doubles.
	require.InDelta(t, (25.5*4+25.5*9+9*34)/60, trees.Mean(Done.Cost), 1.5*5/60)
	// 6 minutes where held sags, and 8 where it holds.
	require.InDelta(t, (34.5*6+25.5*8)/60, suspects.Mean(Done.Cost), 1.5*2/60)
	less, within := suspects.Less(trees)
	require.InDelta(t, 10.625-6.85, less, 1.5*3/60)
	// 2 minutes more, 1 less and 28 less: 5.775, 2.775 and 24.225 from the mean of 3.775.
	// The mean square is 105.5, the deviation 10.27, and twice that by the root of 59 is
	// 2.67.
	require.InDelta(t, 2.67, within, 0.05)
}

// done are cases with one fault, a, and those of it named.
func done(minutes float64, present []string, named ...string) Done {
	return Done{Case: Case{Hypothesis: suspect.Hypothesis{Faults: []string{"a"}}}, Present: present, Named: named, Minutes: minutes, Tests: 2}
}

func TestAGoodPartNamedBesideIsNoComeback(t *testing.T) {
	a := []string{"a"}
	require.True(t, done(1, a, "a").Exact())
	beside := done(1, a, "a", "b")
	require.False(t, beside.Exact())
	require.False(t, beside.Comeback())
	require.True(t, done(1, []string{"a", "b"}, "a", "b").Exact(), "the one brought the other about")
	without := done(1, a)
	require.False(t, without.Exact())
	require.True(t, without.Comeback())
}

func TestCostsAreWrittenSideBySide(t *testing.T) {
	a := []string{"a"}
	rows := []CostRow{
		{"pump", BySuspects, []Done{done(10, a, "a"), done(20, a, "a")}},
		{"pump", ByTrees, []Done{done(40, a, "a", "b"), done(0, a)}},
		{"pump", ByRepairs, []Done{done(5, a, "a"), done(15, a, "a")}},
	}
	// Trees: 40 and 0 + 30, a mean of 35. The suspects cost 30 and 10 less: 20, and the
	// error of the mean of two that lie 20 apart is 10.
	var out bytes.Buffer
	require.NoError(t, CostText(&out, rows))
	require.Equal(t, `system               way                             n   exact    back   tests    min   cost
pump                 suspects                        2 100.0 %   0.0 %     2.0   15.0   15.0
pump                 trees                           2   0.0 %  50.0 %     2.0   20.0   35.0
pump                 trees, on after repairs         2 100.0 %   0.0 %     2.0   10.0   10.0

cost: minutes on the bench, with 30 for each machine that comes back
pump: suspects cost 20.0 minutes (+- 20.0) less than trees
pump: suspects cost 5.0 minutes (+- 0.0) more than trees, on after repairs
`, out.String())
}

func TestTheCostOfASystemIsThatOfAllWays(t *testing.T) {
	lib := pump(t)
	rows, err := Cost(lib, lib.Systems["spray-pump"], Setting{Machines: 80, Cases: 20, Seed: 1})
	require.NoError(t, err)
	require.Len(t, rows, len(Ways))
	for i, r := range rows {
		require.Equal(t, Ways[i], r.Way)
		require.Len(t, r.Done, 20)
		require.Positive(t, r.Mean(Done.Cost))
	}
}
