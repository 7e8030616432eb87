// Command manual writes the program's manual pages, one for the program and one for
// each verb, into a folder: go run ./cmd/internal/manual FOLDER. They say what the
// verbs' own help says.
package main

import (
	"errors"
	"fmt"
	"os"

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
	return doc.GenManTree(root, &doc.GenManHeader{Title: "BENCHLEAD", Section: "1", Source: "benchlead", Manual: "benchlead"}, args[0])
}
