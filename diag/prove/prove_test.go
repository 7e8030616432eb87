package prove

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/trees/treetest"
)

// The battery of the pump holds 12.7 V behind 0.1 ohm, the motor has 2 ohm and
// the switch 0.02: held, the posts show 12.7 x 2.02/2.12 = 12.1 V. A weak one has
// 1.6 to 4.1 ohm: 7.1 to 4.2 V, under the cut of 9.6.
func TestARightTreeFindsEveryFaultAndCondemnsNothing(t *testing.T) {
	r := proved(t, pump(t), Options{})
	require.True(t, r.Holds())
	for _, fault := range []string{"bat.weak", "sw.open", "mot.open"} {
		require.Equal(t, Counts{Draws: 30, Found: 30}, of(t, r, "no-run", fault).Counts, fault)
	}
	// A dead charger alone makes no dead pump, and a healthy pump isn't brought.
	no := r.Trees[1]
	require.Equal(t, "no-run", no.Tree)
	require.Equal(t, []string{"chg.dead"}, no.Hidden)
	require.Len(t, no.Quiet, 1)
	require.Equal(t, 120, r.Totals.Found, "four faults that a tree judges, 30 machines each")
}

func why(t *testing.T, f FaultReport) string {
	t.Helper()
	require.NotEmpty(t, f.Misses)
	return strings.Join(append(f.Misses[0].Trace.Lines, f.Misses[0].Trace.Why...), "\n")
}

func TestAGoodPartCondemnedIsWrong(t *testing.T) {
	lib := pump(t, "by: {held: [holds], motor: [there], turns: [stands]}", "by: {turns: [stands]}")
	r := proved(t, lib, Options{})
	f := of(t, r, "no-run", "sw.open")
	require.Equal(t, Counts{Draws: 30, Wrong: 30}, f.Counts)
	require.False(t, r.Holds())
	require.Contains(t, why(t, f), "finds mot.open, which is not there: step no-run/dead (testdata/trees/pump/trees.yaml:15), by turns \"stands\" (100 %)")
}

// A battery of 0.3 to 0.35 ohm shows 12.7 x 2.02/2.35 = 10.9 V: over the cut, and
// too little for the motor.
func TestABadPartClearedIsWrong(t *testing.T) {
	lib := pump(t, "severity: {from: 1.5, to: 4, by: ratio}", "severity: {from: 0.2, to: 0.25, by: ratio}")
	f := of(t, proved(t, lib, Options{}), "no-run", "bat.weak")
	require.Equal(t, Counts{Draws: 30, Wrong: 30}, f.Counts)
	require.Contains(t, why(t, f), "clears bat.weak, which is there: the band \"holds\" of held (testdata/trees/pump/system.yaml:")
	require.Contains(t, why(t, f), "finds mot.open, which is not there")
}

func TestAStepThatClearsABadPartIsNamed(t *testing.T) {
	lib := pump(t, "stands: dead, smokes: smoke, unsure: end}}", "stands: good, smokes: smoke, unsure: end}}\n  good:    {clear: sw.open, by: {turns: [stands]}, then: dead}")
	f := of(t, proved(t, lib, Options{}), "no-run", "sw.open")
	// It is found by its own step and cleared by this one: a doubt, which is no
	// finding.
	require.Equal(t, Counts{Draws: 30, Missed: 30}, f.Counts)
	require.Contains(t, why(t, f), "sw.open is both found and cleared")
	require.Contains(t, why(t, f), "step no-run/good (testdata/trees/pump/trees.yaml:15)")
}

func TestAFaultGonePastIsMissed(t *testing.T) {
	lib := pump(t)
	// The loader refuses such a tree, so it is bent afterwards.
	lib.Trees["no-run"].Step("held").Then["holds"] = "turns"
	f := of(t, proved(t, lib, Options{}), "no-run", "sw.open")
	require.Equal(t, Counts{Draws: 30, Missed: 30}, f.Counts)
	require.Contains(t, why(t, f), "sw.open would be found by no-run/open (testdata/trees/pump/trees.yaml:13): held is holds; motor wants none, not asked")
	// 12.7 x 2/2.12 = 12.0 V at a sound motor
	require.Regexp(t, `never asked: motor \(testdata/trees/pump/system\.yaml:58\), which reads 0 V, none \(100 %\); without the fault 1[12]\S* V, there \(100 %\)`, why(t, f))
}

func TestAFindingThatWaitsSaysForWhat(t *testing.T) {
	lib := load(t, pumpFiles(t)) // the charger is not asked
	f := of(t, proved(t, lib, Options{}), "no-run", "bat.weak")
	require.Equal(t, Counts{Draws: 30, Missed: 30}, f.Counts)
	require.Contains(t, why(t, f), "held is sags; and waits for chg.dead")
}

