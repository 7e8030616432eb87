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
//
// Empty lines and lines that begin with # say nothing.
package main

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

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
	s := &session{folder: args[1]}
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
	term   *terminal.Terminal
}

func (s *session) do(line string) error {
	verb, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
	if s.term == nil && verb != "start" && verb != "" && !strings.HasPrefix(verb, "#") {
		return errors.New("begin with start")
	}
	switch verb {
	case "start":
		return s.start(rest)
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
		s.term.Draw(func(screen *vt.Emulator) { picture = svg(screen, words) })
		return os.WriteFile(filepath.Join(s.folder, filepath.Base(name)+".svg"), picture, 0o644) //nolint:gosec // a picture
	case "":
		return nil
	}
	if strings.HasPrefix(verb, "#") {
		return nil
	}
	return fmt.Errorf("there is no %q; write start, press, wait or picture", verb)
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
	s.term, err = terminal.Begin(width, height, append(os.Environ(), "TERM=xterm-256color", "COLORTERM="), fields...)
	return err
}

func (s *session) end() {
	if s.term != nil {
		s.term.Close()
	}
}
