package app

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// shopRecord is a record of three jobs of the key-start system: a tiller repaired
// in March that came back in April, and an open one of another owner.
func shopRecord(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "record.db")
	db, err := recorddb.Open(context.Background(), path)
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	const day = 24 * 3_600_000_000
	march := int64(1_772_442_000_000_000) // 2026-03-02 09:00 UTC
	for _, j := range []struct {
		at      int64
		owner   string
		fault   string
		repair  string
		note    string
		outcome job.Outcome
	}{
		{march, "Ticket 28", "cable.ground", "clean-ground-ends", "green eyelet", job.Proved},
		{march + 40*day, "ticket 28", "battery.sulphated", "replace-battery", "swollen", job.NotProved},
		{march + 41*day, "ticket 31", "cable.ground", "", "nest under the shroud", ""},
	} {
		in := jobtest.Intake()
		in.Intake.System, in.Intake.Complaint, in.Intake.Machine, in.Intake.Owner = "key-start-12v", "slow", "Orange tiller", j.owner
		none, found := []string{}, []string{j.fault}
		log := []job.Event{in, jobtest.Volts("battery_rest", 12.6, "12.6"), jobtest.Note(j.note)}
		log[1].Shown = &found
		if j.repair != "" {
			log = append(log,
				job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{j.repair}, Quote: job.Quote{Currency: "EUR", Total: "20.00", Minutes: 30}}},
				job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: j.repair}, Shown: &none},
				job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: j.outcome, Verdict: "v"}})
		}
		for i := range log {
			log[i].At = j.at + int64(i)*60_000_000
		}
		_, err := db.Create(context.Background(), log)
		require.NoError(t, err)
	}
	return path
}

func TestLookingForJobs(t *testing.T) {
	path := shopRecord(t)
	for _, c := range []struct {
		args []string
		ids  []int64
	}{
		{nil, []int64{1, 2, 3}},
		{[]string{"eyelet"}, []int64{1}},
		{[]string{"TILL", "28"}, []int64{2, 1}},
		{[]string{"tiller 28 swol"}, []int64{2}},
		{[]string{"iller"}, nil},
		{[]string{"ground"}, []int64{3, 1}}, // only in the title of what was found
		{[]string{"ground", "--open"}, []int64{3}},
		{[]string{"--fault", "cable.ground"}, []int64{3, 1}},
		{[]string{"--fault", "ground cable"}, []int64{3, 1}},
		{[]string{"--fault", "no.such"}, nil},
		{[]string{"--machine", "ticket"}, nil},
		{[]string{"--owner", "ticket 31"}, []int64{3}},
		{[]string{"--system", "key-start-12v", "--complaint", "slow"}, []int64{3, 2, 1}},
		{[]string{"--system", "magneto"}, nil},
		{[]string{"--repair", "clean-ground-ends"}, []int64{1}},
		{[]string{"--part", "battery-12v"}, []int64{2}}, // by the repair that needs it
		{[]string{"--outcome", "proved"}, []int64{1}},
		{[]string{"--outcome", "not-proved"}, []int64{2}},
		{[]string{"--month", "2026-03"}, []int64{1}},
		{[]string{"--month", "2026-04.."}, []int64{3, 2}},
		{[]string{"--month", "..2026-03"}, []int64{1}},
		{[]string{"--month", "2026-01..2026-12", "tiller", "--most", "1"}, []int64{3}},
	} {
		t.Run(strings.Join(c.args, " "), func(t *testing.T) {
			code, out, errs := run(t, "", append([]string{"--record", path, "jobs", "--json"}, c.args...)...)
			require.Equal(t, ExitDone, code, errs)
			var got struct {
				Jobs []struct{ ID int64 }
				More int
			}
			require.NoError(t, json.Unmarshal([]byte(out), &got))
			var ids []int64
			for _, j := range got.Jobs {
				ids = append(ids, j.ID)
			}
			require.Equal(t, c.ids, ids)
			require.Equal(t, len(c.args) == 5, got.More == 2)
		})
	}
	_, out, _ := run(t, "", "--record", path, "jobs", "tiller", "--most", "1")
	require.Contains(t, out, "2 more; --most shows more of them.")
	_, out, _ = run(t, "", "--record", path, "jobs", "unheard")
	require.Contains(t, out, "No job on record fits all of that.")
	_, _, errs := run(t, "", "--record", path, "jobs", "--fault", "cable.gruond")
	require.Equal(t, "Nothing in the trees is called \"cable.gruond\"; did you mean \"cable.ground\"?\n", errs)
	_, _, errs = run(t, "", "--record", path, "jobs", "--fault", "cable.ground", "--machine", "unheard")
	require.Empty(t, errs, "that one is known")
}