// A battery of 0.62 to 0.65 ohm shows 12.7 x 2.02/(2.02 + 0.635) = 9.66 V, and
// the meter's limit is 0.07 V: some readings are too close to the cut of 9.6.
func TestAReadingTooCloseIsClose(t *testing.T) {
	lib := pump(t, "severity: {from: 1.5, to: 4, by: ratio}", "severity: {from: 0.54, to: 0.56, by: ratio}")
	f := of(t, proved(t, lib, Options{}), "no-run", "bat.weak")
	require.Positive(t, f.Counts.Close)
	require.Zero(t, f.Counts.Missed)
	require.NotEmpty(t, f.Misses, "many are close, so one is shown")
	require.Equal(t, Close, f.Misses[len(f.Misses)-1].Class)
}

func TestARouteThatComesBackDoesNotEnd(t *testing.T) {
	lib := pump(t)
	// The loader refuses such a tree, so it is bent afterwards.
	lib.Trees["no-run"].Step("held").Then["holds"] = "rest"
	f := of(t, proved(t, lib, Options{}), "no-run", "sw.open")
	require.Equal(t, Counts{Draws: 30, Missed: 30}, f.Counts)
	require.Contains(t, why(t, f), "comes back to no-run/rest (testdata/trees/pump/trees.yaml:7), which it had passed: it does not end")
}

// An open motor can't be told behind an open switch. A dead charger can.
func TestASecondFaultBehindTheFirstIsFoundOnceThatIsRepaired(t *testing.T) {
	r := proved(t, pump(t), Options{Pairs: true})
	behind, beside := of(t, r, "no-run", "sw.open + mot.open"), of(t, r, "no-run", "chg.dead + sw.open")
	require.Equal(t, Counts{Draws: 30, Found: 30}, behind.Counts)
	require.Zero(t, behind.AtOnce)
	require.Equal(t, Counts{Draws: 30, Found: 30}, beside.Counts)
	require.Equal(t, 30, beside.AtOnce)
	var text bytes.Buffer
	require.NoError(t, Text(&text, r))
	require.Contains(t, text.String(), "both found in ")
	require.Contains(t, text.String(), "before anything was repaired")
}

// This tree finds an open motor only beside a weak battery.
func TestASecondFaultThatIsLeftBehindTheFirstIsMasked(t *testing.T) {
	lib := pump(t, "by: {held: [holds], motor: [there], turns: [stands]}", "by: {held: [sags], motor: [there], turns: [stands]}")
	require.Equal(t, Counts{Draws: 30, Masked: 30}, of(t, proved(t, lib, Options{Pairs: true}), "no-run", "sw.open + mot.open").Counts)
}

// Behind an open switch nothing flows, and a weak battery holds up too.
func TestAClearingThatNoCurrentProvedIsWrongInAPair(t *testing.T) {
	r := proved(t, pump(t), Options{Pairs: true})
	f := of(t, r, "no-run", "bat.weak + sw.open")
	require.Equal(t, Counts{Draws: 30, Wrong: 30}, f.Counts)
	require.Contains(t, why(t, f), "clears bat.weak, which is there: the band \"holds\" of held")
	require.False(t, r.Holds())
}

// Without a reading at the motor nothing tells an open switch from an open motor.
func TestFaultsThatNoTestTellsApartAreAGroup(t *testing.T) {
	lib := pump(t,
		"  motor:   {test: motor, then: {none: open, there: turns, unsure: turns}}\n", "",
		"sags: weak, holds: motor, unsure: motor}}", "sags: weak, holds: turns, unsure: turns}}",
		"after: [chg.dead], then: motor}", "after: [chg.dead], then: turns}",
		"by: {held: [holds], motor: [none]}, then: turns}", "by: {held: [holds], turns: [stands]}, then: end}",
		"turns: end, stands: dead,", "turns: end, stands: open,",
		"  dead:    {find: mot.open, by: {held: [holds], motor: [there], turns: [stands]}, then: end}\n", "  rest-of: {find: mot.open, by: {turns: [smokes]}, then: end}\n",
		"smokes: smoke, unsure: end}}", "smokes: rest-of, unsure: end}}",
		"  smoke:   {stop: It smokes. Disconnect the battery.}\n", "",
		"{choice: turns, clears: [mot.open]}", "{choice: turns, clears: [mot.open, sw.open]}",
	)
	f := of(t, proved(t, lib, Options{}), "no-run", "mot.open")
	require.Equal(t, Counts{Draws: 30, Group: 30}, f.Counts)
	require.Equal(t, []string{"sw.open"}, f.Alike)
}

