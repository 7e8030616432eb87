//go:build !windows

package app

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/walk"
)

// takeIn are the steps from the first screen ever to the first test of the pump.
var takeIn = []step{
	{"", "takes in the first machine"},
	{"n", "How does it start?"},
	{"1\r", "What does it do?"},
	{"1\r", "Machine, in your words?"},
	{"Yard pump\r", "Owner or ticket?"},
	{"\r", "What changed just before"},
	{"\r", "Volts on the label?"},
	{"\r", "Chemistry?"},
	{"\r", "How warm is the bench"},
	{"\r", "Which meter?"},
	{"\r", "What is it worth"},
	{"120\r", "This is job 1."},
}

// toVerdict are the steps on to a motor that is open.
var toVerdict = []step{
	{"12.6\r", "12.60 +- 0.11 V, full"},
	{"yes\r", "Hold the switch."},
	{"11.2\r", "11.20 +- 0.11 V, holds"},
	{"11.1\r", "11.10 +- 0.10 V, there"},
	{"yes\r", "Does it turn"},
	{"2\r", "Found: The motor is open."},
}

// toRepair are the steps from the verdict to the checklist. The key for what the owner
// approves begins the line with the total.
var toRepair = []step{
	{"1\r", "Estimate for the owner"},
	{"a\r", "> approve 97.84 _"},
	{"Mrs. K, by telephone\r", "Approved up to 97.84 USD by Mrs. K"},
}

// toHandBack are the steps through the repair to its end.
var toHandBack = []step{
	{"\r", "[x]  1  Fit it."},
	{"d\r", "Make safe before: Does it turn"},
	{"yes\r", "before: stands"},
	{"1\r", "before stands; now turns"},
	{"12.7\r", "now 12.70 +- 0.11 V, holds"},
	{"11.2\r", "Usual work before it is handed back"},
	{"2\r", "[x]  2  Look at the hose"},
	{"pass\r", "It stops when let go"},
	{"1\r", "Close the job"},
	{"1\r", "closes it for good"},
	{"yes\r", "Job 1 is closed: repaired and proved"},
	{"q\r", "n new job"},
}

// recorded is the log of the only job of a record, which is closed again.
func recorded(t *testing.T, record string) []job.Event {
	t.Helper()
	db, err := recorddb.Open(context.Background(), record)
	require.NoError(t, err)
	defer db.Close()
	jobs, err := db.Jobs(context.Background())
	require.NoError(t, err)
	require.Len(t, jobs, 1)
	events, err := db.Load(context.Background(), jobs[0].ID)
	require.NoError(t, err)
	return events
}

// kinds are what the events are, in order, without those of opening.
func kinds(events []job.Event) []job.Kind {
	var out []job.Kind
	for _, e := range events {
		if e.Kind != job.KindOpened {
			out = append(out, e.Kind)
		}
	}
	return out
}

// recordIn finds the record that was begun in an empty home folder.
func recordIn(t *testing.T, home string) string {
	t.Helper()
	found := ""
	require.NoError(t, filepath.WalkDir(home, func(name string, e fs.DirEntry, err error) error {
		if err == nil && e.Name() == "record.db" {
			found = name
		}
		return err
	}))
	require.NotEmpty(t, found, "no record in %s", home)
	return found
}

// The first job of somebody who has nothing yet: intake, readings, verdict, price,
// repair, proof, hand-back, each by its page, and a record where there was none.
func TestTheFirstJobEverFromIntakeToHandBack(t *testing.T) {
	home := t.TempDir()
	s := onTerminal(t, 80, 24, []string{"HOME=" + home}, "--trees", pumpTrees, "--prices", pumpPrices, "--settings", pumpSettings)
	for _, part := range [][]step{takeIn, toVerdict, toRepair, toHandBack} {
		s.takes(part...)
	}
	s.press("q\r")
	require.NoError(t, s.Ends())
	events := recorded(t, recordIn(t, home))
	require.Equal(t, []job.Kind{
		job.KindIntake, job.KindRead, job.KindSafe, job.KindRead, job.KindRead, job.KindSafe, job.KindSeen, job.KindChosen,
		job.KindAsked, job.KindLined, job.KindTicked, job.KindSafe, job.KindSeen, job.KindRead, job.KindRead, job.KindServed, job.KindServed, job.KindSeen, job.KindClosed,
	}, kinds(events))
	require.Equal(t, "Yard pump", events[0].Intake.Machine)
	require.Equal(t, job.Proved, events[len(events)-1].Closed.Outcome)
}

// The program as it ships, in an empty home, with nothing said to it: a machine is
// taken in by what is usual, made safe, and its first reading is judged.
func TestTheProgramAsItShipsJudgesAFirstReading(t *testing.T) {
	if raced {
		t.Skip("the program is another process, which the race detector doesn't see")
	}
	home := t.TempDir()
	s := onTerminal(t, 80, 24, []string{"HOME=" + home})
	s.takes(
		step{"", "takes in the first machine"},
		step{"n", "question 1"},
		step{"no-crank\r", "question 2"},
		step{"key-start-12v\r", "question 3"},
		step{"1\r", "question 4"},
	)
	s.press(strings.Repeat("\r", 20)) // what is usual
	s.takes(
		step{"", "What does it do?"}, // a question has no card
		step{"take battery_rest\r", "type yes, then Enter"},
	)
	s.press(strings.Repeat("\r", 5)) // Enter alone confirms no make-safe
	s.takes(
		step{"yes\r", "[R] red"},
		step{"12.68\r", "12.68 +- "},
	)
	require.NoError(t, s.Signal(os.Interrupt))
	require.NoError(t, s.Ends())
	events := recorded(t, recordIn(t, home))
	last := events[len(events)-1]
	require.Equal(t, job.KindRead, last.Kind)
	facts, err := job.Fold(events)
	require.NoError(t, err)
	lib, err := (&program{env: func(string) string { return "" }}).library()
	require.NoError(t, err)
	require.Equal(t, walk.Read, walk.Where(lib, facts).Results[last.Read.Test].Mark)
}
