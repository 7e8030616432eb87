package app

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"benchlead/diag/source"
)

func (p *program) jobsVerb() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:     "jobs",
		Short:   "List the jobs on record",
		Example: "  benchlead jobs\n  benchlead jobs --json",
		Args:    exactly(0, "no arguments"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			b, shut, err := p.open(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			jobs, err := b.Store.Jobs(cmd.Context())
			if err != nil {
				return err
			}
			if asJSON {
				return p.json(map[string]any{"jobs": jobs})
			}
			for _, j := range jobs {
				state := "open"
				if !j.Open {
					state = string(j.Outcome)
				}
				when := time.UnixMicro(j.LastAt).UTC().Format("2006-01-02")
				fmt.Fprintln(p.streams.Out, source.CleanLine(fmt.Sprintf("%4d  %s  %-36s %s, %s: %s", j.ID, when, j.Machine, j.System, j.Complaint, state)))
			}
			if len(jobs) == 0 {
				fmt.Fprintln(p.streams.Out, "No jobs yet. \"benchlead\" or \"benchlead walk\" takes in the first.")
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return cmd
}

func (p *program) json(v any) error {
	enc := json.NewEncoder(p.streams.Out)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}
