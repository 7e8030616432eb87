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

// shows asserts that a value rounds to the digits of a table's cell, give or take
// one in the last place where the value lies on the edge.
func shows(t *testing.T, cell string, v float64, what ...any) {
	t.Helper()
	_, decimals, _ := strings.Cut(cell, ".")
	want := number(t, cell)
	half := math.Pow10(-len(decimals)) / 2
	require.LessOrEqual(t, math.Abs(v-want), half*1.0001, append([]any{"shown %s, got %v: %v", cell, v}, what...)...)
}

func number(t *testing.T, cell string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(cell, 64)
	require.NoError(t, err)
	return v
}

// solved is the operating point of a list of parts.
func solved(t *testing.T, parts []circuit.Part) *circuit.Solution {
	t.Helper()
	c, err := circuit.New("0", parts...)
	require.NoError(t, err)
	s, err := c.Solve()
	require.NoError(t, err)
	return s
}

// probes are the columns of the cranking table with their nodes.
var probes = [][3]string{
	{"BP-BN", "BP", "0"},
	{"ST-EB", "ST", "EB"},
	{"BP-ST", "BP", "ST"},
	{"EB-BN", "EB", "0"},
	{"SB-SM", "SB", "SM"},
	{"SC-EB", "SC", "EB"},
	{"F2-BN", "F2", "0"},
	{"KS-BN", "KS", "0"},
	{"BO-BN", "BO", "0"},
	{"PO-BN", "PO", "0"},
}

func TestCrankingAtEachProbe(t *testing.T) {
	table := map[string]map[string]string{}
	for _, row := range rows(t, "cranking.csv") {
		table[row["fault"]] = row
	}
	require.Len(t, table, len(faults))
	for _, f := range faults {
		t.Run(f.name, func(t *testing.T) {
			row := table[f.name]
			m := newKeyStart()
			f.set(&m)
			s := solved(t, m.parts())
			require.Equal(t, row["state"] == "CHATTER", s.Chatters())
			for _, probe := range probes {
				for i, cell := range strings.Split(row[probe[0]], "/") {
					v := s.Phases[i].Metered(probe[1], probe[2], 10e6)
					shows(t, cell, v, probe[0])
				}
			}
			for i, cell := range strings.Split(row["amps"], "/") {
				shows(t, cell, s.Phases[i].Amps("starter"), "amps")
			}
			shows(t, row["rpm"], rpm(s.Phases[0].Speed("starter")), "rpm")
			require.Equal(t, strings.HasPrefix(row["state"], "FUSE"), f.name == "dsh2" && s.Phases[0].Blown("fuse"))
			m.position = off
			shows(t, row["rest"], solved(t, m.parts()).Phases[0].Metered("BP", "0", 10e6), "rest")
		})
	}
}
