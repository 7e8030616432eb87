package casefile

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// alike are three tests that are read in one way: one at any time, two after work.
func alike(again string) *tree.System {
	volts := func(id, after string) *tree.Test {
		return &tree.Test{ID: id, After: after, Kind: tree.Metered, Function: measure.ACVolts, Red: "hot", Black: "neutral", State: "running"}
	}
	return &tree.System{Tests: []*tree.Test{volts("flashed", "flash"), volts("plain", ""), volts("again", again)}}
}

// No work was done to the machine of a case: what is only asked after some was not read.
func TestOfTestsThatAreReadAlikeThePlainOneIsTaken(t *testing.T) {
	e := entry{function: measure.ACVolts, red: "hot", black: "neutral", state: "running"}
	test, flip, question := match(alike("heat"), e)
	require.Equal(t, []any{"plain", false, ""}, []any{test.ID, flip, question})

	e.red, e.black = e.black, e.red
	_, flip, _ = match(alike("heat"), e)
	require.True(t, flip)

	e.state = ""
	_, _, question = match(alike("heat"), e)
	require.Contains(t, question, "say the state")

	e.state = "running"
	test, _, question = match(alike(""), e)
	require.Nil(t, test, "two are asked at any time")
	require.Contains(t, question, "as test: flashed")
	require.NotContains(t, question, "say the state", "it was said")
}

func TestAReadingMayNameItsTest(t *testing.T) {
	for reading, want := range map[string]float64{
		`{test: held, value: "11.2"}`:                                                                11.2,
		`{test: held, red: bat.neg, black: bat.pos, value: "-11.2"}`:                                 11.2,
		`{test: held, function: dc volts, red: bat.pos, black: bat.neg, state: held, value: "11.2"}`: 11.2,
	} {
		c := one(t, reading)
		require.Empty(t, c.Aside, reading)
		require.Equal(t, "held", c.Events[1].Read.Test)
		require.InDelta(t, want, c.Events[1].Read.Reading.Value, 1e-9, reading)
	}
	c := one(t, `{test: held, state: "off", value: "11.2"}`)
	require.Len(t, c.Events, 1)
	require.Equal(t, "held is read otherwise (dc volts, bat.pos to bat.neg, held); name another test, or none, or say it as it was read", c.Aside[0].Why)

	_, issues := load(t, `readings: [{test: hold, value: "11.2"}]`)
	require.Len(t, issues, 1)
	require.Equal(t, `there is no reading of this system "hold"`, issues[0].Message)
	require.Equal(t, `did you mean "held"?`, issues[0].Hint)
	_, issues = load(t, `readings: [{test: held, value: "11.2 ohm"}]`)
	require.Len(t, issues, 1, "the test says which function the value is read by")
}

// A clamp has one point. The setup that is lacking is named.
func TestTheNearestTestAndTheSetupItLacksAreNamed(t *testing.T) {
	clamp := &tree.Test{ID: "amps", Kind: tree.Metered, Function: measure.ClampAmps, Red: "fuse", State: "running", With: []string{"lamps-on"}}
	sys := &tree.System{Tests: []*tree.Test{clamp}, Setups: []tree.Setup{{ID: "lamps-on", Title: "Lamps on"}}}
	e := entry{function: measure.ClampAmps, red: "fuse", state: "running"}
	test, _, question := match(sys, e)
	require.Nil(t, test)
	require.Equal(t, "no test is read there in just this way; the nearest is amps, which is read with lamps on: if it was so, write with: [lamps-on]", question)

	e.state = "off"
	_, _, question = match(sys, e)
	require.NotContains(t, question, "two points")
	require.Contains(t, question, "the clamp is around")
}
