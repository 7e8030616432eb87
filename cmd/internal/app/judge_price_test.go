package app

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A part that nobody has a price for doesn't make a repair cheap: no total is shown,
// and the part is named.
func TestJudgeShowsNoTotalWithoutThePriceOfAPart(t *testing.T) {
	notRaced(t)
	notRaced(t)
	folder := t.TempDir()
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "trees", "demo", "prices.yaml"))
	require.NoError(t, err)
	prices := filepath.Join(folder, "prices.yaml")
	text = regexp.MustCompile(`(?m)^  - \{part: cable-ground,.*\n`).ReplaceAll(text, nil)
	require.NoError(t, os.WriteFile(prices, text, 0o600))
	name := filepath.Join(folder, "case.yaml")
	frame := `  - {function: dc volts, red: frame, black: batt.neg, state: key-start, value: "1.90"}` + "\nseen:"
	require.NoError(t, os.WriteFile(name, []byte(strings.Replace(indentless(exampleCase), "seen:", frame, 1)), 0o600))

	code, out, errs := run(t, "", "judge", name, "--prices", prices)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "Repair: Fit a new ground cable: no price on file for battery cable, ground, 30 min.")
	require.Regexp(t, `Repair: Clean and tighten.* USD, 20 min\.`, out, "what needs none of it has its total")

	_, out, _ = run(t, "", "judge", name, "--prices", prices, "--json")
	var object struct {
		Repairs []struct {
			Repairs, Unpriced []string
			Total             string
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &object))
	last := object.Repairs[len(object.Repairs)-1]
	require.Equal(t, []string{"replace-ground-cable"}, last.Repairs)
	require.Equal(t, []string{"cable-ground"}, last.Unpriced)
	require.Empty(t, last.Total)

	code, out, errs = run(t, "", "check", "--prices", prices)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "takes the part \"cable-ground\", which has no price")
	require.Contains(t, out, "nothing to mend, 1 remark.")
}
