package app

import (
	"errors"
	"fmt"
	"io"

	"benchlead/diag/prove"
	"benchlead/diag/source"
)

// checkTable says which options do not go with a table of figures: it is of one
// fault at a time, on the usual machines, by a sure hand that can take every test.
func (o proofOptions) checkTable(trees []string) error {
	switch {
	case o.against == "" && o.store == "":
		return nil
	case o.against != "" && o.store != "":
		return usage{errors.New("choose one of --against and --store")}
	case o.json:
		return usage{errors.New("--json shows all figures, and --against and --store have a form of their own: choose one")}
	case o.pairs || o.slips != 0 || o.untaken != 0 || o.shift != 0:
		return usage{errors.New("the table is of one fault at a time, with no slips, every test taken and nothing shifted: leave out --pairs, --slips, --untaken and --shift")}
	case o.store != "" && len(trees) > 0:
		return usage{errors.New("--store writes the figures of all trees: leave out their names")}
	}
	return nil
}

// openTable reads the table of --against, if there is one, and looks whether
// --store may write, before minutes are spent on the figures.
func (p *program) openTable(o *proofOptions) (prove.Table, error) {
	switch {
	case o.against != "":
		return p.storedTable(o)
	case o.store != "":
		return prove.Table{}, notWritten(o.store, p.notARecord(o.store))
	}
	return prove.Table{}, nil
}

// storedTable reads the table of --against, and takes from it the draws and the
// seed: other machines have other figures.
func (p *program) storedTable(o *proofOptions) (prove.Table, error) {
	file, issues, err := openFile(o.against)
	if err != nil {
		return prove.Table{}, err
	}
	if file == nil {
		return prove.Table{}, p.complain(issues, nil)
	}
	table, issues := prove.ReadTable(*file)
	if err := p.complain(issues, []source.File{*file}); err != nil {
		return prove.Table{}, err
	}
	if o.drawsTyped && o.draws != table.Draws || o.seedTyped && o.seed != table.Seed {
		return prove.Table{}, usage{fmt.Errorf("%s was made with --draws %d --seed %d: write these, or neither", o.against, table.Draws, table.Seed)}
	}
	o.draws, o.seed = table.Draws, table.Seed
	return table, nil
}

// storeTable writes the figures to the file of --store, whole or not at all.
func (p *program) storeTable(name string, r prove.Report) error {
	table := r.Table()
	err := writeWhole(name, func(w io.Writer) error { return prove.WriteTable(w, table) })
	if err == nil {
		fmt.Fprintf(p.streams.Out, "Written: %s, %d rows\n", source.CleanLine(name), len(table.Rows))
	}
	return notWritten(name, err)
}

func notWritten(name string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("the figures were not written to %s: %w", name, err)
}
