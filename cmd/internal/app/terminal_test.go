//go:build !windows

package app

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
	"github.com/stretchr/testify/require"
)

// binary builds the program as it ships: what its packages do at start-up
// depends on their order, so the test binary would prove nothing.
var binary = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "benchlead-test")
	if err != nil {
		return "", err
	}
	name := filepath.Join(dir, "benchlead")
	out, err := exec.Command("go", "build", "-o", name, "../../benchlead").CombinedOutput()
	if err != nil {
		return "", &exec.Error{Name: string(out), Err: err}
	}
	return name, nil
})

// terminal is a program on a pseudo-terminal that answers no query.
type terminal struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File
	done chan error

	mu     sync.Mutex
	raw    bytes.Buffer
	screen *vt.Emulator
}

func onTerminal(t *testing.T, width, height int, env []string, args ...string) *terminal {
	t.Helper()
	name, err := binary()
	require.NoError(t, err)
	cmd := exec.Command(name, args...)
	cmd.Env = append([]string{"TERM=xterm-256color", "HOME=" + t.TempDir(), "PATH=" + os.Getenv("PATH")}, env...)
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: uint16(height), Cols: uint16(width)})
	require.NoError(t, err)
	term := &terminal{t: t, cmd: cmd, tty: tty, done: make(chan error, 1), screen: vt.NewEmulator(width, height)}
	go term.read()
	go func() { term.done <- cmd.Wait() }()
	go io.Copy(io.Discard, term.screen) //nolint:errcheck // the emulator's answers go nowhere
	t.Cleanup(func() { _ = cmd.Process.Kill(); _ = tty.Close() })
	return term
}

func (term *terminal) read() {
	buf := make([]byte, 4096)
	for {
		n, err := term.tty.Read(buf)
		term.mu.Lock()
		term.raw.Write(buf[:n])
		_, _ = term.screen.Write(buf[:n])
		term.mu.Unlock()
		if err != nil {
			return
		}
	}
}

func (term *terminal) shows() string {
	term.mu.Lock()
	defer term.mu.Unlock()
	return term.screen.String()
}

// wait waits until the screen shows a text; assertions are the only clock.
func (term *terminal) wait(text string) {
	term.t.Helper()
	for end := time.Now().Add(20 * time.Second); !strings.Contains(term.shows(), text); {
		require.True(term.t, time.Now().Before(end), "never showed %q; last screen:\n%s", text, term.shows())
		time.Sleep(10 * time.Millisecond)
	}
}

func (term *terminal) press(keys string) {
	term.t.Helper()
	_, err := term.tty.WriteString(keys)
	require.NoError(term.t, err)
}

func (term *terminal) ends() error {
	term.t.Helper()
	select {
	case err := <-term.done:
		return err
	case <-time.After(20 * time.Second):
		require.Fail(term.t, "the program did not end", term.shows())
		return nil
	}
}

// The terminal library asks the terminal for its colours at start-up and waits
// five seconds for an answer; the program must not let it.
func TestASilentTerminalIsNotAskedAndNotWaitedFor(t *testing.T) {
	_, err := binary() // building it is not starting it
	require.NoError(t, err)
	start := time.Now()
	term := onTerminal(t, 80, 24, nil, "--version")
	require.NoError(t, term.ends())
	require.Less(t, time.Since(start), 4*time.Second, "it waited for the terminal")
	time.Sleep(50 * time.Millisecond) // let the last bytes through
	term.mu.Lock()
	defer term.mu.Unlock()
	require.NotContains(t, term.raw.String(), "\x1b]11")
	require.NotContains(t, term.raw.String(), "\x1b[6n")
	require.Contains(t, term.raw.String(), "benchlead")
}

// Lines typed before the program reads must not be lost.
func TestTypedAheadIsKept(t *testing.T) {
	term := onTerminal(t, 80, 24, nil, "walk", "--record", filepath.Join(t.TempDir(), "r.db"))
	term.press("no-crank\nkey-start-12v\n1\nmy own machine\n")
	term.wait("Question 5 of")
	require.NotContains(t, term.shows(), "This one is needed")
}

func TestTheBenchOpensAndLeaves(t *testing.T) {
	for _, env := range []string{"", "NO_COLOR=1", "TERM=dumb"} {
		t.Run(env, func(t *testing.T) {
			term := onTerminal(t, 80, 24, strings.Fields(env), "--demo")
			term.wait("Orchard spra")
			term.press("1\r")
			term.wait("ake safe")
			term.press("\x03")
			require.NoError(t, term.ends())
		})
	}
}

// The first job ever, a kill, and going on where it was.
func TestAJobIsResumedAfterAKill(t *testing.T) {
	record := filepath.Join(t.TempDir(), "record.db")
	args := []string{"--record", record, "--trees", pumpTrees, "--prices", pumpPrices, "--settings", pumpSettings}
	term := onTerminal(t, 80, 24, nil, args...)
	term.wait("takes in the first machine")
	term.press("n")
	for range intakeLines {
		term.press("")
	}
	for _, l := range intakeLines {
		term.press(l + "\r")
	}
	term.wait("Battery at rest")
	term.press("12.6\r")
	term.wait("Spark lead")
	require.NoError(t, term.cmd.Process.Kill())
	_ = term.ends()
	again := onTerminal(t, 120, 40, nil, args...)
	again.wait("Small pump")
	again.press("1\r")
	again.wait("Battery with the switch held")
	require.NoError(t, pty.Setsize(again.tty, &pty.Winsize{Rows: 20, Cols: 60}))
	again.press("\x03")
	require.NoError(t, again.ends())
}
