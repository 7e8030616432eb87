package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/adrg/xdg"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/tree"
	"benchlead/ui"
)

// recordPath is where the record is kept: --record, then BENCHLEAD_RECORD, then
// the user's data folder.
func (p *program) recordPath() string {
	if p.record != "" {
		return p.record
	}
	if path := p.env("BENCHLEAD_RECORD"); path != "" {
		return path
	}
	return filepath.Join(xdg.DataHome, "benchlead", "record.db")
}

// open opens what every bench needs: trees, prices and the record. close must
// be called.
func (p *program) open(ctx context.Context) (b ui.Bench, shut func(), err error) {
	lib, err := p.library()
	if err != nil {
		return b, nil, err
	}
	b, away, err := p.openBench(ctx, lib)
	if err != nil {
		return b, nil, err
	}
	if p.demo {
		err = demoJobs(ctx, b)
	}
	var stop func()
	if err == nil {
		stop, err = p.suspects(ctx, &b)
	}
	if err != nil {
		away()
		return b, nil, p.ofRecord(err)
	}
	return b, func() { stop(); away() }, nil
}

// openBench opens the record and the prices that go with it.
func (p *program) openBench(ctx context.Context, lib *tree.Library) (b ui.Bench, shut func(), err error) {
	b, shut = ui.Bench{Library: lib, Now: p.now, Steady: p.steady, Store: new(job.Memory)}, func() {}
	var own []repair.Price
	if !p.demo {
		var db *recorddb.DB
		if db, shut, err = p.openRecord(ctx); err != nil {
			return b, nil, err
		}
		b.Store = db
		if own, err = db.Prices(ctx); err != nil {
			shut()
			return b, nil, p.ofRecord(err)
		}
	}
	in, err := p.priceBook(lib, own)
	if err != nil {
		shut()
		return b, nil, err
	}
	b.Prices, b.PriceNote, b.Meters = in.book, in.note, in.book.Shop.Meters
	return b, shut, nil
}

// openRecord opens the record alone, and has the backup of the day made. shut must
// be called.
func (p *program) openRecord(ctx context.Context) (db *recorddb.DB, shut func(), err error) {
	db, err = recorddb.Open(ctx, p.recordPath())
	if err != nil {
		return nil, nil, p.ofRecord(err)
	}
	backedUp := p.daily(ctx, db)
	return db, func() { backedUp(); _ = db.Close() }, nil
}

// ofRecord names the record in its errors, and says how to go back to a backup when it
// is damaged.
func (p *program) ofRecord(err error) error {
	if p.demo {
		return err
	}
	return fmt.Errorf("the record %s: %w%s", p.recordPath(), err, p.goBack(err))
}

// goBack says how to go back to a backup, when the record is damaged and there is
// one.
func (p *program) goBack(err error) string {
	backups := recorddb.Backups(p.recordPath())
	if !errors.Is(err, job.ErrDamaged) || len(backups) == 0 {
		return ""
	}
	return fmt.Sprintf("; \"benchlead backup --restore %s\" puts the newest backup in its place", backups[0])
}

// recordedPrices are the record's own prices, for verbs that open no record: none
// when others are wanted.
func (p *program) recordedPrices(ctx context.Context) ([]repair.Price, error) {
	if p.prices != "" {
		return nil, nil
	}
	return p.recordsPrices(ctx)
}

// recordsPrices are the record's own, whatever else is in use; none without a record.
func (p *program) recordsPrices(ctx context.Context) ([]repair.Price, error) {
	if _, err := os.Stat(p.recordPath()); err != nil || p.demo {
		return nil, nil
	}
	db, err := recorddb.Open(ctx, p.recordPath())
	if err != nil {
		return nil, p.ofRecord(err)
	}
	defer db.Close() //nolint:errcheck // it was only read
	prices, err := db.Prices(ctx)
	if err != nil {
		return nil, p.ofRecord(err)
	}
	return prices, nil
}

// suspects begins to work out suspects beside the walk; stop ends it.
func (p *program) suspects(ctx context.Context, b *ui.Bench) (stop func(), err error) {
	var own map[string]counsel.Shop
	if !p.listOnly {
		if own, err = ownJobs(ctx, b.Store); err != nil {
			return nil, err
		}
	}
	ctx, stop = context.WithCancel(ctx)
	b.Suspects = newClouds(ctx, b.Library, p.cloudFiles(), own)
	return stop, nil
}

// cloudFiles is where what was worked out once is kept: BENCHLEAD_CACHE, or the user's
// cache folder.
func (p *program) cloudFiles() cloudFiles {
	if path := p.env("BENCHLEAD_CACHE"); path != "" {
		return cloudFiles(path)
	}
	return cloudFiles(filepath.Join(xdg.CacheHome, "benchlead"))
}

// openToRead is open for verbs that only look: a record that is not there is
// said, not made.
func (p *program) openToRead(ctx context.Context) (b ui.Bench, shut func(), err error) {
	if err := p.mustExist(); err != nil {
		return b, nil, err
	}
	return p.open(ctx)
}

// mustExist says so when there is no record to look at.
func (p *program) mustExist() error {
	_, err := os.Stat(p.recordPath())
	switch {
	case err == nil || p.demo:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no record at %s yet; \"benchlead\" or \"benchlead walk\" begins it", p.recordPath())
	}
	return fmt.Errorf("the record %s: %w", p.recordPath(), err)
}

// notARecord refuses to write over the record, or over any database.
func (p *program) notARecord(name string) error {
	target, err := os.Stat(name)
	if err != nil {
		return nil // nothing is there to lose
	}
	for _, part := range []string{"", "-wal", "-shm"} {
		if own, err := os.Stat(p.recordPath() + part); err == nil && os.SameFile(own, target) {
			return fmt.Errorf("%s is the record; write to another file", name)
		}
	}
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	head, err := readCapped(f, 15)
	if err == nil && string(head) == "SQLite format 3" {
		return fmt.Errorf("%s is a database; write to another file", name)
	}
	return err
}

// readCapped reads at most limit bytes.
func readCapped(r io.Reader, limit int) ([]byte, error) {
	return io.ReadAll(io.LimitReader(r, int64(limit)))
}

// writeWhole writes a file whole or not at all: a report is never left half
// written over an older one.
func writeWhole(name string, write func(io.Writer) error) error {
	return writeAllWhole([]string{name}, func(to []io.Writer) error { return write(to[0]) })
}

// writeAllWhole is writeWhole for files that belong together: they come to their
// names once all of them are written.
func writeAllWhole(names []string, write func([]io.Writer) error) error {
	var files []*os.File
	var to []io.Writer
	defer func() {
		for _, f := range files {
			_ = f.Close() // closed already, and gone, when it was renamed
			_ = os.Remove(f.Name())
		}
	}()
	for _, name := range names {
		f, err := os.CreateTemp(filepath.Dir(name), ".benchlead-*")
		if err != nil {
			return err
		}
		files, to = append(files, f), append(to, f)
	}
	if err := write(to); err != nil {
		return err
	}
	for _, f := range files {
		if err := firstOf(f.Sync(), f.Close()); err != nil {
			return err
		}
	}
	for i, f := range files {
		if err := os.Rename(f.Name(), names[i]); err != nil {
			return err
		}
	}
	return nil
}
