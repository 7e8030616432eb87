//go:build !windows

package app

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/walk"
)

// killRounds is how often the program is killed; BENCHLEAD_KILLS sets another
// number.
func killRounds() int {
	if n, err := strconv.Atoi(os.Getenv("BENCHLEAD_KILLS")); err == nil && n > 0 {
		return n
	}
	return 12
}

// Killing the program at random moments of a scripted walk loses no reading
// that was acknowledged on the screen, and the walk goes on at the right step.
func TestKillLosesNoAcknowledgedReading(t *testing.T) {
	seed := rand.New(rand.NewPCG(1, 2))
	record := filepath.Join(t.TempDir(), "record.db")
	startJob(t, record)
	acknowledged := 0
	for round := range killRounds() {
		acknowledged += walkAndKill(t, record, round, time.Duration(seed.IntN(60_000))*time.Microsecond)
		events := load(t, record)
		readings := 0
		for _, e := range events {
			if e.Kind == job.KindRead {
				readings++
			}
		}
		require.GreaterOrEqual(t, readings, acknowledged, "round %d", round)
		// One reading may be on the disk without having been acknowledged.
		require.LessOrEqual(t, readings, acknowledged+round+1, "round %d", round)
		resumesRight(t, record, events)
	}
	require.Positive(t, acknowledged, "no reading was ever acknowledged: the test proves nothing")
}

func starts(t *testing.T, record string, args ...string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(os.Args[0], append([]string{"--record", record, "--trees", pumpTrees, "--prices", pumpPrices, "--settings", pumpSettings}, args...)...)
	cmd.Env = append(os.Environ(), asProgram+"=1", "BENCHLEAD_CACHE="+cache)
	return cmd
}

func startJob(t *testing.T, record string) {
	t.Helper()
	cmd := starts(t, record, "walk")
	cmd.Stdin = strings.NewReader(strings.Join(intakeLines, "\n") + "\n")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	require.Contains(t, string(out), "This is job 1.")
}

// walkAndKill types readings until it is killed, and counts the ones that the
// program acknowledged.
func walkAndKill(t *testing.T, record string, round int, after time.Duration) int {
	t.Helper()
	cmd := starts(t, record, "walk", "1")
	in, err := cmd.StdinPipe()
	require.NoError(t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	counted, first := make(chan int), make(chan struct{})
	go countAcknowledged(out, in, round, counted, first)
	// Every third kill comes while the program starts and opens the record, the
	// others while it writes.
	if round%3 != 0 {
		<-first
	}
	time.Sleep(after)
	_ = cmd.Process.Kill()
	n := <-counted
	_ = cmd.Wait()
	return n
}

// countAcknowledged types a reading, waits for it to be acknowledged, types the
// next, until the pipe breaks.
func countAcknowledged(out io.Reader, in io.WriteCloser, round int, counted chan<- int, first chan struct{}) {
	n := 0
	var once sync.Once
	acknowledged := func() { once.Do(func() { close(first) }) }
	defer func() { acknowledged(); counted <- n }()
	type1 := func() bool {
		_, err := fmt.Fprintf(in, "rest 12.%02d\n", (round*7+n)%50+50)
		return err == nil
	}
	if !type1() {
		return
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "Battery at rest: 1") {
			n++
			acknowledged()
			if !type1() {
				return
			}
		}
	}
}

func load(t *testing.T, record string) []job.Event {
	t.Helper()
	db, err := recorddb.Open(context.Background(), record)
	require.NoError(t, err)
	defer db.Close()
	events, err := db.Load(context.Background(), 1)
	require.NoError(t, err)
	return events
}

// resumesRight opens the job again and compares the step that is shown with the
// one that the log leads to.
func resumesRight(t *testing.T, record string, events []job.Event) {
	t.Helper()
	p := &program{treeDir: pumpTrees, env: testEnv(record), streams: Streams{Err: os.Stderr}}
	lib, err := p.library()
	require.NoError(t, err)
	facts, err := job.Fold(append(events, job.Event{Seq: int64(len(events)) + 1, Kind: job.KindOpened}))
	require.NoError(t, err)
	want := walk.Where(lib, facts)
	cmd := starts(t, record, "walk", "1")
	cmd.Stdin = strings.NewReader("")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, string(out))
	require.NotNil(t, want.Test)
	require.True(t, bytes.Contains(out, []byte(want.Test.Title)), "%s\n%s", want.Test.Title, out)
}
