//go:build !windows

package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

// longest is how long the program may take to show a text.
const longest = 2 * time.Minute

// terminal is a program with the screen that it draws.
type terminal struct {
	cmd    *exec.Cmd
	tty    *os.File
	mu     sync.Mutex
	screen *vt.Emulator
}

// begin starts a command with a home of its own.
func begin(width, height int, command []string, home string) (*terminal, error) {
	cmd := exec.Command(command[0], command[1:]...) //nolint:gosec // what the script says
	cmd.Env = []string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + home, "XDG_CACHE_HOME=" + home, "XDG_CONFIG_HOME=" + home, "XDG_DATA_HOME=" + home,
		"TERM=xterm-256color", "LANG=C.UTF-8", "TZ=UTC",
	}
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: uint16(height), Cols: uint16(width)}) //nolint:gosec // small
	if err != nil {
		return nil, err
	}
	t := &terminal{cmd: cmd, tty: tty, screen: vt.NewEmulator(width, height)}
	go t.read()
	go io.Copy(io.Discard, t.screen) //nolint:errcheck // the emulator's answers go nowhere
	return t, nil
}

func (t *terminal) read() {
	buf := make([]byte, 4096)
	for {
		n, err := t.tty.Read(buf)
		t.mu.Lock()
		_, _ = t.screen.Write(buf[:n])
		t.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// press types keys one by one, as a person does: two at once may be read as one.
func (t *terminal) press(keys string) error {
	for _, key := range keys {
		if _, err := t.tty.WriteString(string(key)); err != nil {
			return err
		}
		time.Sleep(20 * time.Millisecond)
	}
	return nil
}

func (t *terminal) shows() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.screen.String()
}

// wait waits for a text, and then until nothing changes any more.
func (t *terminal) wait(text string) error {
	for end := time.Now().Add(longest); !strings.Contains(t.shows(), text); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(end) {
			return fmt.Errorf("the screen never showed %q but:\n%s", text, t.shows())
		}
	}
	for before := ""; before != t.shows(); time.Sleep(150 * time.Millisecond) {
		before = t.shows()
	}
	return nil
}

func (t *terminal) end() {
	_ = t.cmd.Process.Kill()
	_ = t.tty.Close()
	_ = t.cmd.Wait()
}
