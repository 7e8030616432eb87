package app

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"benchlead/diag/job"
	"benchlead/diag/record"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/ui"
)

func (p *program) jobsVerb() *cobra.Command {
	var asJSON bool
	var f finding
	cmd := &cobra.Command{
		Use:   "jobs [WORDS]",
		Short: "List the jobs on record, or look for some",
		Long: `Lists all jobs by number. With words or options it looks for jobs: all of them
have to fit, and the newest come first. Words are looked for by their beginnings
in the machine, the owner, the complaint in the owner's words, notes, what was
seen, why something was passed over, and the titles of the faults that were found.`,
		Example: "  benchlead jobs\n  benchlead jobs sprayer ground --open\n  benchlead jobs --fault cable.ground --month 2026-03..2026-11 --json",
		RunE: func(cmd *cobra.Command, args []string) error {
			f.words = args
			b, shut, err := p.openWhole(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			found, more, err := f.look(cmd.Context(), b)
			if err != nil {
				return err
			}
			if len(found) == 0 {
				p.sayStrange(f.strange)
			}
			if asJSON {
				return p.json(map[string]any{"jobs": listed(found), "more": more})
			}
			p.listJobs(b.Library, found, more, f.asks())
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	f.flags(cmd)
	return cmd
}

// unheard is something to look for that the trees don't know, and the nearest that
// they do; empty without one. A record may know it from other trees.
type unheard struct{ typed, near string }

// sayStrange says why nothing is found: perhaps it was only mistyped.
func (p *program) sayStrange(list []unheard) {
	for _, s := range list {
		hint := "."
		if s.near != "" {
			hint = fmt.Sprintf("; did you mean %q?", s.near)
		}
		fmt.Fprintf(p.streams.Err, "Nothing in the trees is called %q%s\n", source.CleanLine(s.typed), hint)
	}
}

// look gives the jobs that are asked for, and how many more there are.
func (f *finding) look(ctx context.Context, b ui.Bench) ([]job.Summary, int, error) {
	if !f.asks() {
		jobs, err := b.Store.Jobs(ctx)
		return jobs, 0, err
	}
	q, err := f.query(b.Library)
	if err != nil {
		return nil, 0, err
	}
	a, err := keeperOf(b.Store).Search(ctx, q)
	var out []job.Summary
	for _, c := range a.Cards {
		out = append(out, c.Summary)
	}
	return out, a.More, err
}

// listJobs writes a sentence or two a job, as it is also heard.
func (p *program) listJobs(lib *tree.Library, jobs []job.Summary, more int, looked bool) {
	for _, j := range jobs {
		p.say("%s", jobLine(lib, j))
	}
	switch {
	case more >= record.ManyMore:
		fmt.Fprintf(p.streams.Out, "%d more or above; --most shows more of them.\n", more)
	case more > 0:
		fmt.Fprintf(p.streams.Out, "%d more; --most shows more of them.\n", more)
	case len(jobs) == 0 && looked:
		fmt.Fprintln(p.streams.Out, "No job on record fits all of that.")
	case len(jobs) == 0:
		fmt.Fprintln(p.streams.Out, "No jobs yet. \"benchlead\" or \"benchlead walk\" takes in the first.")
	}
}

// jobLine is a job with its number first: what it is, what it does, how it stands. What
// the trees in use don't have goes by its id.
func jobLine(lib *tree.Library, j job.Summary) string {
	system, complaint := j.System, j.Complaint
	if s := lib.Systems[j.System]; s != nil {
		system = s.Title
		if c := s.Complaint(j.Complaint); c != nil {
			complaint = tree.InSentence(c.Title)
		}
	}
	state := "Open, last worked on " + day(j.LastAt)
	if !j.Open {
		state = fmt.Sprintf("Closed %s: %s", day(j.LastAt), j.Outcome)
	}
	machine := cmp.Or(j.Machine, "Machine without a name")
	return fmt.Sprintf("%d. %s: %s. %s. %s.", j.ID, machine, complaint, system, state)
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