func TestSlipsAreSaid(t *testing.T) {
	r := proved(t, pump(t), Options{Slip: 0.2, Draws: 200})
	require.Positive(t, r.Totals.Wrong+r.Totals.Missed, "a fifth of all answers is wrong")
	require.Contains(t, text(t, r), "slips: ")
}

func TestTheSameSeedGivesTheSameReport(t *testing.T) {
	lib := pump(t)
	first := text(t, proved(t, lib, Options{Slip: 0.1}))
	require.Equal(t, first, text(t, proved(t, lib, Options{Slip: 0.1})))
	require.NotEqual(t, first, text(t, proved(t, lib, Options{Slip: 0.1, Seed: 2})))
}

func text(t *testing.T, r Report) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, Text(&out, r))
	return out.String()
}

func TestTheFiguresHaveTheNamesThatWereAgreed(t *testing.T) {
	data, err := json.Marshal(proved(t, pump(t), Options{Trees: []string{"no-run"}}).Figures())
	require.NoError(t, err)
	var got map[string]any
	require.NoError(t, json.Unmarshal(data, &got))
	require.ElementsMatch(t, []string{"trees", "totals"}, keys(got))
	require.ElementsMatch(t, []string{"draws", "found", "group", "close", "masked", "missed", "wrong"}, keys(got["totals"].(map[string]any)))
	one := got["trees"].([]any)[0].(map[string]any)
	require.ElementsMatch(t, []string{"tree", "system", "faults"}, keys(one))
	fault := one["faults"].([]any)[0].(map[string]any)
	require.ElementsMatch(t, []string{"fault", "draws", "found", "group", "close", "masked", "missed", "wrong", "minutes"}, keys(fault))
}

func keys(m map[string]any) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	return out
}

func TestATreeThatIsNotThereIsNamedWithTheNearest(t *testing.T) {
	_, err := NewPlan(pump(t), Options{Trees: []string{"no-rum"}, Draws: 1})
	require.ErrorContains(t, err, "did you mean no-run?")
}

func TestASystemWithoutACircuitIsSaidSo(t *testing.T) {
	r := proved(t, load(t, treetest.Read(t, root, "testdata/trees/pump")), Options{})
	require.Equal(t, []string{"spray-pump"}, r.Bare)
	require.Contains(t, text(t, r), "spray-pump has no circuit")
}

// Rest 1 min and 1 min to the positive post, 1 to the negative; the posts again
// cost their own minute only; the lid comes off once.
func TestTheWayToAPointIsCountedOnce(t *testing.T) {
	sys := pump(t).Systems["spray-pump"]
	c := newClock(sys)
	c.test(sys.Test("rest"))
	require.InDelta(t, 3, c.minutes, 1e-9)
	c.test(sys.Test("held"))
	require.InDelta(t, 4, c.minutes, 1e-9)
	c.test(sys.Test("motor")) // 2 min, and 2 min for the lid
	require.InDelta(t, 8, c.minutes, 1e-9)
	c.test(sys.Test("motor"))
	require.InDelta(t, 10, c.minutes, 1e-9)
	c.work(sys.FindWork("recharge"))
	require.InDelta(t, 70, c.minutes, 1e-9)
}

func TestVariation(t *testing.T) {
	require.InDelta(t, 0.3, variation(map[string]float64{"a": 0.5, "b": 0.5}, map[string]float64{"a": 0.2, "b": 0.6, "c": 0.2}), 1e-9)
}

// A hand that can't take half of the tests finds less and condemns nothing: what
// is not found is said to be untested.
func TestWhatCantBeTakenIsSaidToBeUntested(t *testing.T) {
	r := proved(t, pump(t), Options{Untaken: 0.5})
	require.True(t, r.Holds())
	require.Zero(t, r.Totals.Wrong+r.Totals.Missed)
	f := of(t, r, "no-run", "sw.open").Counts // by two tests, so a quarter of the machines
	require.Greater(t, f.Found, 0)
	require.Greater(t, f.Close, f.Found)
	require.Equal(t, f.Draws, f.Found+f.Close)
}

// With an open switch the motor can't be told from a good one: of the three
// faults that the tree judges one is found, one cleared and one left. With an open
// motor all three are told.
func TestWhatIsNeitherFoundNorClearedIsCounted(t *testing.T) {
	r := proved(t, pump(t), Options{})
	require.InDelta(t, 1, of(t, r, "no-run", "sw.open").Left, 1e-9)
	require.InDelta(t, 0, of(t, r, "no-run", "mot.open").Left, 1e-9)
}
