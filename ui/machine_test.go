package ui_test

import (
	"context"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/report"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
	"benchlead/ui"
)

// atBench is the bench with the trees of the program.
func atBench(t *testing.T) ui.Bench {
	t.Helper()
	lib, issues := tree.Load(treetest.Read(t, "..", "trees"))
	require.NoError(t, issues.Err())
	return ui.Bench{Library: lib, Store: new(job.Memory), Now: func() int64 { return 1_000_000 }}
}

// riderIn is a machine of which nothing is said but its complaint.
func riderIn(t *testing.T, b ui.Bench, system, complaint string) *ui.Session {
	t.Helper()
	s, err := ui.Begin(context.Background(), b, job.Intake{System: system, Complaint: complaint, Celsius: 20, Meter: b.Library.Instruments("pocket")})
	require.NoError(t, err)
	return s
}

// numberOf is the number of a line with some words in it.
func numberOf(t *testing.T, lines []string, words string) string {
	t.Helper()
	for _, l := range lines {
		if number, rest, _ := strings.Cut(l, " "); strings.Contains(strings.ToLower(rest), words) {
			return number
		}
	}
	require.Fail(t, "no such line", "%q in %q", words, lines)
	return ""
}

// A label that is read late is taken late: what hung on it is judged then, by the readings
// that were taken before. They are 32 milliohms; of a 200 A battery up to 38 or so are good,
// of a 400 A one half of that.
func TestALabelCanBePutRight(t *testing.T) {
	s := riderIn(t, atBench(t), "key-start-12v", "slow")
	enter(t, s, "battery_rest 12.62; batt_held 9.10; starter_amps 110")
	require.Equal(t, measure.ByLabel, s.Position().Results["battery_mohm"].Call().Answer)

	lines := s.View(ui.Machine)
	at := numberOf(t, lines, "cold-cranking")
	require.Contains(t, strings.Join(lines, "\n"), "not read; taken for")

	said := enter(t, s, "machine "+at+" 400")
	require.Contains(t, said[0], "400 A; it was not read")
	require.Equal(t, measure.Called, s.Position().Results["battery_mohm"].Call().Answer)
	require.False(t, s.Position().Verdict.Clears("battery.high-resistance"))

	enter(t, s, "machine "+at+" 200")
	require.True(t, s.Position().Verdict.Clears("battery.high-resistance"))
	doc, err := s.Document()
	require.NoError(t, err)
	require.Len(t, doc.Corrected, 2)

	require.Contains(t, enter(t, s, "undo")[0], "put right")
	require.False(t, s.Position().Verdict.Clears("battery.high-resistance"))
	enter(t, s, "machine "+at+" unknown")
	require.Equal(t, measure.ByLabel, s.Position().Results["battery_mohm"].Call().Answer)
}

// What is wrong is refused with what would be right, and nothing is recorded.
func TestWhatCannotBePutRightIsRefused(t *testing.T) {
	s := riderIn(t, atBench(t), "key-start-12v", "slow")
	at := numberOf(t, s.View(ui.Machine), "cold-cranking")
	for line, want := range map[string]string{
		"machine 99 3":            "from 1 to",
		"machine x":               "no number",
		"machine " + at + " much": "write a number",
		"machine " + at + " 9e9":  "possible",
		"machine 1 unknown":       "needed",
		"machine 1 99":            "",
	} {
		_, err := s.Enter(context.Background(), line)
		require.Error(t, err, line)
		require.Contains(t, err.Error(), want, line)
	}
	require.Len(t, s.Events(), 1)
	said := enter(t, s, "machine "+at)
	require.Contains(t, said[len(said)-1], "Type machine "+at)
	require.Contains(t, enter(t, s, "machine 2 unknown")[0], "nothing was recorded")
	require.Len(t, s.Events(), 1)
}

// Every question can be put right, by the first choice of its list or a word that fits,
// and what is asked is what is shown under its number.
func TestEveryQuestionOfEverySystemCanBePutRight(t *testing.T) {
	b := atBench(t)
	for id, sys := range b.Library.Systems {
		s := riderIn(t, b, id, sys.Complaints[0].ID)
		want := len(report.Described(sys, *s.Facts().Intake))
		require.Equal(t, 7+len(sys.Label), want)
		for n := 1; n <= want; n++ {
			before := s.View(ui.Machine)
			how := enter(t, s, "machine "+strconv.Itoa(n))
			require.True(t, strings.HasPrefix(before[n-1], strconv.Itoa(n)+" "+strings.TrimSuffix(how[0], "?")+": "), "%s: %s", before[n-1], how[0])
		}
	}
}
