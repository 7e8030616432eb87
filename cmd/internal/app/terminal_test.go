//go:build !windows

package app

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/cmd/internal/terminal"
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

// onScreen is the program on a terminal, within a test.
type onScreen struct {
	*terminal.Terminal
	t *testing.T
}

// onTerminal starts the program with nothing in its environment but these.
func onTerminal(t *testing.T, width, height int, env []string, args ...string) onScreen {
	t.Helper()
	name, err := binary()
	require.NoError(t, err)
	return runOn(t, width, height, env, append([]string{name}, args...)...)
}

// onShell runs a line of the shell on a terminal.
func onShell(t *testing.T, line string) onScreen {
	t.Helper()
	return runOn(t, 80, 24, nil, "/bin/sh", "-c", line)
}

func runOn(t *testing.T, width, height int, env []string, command ...string) onScreen {
	t.Helper()
	env = append([]string{"TERM=xterm-256color", "HOME=" + t.TempDir(), "PATH=" + os.Getenv("PATH"), "BENCHLEAD_CACHE=" + cache}, env...)
	term, err := terminal.Begin(width, height, env, command...)
	require.NoError(t, err)
	t.Cleanup(term.Close)
	return onScreen{term, t}
}

// pumpOn is the program on the pump's trees and a record.
func pumpOn(t *testing.T, record string, args ...string) onScreen {
	t.Helper()
	args = append([]string{"--record", record, "--trees", pumpTrees, "--prices", pumpPrices, "--settings", pumpSettings}, args...)
	return onTerminal(t, 80, 24, nil, args...)
}

// press sends keys, and wait waits until the screen shows a text: assertions are the
// only clock.
func (s onScreen) press(keys string) {
	s.t.Helper()
	require.NoError(s.t, s.Press(keys))
}

func (s onScreen) wait(text string) {
	s.t.Helper()
	require.NoError(s.t, s.Wait(text))
}

// step is what is pressed, and the text that it leads to.
type step struct{ keys, shows string }

// takes goes step by step.
func (s onScreen) takes(steps ...step) {
	s.t.Helper()
	for _, one := range steps {
		s.press(one.keys)
		s.wait(one.shows)
	}
}

// The terminal library asks the terminal for its colours at start-up and waits
// five seconds for an answer; the program must not let it.
func TestASilentTerminalIsNotAskedAndNotWaitedFor(t *testing.T) {
	_, err := binary() // building it is not starting it
	require.NoError(t, err)
	start := time.Now()
	term := onTerminal(t, 80, 24, nil, "--version")
	term.wait("benchlead")
	require.NoError(t, term.Ends())
	require.Less(t, time.Since(start), 4*time.Second, "it waited for the terminal")
	require.NotContains(t, term.Raw(), "\x1b]11")
	require.NotContains(t, term.Raw(), "\x1b[6n")
}

// Lines typed before the program reads must not be lost.
func TestTypedAheadIsKept(t *testing.T) {
	term := onTerminal(t, 80, 24, nil, "walk", "--record", filepath.Join(t.TempDir(), "r.db"))
	term.press("no-crank\nkey-start-12v\n1\nmy own machine\n")
	term.wait("Question 5 of")
	require.NotContains(t, term.Shows(), "This one is needed")
}

func TestTheBenchOpensAndLeaves(t *testing.T) {
	for _, env := range []string{"", "NO_COLOR=1", "TERM=dumb"} {
		t.Run(env, func(t *testing.T) {
			term := onTerminal(t, 80, 24, strings.Fields(env), "--demo")
			term.wait("Orchard spra")
			term.press("1\r")
			term.wait("ake safe")
			term.press("\x03")
			require.NoError(t, term.Ends())
		})
	}
}
