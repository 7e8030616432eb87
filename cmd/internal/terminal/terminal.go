//go:build !windows

// Package terminal runs a program on a pseudo-terminal and keeps what its screen
// shows: for the tests of the program and for the pictures of it. The terminal
// answers no query, as many a serial line doesn't.
package terminal

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"syscall"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

// Patience is how long a program may take to show a text, or to end.
const Patience = 2 * time.Minute

// look is how often the screen is looked at while something is waited for.
const look = 5 * time.Millisecond

// Terminal is a program with the screen that it draws.
type Terminal struct {
	cmd  *exec.Cmd
	tty  *os.File
	done chan struct{} // closed once the program has ended
	end  error         // how it ended; of done

	mu     sync.Mutex
	raw    bytes.Buffer
	screen *vt.Emulator
}

// Begin starts a program on a terminal of so many columns and lines. Its
// environment is env and nothing else.
func Begin(width, height int, env []string, command ...string) (*Terminal, error) {
	cmd := exec.Command(command[0], command[1:]...) //nolint:gosec // what the caller says
	cmd.Env = env
	tty, err := pty.StartWithSize(cmd, winsize(width, height))
	if err != nil {
		return nil, err
	}
	t := &Terminal{cmd: cmd, tty: tty, done: make(chan struct{}), screen: vt.NewEmulator(width, height)}
	go t.read()
	go func() {
		t.end = cmd.Wait()
		close(t.done)
	}()
	go io.Copy(io.Discard, t.screen) //nolint:errcheck // the emulator's answers go nowhere
	return t, nil
}

func winsize(width, height int) *pty.Winsize {
	return &pty.Winsize{Rows: uint16(height), Cols: uint16(width)} //nolint:gosec // small
}

func (t *Terminal) read() {
	buf := make([]byte, 4096)
	for {
		n, err := t.tty.Read(buf)
		t.mu.Lock()
		t.raw.Write(buf[:n])
		_, _ = t.screen.Write(buf[:n])
		t.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// Press sends keys in one piece, as a slow line or a fast hand does.
func (t *Terminal) Press(keys string) error {
	_, err := t.tty.WriteString(keys)
	return err
}

// Type sends keys one by one, as a person does.
func (t *Terminal) Type(keys string) error {
	for _, key := range keys {
		if err := t.Press(string(key)); err != nil {
			return err
		}
		time.Sleep(20 * time.Millisecond)
	}
	return nil
}

// Shows is what stands on the screen, a line each.
func (t *Terminal) Shows() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.screen.String()
}

// Raw is all that the program has written.
func (t *Terminal) Raw() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.raw.String()
}

// Draw hands the screen over while nothing is written to it.
func (t *Terminal) Draw(draw func(screen *vt.Emulator)) {
	t.mu.Lock()
	defer t.mu.Unlock()
	draw(t.screen)
}

// Wait waits until the screen shows a text.
func (t *Terminal) Wait(text string) error {
	return t.Until(fmt.Sprintf("%q", text), func(shown string) bool { return strings.Contains(shown, text) })
}

// Until waits until the screen is as it should be; what says how that is.
func (t *Terminal) Until(what string, is func(shown string) bool) error {
	for end := time.Now().Add(Patience); !is(t.Shows()); time.Sleep(look) {
		if time.Now().After(end) {
			return fmt.Errorf("the screen never showed %s but:\n%s", what, t.Shows())
		}
	}
	return nil
}

// Settle waits until nothing changes any more.
func (t *Terminal) Settle() {
	for before := ""; before != t.Shows(); time.Sleep(150 * time.Millisecond) {
		before = t.Shows()
	}
}

// Resize gives the terminal another size, which the program is told.
func (t *Terminal) Resize(width, height int) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.screen.Resize(width, height)
	return pty.Setsize(t.tty, winsize(width, height))
}

// HangUp takes the terminal away from the program, as a line that breaks does.
func (t *Terminal) HangUp() error { return t.tty.Close() }

// Kill ends the program as a lost supply does: nothing is told to it.
func (t *Terminal) Kill() error { return t.Signal(syscall.SIGKILL) }

// Signal sends the program a signal.
func (t *Terminal) Signal(s os.Signal) error { return t.cmd.Process.Signal(s) }

// ErrStays says that a program did not end.
var ErrStays = errors.New("the program did not end")

// Ends waits until the program has ended, and says how: nil for status 0, an
// *exec.ExitError for any other and for a signal, ErrStays when it goes on.
func (t *Terminal) Ends() error {
	select {
	case <-t.done:
		return t.end
	case <-time.After(Patience):
		return fmt.Errorf("%w; the screen:\n%s", ErrStays, t.Shows())
	}
}

// Close ends the program, however it stands, and gives the terminal back.
func (t *Terminal) Close() {
	_ = t.Kill()
	_ = t.tty.Close()
	<-t.done
}
