package spice_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"benchlead/diag/circuit/spice"

	"github.com/stretchr/testify/require"
)

var file = filepath.Join("..", "..", "..", "testdata", "circuits", "ngspice.csv")

// The solver against what ngspice said when the file was written, so that it is
// held to an independent program where that is not installed.
func TestTheSolverAgreesWithStoredFigures(t *testing.T) {
	all := checks(t)
	if *update {
		needNgspice(t)
		write(t, all)
	}
	kept := stored(t)
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) { c.compare(t, kept.of(t, c)) })
	}
	require.Empty(t, kept, "figures of no circuit; write the file anew with -update")
}

// figures are stored values by circuit and quantity.
type figures map[[2]string]float64

// of takes the figures of a check out.
func (f figures) of(t *testing.T, c check) []float64 {
	t.Helper()
	values := make([]float64, len(c.quantities))
	for i, q := range c.quantities {
		key := [2]string{c.name, q.says}
		v, have := f[key]
		require.True(t, have, "%s, %s is not in %s; write it anew with -update", c.name, q.says, file)
		delete(f, key)
		values[i] = v
	}
	return values
}

func stored(t *testing.T) figures {
	t.Helper()
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	got := figures{}
	for _, row := range rows[1:] {
		v, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err, "%v", row)
		got[[2]string{row[0], row[1]}] = v
	}
	return got
}

var version = regexp.MustCompile(`ngspice-\S+`)

// write runs ngspice on every circuit. Volts in V, amps in A.
func write(t *testing.T, all []check) {
	t.Helper()
	said, err := exec.Command("ngspice", "--version").CombinedOutput()
	require.NoError(t, err)
	var b bytes.Buffer
	fmt.Fprintf(&b, "# Written by %s with: go test ./diag/circuit/spice -update\n# At rest: .options %s\n# In time: .options %s\n# Volts against the circuit's ground in V, amps in A; phases of a chatter are a and b.\n",
		version.Find(said), spice.AtRest, spice.InTime)
	w := csv.NewWriter(&b)
	rows := [][]string{{"circuit", "quantity", "value"}}
	for _, c := range all {
		for i, v := range c.answer(t) {
			rows = append(rows, []string{c.name, c.quantities[i].says, strconv.FormatFloat(v, 'g', 13, 64)})
		}
	}
	require.NoError(t, w.WriteAll(rows))
	require.NoError(t, os.WriteFile(file, b.Bytes(), 0o644))
}
