package spice_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"benchlead/diag/circuit/spice"

	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "run ngspice and rewrite testdata/circuits/ngspice.csv")

// needNgspice skips where ngspice is not installed, unless the environment says
// that it must be.
func needNgspice(t testing.TB) {
	t.Helper()
	if _, err := exec.LookPath("ngspice"); err == nil {
		return
	}
	if os.Getenv("CI") != "" || os.Getenv("BENCHLEAD_NGSPICE") == "required" {
		t.Fatal("ngspice is not installed and the environment says it must be (CI or BENCHLEAD_NGSPICE=required); on Debian: apt-get install ngspice")
	}
	t.Skip("ngspice is not installed, so nothing was compared with it live; on Debian: apt-get install ngspice")
}

// run gives what ngspice says about a deck.
func run(t testing.TB, deck string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "deck.cir")
	require.NoError(t, os.WriteFile(file, []byte(deck), 0o600))
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	out, err := exec.CommandContext(ctx, "ngspice", "-b", file).CombinedOutput()
	require.NoError(t, err, "%s\n%s", out, deck)
	return string(out)
}

var printed = regexp.MustCompile(`(?m)^(\w+) = (\S+)$`)

// numbers are what `print` printed, by name; ngspice knows no capitals.
func numbers(t testing.TB, out string) map[string]float64 {
	t.Helper()
	got := map[string]float64{}
	for _, m := range printed.FindAllStringSubmatch(out, -1) {
		v, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err, "ngspice printed %q", m[0])
		got[strings.ToLower(m[1])] = v
	}
	return got
}

// columns are the rows of numbers of a file that `wrdata` wrote.
func columns(t testing.TB, file string) [][]float64 {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	var rows [][]float64
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		var row []float64
		for _, f := range strings.Fields(line) {
			v, err := strconv.ParseFloat(f, 64)
			require.NoError(t, err)
			row = append(row, v)
		}
		rows = append(rows, row)
	}
	require.NotEmpty(t, rows)
	return rows
}

// quantity is one figure that the solver and ngspice must agree on.
type quantity struct {
	says  string // its name in the stored file
	ask   string // its name in ngspice's answer
	ours  float64
	part  float64 // of scale, that they may differ
	scale float64 // the least that the figure is counted as
}

// off is how much two figures differ, as a part of the larger of figure and scale.
func (q quantity) off(theirs float64) float64 {
	return math.Abs(q.ours-theirs) / math.Max(math.Abs(theirs), q.scale)
}

// check is a circuit with its deck and what is compared.
type check struct {
	name       string
	deck       string
	quantities []quantity
}

// answer is what ngspice finds, in the order of the quantities.
func (c check) answer(t testing.TB) []float64 {
	t.Helper()
	out := run(t, c.deck)
	found := numbers(t, out)
	values := make([]float64, len(c.quantities))
	for i, q := range c.quantities {
		v, have := found[strings.ToLower(q.ask)]
		require.True(t, have, "%s: ngspice did not say %s (%s):\n%s\n%s", c.name, q.ask, q.says, out, c.deck)
		values[i] = v
	}
	return values
}

// compare holds the solver against ngspice's figures and tells the worst.
func (c check) compare(t testing.TB, theirs []float64) {
	t.Helper()
	worst := map[float64]string{}
	most := map[float64]float64{}
	for i, q := range c.quantities {
		off := q.off(theirs[i])
		if off >= most[q.part] {
			most[q.part], worst[q.part] = off, q.says
		}
		if !(off <= q.part) {
			t.Errorf("%s: %s is %.12g here and %.12g in ngspice: %.2g apart, %.2g allowed", c.name, q.says, q.ours, theirs[i], off, q.part)
		}
	}
	for part, says := range worst {
		t.Logf("%-22s %3d figures, worst %.1e of %.0e: %s", c.name, len(c.quantities), most[part], part, says)
	}
}

// ask adds a quantity under a name for ngspice.
func (c *check) ask(asks *[]spice.Ask, expression string, q quantity) {
	q.ask = fmt.Sprintf("q%d", len(*asks))
	*asks = append(*asks, spice.Ask{Name: q.ask, Expression: expression})
	c.quantities = append(c.quantities, q)
}
