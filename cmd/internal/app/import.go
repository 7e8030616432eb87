package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/record"
	"benchlead/diag/source"
)

func (p *program) importVerb() *cobra.Command {
	var try bool
	cmd := &cobra.Command{
		Use:   "import FILE",
		Short: "Take the jobs of an export into this record",
		Long: `Takes all jobs of a file that "benchlead export --json" wrote into this record,
under new numbers: all of them or none. The file is checked first, and everything
that is wrong with it is said with its place. Jobs that are here already are left
as they are; one that went on otherwise in the other record is refused. Pieces in
the parts bin do not come along; what the jobs say of them does.`,
		Example: "  benchlead import jobs.json --dry-run\n  benchlead import jobs.json",
		Args:    exactly(1, "one file of an export"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if p.demo {
				return usage{errors.New("the demo's record is thrown away; import without --demo")}
			}
			return p.importJobs(cmd.Context(), args[0], try)
		},
	}
	cmd.Flags().BoolVar(&try, "dry-run", false, "only say what would come in")
	return cmd
}

func (p *program) importJobs(ctx context.Context, name string, try bool) error {
	f, err := openExport(name)
	if err != nil {
		return err
	}
	defer f.Close()
	heads, err := p.checked(name, f)
	if err != nil {
		return err
	}
	taken, err := p.takeIn(ctx, f, heads, try)
	if err != nil {
		return fmt.Errorf("nothing of %s was taken in: %w", name, err)
	}
	if err := p.differing(name, f, heads, taken.Differ); err != nil {
		return err
	}
	p.sayTaken(heads, taken, try)
	return nil
}

// openExport opens a plain file of a size that an export can have.
func openExport(name string) (*os.File, error) {
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is not a plain file", name)
	case info.Size() > record.MostBytes:
		return nil, fmt.Errorf("%s has %d bytes, more than the %d that are read", name, info.Size(), int64(record.MostBytes))
	}
	return os.Open(name)
}

// checked reads an export through and shows everything that is wrong with it.
func (p *program) checked(name string, f *os.File) ([]record.Head, error) {
	var heads []record.Head
	r := record.NewReader(f)
	for l, ok := r.Next(); ok; l, ok = r.Next() {
		heads = append(heads, record.HeadOf(l))
	}
	return heads, p.placed(name, f, r.Problems)
}

// placed shows problems with their places in the file.
func (p *program) placed(name string, f *os.File, problems []record.Problem) error {
	issues, err := record.Issues(name, f, problems)
	return firstOf(err, p.complain(issues, nil))
}

// takeIn takes the jobs in, or tries it. A record that is not there yet is made,
// unless it is only tried.
func (p *program) takeIn(ctx context.Context, f *os.File, heads []record.Head, try bool) (recorddb.TakenIn, error) {
	if _, err := os.Stat(p.recordPath()); try && errors.Is(err, fs.ErrNotExist) {
		return allNew(heads), nil
	}
	db, shut, err := p.openRecord(ctx, recorddb.Open)
	if err != nil {
		return recorddb.TakenIn{}, err
	}
	defer shut()
	return db.TakeIn(ctx, heads, func(take func(record.Log) error) error {
		if _, err := f.Seek(0, io.SeekStart); err != nil {
			return err
		}
		r := record.NewReader(f)
		for l, ok := r.Next(); ok; l, ok = r.Next() {
			if err := take(l); err != nil {
				return err
			}
		}
		if len(r.Problems) > 0 {
			return fmt.Errorf("the file was changed while it was read: %w", r.Problems[0])
		}
		return nil
	}, try)
}

// allNew is what becomes of jobs in a record that is empty.
func allNew(heads []record.Head) recorddb.TakenIn {
	out := recorddb.TakenIn{Numbers: map[int64]int64{}}
	for i, h := range heads {
		out.Numbers[h.ID] = int64(i) + 1
		out.New = append(out.New, h.ID)
	}
	return out
}

// differing shows the jobs that go on otherwise here.
func (p *program) differing(name string, f *os.File, heads []record.Head, differ []recorddb.Differs) error {
	spots := map[int64]int64{}
	for _, h := range heads {
		spots[h.ID] = h.Spot
	}
	var problems []record.Problem
	for _, d := range differ {
		problems = append(problems, record.Problem{
			Job: d.Job, At: spots[d.Job],
			Says: fmt.Sprintf("it is job %d of this record, and went on otherwise here; take it out of the file to take in the others", d.Here),
		})
	}
	return p.placed(name, f, problems)
}

// sayTaken says what was taken in, or would be.
func (p *program) sayTaken(heads []record.Head, taken recorddb.TakenIn, try bool) {
	out := p.streams.Out
	isNew := map[int64]bool{}
	for _, id := range taken.New {
		isNew[id] = true
	}
	shown, events := 0, 0
	for _, h := range heads {
		if !isNew[h.ID] {
			continue
		}
		events += h.Events
		if shown++; shown > usualMost {
			continue
		}
		fmt.Fprintln(out, source.CleanLine(fmt.Sprintf("job %d as %d: %s  %s, %s: %s, %d events", h.ID, taken.Numbers[h.ID], day(h.OpenedAt), h.Machine, h.System, h.Complaint, h.Events)))
	}
	if shown > usualMost {
		fmt.Fprintf(out, "and %d more\n", shown-usualMost)
	}
	says := map[bool]string{false: "Taken in", true: "Would be taken in"}[try]
	fmt.Fprintf(out, "%s: %s with %d events.", says, jobsWord(shown), events)
	if already := len(heads) - shown; already > 0 {
		fmt.Fprintf(out, " Already here, with nothing new: %s.", jobsWord(already))
	}
	fmt.Fprintln(out)
}
