package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	shows = "shows:\n  - test: turns"
	lines = "  - {choice: stored, title: Stood for a season}"
)

func TestWithNothingToldAndNoJobsTheOddsAreTheList(t *testing.T) {
	b := pump(t, shows, "told:\n  - {told: stored, times: {bat.weak: 3}, basis: practice}\n"+shows)
	c := b.job().counsel()
	require.Empty(t, c.Moved)
	require.InDelta(t, weakest, c.p("bat.weak"), 1e-9)
	require.InDelta(t, switchs, c.p("sw.open"), 1e-9)

	plain := pump(t).job("stored").counsel()
	require.Empty(t, plain.Moved, "told, and the circuit makes nothing of it")
	require.InDelta(t, weakest, plain.p("bat.weak"), 1e-9)
}

// A weak battery is 3 times as likely, 3 x 0.475 of 1.425 + 0.525. What is gone keeps its
// share. The cloud itself stays as it was.
func TestWhatTheOwnerTellsMultiplies(t *testing.T) {
	b := pump(t, shows, "told:\n  - {told: stored, times: {bat.weak: 3}, basis: practice}\n"+shows)
	c := b.job("stored").counsel()
	require.InDelta(t, 3*weakest/1.95, c.p("bat.weak"), 1e-9)
	require.InDelta(t, switchs/1.95, c.p("sw.open"), 1e-9)
	require.InDelta(t, motors/1.95, c.p("mot.open"), 1e-9)
	require.Equal(t, []string{`"Stood for a season" makes likelier: The battery is weak (3 times).`}, c.Moved)
	require.InDelta(t, weakest, b.job().counsel().p("bat.weak"), 1e-9)
}

// Two lines that speak of one fault multiply: 3 x 2 for the battery, 0.5 for the motor.
// 6 x 0.475 + 0.3167 + 0.5 x 0.1583 + 0.05 = 3.2958.
func TestTwoLinesToldMultiplyBoth(t *testing.T) {
	b := pump(t, lines, lines+"\n  - {choice: jumped, title: Was jumped}",
		shows, "told:\n  - {told: jumped, times: {bat.weak: 2, mot.open: 0.5}, basis: practice}\n"+
			"  - {told: stored, times: {bat.weak: 3}, basis: practice}\n"+shows)
	c := b.job("stored", "jumped").counsel()
	sum := 6*weakest + switchs + 0.5*motors + goneNow
	require.InDelta(t, 6*weakest/sum, c.p("bat.weak"), 1e-9)
	require.InDelta(t, switchs/sum, c.p("sw.open"), 1e-9)
	require.InDelta(t, (0.5*motors+goneNow)/sum, c.Others, 1e-9, "0.024 and 0.015 are not worth a line")
	require.Len(t, c.Moved, 2)
}

// A weak battery with a dead charger: 3 times for the one and 12 for the other are, by
// ratio, 6 on average; 4 for the one alone are 2. Alone: weak 3, switch 2, motor 1, and
// the pair 2, of 8.
func TestAPairIsMultipliedByTheMeanByRatio(t *testing.T) {
	for name, c := range map[string]struct {
		times            string
		battery, bothOne float64
	}{
		"both are told": {"{bat.weak: 3, chg.dead: 12}", 3, 6},
		"one is told":   {"{bat.weak: 4}", 4, 2},
	} {
		b := pump(t, shows, "told:\n  - {told: stored, times: "+c.times+", basis: practice}\n"+
			"together:\n  - {faults: [bat.weak, chg.dead], common: 2, why: It never got full.}\n"+shows)
		got := b.job("stored").counsel()
		weak, pair := c.battery*3, c.bothOne*2
		sum := weak + pair + 2 + 1 + 8*0.05/0.95
		require.InDelta(t, (weak+pair)/sum, got.p("bat.weak"), 1e-9, name)
		require.InDelta(t, pair/sum, got.p("chg.dead"), 1e-9, name)
	}
}

// Thirty jobs weigh as much as the list: half of each. By the list the battery is 3 of
// 8, found in 6 of 30: (3/8 x 30 + 6) / 60 = 0.2875, 23/30 of 3/8. The switch is 2 of 8,
// found in 24: (7.5 + 24) / 60 = 0.525, 2.1 times. The motor was never found: half. Of
// 0.475 x 23/30, 0.3167 x 2.1, 0.1583 / 2 and 0.05, 1.1583 in all.
func TestTheShopsOwnJobsMoveTheList(t *testing.T) {
	b := pump(t)
	shop := Shop{Jobs: 30, Found: map[string]int{"sw.open": 24, "bat.weak": 6}}
	c := b.job().with(shop)
	sum := weakest*23/30 + switchs*2.1 + motors/2 + goneNow
	require.InDelta(t, weakest*23/30/sum, c.p("bat.weak"), 1e-9)
	require.InDelta(t, switchs*2.1/sum, c.p("sw.open"), 1e-9)
	require.InDelta(t, motors/2/sum, c.p("mot.open"), 1e-9)
	require.Equal(t, []string{"This shop's own proved jobs (30, against the list's weight of 30): The battery is weak 6, The switch is open 24."}, c.Moved)

	// Ninety weigh three times the list: (1/4 x 30 + 90) / 120 = 0.8125, 3.25 times for the
	// switch, and a quarter for the others.
	c = b.job().with(Shop{Jobs: 90, Found: map[string]int{"sw.open": 90}})
	require.InDelta(t, 3.25*switchs/(weakest/4+3.25*switchs+motors/4+goneNow), c.p("sw.open"), 1e-9)

	// Found as often as the list has it, nothing moves.
	c = b.job().with(Shop{Jobs: 8, Found: map[string]int{"bat.weak": 3, "chg.dead": 2, "sw.open": 2, "mot.open": 1}})
	require.InDelta(t, weakest, c.p("bat.weak"), 1e-9)
	require.Len(t, c.Moved, 1)
}

// What is told and the shop's own jobs both count: 3 x 23/30 for the battery.
func TestWhatIsToldAndTheShopsJobsMultiply(t *testing.T) {
	b := pump(t, shows, "told:\n  - {told: stored, times: {bat.weak: 3}, basis: practice}\n"+shows)
	c := b.job("stored").with(Shop{Jobs: 30, Found: map[string]int{"sw.open": 24, "bat.weak": 6}})
	sum := weakest*3*23/30 + switchs*2.1 + motors/2 + goneNow
	require.InDelta(t, weakest*3*23/30/sum, c.p("bat.weak"), 1e-9)
	require.Len(t, c.Moved, 2)
	require.Contains(t, c.Moved[0], "Stood for a season")
	require.Contains(t, c.Moved[1], "This shop's own")
}

// One half is not likelier.
func TestWhatIsToldMayMakeAFaultLessLikely(t *testing.T) {
	b := pump(t, shows, "told:\n  - {told: stored, times: {bat.weak: 3, sw.open: 0.5, mot.open: 0.2}, basis: practice}\n"+shows)
	require.Equal(t, []string{`"Stood for a season" makes likelier: The battery is weak (3 times); less likely: The switch is open (0.5 times), The motor is open (0.2 times).`},
		b.job("stored").counsel().Moved)
}
