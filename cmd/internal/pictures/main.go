//go:build !windows

// Command pictures runs the program on a pseudo-terminal by a script and writes
// what its screen shows as SVG files: go run ./cmd/internal/pictures SCRIPT FOLDER.
//
// A script has a line for each thing to do:
//
//	start WIDTHxHEIGHT COMMAND...   begin on a fresh terminal
//	press TEXT                      keys; \e is Escape, \r, \t and \x03 are as in Go
//	wait TEXT                       until the screen shows it
//	picture NAME WORDS              write NAME.svg; WORDS are what it shows
//	today YYYY-MM-DD                draw days as if today were this one
//
// Empty lines and lines that begin with # say nothing. The program finds nothing of the
// person who runs it: no record, settings or cache, and no language but English.
package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/charmbracelet/x/vt"

	"benchlead/cmd/internal/terminal"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "pictures:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	if len(args) != 2 {
		return errors.New("name the script and the folder to write to")
	}
	script, err := os.Open(args[0])
	if err != nil {
		return err
	}
	defer script.Close()
	home, err := os.MkdirTemp("", "pictures")
	if err != nil {
		return err
	}
	defer os.RemoveAll(home)
	s := &session{folder: args[1], home: home}
	defer s.end()
	lines := bufio.NewScanner(script)
	for n := 1; lines.Scan(); n++ {
		if err := s.do(lines.Text()); err != nil {
			return fmt.Errorf("%s:%d: %w", args[0], n, err)
		}
	}
	return lines.Err()
}

// session is one run of a script.
type session struct {
	folder string
	home   string // of the program that is shown
	later  int    // days from today to the day that is drawn
	term   *terminal.Terminal
}

func (s *session) do(line string) error {
	verb, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
	switch verb {
	case "start":
		return s.start(rest)
	case "today":
		return s.today(rest)
	case "":
		return nil
	}
	switch {
	case strings.HasPrefix(verb, "#"):
		return nil
	case s.term == nil:
		return errors.New("begin with start")
	}
	switch verb {
	case "press":
		keys, err := strconv.Unquote(`"` + strings.ReplaceAll(rest, `\e`, `\x1b`) + `"`)
		if err != nil {
			return fmt.Errorf("keys %q: %w", rest, err)
		}
		return s.term.Type(keys)
	case "wait":
		if err := s.term.Wait(rest); err != nil {
			return err
		}
		s.term.Settle()
		return nil
	case "picture":
		name, words, _ := strings.Cut(rest, " ")
		var picture []byte
		s.term.Draw(func(screen *vt.Emulator) {
			moveDays(screen, s.later)
			picture = svg(screen, words)
		})
		return os.WriteFile(filepath.Join(s.folder, filepath.Base(name)+".svg"), picture, 0o644) //nolint:gosec // a picture
	}
	return fmt.Errorf("there is no %q; write start, press, wait, picture or today", verb)
}

// today sets the day that is drawn for this one.
func (s *session) today(rest string) error {
	day, err := time.Parse(time.DateOnly, rest)
	if err != nil {
		return fmt.Errorf("%q is no day such as 2026-11-30", rest)
	}
	s.later = int(day.Sub(time.Now().UTC().Truncate(24*time.Hour)).Hours() / 24)
	return nil
}

func (s *session) start(rest string) error {
	s.end()
	size, command, _ := strings.Cut(rest, " ")
	var width, height int
	if _, err := fmt.Sscanf(size, "%dx%d", &width, &height); err != nil || width < 1 || height < 1 {
		return fmt.Errorf("%q is no size such as 80x24", size)
	}
	fields := strings.Fields(command)
	if len(fields) == 0 {
		return errors.New("name the command behind the size")
	}
	var err error
	s.term, err = terminal.Begin(width, height, ownHome(s.home), fields...)
	return err
}

func (s *session) end() {
	if s.term != nil {
		s.term.Close()
	}
}

// ownHome is the environment of a program that shall find nothing of the person's who
// runs it.
func ownHome(home string) []string {
	return []string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + home, "XDG_CACHE_HOME=" + home, "XDG_CONFIG_HOME=" + home, "XDG_DATA_HOME=" + home,
		"TERM=xterm-256color", "LANG=C.UTF-8", "TZ=UTC",
	}
}
