// Command manual writes the program's manual pages, one for the program and one for
// each verb, into a folder: go run ./cmd/internal/manual FOLDER. They say what the
// verbs' own help says.
package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"benchlead/cmd/internal/app"
)

func main() {
	if err := write(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "manual:", err)
		os.Exit(1)
	}
}

func write(args []string) error {
	if len(args) != 1 {
		return errors.New("name the folder to write to")
	}
	if err := os.MkdirAll(args[0], 0o755); err != nil {
		return err
	}
	root := app.Command()
	root.DisableAutoGenTag = true
	keepLines(root)
	if err := doc.GenManTree(root, &doc.GenManHeader{Title: "BENCHLEAD", Section: "1", Source: "benchlead", Manual: "benchlead"}, args[0]); err != nil {
		return err
	}
	return appendTo(filepath.Join(args[0], "benchlead.1"), rest)
}

// keepLines has the lines that help sets in keep their ends in the manual, where the
// others are filled.
func keepLines(cmd *cobra.Command) {
	var out []string
	set := false
	for _, l := range strings.Split(cmd.Long, "\n") {
		if in := strings.HasPrefix(l, "  "); in != set && l != "" {
			out, set = append(out, ""), in
		}
		if set {
			l = "    " + l
		}
		out = append(out, l)
	}
	cmd.Long = strings.Join(out, "\n")
	for _, c := range cmd.Commands() {
		keepLines(c)
	}
}

func appendTo(name, text string) error {
	f, err := os.OpenFile(name, os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	return errors.Join(err, f.Close())
}

// rest is what no verb's help says.
const rest = `
.SH EXIT STATUS
0: done. 1: something in the input is wrong: a file, a tree, the record. 2: the
command line is.
.SH ENVIRONMENT
.TP
BENCHLEAD_RECORD
The record file, where --record does not name one.
.TP
BENCHLEAD_SETTINGS
The shop's settings file, where --settings does not name one.
.TP
BENCHLEAD_CACHE
The folder in which what the suspects are weighed with is kept. It can be deleted.
.TP
COLUMNS
How wide the plain lines of benchlead walk are.
.TP
NO_COLOR
Set to anything: the screen has no colours.
.SH FILES
.TP
~/.local/share/benchlead/record.db
The record, on Linux; on macOS and Windows in the user's usual data folder. The
last seven daily backups lie beside it.
.TP
~/.config/benchlead/settings.yaml
The shop's settings, on Linux.
`
