package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"strconv"

	"github.com/charmbracelet/x/term"
	"github.com/muesli/cancelreader"
	"github.com/spf13/cobra"

	"benchlead/ui"
	"benchlead/ui/line"
)

func (p *program) walkVerb() *cobra.Command {
	return &cobra.Command{
		Use:   "walk [JOB]",
		Short: "The bench in plain lines: a new job, or job number JOB again",
		Long: `The bench in plain lines, for a screen reader, a slow line, a terminal that
draws nothing, or a pipe. Without a number it takes in a new machine; with one it
goes on with that job. "?" says more at every question. When the input ends the
job is kept as it stands.

Several readings are typed at once by the names of their tests, which
"benchlead trees SYSTEM" lists: battery_rest 12.62; batt_held 9.1
A space will do between the parts of a name.

Lines are as wide as the terminal, or as COLUMNS says. Into a pipe they are not
broken.`,
		Example: "  benchlead walk\n  benchlead walk 14",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage{errors.New("walk takes one job number at most")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return p.walk(cmd.Context(), args) },
	}
}

func (p *program) walk(ctx context.Context, args []string) error {
	bench, shut, err := p.open(ctx)
	if err != nil {
		return err
	}
	defer shut()
	face := line.New(p.interruptible(ctx), p.streams.Out)
	face.Width = p.columns
	session, err := p.session(ctx, bench, face, args)
	if err == nil {
		err = face.Walk(ctx, session)
	}
	if errors.Is(err, cancelreader.ErrCanceled) {
		err = line.ErrEnd
	}
	switch {
	case errors.Is(err, line.ErrLeft):
		face.Say("Left. Nothing was recorded.")
		return nil
	case errors.Is(err, line.ErrEnd) && session != nil && p.demo:
		face.Say("")
		face.Say("The input ended. This was the demo: nothing is kept.")
		return nil
	case errors.Is(err, line.ErrEnd) && session != nil:
		face.Say("")
		face.Say(fmt.Sprintf("The input ended. Job %d is kept as it stands; \"benchlead walk %d\" goes on with it.", session.ID(), session.ID()))
		return nil
	case errors.Is(err, line.ErrEnd):
		face.Say("")
		face.Say("The input ended before the intake was done; nothing was recorded.")
		return nil
	}
	return err
}

// interruptible is the input, which ends with ctx where it is one that is waited for: a
// terminal or a pipe.
func (p *program) interruptible(ctx context.Context) io.Reader {
	if runtime.GOOS == "windows" {
		return p.streams.In // where it would take the editing of a line away
	}
	in, err := cancelreader.NewReader(p.streams.In)
	if err != nil {
		return p.streams.In // a file ends by itself
	}
	context.AfterFunc(ctx, func() { in.Cancel() })
	return in
}

// session takes in a new machine, or opens the job that was named.
func (p *program) session(ctx context.Context, bench ui.Bench, face *line.Face, args []string) (*ui.Session, error) {
	if len(args) == 0 {
		in, err := face.Intake(bench)
		if err != nil {
			return nil, err
		}
		s, err := ui.Begin(ctx, bench, in)
		if err == nil {
			face.Say("")
			face.Say(fmt.Sprintf("This is job %d.", s.ID()))
		}
		return s, err
	}
	id, err := jobNumber(args[0])
	if err != nil {
		return nil, err
	}
	s, said, err := ui.Resume(ctx, bench, id)
	if err == nil {
		said = append(s.Resumed(), said...)
	}
	for _, l := range said {
		face.Say(l)
	}
	return s, err
}

// columns is how wide a line may be: as COLUMNS says, else as the terminal is; 0 where
// there is none.
func (p *program) columns() int {
	if n, err := strconv.Atoi(p.env("COLUMNS")); err == nil && n > 0 {
		return n
	}
	if f, ok := p.screen.(*os.File); ok {
		if n, _, err := term.GetSize(f.Fd()); err == nil {
			return n
		}
	}
	return 0
}

func jobNumber(text string) (int64, error) {
	id, err := strconv.ParseInt(text, 10, 64)
	if err != nil || id < 1 {
		return 0, usage{fmt.Errorf("%q is no job number; \"benchlead jobs\" lists them", text)}
	}
	return id, nil
}
