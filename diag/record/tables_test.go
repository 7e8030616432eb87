package record

import (
	"bytes"
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/measure"
	"benchlead/diag/source"
)

// inTables are jobs as rows, by the name of their table, each row by its columns.
func inTables(t *testing.T, logs ...Log) map[string][]map[string]string {
	t.Helper()
	names := Names{
		Fault:  func(system, id string) string { return system + ": " + id },
		Repair: func(id string) string { return "=" + id },
	}
	var files []*bytes.Buffer
	var to []io.Writer
	for range TableNames() {
		files = append(files, new(bytes.Buffer))
		to = append(to, files[len(files)-1])
	}
	tables, err := NewTables(names, to)
	require.NoError(t, err)
	for _, l := range logs {
		require.NoError(t, tables.Add(l))
	}
	require.NoError(t, tables.Flush())
	out := map[string][]map[string]string{}
	for i, name := range TableNames() {
		lines, err := csv.NewReader(files[i]).ReadAll() // every row as long as the head
		require.NoError(t, err)
		for _, line := range lines[1:] {
			row := map[string]string{}
			for k, cell := range line {
				row[lines[0][k]] = cell
			}
			out[name] = append(out[name], row)
		}
	}
	return out
}

func TestTablesOfALife(t *testing.T) {
	got := inTables(t, Log{Job: 7, Events: jobtest.Life()})
	require.Equal(t, []map[string]string{{
		"job": "7", "taken_in": "2023-11-14T22:13:20Z", "last": "2023-11-14T22:37:20Z", "closed": "2023-11-14T22:37:20Z",
		"machine": "grey mower by the door", "owner": "the tall neighbour", "system": "button-start-pack", "complaint": "silent",
		"words": "it just sits there", "state": "repaired and proved", "why": "", "quoted_minutes": "10", "bench_minutes": "24",
	}}, got["jobs"])

	var tests []string
	for _, r := range got["readings"] {
		tests = append(tests, strings.Join([]string{r["event"], r["test"], r["sort"], r["value"], r["choice"], r["why"], r["taken_back"]}, "|"))
	}
	require.Equal(t, []string{
		"3|pack_rest|number|0.37|||", "5|pack_contacts|seen||dirty||", "7|pack_rest|number|0.36|||", "8|pack_rest|number|3.6|||yes",
		"10|pack_held|passed|||can't reach|", "20|pack_rest|number|12.3|||",
	}, tests)
	require.Equal(t, "370mV", got["readings"][0]["shown"])

	require.Equal(t, []map[string]string{{
		"job": "7", "fault": "pack.no-output", "title": "button-start-pack: pack.no-output", "first_shown": "2023-11-14T22:26:20Z",
		"event": "14", "before_repair": "yes", "at_closing": "found",
	}}, got["findings"])
	require.Equal(t, []map[string]string{{
		"job": "7", "event": "19", "at": "2023-11-14T22:31:20Z", "repair": "replace-pack", "title": "'=replace-pack", "taken_back": "",
	}}, got["repairs"])
	require.Len(t, got["money"], 2)
	require.Equal(t, "60.00 84.00 10", strings.Join([]string{got["money"][0]["parts"], got["money"][0]["total"], got["money"][0]["minutes"]}, " "))
	require.Equal(t, "90.00 yes the owner", strings.Join([]string{got["money"][1]["ceiling"], got["money"][1]["approved"], got["money"][1]["who"]}, " "))
}

func TestTablesOfHostileText(t *testing.T) {
	in := jobtest.Intake()
	in.Intake.Machine, in.Intake.Owner = "=cmd", "\x1b[2J@x\n\"y\""
	c := chose(5)
	c.Chosen.Quote.Parts, c.Chosen.Quote.Total, c.Chosen.Quote.Deposit = "-3.00", "=1+1", "18.00"
	wandering := job.Event{Kind: job.KindRead, Read: &job.Read{Test: "t", Reading: measure.Reading{
		Function: measure.DCVolts, Kind: measure.Wanders, Value: -12.5, Low: -13, High: -12, Range: 20, Text: "-13..-12",
	}}}
	got := inTables(t, Log{Job: 1, Events: logOf(in, c, wandering)})
	require.Equal(t, "'=cmd", got["jobs"][0]["machine"])
	require.Equal(t, `'@x "y"`, got["jobs"][0]["owner"])
	require.Equal(t, "-3.00", got["money"][0]["parts"], "a number stays a number")
	require.Equal(t, "'=1+1", got["money"][0]["total"])
	require.Equal(t, "18.00", got["money"][0]["deposit"], "not in the total, and owed all the same")
	r := got["readings"][0]
	require.Equal(t, "-12.5 -13 -12 20 '-13..-12", strings.Join([]string{r["value"], r["low"], r["high"], r["range"], r["shown"]}, " "))
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

func TestAFullDiskIsTold(t *testing.T) {
	to := make([]io.Writer, len(TableNames()))
	for i := range to {
		to[i] = full{}
	}
	tables, err := NewTables(Names{}, to)
	require.NoError(t, err)
	require.Error(t, tables.Flush())
	require.Error(t, Write(full{}, func(func(Log) error) error { return nil }))
}

// FuzzTables: whatever jobs can be taken in from a file, their tables are whole, and
// nothing in them acts on a terminal or is a formula to a spreadsheet.
func FuzzTables(f *testing.F) {
	life := written(f, Log{Job: 3, Events: jobtest.Life()}, Log{Job: 4, Events: logOf(jobtest.Intake(), note("x"), chose(5))})
	f.Add(life)
	for _, hostile := range []string{"=1+1", "-2+3", "@x", "＝1", "\u202e", "'", `\"a\",\"b\"`, `\n`} {
		f.Add(strings.NewReplacer("grey mower by the door", hostile, "the tall neighbour", hostile, "can't reach", hostile, "370mV", hostile, "60.00", hostile).Replace(life))
	}
	f.Fuzz(func(t *testing.T, text string) {
		logs, r := readAll(text)
		if len(r.Problems) > 0 {
			return
		}
		for name, rows := range inTables(t, logs...) {
			for _, row := range rows {
				for column, cell := range row {
					require.Equal(t, source.CleanLine(cell), cell, "%s, %s", name, column)
					if _, err := strconv.ParseFloat(cell, 64); err != nil && cell != "" {
						require.NotContains(t, "=+-@|%＝＋－＠", string([]rune(strings.TrimSpace(cell + "x"))[0]), "%s, %s: %q", name, column, cell)
					}
				}
			}
		}
	})
}
