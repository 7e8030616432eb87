package app

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"benchlead/diag/record"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

func (p *program) exportVerb() *cobra.Command {
	var toJSON, toCSV string
	cmd := &cobra.Command{
		Use:   "export --json FILE | --csv FOLDER",
		Short: "Write all jobs to a JSON file, or to tables in CSV",
		Long: `Writes all jobs as they stand at one moment.

--json writes one file with every event of every job, which "benchlead import"
takes into another record. It is one object:
  {"format": "benchlead record", "version": 1, "jobs": [
  {"job": 7, "events": [
  {"seq":1,"at":1700000000000000,"kind":"intake","intake":{...}},
  ...
Times are microseconds since 1970 UTC, values are in volts, amps and ohms, amounts
of money are exact decimals in text. What lies in the parts bin, prices and
settings are not in it: "benchlead backup" copies the whole record.

--csv writes the tables jobs, readings, findings, repairs and money into a folder,
with a head line each. Text that a spreadsheet would take for a formula has an
apostrophe in front.

Files that are there already are replaced, all of them or none.`,
		Example: "  benchlead export --json jobs.json\n  benchlead export --csv tables",
		Args:    exactly(0, "no arguments; name the file with --json or the folder with --csv"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if count(toJSON != "", toCSV != "") != 1 {
				return usage{errors.New("choose one of --json FILE and --csv FOLDER")}
			}
			b, shut, err := p.openWhole(cmd.Context())
			if err != nil {
				return err
			}
			defer shut()
			jobs := keeperOf(b.Store)
			if toJSON != "" {
				return p.exportJSON(cmd.Context(), jobs, toJSON)
			}
			return p.exportCSV(cmd.Context(), jobs, namesOf(b.Library), toCSV)
		},
	}
	cmd.Flags().StringVar(&toJSON, "json", "", "write one JSON `file`")
	cmd.Flags().StringVar(&toCSV, "csv", "", "write tables into this `folder`")
	return cmd
}

func (p *program) exportJSON(ctx context.Context, jobs keeper, name string) error {
	if err := p.notARecord(name); err != nil {
		return fmt.Errorf("nothing was exported: %w", err)
	}
	n := 0
	err := writeWhole(name, func(w io.Writer) error {
		return record.Write(w, func(take func(record.Log) error) error {
			return jobs.Each(ctx, func(l record.Log) error { n++; return take(l) })
		})
	})
	if err != nil {
		return fmt.Errorf("nothing was exported to %s: %w", name, err)
	}
	fmt.Fprintf(p.streams.Out, "Written: %s, %s\n", source.CleanLine(name), jobsWord(n))
	return nil
}

func (p *program) exportCSV(ctx context.Context, jobs keeper, names record.Names, folder string) error {
	var files []string
	for _, table := range record.TableNames() {
		files = append(files, filepath.Join(folder, table+".csv"))
	}
	for _, name := range files {
		if err := p.notARecord(name); err != nil {
			return fmt.Errorf("nothing was exported: %w", err)
		}
	}
	n := 0
	err := firstOf(os.MkdirAll(folder, 0o700), writeAllWhole(files, func(to []io.Writer) error {
		tables, err := record.NewTables(names, to)
		if err != nil {
			return err
		}
		err = jobs.Each(ctx, func(l record.Log) error { n++; return tables.Add(l) })
		return firstOf(err, tables.Flush())
	}))
	if err != nil {
		return fmt.Errorf("nothing was exported to %s: %w", folder, err)
	}
	for _, name := range files {
		fmt.Fprintf(p.streams.Out, "Written: %s\n", source.CleanLine(name))
	}
	fmt.Fprintln(p.streams.Out, "They hold "+jobsWord(n)+".")
	return nil
}

// namesOf are the titles of faults and repairs in the trees in use.
func namesOf(lib *tree.Library) record.Names {
	return record.Names{
		Fault: func(system, id string) string { return faultTitle(lib, system, id) },
		Repair: func(id string) string {
			if r := lib.Repairs[id]; r != nil {
				return r.Title
			}
			return id
		},
	}
}

// systemsInOrder are the systems by id.
func systemsInOrder(lib *tree.Library) []*tree.System {
	var out []*tree.System
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		out = append(out, lib.Systems[id])
	}
	return out
}
