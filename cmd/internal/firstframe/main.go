//go:build !windows

// Command firstframe measures how soon programs draw: from their start on a
// pseudo-terminal until a text of their first frame has come. It starts them in
// turn, prints the medians and how many times the first's the others' are.
//
//	firstframe [-n RUNS] TEXT=COMMAND [TEXT=COMMAND ...]
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"time"

	"github.com/creack/pty"
)

func main() {
	runs := flag.Int("n", 40, "starts of each program")
	flag.Parse()
	times := make([][]time.Duration, flag.NArg())
	for range *runs {
		for i, arg := range flag.Args() {
			text, command, _ := strings.Cut(arg, "=")
			took, err := start(text, strings.Fields(command))
			if err != nil {
				fmt.Fprintf(os.Stderr, "firstframe: %s: %v\n", command, err)
				os.Exit(1)
			}
			times[i] = append(times[i], took)
		}
	}
	for i, arg := range flag.Args() {
		slices.Sort(times[i])
		median := times[i][len(times[i])/2]
		fmt.Printf("%-40.40s %8.1f ms %6.2f\n", arg, float64(median)/1e6, float64(median)/float64(times[0][len(times[0])/2]))
	}
}

// longest is how long a program may take to show the text.
const longest = 20 * time.Second

// start runs a program until the text has come.
func start(text string, command []string) (time.Duration, error) {
	cmd := exec.Command(command[0], command[1:]...) //nolint:gosec // what the developer typed
	cmd.Env = append(os.Environ(), "TERM=xterm-256color")
	begun := time.Now()
	late := time.AfterFunc(longest, func() { _ = cmd.Process.Kill() })
	defer late.Stop()
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		return 0, err
	}
	defer func() { _ = cmd.Process.Kill(); _ = tty.Close(); _ = cmd.Wait() }()
	var seen []byte
	buf := make([]byte, 4096)
	for {
		n, err := tty.Read(buf)
		seen = append(seen, buf[:n]...)
		if bytes.Contains(seen, []byte(text)) {
			return time.Since(begun), nil
		}
		if err != nil {
			return 0, fmt.Errorf("it ended without showing %q: %w", text, err)
		}
	}
}
