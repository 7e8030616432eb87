package circuit_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
)

// rows of a table under testdata/circuits, by column name. Each file says where
// its numbers are from.
func rows(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/circuits/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, cell := range line {
			row[all[0][i]] = cell
		}
		out = append(out, row)
	}
	require.NotEmpty(t, out)
	return out
}

// shows asserts that a value rounds to the digits of a table's cell; a value on
// the edge between two may be either.
func shows(t *testing.T, cell string, v float64, what ...any) {
	t.Helper()
	digits, power, _ := strings.Cut(cell, "e")
	_, decimals, _ := strings.Cut(digits, ".")
	want := number(t, cell)
	half := math.Pow10(-len(decimals)) / 2
	if power != "" {
		half *= math.Pow(10, number(t, power))
	}
	require.LessOrEqual(t, math.Abs(v-want), half*1.0001, append([]any{"shown %s, got %v: %v", cell, v}, what...)...)
}

func number(t *testing.T, cell string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(cell, 64)
	require.NoError(t, err)
	return v
}

// solved is the operating point of a machine's parts.
func solved(t *testing.T, parts []circuit.Part) *circuit.Solution {
	t.Helper()
	s, err := circuitOf(t, reference.Ground, parts).Solve()
	require.NoError(t, err)
	return s
}

func circuitOf(t testing.TB, ground string, parts []circuit.Part) *circuit.Circuit {
	t.Helper()
	c, err := circuit.New(ground, parts...)
	require.NoError(t, err)
	return c
}
