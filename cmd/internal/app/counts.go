package app

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"benchlead/diag/record"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

func (p *program) countsVerb() *cobra.Command {
	var asJSON bool
	var months string
	span := record.Span{}
	cmd := &cobra.Command{
		Use:   "counts",
		Short: "Count jobs by month, faults, repairs and comebacks",
		Long: `Counts the jobs that were taken in: by month, the faults that were found, the
repairs that were done, and the minutes. A comeback is the same machine of the
same owner, brought again within some days after a repair was handed back; a
machine without a name, or without an owner, is not counted among them. Quoted
minutes are those of the repairs that were chosen. Bench minutes are by the log:
from one entry to the next, gaps over half an hour left out.`,
		Example: "  benchlead counts\n  benchlead counts --month 2026-01..2026-12 --days 60 --json",
		Args:    exactly(0, "no arguments"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			var err error
			if span.From, span.To, err = monthsOf(months); err != nil {
				return err
			}
			if cmd.Flags().Changed("days") && (span.Days < 1 || span.Days > mostDays) {
				return usage{fmt.Errorf("--days wants a number from 1 to %d", mostDays)}
			}
			b, shut, err := p.openWhole(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			if span.Days == 0 {
				span.Days = b.Prices.Shop.ComebackDays
			}
			var cards []record.Card
			err = keeperOf(b.Store).Cards(cmd.Context(), func(c record.Card) error {
				cards = append(cards, c)
				return nil
			})
			if err != nil {
				return err
			}
			counts := record.Count(cards, span)
			if asJSON {
				return p.json(counted{Days: span.Days, Counts: counts})
			}
			printCounts(p.streams.Out, b.Library, counts, span.Days)
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	cmd.Flags().StringVar(&months, "month", "", "only jobs taken in in these `months`: 2026-11, or 2026-03..2026-11 (UTC)")
	cmd.Flags().IntVar(&span.Days, "days", 0, "within how many `days` a machine counts as come back (default: the settings' \"comeback days\")")
	return cmd
}

// mostDays is ten years.
const mostDays = 3650

// counted is what --json prints.
type counted struct {
	Days int `json:"come_back_days"`
	record.Counts
}

func printCounts(out io.Writer, lib *tree.Library, c record.Counts, days int) {
	if c.All.Jobs == 0 {
		fmt.Fprintln(out, "No job was taken in.")
		return
	}
	const row = "%-8s %6s %7s %7s %10s %15s %14s\n"
	fmt.Fprintf(out, row, "taken in", "jobs", "closed", "proved", "comebacks", "quoted minutes", "bench minutes")
	line := func(name string, s record.Sums) {
		n := func(v int) string { return fmt.Sprint(v) }
		fmt.Fprintf(out, row, name, n(s.Jobs), n(s.Closed), n(s.Proved), n(s.Comebacks), n(s.Quoted), n(s.Bench))
	}
	for _, m := range c.Months {
		line(m.Month, m.Sums)
	}
	line("all", c.All)
	fmt.Fprintf(out, "Minutes are known of %s quoted and %s at the bench.\n", jobsWord(c.All.QuotedJobs), jobsWord(c.All.BenchJobs))
	fmt.Fprintf(out, "A comeback: brought again within %d days after a repair was handed back.\n", days)
	t := titlesOf(lib)
	printLines(out, "Faults found:", c.Faults, func(l record.Line) string { return faultTitle(lib, l.System, l.ID) })
	printLines(out, "Repairs done:", c.Repairs, func(l record.Line) string { return t.repairs[l.ID] })
}

func jobsWord(n int) string {
	if n == 1 {
		return "1 job"
	}
	return fmt.Sprintf("%d jobs", n)
}

func printLines(out io.Writer, head string, lines []record.Line, title func(record.Line) string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(out, "\n%s\n", head)
	for _, l := range lines {
		text := l.ID
		if called := title(l); called != "" && called != l.ID {
			text = fmt.Sprintf("%s (%s)", called, l.ID)
		}
		if l.CameBack > 0 {
			text += fmt.Sprintf("; %d came back", l.CameBack)
		}
		fmt.Fprintf(out, "%6d  %s\n", l.Jobs, source.CleanLine(text))
	}
}

// faultTitle is what a fault is called in a system, or in whichever system has it;
// the id when none does.
func faultTitle(lib *tree.Library, system, id string) string {
	if s := lib.Systems[system]; s != nil && s.Fault(id) != nil {
		return s.Fault(id).Title
	}
	for _, s := range systemsInOrder(lib) {
		if f := s.Fault(id); f != nil {
			return f.Title
		}
	}
	return id
}