// The demo's record is no database; it is searched all the same.
func TestLookingForJobsOfTheDemo(t *testing.T) {
	_, out, _ := run(t, "", "jobs", "--demo", "ground", "tiller")
	require.Contains(t, out, "Market-garden tiller")
	require.NotContains(t, out, "sprayer")
}

func TestCounts(t *testing.T) {
	path := shopRecord(t)
	code, out, errs := run(t, "", "--record", path, "counts", "--json")
	require.Equal(t, ExitDone, code, errs)
	var got struct {
		Days   int `json:"come_back_days"`
		All    map[string]int
		Months []map[string]any
		Faults []map[string]any
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Equal(t, 90, got.Days)
	require.Equal(t, map[string]int{
		"jobs": 3, "closed": 2, "proved": 1, "comebacks": 1, "quoted_minutes": 60, "quoted_jobs": 2, "bench_minutes": 12, "bench_jobs": 3,
	}, got.All)
	require.Len(t, got.Months, 2)
	require.Equal(t, "cable.ground", got.Faults[0]["id"])

	_, out, _ = run(t, "", "--record", path, "counts", "--days", "30", "--month", "2026-04")
	require.Regexp(t, `(?m)^2026-04 +2 +1 +0 +0 +30 `, out)
	require.Contains(t, out, "within 30 days")
	require.NotContains(t, out, "2026-03")
	require.Contains(t, out, "1  battery.sulphated\n", "one that these trees don't have")
}

func TestWordsOfTheRecordVerbs(t *testing.T) {
	path := shopRecord(t)
	for _, c := range []struct {
		name string
		args []string
		errs string
	}{
		{"no month", []string{"jobs", "--month", "2026-13"}, "is no month"},
		{"no month at all", []string{"jobs", "--month", ".."}, "is no month"},
		{"backwards", []string{"jobs", "--month", "2026-05..2026-04"}, "ends before it begins"},
		{"no outcome", []string{"jobs", "--outcome", "fixed"}, "not-proved"},
		{"open and closed", []string{"jobs", "--open", "--outcome", "proved"}, "choose"},
		{"none", []string{"jobs", "x", "--most", "0"}, "--most"},
		{"no word", []string{"jobs", "--", "--", "?"}, "no word"},
		{"no days", []string{"counts", "--days", "0"}, "--days"},
		{"no form", []string{"export"}, "choose one"},
		{"two forms", []string{"export", "--json", "a", "--csv", "b"}, "choose one"},
		{"no file", []string{"import"}, "one file"},
		{"import into the demo", []string{"import", "x", "--demo"}, "thrown away"},
		{"back the demo up", []string{"backup", "--demo"}, "thrown away"},
		{"two backups", []string{"backup", "a", "b"}, "one file"},
		{"back up and restore", []string{"backup", "a", "--restore", "b"}, "one file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, errs := run(t, "", append([]string{"--record", path}, c.args...)...)
			require.Equal(t, ExitUsage, code, out)
			require.Contains(t, errs, c.errs)
		})
	}
}

func TestAnExportGoesIntoAnotherRecord(t *testing.T) {
	path := shopRecord(t)
	dir := t.TempDir()
	first, second, other := filepath.Join(dir, "a.json"), filepath.Join(dir, "b.json"), filepath.Join(dir, "other.db")
	must := func(args ...string) string {
		code, out, errs := run(t, "", args...)
		require.Equal(t, ExitDone, code, errs)
		return out
	}
	must("--record", path, "export", "--json", first)
	require.Contains(t, must("--record", other, "import", first, "--dry-run"), "Would be taken in: 3 jobs")
	require.NoFileExists(t, other, "it was only tried")
	out := must("--record", other, "import", first)
	require.Contains(t, out, "job 2 as 2: 2026-04-11  Orange tiller, key-start-12v: slow, 6 events")
	require.Contains(t, out, "Taken in: 3 jobs with 15 events.")
	must("--record", other, "export", "--json", second)
	a, err := os.ReadFile(first)
	require.NoError(t, err)
	b, err := os.ReadFile(second)
	require.NoError(t, err)
	require.Equal(t, string(a), string(b))

	require.Contains(t, must("--record", other, "import", first), "Already here, with nothing new: 3 jobs.")
	// Into a record that has other jobs, the numbers are others.
	require.Contains(t, must("--record", path, "import", exportOfOther(t, dir)), "job 3 as 4:")
}

