package app

import (
	"context"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"benchlead/diag/counsel"
	"benchlead/diag/report"
	"benchlead/diag/source"
	"benchlead/ui"
)

func (p *program) reportVerb() *cobra.Command {
	var ask reportAsk
	cmd := &cobra.Command{
		Use:   "report JOB",
		Short: "Print what is handed over of a job: all of it for the bench, the owner's report, a message, or a tag",
		Long: `Print what is handed over of a job.

  --for bench    everything that is on record: text, HTML, JSON, or the readings
                 as CSV (the usual one)
  --for owner    what was wrong, how we know, what was done, what it costs, in
                 plain language: text or HTML
  --for message  a few sentences for the owner's telephone
  --for tag      the tag that hangs on the machine, 100 by 62 mm: text or HTML

Without a form it is text, or what the name after --to ends in.`,
		Example: `  benchlead report 14
  benchlead report 14 --for owner --to job14.html
  benchlead report 14 --for tag --html --to tag14.html
  benchlead report 14 --for message`,
		Args: exactly(1, "one job number"),
		RunE: func(cmd *cobra.Command, args []string) error {
			write, err := ask.writer()
			if err != nil {
				return usage{err}
			}
			id, err := jobNumber(args[0])
			if err != nil {
				return err
			}
			doc, err := p.document(cmd.Context(), id)
			if err != nil {
				return err
			}
			return p.handOver(ask.to, func(w io.Writer) error { return write(w, doc) })
		},
	}
	ask.flags(cmd)
	return cmd
}

// document is the report of a job in the record.
func (p *program) document(ctx context.Context, id int64) (report.Document, error) {
	b, shut, err := p.openToRead(ctx)
	if err != nil {
		return report.Document{}, err
	}
	defer shut()
	s, err := ui.Look(ctx, b, id)
	if err != nil {
		return report.Document{}, err
	}
	if c, works := b.Suspects.(*clouds); works && s.Awaited() {
		c.Await(ctx, *s.Facts().Intake, counsel.Stages(s.Position().System, s.Facts()))
	}
	return s.Document()
}

// handOver writes to a file, whole or not at all, or to standard output.
func (p *program) handOver(to string, write func(io.Writer) error) error {
	if to == "" {
		return write(p.streams.Out)
	}
	if err := p.notARecord(to); err != nil {
		return fmt.Errorf("the report was not written: %w", err)
	}
	if err := writeWhole(to, write); err != nil {
		return fmt.Errorf("the report was not written to %s: %w", to, err)
	}
	fmt.Fprintf(p.streams.Out, "Written: %s\n", source.CleanLine(to))
	return nil
}
