package app

import (
	"context"
	"fmt"
	"reflect"
	"strconv"

	"benchlead/diag/job"
	"benchlead/diag/shape"
	"benchlead/diag/source"
	"benchlead/diag/walk"
	"benchlead/trees"
	"benchlead/ui"
)

// demoShape is the file of invented jobs: what is known at intake, then the
// lines that a tech typed. Make-safe and dangers are confirmed in between.
type demoShape struct {
	Jobs []demoJob `yaml:"jobs" is:"required"`
}

type demoJob struct {
	Machine   shape.Word    `yaml:"machine" is:"required"`
	Owner     shape.Word    `yaml:"owner"`
	System    shape.Word    `yaml:"system" is:"required"`
	Complaint shape.Word    `yaml:"complaint" is:"required"`
	Words     shape.Prose   `yaml:"words"`
	Days      shape.Number  `yaml:"days ago"`
	Label     []shape.Pair  `yaml:"label" is:"keyed"`
	Worth     shape.Word    `yaml:"worth"`
	Lines     []shape.Prose `yaml:"lines"`
}

// demoJobs fills a throw-away record with the invented jobs.
func demoJobs(ctx context.Context, b ui.Bench) error {
	file, issues, err := readFile(trees.Demo, "demo/jobs.yaml", "demo/jobs.yaml")
	if err != nil || len(issues) > 0 {
		return firstOf(err, issues.Err())
	}
	node, issues := shape.Parse(file)
	if len(issues) > 0 {
		return issues.Err()
	}
	var demo demoShape
	r := shape.NewReader(file, map[reflect.Type]string{reflect.TypeFor[demoJob](): "a job"})
	r.Read(node, &demo, "the demo")
	if len(r.Issues) > 0 {
		return r.Issues.Err()
	}
	for _, d := range demo.Jobs {
		if err := d.play(ctx, b); err != nil {
			return fmt.Errorf("demo job %q: %w", d.Machine.Text, err)
		}
	}
	return nil
}

// play types the job's lines on a bench whose clock begins some days ago.
func (d demoJob) play(ctx context.Context, b ui.Bench) error {
	const minute = 60_000_000
	at := b.Now() - int64(d.Days.Value*24*60)*minute
	b.Now = func() int64 { at += minute; return at }
	in, err := d.intake(b)
	if err != nil {
		return err
	}
	s, err := ui.Begin(ctx, b, in)
	if err != nil {
		return err
	}
	for _, l := range d.Lines {
		if err := confirm(ctx, s); err != nil {
			return err
		}
		if _, err := s.Enter(ctx, l.Text); err != nil {
			return fmt.Errorf("line %q: %w", source.CleanLine(l.Text), err)
		}
	}
	return nil
}

// confirm says yes to what stands in front, as often as it takes.
func confirm(ctx context.Context, s *ui.Session) error {
	for {
		if stage := s.Position().Stage; stage != walk.AtSafe && stage != walk.AtDanger {
			return nil
		}
		if _, err := s.Enter(ctx, "yes"); err != nil {
			return err
		}
	}
}

func (d demoJob) intake(b ui.Bench) (job.Intake, error) {
	in := job.Intake{
		System: d.System.Text, Complaint: d.Complaint.Text, Machine: d.Machine.Text, Owner: d.Owner.Text,
		Words: d.Words.Text, Celsius: 20, Worth: d.Worth.Text,
		Label: map[string]float64{}, LabelText: map[string]string{},
		Meter: b.Library.Instruments(b.Library.MeterIDs()[0]),
	}
	for _, p := range d.Label {
		v, err := strconv.ParseFloat(p.Value.Text, 64)
		if err != nil {
			in.LabelText[p.Key.Text] = p.Value.Text
			continue
		}
		in.Label[p.Key.Text] = v
	}
	return in, nil
}
