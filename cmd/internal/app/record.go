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
	book, err := p.priceBook(lib)
	if err != nil {
		return b, nil, err
	}
	b = ui.Bench{Library: lib, Prices: book, Now: p.now}
	switch {
	case p.prices == "" && len(book.Prices) == 0:
		b.PriceNote = "There are no prices. Give your own with --prices FILE."
	case p.prices == "" && p.treeDir == "":
		b.PriceNote = "The prices are invented, for the demo. Give your own with --prices FILE."
	}
	if p.demo {
		b.Store = new(job.Memory)
		if err := demoJobs(ctx, b); err != nil {
			return b, nil, err
		}
		shut, err = p.suspects(ctx, &b)
		return b, shut, err
	}
	db, err := recorddb.Open(ctx, p.recordPath())
	if err != nil {
		return b, nil, fmt.Errorf("the record %s: %w", p.recordPath(), err)
	}
	b.Store = db
	stop, err := p.suspects(ctx, &b)
	if err != nil {
		_ = db.Close()
		return b, nil, fmt.Errorf("the record %s: %w", p.recordPath(), err)
	}
	return b, func() { stop(); _ = db.Close() }, nil
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
	if _, err := os.Stat(p.recordPath()); err != nil && !p.demo {
		if errors.Is(err, fs.ErrNotExist) {
			return b, nil, fmt.Errorf("there is no record at %s yet; \"benchlead\" or \"benchlead walk\" begins it", p.recordPath())
		}
		return b, nil, fmt.Errorf("the record %s: %w", p.recordPath(), err)
	}
	return p.open(ctx)
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
	f, err := os.CreateTemp(filepath.Dir(name), ".benchlead-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // gone already when it was renamed
	err = firstOf(write(f), f.Sync(), f.Close())
	if err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
