package app

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/source"
)

func (p *program) backupVerb() *cobra.Command {
	var restore bool
	cmd := &cobra.Command{
		Use:   "backup [--restore] [FILE]",
		Short: "Copy the record, or put a copy back in its place",
		Long: `Copies the whole record as it stands at one moment, even while another bench
writes to it. Without FILE the copy lies beside the record, with the day in its
name. No file is written over.

The program also makes a backup beside the record by itself, the first time that
it opens the record on a day, and keeps the last 7.

--restore puts a backup in the record's place: FILE, or without it the newest sound
one beside a record that is damaged or missing. It is read through first; the record
that was there is kept under another name. Out of a damaged one comes along what is
newer in it, job by job, as far as it can be read; prices and pieces that came into
the bin without a job are those of the backup.`,
		Example: "  benchlead backup\n  benchlead backup /media/stick/record.db\n  benchlead backup --restore\n  benchlead backup --restore /media/stick/record.db",
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case p.demo:
				return usage{errors.New("the demo's record is thrown away; there is nothing to back up")}
			case len(args) > 1:
				return usage{errors.New("backup wants one file at most; see \"benchlead backup --help\"")}
			}
			name := ""
			if len(args) == 1 {
				name = args[0]
			}
			if restore {
				return p.restore(cmd.Context(), name)
			}
			return p.backup(cmd.Context(), name)
		},
	}
	cmd.Flags().BoolVar(&restore, "restore", false, "put FILE, or the newest backup, in the record's place")
	return cmd
}

func (p *program) backup(ctx context.Context, to string) error {
	if err := p.mustExist(); err != nil {
		return err
	}
	db, shut, err := p.openRecord(ctx, recorddb.OpenToRead)
	if err != nil {
		return err
	}
	defer shut()
	name, err := db.Backup(ctx, to, p.today())
	if err != nil {
		return err
	}
	fmt.Fprintf(p.streams.Out, "Written: %s\n", source.CleanLine(name))
	return nil
}

// today is the day where the shop is, "2006-01-02".
func (p *program) today() string { return time.UnixMicro(p.now()).Local().Format(time.DateOnly) }

// daily makes the backup of the day beside whatever else is done. done waits for
// it, and says what kept it from being made: nothing else depends on it.
func (p *program) daily(ctx context.Context, db *recorddb.DB) (done func()) {
	made := make(chan error, 1)
	day := p.today()
	go func() {
		_, err := db.BackupDaily(ctx, day)
		made <- err
	}()
	return func() {
		if err := <-made; err != nil && ctx.Err() == nil {
			fmt.Fprintf(p.streams.Err, "benchlead: there is no backup of today: %s\n", source.CleanLine(err.Error()))
		}
	}
}
