package recorddb

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"strings"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// appID marks an SQLite file as a record of ours: "blrd" in ASCII. It never
// changes.
const appID = 0x626c7264

// migration is one step from a version of the record to the next.
type migration struct {
	name string
	sql  string
	fill func(context.Context, *sql.Tx) error // what SQL alone can't do; nil: nothing
}

// fills are what some migrations do beside their SQL, by name without the number.
var fills = map[string]func(context.Context, *sql.Tx) error{"bin.sql": fillBin}

// steps are the migrations in order: the first makes version 1. Their files are
// named 0001_..., 0002_... without a gap. A released one is never edited.
func steps() []migration {
	entries, err := fs.ReadDir(migrationFiles, "migrations")
	if err != nil {
		panic(err) // built wrongly
	}
	out := make([]migration, len(entries))
	for i, entry := range entries { // sorted by name
		if want := fmt.Sprintf("%04d_", i+1); !strings.HasPrefix(entry.Name(), want) {
			panic(fmt.Sprintf("migration %s should begin with %s", entry.Name(), want))
		}
		text, err := migrationFiles.ReadFile("migrations/" + entry.Name())
		if err != nil {
			panic(err) // built wrongly
		}
		_, name, _ := strings.Cut(entry.Name(), "_")
		out[i] = migration{entry.Name(), string(text), fills[name]}
	}
	return out
}

// migrate brings the record to the newest version, each step in a transaction
// of its own. A record that holds something is backed up first.
func (db *DB) migrate(ctx context.Context, steps []migration) error {
	version, err := db.version(ctx)
	if err != nil {
		return err
	}
	if version > 0 && version < len(steps) {
		if err := db.backup(ctx, version); err != nil {
			return fmt.Errorf("backing it up before it is brought up to date: %w", err)
		}
	}
	for version < len(steps) {
		if version, err = db.step(ctx, steps); err != nil {
			return err
		}
	}
	return nil
}

func (db *DB) version(ctx context.Context) (int, error) {
	var version int
	err := db.sql.QueryRowContext(ctx, "pragma user_version").Scan(&version)
	return version, err
}

// step takes the record from its version to the next, and says to which. The
// version is read inside the transaction: another program may have been faster.
func (db *DB) step(ctx context.Context, steps []migration) (int, error) {
	tx, err := db.sql.BeginTx(ctx, nil)
	if err != nil {
		return 0, err
	}
	defer tx.Rollback() //nolint:errcheck // after Commit there is nothing to take back
	var version int
	if err := tx.QueryRowContext(ctx, "pragma user_version").Scan(&version); err != nil {
		return 0, err
	}
	if version >= len(steps) {
		return version, nil
	}
	if err := apply(ctx, tx, steps[version], version+1); err != nil {
		return 0, err
	}
	return version + 1, tx.Commit()
}

func apply(ctx context.Context, tx *sql.Tx, m migration, version int) error {
	if _, err := tx.ExecContext(ctx, m.sql); err != nil {
		return fmt.Errorf("migration %s: %w", m.name, err)
	}
	if m.fill != nil {
		if err := m.fill(ctx, tx); err != nil {
			return fmt.Errorf("migration %s: %w", m.name, err)
		}
	}
	// A pragma takes no placeholders; both numbers are ours.
	for _, statement := range []string{
		fmt.Sprintf("pragma application_id = %d", appID),
		fmt.Sprintf("pragma user_version = %d", version),
	} {
		if _, err := tx.ExecContext(ctx, statement); err != nil {
			return fmt.Errorf("migration %s: %w", m.name, err)
		}
	}
	return nil
}
