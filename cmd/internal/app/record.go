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

// opens opens a record in a file: to work on it, or only to look at it.
type opens func(ctx context.Context, path string) (*recorddb.DB, error)

// open opens what every bench needs: trees, prices and the record. close must
// be called.
func (p *program) open(ctx context.Context) (b ui.Bench, shut func(), err error) {
	return p.openParts(ctx, recorddb.Open)
}

// openParts is a bench whose systems are opened as they are worked on.
func (p *program) openParts(ctx context.Context, how opens) (b ui.Bench, shut func(), err error) {
	lists, err := p.lists()
	if err != nil {
		return b, nil, err
	}
	return p.openWith(ctx, lists, how)
}

// openWhole is openToRead for verbs that look at all systems at once.
func (p *program) openWhole(ctx context.Context) (b ui.Bench, shut func(), err error) {
	if err := p.mustExist(); err != nil {
		return b, nil, err
	}
	lib, err := p.library()
	if err != nil {
		return b, nil, err
	}
	return p.openWith(ctx, ui.Bench{Library: lib}, recorddb.OpenToRead)
}

// openWith opens the rest of a bench that has its trees.
func (p *program) openWith(ctx context.Context, with ui.Bench, how opens) (b ui.Bench, shut func(), err error) {
	b, away, err := p.openBench(ctx, with, how)
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

// openBench opens the record and the prices that go with it, beside the trees that the
// bench has already.
func (p *program) openBench(ctx context.Context, b ui.Bench, how opens) (_ ui.Bench, shut func(), err error) {
	b.Now, b.Steady, b.Store, shut = p.now, p.steady, new(job.Memory), func() {}
	var own []repair.Price
	if !p.demo {
		var db *recorddb.DB
		if db, shut, err = p.openRecord(ctx, how); err != nil {
			return b, nil, err
		}
		b.Store = db
		if own, err = db.Prices(ctx); err != nil {
			shut()
			return b, nil, p.ofRecord(err)
		}
	}
	in, err := p.priceBook(b.Library, own)
	if err != nil {
		shut()
		return b, nil, err
	}
	b.Prices, b.PriceNote, b.Meters, b.Tools = in.book, in.note, in.book.Shop.Meters, in.book.Shop.Tools
	return b, shut, nil
}

// openRecord opens the record alone, and has the backup of the day made. shut must
// be called.
func (p *program) openRecord(ctx context.Context, how opens) (db *recorddb.DB, shut func(), err error) {
	if err := p.folderThere(); err != nil {
		return nil, nil, err
	}
	if db, err = how(ctx, p.recordPath()); err != nil {
		return nil, nil, p.ofRecord(err)
	}
	p.tellOpened(db)
	if db.ReadOnly() {
		return db, func() { _ = db.Close() }, nil
	}
	backedUp := p.daily(ctx, db)
	return db, func() { backedUp(); _ = db.Close() }, nil
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
	if p.demo {
		return nil, nil
	}
	db, err := recorddb.OpenToRead(ctx, p.recordPath())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
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
	b.Suspects = newClouds(ctx, b.Of, p.cloudFiles(), own)
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
	return p.openParts(ctx, recorddb.OpenToRead)
}

// mustExist says so when there is no record to look at.
func (p *program) mustExist() error {
	if p.demo {
		return nil
	}
	if err := p.folderThere(); err != nil {
		return err
	}
	_, err := os.Stat(p.recordPath())
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrNotExist) && len(recorddb.Backups(p.recordPath())) > 0:
		return p.ofRecord(fmt.Errorf("it is gone, though backups of it lie beside it: %w", job.ErrDamaged))
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no record at %s yet; \"benchlead\" or \"benchlead walk\" begins it", p.recordPath())
	}
	return fmt.Errorf("the record %s can't be looked at: %w; check who may read the file and its folder, and that the disk is plugged in", p.recordPath(), err)
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
