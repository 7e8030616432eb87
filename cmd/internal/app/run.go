// Package app is the program: verbs, options and exit status. It owns the
// clock, the files and the record, and hands them to packages that own none.
package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"benchlead/diag/source"
)

// Exit status.
const (
	ExitDone  = 0 // done
	ExitInput = 1 // a fault in the input: a file, a tree, the record
	ExitUsage = 2 // the words of the command line are off
)

// Streams are the program's three streams. In and Out may be terminals.
type Streams struct {
	In  io.Reader
	Out io.Writer
	Err io.Writer
}

// program is one run of the program.
type program struct {
	streams Streams
	screen  io.Writer // standard output itself
	env     func(string) string
	now     func() int64 // microseconds since 1970 UTC
	steady  func() int64 // microseconds by a clock that nobody sets

	record   string // --record
	treeDir  string // --trees
	prices   string // --prices
	settings string // --settings
	demo     bool   // --demo

	listOnly bool // --without-own-jobs
	checking bool // by the verb check, which runs nothing anyway
}

// usage is an error in the words of the command line.
type usage struct{ error }

// Run runs one command and returns the exit status. Errors go to Err.
func Run(ctx context.Context, args []string, streams Streams, env func(string) string) int {
	out := &watched{w: streams.Out}
	begun := time.Now() // its reading of the steady clock goes with it
	// The screen needs the terminal itself; everything else writes through out.
	p := &program{
		screen: streams.Out, streams: Streams{In: streams.In, Out: out, Err: streams.Err}, env: env, now: func() int64 { return time.Now().UnixMicro() },
		steady: func() int64 { return time.Since(begun).Microseconds() },
	}
	root := p.root()
	root.SetArgs(args)
	return p.status(firstOf(root.ExecuteContext(ctx), out.failed()))
}

// Command is the program's verbs and options, for the manual pages.
func Command() *cobra.Command {
	return (&program{streams: Streams{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard}}).root()
}

// watched remembers the first write that failed: a full disk behind a pipe is
// no success.
type watched struct {
	w   io.Writer
	err error
}

func (w *watched) Write(b []byte) (int, error) {
	n, err := w.w.Write(b)
	if w.err == nil {
		w.err = err
	}
	return n, err
}

func (w *watched) failed() error {
	if w.err == nil {
		return nil
	}
	return fmt.Errorf("the output could not be written: %w", w.err)
}

func (p *program) status(err error) int {
	if err == nil {
		return ExitDone
	}
	var issues source.Issues
	var u usage
	switch {
	case errors.As(err, &issues):
		// They were shown with their places already.
		return ExitInput
	case errors.As(err, &u):
		fmt.Fprintln(p.streams.Err, "benchlead:", source.Clean(err.Error()))
		return ExitUsage
	}
	fmt.Fprintln(p.streams.Err, "benchlead:", source.Clean(err.Error()))
	if out := p.wayOut(err); out != "" {
		fmt.Fprintln(p.streams.Err, source.Clean(out))
	}
	return ExitInput
}

func (p *program) root() *cobra.Command {
	cobra.MousetrapHelpText = "" // a double click on Windows opens the bench
	root := &cobra.Command{
		Use:   "benchlead",
		Short: "Judge meter readings on a small engine, find every fault, choose the repair",
		Long: strings.TrimSpace(`
benchlead takes the meter readings from a machine on the bench, judges each
against what it should be, leads step by step to a verdict that names every
fault and what was not tested, and prices the ways to repair it.

Without a verb it opens the bench on the full screen.`),
		Example:       "  benchlead --demo\n  benchlead judge case.yaml",
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usage{fmt.Errorf("there is no verb %q; \"benchlead --help\" lists them", args[0])}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return p.bench(cmd.Context()) },
	}
	root.SetIn(p.streams.In)
	root.SetOut(p.streams.Out)
	root.SetErr(p.streams.Err)
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usage{err} })
	flags := root.PersistentFlags()
	flags.StringVar(&p.record, "record", "", "the record `file` (default: in the user's data folder, or $BENCHLEAD_RECORD)")
	flags.StringVar(&p.treeDir, "trees", "", "a `folder` of fault trees to use instead of the built-in ones")
	flags.StringVar(&p.prices, "prices", "", "a price `file` (default: the record's own price book, or else the invented demo prices)")
	flags.StringVar(&p.settings, "settings", "", "the shop's settings `file` (default: in the user's configuration folder, or $BENCHLEAD_SETTINGS)")
	flags.BoolVar(&p.demo, "demo", false, "a throw-away record with a few invented jobs")
	flags.BoolVar(&p.listOnly, "without-own-jobs", false, "suspects by the list of how common faults are, not by this record's proved jobs")
	root.Version = version
	root.AddCommand(
		p.walkVerb(), p.judgeVerb(), p.checkVerb(), p.proveVerb(), p.treesVerb(), p.jobsVerb(), p.reportVerb(),
		p.settingsVerb(), p.pricesVerb(), p.countsVerb(), p.exportVerb(), p.importVerb(), p.backupVerb(), p.binVerb(), p.wordsVerb(), p.schemaVerb(),
	)
	p.complete(root)
	return root
}

// version is set by the build.
var version = "dev"

// exactly wants a number of arguments, with a message that says what they are.
func exactly(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) != n {
			return usage{fmt.Errorf("%s wants %s; see \"%s --help\"", cmd.Name(), what, cmd.CommandPath())}
		}
		return nil
	}
}

// isTerminal says whether a stream is a terminal that can show a screen. The null
// device is a character device too, and none.
func isTerminal(stream any) bool {
	f, ok := stream.(term.File)
	return ok && term.IsTerminal(f.Fd())
}
