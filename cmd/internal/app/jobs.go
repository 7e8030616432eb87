package app

import (
	"encoding/json"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"benchlead/diag/job"
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
			b, shut, err := p.openToRead(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			jobs, err := b.Store.Jobs(cmd.Context())
			if err != nil {
				return err
			}
			if asJSON {
				return p.json(map[string]any{"jobs": listed(jobs)})
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

// listedJob is one job as --json prints it. Times are RFC 3339, UTC.
type listedJob struct {
	ID        int64    `json:"id"`
	Machine   string   `json:"machine"`
	System    string   `json:"system"`
	Complaint string   `json:"complaint"`
	Words     string   `json:"words"`
	Opened    string   `json:"opened"`
	Last      string   `json:"last"`
	Open      bool     `json:"open"`
	Outcome   string   `json:"outcome"`
	Found     []string `json:"found"`
}

func listed(jobs []job.Summary) []listedJob {
	out := []listedJob{}
	for _, j := range jobs {
		out = append(out, listedJob{
			ID: j.ID, Machine: j.Machine, System: j.System, Complaint: j.Complaint, Words: j.Words,
			Opened: stamp(j.OpenedAt), Last: stamp(j.LastAt), Open: j.Open, Outcome: string(j.Outcome),
			Found: append([]string{}, j.Found...),
		})
	}
	return out
}

func stamp(at int64) string { return time.UnixMicro(at).UTC().Format(time.RFC3339) }

func (p *program) json(v any) error {
	enc := json.NewEncoder(p.streams.Out)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}
