//go:build !windows

package app

import (
	"bufio"
	"context"
	"io"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// deadMotorLines bring the pump to a motor that is found, and a path.
var deadMotorLines = []string{"charger 13.5", "rest 12.8", "held 11.5", "yes", "motor 11.4", "turns 2"}

// Killing the program while a piece is reserved and given free again, over and
// over, leaves the job and the bin agreeing, and what was said on the screen holds.
func TestKillLeavesJobAndBinAgreeing(t *testing.T) {
	seed := rand.New(rand.NewPCG(3, 4))
	record := filepath.Join(t.TempDir(), "record.db")
	add := starts(t, record, "bin", "add", "mot", "--shown", "runs free", "--asking", "20.00", "--place", "shelf 2")
	out, err := add.CombinedOutput()
	require.NoError(t, err, string(out))
	begin := starts(t, record, "walk")
	begin.Stdin = strings.NewReader(strings.Join(append(intakeLines, deadMotorLines...), "\n") + "\n")
	out, err = begin.CombinedOutput()
	require.NoError(t, err, string(out))
	require.Contains(t, string(out), "runs free; shelf 2; piece b1", "it is offered with what was shown")

	told, reserved := 0, false
	for round := range killRounds() {
		told += reserveAndKill(t, record, reserved, time.Duration(seed.IntN(40_000))*time.Microsecond, round%3 != 0)
		db, err := recorddb.Open(context.Background(), record)
		require.NoError(t, err)
		jobtest.Agree(t, db)
		var moved int
		moved, reserved = moves(t, db)
		require.GreaterOrEqual(t, moved, told, "round %d: what was said is on the disk", round)
		require.LessOrEqual(t, moved, told+round+1, "round %d: one move at most was not said any more", round)
		require.NoError(t, db.Close())
	}
	require.Positive(t, told, "nothing was ever reserved: the test proves nothing")
}

// moves counts how often a piece moved for the first job, and says whether a path
// is chosen in it. A choice and its piece are there together, or neither is.
func moves(t *testing.T, s job.Store) (n int, chosen bool) {
	t.Helper()
	events, err := s.Load(t.Context(), 1)
	require.NoError(t, err)
	for _, e := range events {
		if e.Kind == job.KindDrawn || e.Kind == job.KindUndone && events[e.Undone.Seq-1].Kind == job.KindDrawn {
			n++
		}
	}
	facts, err := job.Fold(events)
	require.NoError(t, err)
	require.Equal(t, facts.Chosen != nil, len(facts.Drawn) == 1)
	return n, facts.Chosen != nil
}

// reserveAndKill chooses the path with the piece and takes that back, over and
// over, until it is killed; atWork, only once it has said so for the first time. It
// counts how often it said so.
func reserveAndKill(t *testing.T, record string, reserved bool, after time.Duration, atWork bool) int {
	t.Helper()
	lines := strings.Repeat("choose 1\nundo\n", 1000)
	if reserved {
		lines = "undo\n" + lines
	}
	cmd := starts(t, record, "walk", "1")
	in, err := cmd.StdinPipe() // left open: the program ends only when killed
	require.NoError(t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	go func() { _, _ = io.WriteString(in, lines) }()
	var once sync.Once
	kill := func() { once.Do(func() { time.AfterFunc(after, func() { _ = cmd.Process.Kill() }) }) }
	if !atWork {
		kill()
	}
	n := 0
	for said := bufio.NewScanner(out); said.Scan(); {
		if strings.HasPrefix(said.Text(), "Reserved in") || strings.HasPrefix(said.Text(), "Free again in") {
			n++
			kill()
		}
	}
	_ = cmd.Wait()
	return n
}
