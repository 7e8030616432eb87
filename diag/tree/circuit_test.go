package tree

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/formula"
)

func rig(t *testing.T) *Circuit {
	c := loaded(t, "").Systems["rig"].Circuit
	require.NotNil(t, c)
	return c
}

// sixCells is a rig of six cells with the key in a position.
func sixCells(key string) *formula.Known {
	return formula.NewKnown(formula.Values{
		Numbers: map[string]float64{"label.cells": 6, "charge": 0.5, "rest": 12, "cable_ohms": 0.003},
		Words:   map[string]string{"key": key, "plug": "in", "make": "old"},
	})
}

func TestCircuitHoldsWhatIsWritten(t *testing.T) {
	c := rig(t)
	require.Equal(t, []string{"rig", "batt.neg"}, []string{c.System, c.Ground})
	require.Equal(t, map[string]map[string]string{"off": {}, "key-held": {"key": "held"}}, c.States)
	require.Equal(t, map[string]map[string]string{"unplugged": {"plug": "out"}}, c.Setups)
	require.Equal(t, []string{"off", "held"}, c.Positions[0].Settings, "off is a word")
	require.Equal(t, []string{"old", "new"}, c.Values[3].Words)
	require.Equal(t, []float64{1, 3}, c.Values[3].Weights)
	require.True(t, c.Values[0].Firm)

	cable, starter := c.Parts[2], c.Parts[4]
	require.Equal(t, []any{"cable", IsWire, "batt.pos", "feed", 0.2}, []any{cable.ID, cable.Kind, cable.From, cable.To, cable.Spread}, "20 % is 0.2")
	require.Equal(t, [2]string{"fuse.out", "batt.neg"}, starter.Coil)
	require.NotContains(t, cable.Numbers, "leak", "what isn't written is absent")

	flat, fuse := c.Faults[0], c.Faults[1]
	require.Equal(t, []float64{10, 3, 2, 20}, []float64{flat.Common, flat.Ways[0].Share, flat.Ways[1].From, flat.Ways[1].To})
	require.True(t, flat.Ways[1].ByRatio)
	require.False(t, flat.Ways[0].ByRatio)
	require.Equal(t, 1.0, fuse.Ways[0].Share, "a way alone needs no share")
	require.Equal(t, "key-held", fuse.Holds.State)
	require.Equal(t, []string{"fuse.blown"}, fuse.Holds.When.Needs())

	require.Equal(t, "melted", c.Shows[0].Choices[0].Choice)
	require.Empty(t, c.Shows[0].Choices[1].When, "the last line is for all others")
	require.Equal(t, "recharge", c.Work[0].Work)
	require.Equal(t, []string{"charge"}, []string{c.Work[0].Set[0].What})
	require.Len(t, c.Complaints, 2)
	require.Equal(t, "stop_time", c.Unmodelled[1].What)
}

func TestQuantitiesOfParts(t *testing.T) {
	c := rig(t)
	number := func(part int, name, key string) float64 {
		v, err := c.Parts[part].Numbers[name].EvalIn(sixCells(key))
		require.NoError(t, err)
		return v
	}
	require.InDelta(t, 12, number(0, "volts", "off"), 1e-12)
	require.InDelta(t, 0.04, number(0, "ohms", "off"), 1e-12, "0.02 / charge of a half: a share is in ohms here")
	require.InDelta(t, 0.003, number(2, "ohms", "off"), 1e-12, "values are in base units")
	require.InDelta(t, 4, number(4, "coil_ohms", "held"), 1e-12)
	require.InDelta(t, 1e9, number(4, "coil_ohms", "off"), 1, "open")
}

func TestWhatSetWrites(t *testing.T) {
	c := rig(t)
	k := sixCells("off")
	k.Set("was", 0.003)
	k.Set("severity", 0.5)
	more, err := c.Faults[2].Ways[0].Set[0].To.EvalIn(k)
	require.NoError(t, err)
	require.InDelta(t, 0.503, more, 1e-12, "ohms on ohms, whatever the unit of the value")
	blown := c.Faults[1].Ways[0].Set[0]
	require.Equal(t, "fuse.blown", blown.What)
	require.True(t, blown.To.Condition())
	holds, err := blown.To.HoldsIn(k)
	require.NoError(t, err)
	require.True(t, holds)
}

// A bare number of a value is in its unit; what has a unit of its own isn't.
func TestSpanOfAValue(t *testing.T) {
	c := rig(t)
	for i, want := range map[int][3]float64{
		0: {0.9, 0.7, 1},
		1: {(1.8 + 0.3*0.5) * 6, 1.8 * 6, 2.1 * 6}, // plain counts, in V
		2: {0.003, 0.002, 0.005},                   // 3, 2 and 5 mohm
	} {
		usual, from, to, err := c.Values[i].Span(sixCells("off"))
		require.NoError(t, err)
		require.InDeltaSlice(t, want[:], []float64{usual, from, to}, 1e-12, c.Values[i].ID)
	}
	_, _, _, err := c.Values[3].Span(sixCells("off"))
	require.Error(t, err, "a word has no numbers")
	_, _, _, err = c.Values[1].Span(formula.NewKnown(formula.Values{}))
	require.Error(t, err, "nothing is guessed")

	fixed := loaded(t, strings.Join([]string{
		`@ systems/rig-circuit.yaml`,
		`-  - {value: cable_ohms, says: The cable, unit: mohm, usual: 3, from: 2, to: 5, basis: practice}`,
		`+  - {value: cable_ohms, says: The cable, unit: mohm, usual: 3, basis: practice}`,
		``,
	}, "\n")).Systems["rig"].Circuit.Values[2]
	usual, from, to, err := fixed.Span(sixCells("off"))
	require.NoError(t, err)
	require.Equal(t, []float64{0.003, 0.003, 0.003}, []float64{usual, from, to})
}

func TestASystemNeedsNoCircuit(t *testing.T) {
	require.Nil(t, loaded(t, "@ systems/rig-circuit.yaml gone\n").Systems["rig"].Circuit)
}

// The spread of a part is of a quantity that every part of its kind has, or, of
// a wire, may have.
func TestMainQuantities(t *testing.T) {
	for kind, k := range kindsOfPart {
		q, ok := quantityNamed(kind.Main())
		require.True(t, ok, kind)
		require.Contains(t, append(append([]string{}, k.needs...), k.may...), q.key, kind)
	}
	for _, name := range quantityNames(IsRelay) {
		_, ok := quantityNamed(name)
		require.True(t, ok, name)
	}
	for _, k := range kindsOfPart {
		for _, key := range append(append([]string{}, k.needs...), k.may...) {
			_, ok := quantityNamed(strings.ReplaceAll(key, " ", "_"))
			require.True(t, ok, key)
		}
		for _, gives := range k.gives {
			require.Contains(t, solved, gives)
		}
	}
}
