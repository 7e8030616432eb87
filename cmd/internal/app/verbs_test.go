package app

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

// run runs the program with no terminal and its own record.
func run(t *testing.T, in string, args ...string) (code int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	record := filepath.Join(t.TempDir(), "record.db")
	code = Run(context.Background(), args, Streams{In: strings.NewReader(in), Out: &o, Err: &e}, testEnv(record))
	return code, o.String(), e.String()
}

func caseFile(name string) string {
	return filepath.Join("..", "..", "..", "testdata", "cases", name+".yaml")
}

func TestExitStatus(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	good := caseFile("made-pack-and-charger-dead")
	for _, c := range []struct {
		name string
		args []string
		code int
		errs string
	}{
		{"no terminal", nil, ExitUsage, "needs a terminal"},
		{"check", []string{"check"}, ExitDone, ""},
		{"trees", []string{"trees"}, ExitDone, ""},
		{"functions", []string{"trees", "--functions"}, ExitDone, ""},
		{"jobs", []string{"jobs", "--demo"}, ExitDone, ""},
		{"one system", []string{"trees", "button-start-pack"}, ExitDone, ""},
		{"no such system", []string{"trees", "button"}, ExitUsage, "no system"},
		{"no record yet", []string{"jobs"}, ExitInput, "no record"},
		{"judge", []string{"judge", good}, ExitDone, ""},
		{"judge as JSON", []string{"judge", good, "--json"}, ExitDone, ""},
		{"unknown verb", []string{"jugde"}, ExitUsage, "no verb"},
		{"unknown option", []string{"check", "--quick"}, ExitUsage, "unknown flag"},
		{"no case named", []string{"judge"}, ExitUsage, "one case file"},
		{"two formats", []string{"report", "1", "--html", "--json"}, ExitUsage, "choose one"},
		{"no number", []string{"report", "x"}, ExitUsage, "no job number"},
		{"no such job", []string{"report", "99", "--demo"}, ExitInput, "99"},
		{"report over a database", []string{"report", "2", "--demo", "--to", write("d.db", "SQLite format 3\x00")}, ExitInput, "is a database"},
		{"no such file", []string{"judge", filepath.Join(dir, "none.yaml")}, ExitInput, "none.yaml"},
		{"a folder", []string{"judge", dir}, ExitInput, "not a plain file"},
		{"empty file", []string{"judge", write("e.yaml", "")}, ExitInput, "holds nothing"},
		{"unknown field", []string{"judge", write("f.yaml", "system: key-start-12v\nbattery: 12\n")}, ExitInput, "f.yaml:2:1"},
		{"unknown system", []string{"judge", write("s.yaml", "system: key-start-21v\n")}, ExitInput, "did you mean"},
		{"not text", []string{"judge", write("n.yaml", "system: \xff\xfe\n")}, ExitInput, "n.yaml:1"},
		{"too large", []string{"judge", write("l.yaml", strings.Repeat("#", source.MaxBytes+1))}, ExitInput, "bytes"},
		{"escapes", []string{"judge", write("x.yaml", "\x1b[2J: 1\n")}, ExitInput, "x.yaml:1"},
		{"broken trees", []string{"--trees", dir, "check"}, ExitInput, "to mend"},
		{"bad prices", []string{"--prices", write("p.yaml", "shop: {currency: dollars}\n"), "check"}, ExitInput, "p.yaml:1"},
		{"record is a folder", []string{"--record", dir, "jobs"}, ExitInput, dir},
		{"record is no record", []string{"--record", write("r.db", "this is no database, only words"), "jobs"}, ExitInput, "r.db"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if len(c.args) > 1 && c.args[1] == good {
				notRaced(t)
			}
			code, out, errs := run(t, "", c.args...)
			require.Equal(t, c.code, code, "%s\n%s", out, errs)
			require.Contains(t, errs, c.errs)
			require.NotContains(t, out+errs, "\x1b", "an escape came through")
			if c.code == ExitDone {
				require.Empty(t, errs)
				require.NotEmpty(t, out)
			}
		})
	}
}

func TestEveryVerbHasHelpWithAnExample(t *testing.T) {
	p := &program{streams: Streams{}}
	for _, cmd := range p.root().Commands() {
		require.NotEmpty(t, cmd.Example, cmd.Name())
		require.NotEmpty(t, cmd.Short, cmd.Name())
		code, out, _ := run(t, "", cmd.Name(), "--help")
		require.Equal(t, ExitDone, code)
		require.Contains(t, out, cmd.Example)
	}
}

