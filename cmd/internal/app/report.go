package app

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"benchlead/diag/counsel"
	"benchlead/diag/report"
	"benchlead/ui"
)

func (p *program) reportVerb() *cobra.Command {
	var html, text, asJSON, readings bool
	var to string
	cmd := &cobra.Command{
		Use:     "report JOB",
		Short:   "Print the report of a job as text, HTML, JSON, or its readings as CSV",
		Example: "  benchlead report 14\n  benchlead report 14 --html --to job14.html",
		Args:    exactly(1, "one job number"),
		RunE: func(cmd *cobra.Command, args []string) error {
			write := map[bool]func(io.Writer, report.Document) error{html: report.HTML, asJSON: report.JSON, readings: report.CSV, text: report.Text}[true]
			if write == nil {
				write = report.Text
			}
			if count(html, text, asJSON, readings) > 1 {
				return usage{errors.New("choose one of --text, --html, --json and --csv")}
			}
			id, err := jobNumber(args[0])
			if err != nil {
				return err
			}
			b, shut, err := p.openToRead(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			s, err := ui.Look(cmd.Context(), b, id)
			if err != nil {
				return err
			}
			if c, works := b.Suspects.(*clouds); works && s.Awaited() {
				c.Await(cmd.Context(), *s.Facts().Intake, counsel.Stages(s.Position().System, s.Facts()))
			}
			doc, err := s.Document()
			if err != nil {
				return err
			}
			if to == "" {
				return write(p.streams.Out, doc)
			}
			if err := p.notARecord(to); err != nil {
				return fmt.Errorf("the report was not written: %w", err)
			}
			if err := writeWhole(to, func(w io.Writer) error { return write(w, doc) }); err != nil {
				return fmt.Errorf("the report was not written to %s: %w", to, err)
			}
			fmt.Fprintf(p.streams.Out, "Written: %s\n", to)
			return nil
		},
	}
	cmd.Flags().BoolVar(&html, "html", false, "one HTML file that prints well")
	cmd.Flags().BoolVar(&text, "text", false, "plain text (the default)")
	cmd.Flags().BoolVar(&asJSON, "json", false, "one JSON object")
	cmd.Flags().BoolVar(&readings, "csv", false, "the readings as CSV")
	cmd.Flags().StringVar(&to, "to", "", "write to this `file`, whole or not at all")
	return cmd
}

func count(flags ...bool) int {
	n := 0
	for _, f := range flags {
		if f {
			n++
		}
	}
	return n
}
