package recorddb

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

const (
	childEnv = "BENCHLEAD_KILL_CHILD" // the record that the child writes to
	killsEnv = "BENCHLEAD_KILLS"      // how many children to kill; 10 unless set
)

func TestMain(m *testing.M) {
	if path := os.Getenv(childEnv); path != "" {
		fmt.Fprintln(os.Stderr, write(context.Background(), path))
		os.Exit(1) // it ends only when killed
	}
	os.Exit(m.Run())
}

// write adds to the record until it is killed, and prints each number that was
// acknowledged: "job N" and then the last event of each call.
func write(ctx context.Context, path string) error {
	db, err := Open(ctx, path)
	if err != nil {
		return err
	}
	id, err := db.Create(ctx, []job.Event{jobtest.Intake()})
	if err != nil {
		return err
	}
	fmt.Printf("job %d\n", id)
	for last := int64(1); ; {
		got, err := db.Append(ctx, id, last, writeNext(last))
		if err != nil {
			return err
		}
		last = got[len(got)-1].Seq
		fmt.Println(last)
	}
}

// writeNext is what comes after an event: mostly one, sometimes three that
// belong together, now and then a long one.
func writeNext(last int64) []job.Event {
	volts := jobtest.Volts("pack_rest", float64(last), strconv.FormatInt(last, 10))
	switch last % 7 {
	case 1:
		return []job.Event{volts, jobtest.Note("of three"), {Kind: job.KindDone, Done: &job.Done{Work: "w", Stales: []string{"pack_rest"}}}}
	case 5:
		return []job.Event{jobtest.Note(fmt.Sprintf("%05000d", last))}
	}
	return []job.Event{volts}
}

// expectLog is the log after at least acked events, cut where the child's calls
// end; have is how many there really are.
func expectLog(acked, have int64) []job.Event {
	first := jobtest.Intake()
	first.Seq = 1
	log := []job.Event{first}
	for int64(len(log)) < max(acked, have) {
		next, _ := job.Number(int64(len(log)), false, writeNext(int64(len(log))))
		log = append(log, next...)
	}
	return log
}

// killed starts a child, kills it after a while, and gives what it acknowledged.
// The while begins with the child, or, when it is to be at work, with the first
// thing it acknowledges: a slow machine must not turn every kill into one of a
// child that has not begun.
func killed(t *testing.T, path string, after time.Duration, atWork bool) (id, acked int64) {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	child := exec.CommandContext(t.Context(), self)
	child.Env = append(os.Environ(), childEnv+"="+path)
	out, err := child.StdoutPipe()
	require.NoError(t, err)
	complaints, err := child.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	started := false
	start := func() {
		if !started {
			time.AfterFunc(after, func() { _ = child.Process.Kill() })
		}
		started = true
	}
	if !atWork {
		start()
	}
	for lines := bufio.NewScanner(out); lines.Scan(); {
		start()
		if _, err := fmt.Sscanf(lines.Text(), "job %d", &id); err == nil {
			acked = 1
			continue
		}
		acked, err = strconv.ParseInt(lines.Text(), 10, 64)
		require.NoError(t, err)
	}
	said, _ := io.ReadAll(complaints)
	require.Error(t, child.Wait(), "it can only have been killed")
	require.Empty(t, string(said))
	return id, acked
}

// TestKilled kills a program that is writing, again and again, at random
// moments: often just as it makes the record, mostly in the middle of its work.
// Nothing that it had acknowledged may be lost. This shows what a dying process
// does, not what a power cut does.
func TestKilled(t *testing.T) {
	rounds := 10
	if text := os.Getenv(killsEnv); text != "" {
		var err error
		rounds, err = strconv.Atoi(text)
		require.NoError(t, err)
	}
	var seen []job.Event // of all rounds, to know that something was tested
	path, promised := "", map[int64]int64{}
	for round := range rounds {
		if round%3 == 0 { // a new record
			path, promised = filepath.Join(t.TempDir(), "new", "record.db"), map[int64]int64{}
		}
		after := time.Duration(rand.Int64N(int64(150 * time.Millisecond)))
		if id, acked := killed(t, path, after, round%3 != 0); id > 0 {
			promised[id] = acked
		}
		seen = append(seen, checkKept(t, path, promised)...)
	}
	require.NotEmpty(t, seen, "no child lived long enough")
}

// checkKept opens the record and looks that every promise was kept, in all jobs.
func checkKept(t *testing.T, path string, promised map[int64]int64) []job.Event {
	t.Helper()
	db, err := Open(t.Context(), path)
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	var sound string
	require.NoError(t, db.sql.QueryRowContext(t.Context(), "pragma integrity_check").Scan(&sound))
	require.Equal(t, "ok", sound)

	jobs, err := db.Jobs(t.Context())
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(jobs), len(promised))
	var all []job.Event
	for _, s := range jobs {
		events, err := db.Load(t.Context(), s.ID)
		require.NoError(t, err)
		acked := promised[s.ID]
		require.GreaterOrEqual(t, int64(len(events)), acked, "acknowledged events of job %d", s.ID)
		require.Equal(t, string(job.Canonical(expectLog(acked, int64(len(events))))), string(job.Canonical(events)))
		_, err = job.Fold(events)
		require.NoError(t, err)
		all = append(all, events...)
	}
	return all
}
