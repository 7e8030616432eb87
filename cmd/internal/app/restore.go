package app

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/source"
)

// restore puts a backup in the record's place; "" is the newest sound one beside it.
func (p *program) restore(ctx context.Context, from string) error {
	if from == "" {
		return p.restoreNewest(ctx)
	}
	done, err := recorddb.Restore(ctx, from, p.recordPath(), p.today())
	if errors.Is(err, job.ErrDamaged) {
		return fmt.Errorf("%s is no sound backup, and nothing was changed: try an older one", from)
	}
	if err != nil {
		return err
	}
	p.tellRestored(from, done)
	return nil
}

// restoreNewest goes from the newest backup to the oldest until one is sound. A record
// that is sound stays: going back behind it has to be asked for by name.
func (p *program) restoreNewest(ctx context.Context) error {
	backups := recorddb.Backups(p.recordPath())
	if len(backups) == 0 {
		return fmt.Errorf("there is no backup beside %s; name one: benchlead backup --restore FILE", p.recordPath())
	}
	err := recorddb.Sound(ctx, p.recordPath())
	info, missing := os.Stat(p.recordPath())
	switch {
	case errors.Is(missing, fs.ErrNotExist), missing == nil && info.Size() == 0, errors.Is(err, job.ErrDamaged):
	case err != nil:
		return p.ofRecord(err)
	default:
		return fmt.Errorf("the record %s is sound and was left as it is; to go back all the same, name the backup: benchlead backup --restore %s", p.recordPath(), shellWord(backups[0]))
	}
	for _, from := range backups {
		done, err := recorddb.Restore(ctx, from, p.recordPath(), p.today())
		if err == nil {
			p.tellRestored(from, done)
		}
		if err == nil || !errors.Is(err, job.ErrDamaged) {
			return err
		}
		fmt.Fprintf(p.streams.Err, "benchlead: %s is damaged, too\n", source.CleanLine(from))
	}
	return fmt.Errorf("none of the %d backups beside %s is sound, and nothing was changed; if there is a copy elsewhere: benchlead backup --restore FILE", len(backups), p.recordPath())
}

// tellRestored says what is in the record now, and what may not be.
func (p *program) tellRestored(from string, done recorddb.Restored) {
	say := func(format string, args ...any) {
		fmt.Fprintln(p.streams.Out, source.CleanLine(fmt.Sprintf(format, args...)))
	}
	say("Restored: %s now holds the %s of %s.", p.recordPath(), jobsWord(done.Jobs-done.Begun()), from)
	for _, r := range done.Saved {
		what := fmt.Sprintf("job %d, %d newer entries", r.Job, r.Events)
		switch {
		case r.New:
			what = fmt.Sprintf("job %d, which the backup does not have, %d entries", r.Job, r.Events)
		case r.Events == 1:
			what = fmt.Sprintf("job %d, one newer entry", r.Job)
		}
		say("Taken along out of the damaged record: %s.", what)
	}
	if done.Kept == "" {
		return
	}
	say("The record that was there is kept as %s.", done.Kept)
	if done.Damaged {
		say("What else was done after that backup is not in the record. Look at the jobs of that day.")
	}
}