// exportOfOther is an export of one job, number 3, that no other record has.
func exportOfOther(t *testing.T, dir string) string {
	t.Helper()
	in := jobtest.Intake()
	in.Seq = 1
	line, err := job.Encode(in)
	require.NoError(t, err)
	name := filepath.Join(dir, "one.json")
	text := "{\"format\": \"benchlead record\", \"version\": 1, \"jobs\": [\n{\"job\": 3, \"events\": [\n" + string(line) + "\n]}]}\n"
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	return name
}

func TestAnImportThatIsRefusedChangesNothing(t *testing.T) {
	path := shopRecord(t)
	dir := t.TempDir()
	good := filepath.Join(dir, "good.json")
	code, _, errs := run(t, "", "--record", path, "export", "--json", good)
	require.Equal(t, ExitDone, code, errs)
	whole, err := os.ReadFile(good)
	require.NoError(t, err)
	write := func(name, text string) string {
		file := filepath.Join(dir, name+".json")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
		return file
	}
	swap := func(from, to string) string { return strings.Replace(string(whole), from, to, 1) }
	fresh := filepath.Join(dir, "fresh.db")
	for _, c := range []struct{ name, into, file, says string }{
		{"went on otherwise", path, write("otherwise", swap("nest under the shroud", "nest above it")), "otherwise.json:21:9: job 3: it is job 3 of this record"},
		{"half", fresh, write("half", string(whole[:len(whole)/2])), "ends in the middle"},
		{"an escape", fresh, write("escape", swap("green eyelet", `\u001b[2Jgreen`)), "escape.json:8:"},
		{"a later job is wrong", fresh, write("later", swap("nest under the shroud", "")), "job 3, event 3: its text is empty"},
		{"no export", fresh, write("none", "dear customer"), "none.json:1:1"},
		{"a folder", fresh, dir, "not a plain file"},
		{"no file", fresh, filepath.Join(dir, "no.json"), "no.json"},
		{"a record", fresh, path, "record.db:1:1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out, errs := run(t, "", "--record", c.into, "import", c.file)
			require.Equal(t, ExitInput, code, out)
			require.Contains(t, errs, c.says)
			require.NotContains(t, errs, "\x1b")
			require.NoFileExists(t, fresh)
			again := filepath.Join(t.TempDir(), "again.json")
			code, _, errs = run(t, "", "--record", path, "export", "--json", again)
			require.Equal(t, ExitDone, code, errs)
			now, err := os.ReadFile(again)
			require.NoError(t, err)
			require.True(t, bytes.Equal(whole, now))
		})
	}
}

func TestExportsWriteOverNoRecord(t *testing.T) {
	path := shopRecord(t)
	code, _, errs := run(t, "", "--record", path, "export", "--json", path)
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "is the record")
	folder := filepath.Join(t.TempDir(), "tables")
	require.NoError(t, os.MkdirAll(folder, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "repairs.csv"), []byte("SQLite format 3\x00"), 0o600))
	code, _, errs = run(t, "", "--record", path, "export", "--csv", folder)
	require.Equal(t, ExitInput, code)
	require.Contains(t, errs, "is a database")
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, entries, 1, "all tables or none")
}

func TestTablesOfTheRecord(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "deep", "tables")
	code, out, errs := run(t, "", "--record", shopRecord(t), "export", "--csv", folder)
	require.Equal(t, ExitDone, code, errs)
	require.Contains(t, out, "They hold 3 jobs.")
	for name, rows := range map[string]int{"jobs": 3, "readings": 3, "findings": 3, "repairs": 2, "money": 2} {
		data, err := os.ReadFile(filepath.Join(folder, name+".csv"))
		require.NoError(t, err)
		require.Equal(t, rows+1, strings.Count(string(data), "\r\n"), name)
	}
	data, err := os.ReadFile(filepath.Join(folder, "findings.csv"))
	require.NoError(t, err)
	require.Contains(t, string(data), "The ground cable or one of its ends is bad", "titles are those of the trees")
}