// The object that other programs read: every key of the contract, no list null.
func TestJudgeJSONHasEveryKeyAndNoNull(t *testing.T) {
	notRaced(t)
	code, out, errs := run(t, "", "judge", caseFile("made-pack-and-charger-dead"), "--json")
	require.Equal(t, ExitDone, code, errs)
	require.NotContains(t, out, "null")
	var got struct {
		Readings []map[string]any `json:"readings"`
		Findings []struct {
			Fault    string   `json:"fault"`
			Evidence []string `json:"evidence"`
		} `json:"findings"`
		Masked  []string         `json:"masked"`
		Repairs []map[string]any `json:"repairs"`
		Verdict struct {
			Text     string   `json:"text"`
			Untested []string `json:"untested"`
		} `json:"verdict"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	var all map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &all))
	for _, key := range []string{"readings", "findings", "cleared", "masked", "cannot_tell", "suspects", "next", "verdict", "repairs"} {
		require.Contains(t, all, key)
	}
	for _, key := range []string{"test", "red", "black", "state", "function", "value", "unit", "band", "sure", "healthy"} {
		require.Contains(t, got.Readings[0], key)
	}
	for _, key := range []string{"repairs", "parts", "minutes", "total", "currency"} {
		require.Contains(t, got.Repairs[0], key)
	}
	var faults []string
	for _, f := range got.Findings {
		faults = append(faults, f.Fault)
		require.NotEmpty(t, f.Evidence)
	}
	require.ElementsMatch(t, []string{"pack.no-output", "charger.no-output"}, faults)
	require.Contains(t, got.Masked, "starter.open")
	require.NotEmpty(t, got.Verdict.Untested)
}

// The rope-start conversion is one of the ways to clear both findings, with the
// three routes of the rule.
func TestConversionIsOfferedWithItsRule(t *testing.T) {
	notRaced(t)
	code, out, _ := run(t, "", "judge", caseFile("made-pack-and-charger-dead"), "--json")
	require.Equal(t, ExitDone, code)
	require.Contains(t, out, "rope-start-conversion")
	p := &program{streams: Streams{}}
	lib, err := p.library()
	require.NoError(t, err)
	r := lib.Repairs["rope-start-conversion"]
	ways := 0
	for _, rule := range r.Law {
		if strings.Contains(rule.Cite, "1205.5(a)(1)(iv)") {
			ways = len(rule.Ways)
		}
	}
	require.Equal(t, 3, ways, "16 CFR 1205.5(a)(1)(iv) has three routes")
}

func TestTheDemoPlays(t *testing.T) {
	code, out, errs := run(t, "", "jobs", "--demo")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "Orchard sprayer pump")
	require.Contains(t, out, "repaired and proved")
	code, out, errs = run(t, "", "report", "2", "--demo")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "round cable")
}

// A report goes to its file whole or not at all.
func TestReportToAFile(t *testing.T) {
	to := filepath.Join(t.TempDir(), "job.html")
	code, _, errs := run(t, "", "report", "2", "--demo", "--html", "--to", to)
	require.Equal(t, ExitDone, code, errs)
	data, err := os.ReadFile(to)
	require.NoError(t, err)
	require.True(t, strings.HasSuffix(strings.TrimSpace(string(data)), "</html>"))
	require.NotContains(t, string(data), "<script")
	code, _, errs = run(t, "", "report", "2", "--demo", "--to", filepath.Join(t.TempDir(), "no", "such", "folder.txt"))
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "was not written")
}

// An input that ends is never an answer: nothing recorded before the intake is
// done, the job kept after it.
func TestInputThatEndsIsNoAnswer(t *testing.T) {
	code, out, errs := run(t, "2\n2\n", "walk")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "nothing was recorded")
	code, out, errs = run(t, strings.Join(intakeLines, "\n")+"\n12.6", "walk", "--trees", pumpTrees, "--prices", pumpPrices)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "Job 1 is kept")
	require.NotContains(t, out, "12.60", "half a line was taken for an answer")
}

// A pipe that takes nothing is no success.
func TestAWriteThatFailsIsNoSuccess(t *testing.T) {
	var errs bytes.Buffer
	code := Run(context.Background(), []string{"trees"}, Streams{In: strings.NewReader(""), Out: full{}, Err: &errs}, func(string) string { return "" })
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs.String(), "could not be written")
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left") }

// The record itself is never written over.
func TestAReportNeverReplacesTheRecord(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	in := strings.Join(intakeLines, "\n") + "\n"
	code, _, errs := run(t, in, "--record", record, "--trees", pumpTrees, "--prices", pumpPrices, "walk")
	require.Equal(t, ExitDone, code, errs)
	code, _, errs = run(t, "", "--record", record, "--trees", pumpTrees, "--prices", pumpPrices, "report", "1", "--to", record)
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "is the record")
	code, out, errs := run(t, "", "--record", record, "--trees", pumpTrees, "--prices", pumpPrices, "jobs", "--json")
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, `"found": []`)
}
