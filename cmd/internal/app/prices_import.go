package app

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/pricebook"
	"benchlead/diag/repair"
	"benchlead/diag/source"
)

// wantedImport is what the command line says of an import.
type wantedImport struct {
	supplier, decimal, date string
	replace, dry, all       bool
}

func (p *program) pricesImportVerb() *cobra.Command {
	var w wantedImport
	cmd := &cobra.Command{
		Use:   "import FILE.csv",
		Short: "Take the prices of a CSV table into the record's price book",
		Long: `Reads a table, shows what would be new, changed, as before and gone, and takes it
into the record: all of it, or with any mistake in it nothing. Every mistake is shown
with line and column.

The first row names the columns, in any order: part, grade and price are needed;
supplier, number, core deposit, freight, disposal, stock, lead days, returnable, date,
replaced by, set, note and currency may be there. Columns with other names are named
and passed over; what a table has no column for stays as the book says. Values are
separated by commas, semicolons or tabs. The file is UTF-8.

A row is a price that is known already when part, grade, supplier and number are the
same; a note counts only where there is no number.`,
		Example: "  benchlead prices import book.csv --dry-run\n  benchlead prices import spring.csv --supplier Nordtal --date today --replace",
		Args:    exactly(1, "one CSV file"),
		RunE:    func(cmd *cobra.Command, args []string) error { return p.importPrices(cmd.Context(), args[0], w) },
	}
	cmd.Flags().StringVar(&w.supplier, "supplier", "", "whose list it is: the `name` for rows that say no supplier")
	cmd.Flags().BoolVar(&w.replace, "replace", false, "what the table doesn't name goes away: of --supplier, or of all")
	cmd.Flags().StringVar(&w.date, "date", "", "the `day` of rows that say no date: 2026-03-31, or today")
	cmd.Flags().StringVar(&w.decimal, "decimal", "", "the decimal `mark`, comma or point, where a number such as 1,234 has two meanings")
	cmd.Flags().BoolVar(&w.dry, "dry-run", false, "only show what it would do")
	cmd.Flags().BoolVar(&w.all, "all", false, "show every price that is new, changed or gone, not only the first")
	return cmd
}

// options are what the table is read with.
func (w wantedImport) options(today string) (pricebook.Options, error) {
	o := pricebook.Options{Supplier: source.CleanLine(w.supplier), Date: w.date}
	mark, known := map[string]pricebook.Mark{"": pricebook.Either, "comma": pricebook.Comma, "point": pricebook.Point}[w.decimal]
	if !known {
		return o, usage{fmt.Errorf("--decimal is comma or point, not %q", w.decimal)}
	}
	o.Decimal = mark
	if w.date == "today" {
		o.Date = today
	}
	if _, err := time.Parse(time.DateOnly, o.Date); err != nil && w.date != "" {
		return o, usage{fmt.Errorf("--date is a day such as 2026-03-31, or today, not %q", w.date)}
	}
	return o, nil
}

func (p *program) importPrices(ctx context.Context, name string, w wantedImport) error {
	o, err := w.options(p.today())
	switch {
	case err != nil:
		return err
	case p.demo && !w.dry:
		return usage{errors.New("the demo's record is thrown away; import without --demo")}
	}
	own, err := p.recordsPrices(ctx)
	if err != nil {
		return err
	}
	list, file, err := p.readTable(name, o, own)
	if err != nil {
		return err
	}
	if w.dry {
		d := pricebook.Compare(own, list, w.replace, o.Supplier)
		if err := p.complain(repair.Loops(d.Book), []source.File{*file}); err != nil {
			return err
		}
		p.tellImport(name, list, d, w.all)
		fmt.Fprintln(p.streams.Out, "This was a look; nothing was changed.")
		return nil
	}
	return p.takePrices(ctx, list, w, *file)
}

// readTable reads the table, and refuses one without a price: with --replace it would
// leave nothing.
func (p *program) readTable(name string, o pricebook.Options, own []repair.Price) (list pricebook.List, file *source.File, err error) {
	lib, err := p.library()
	if err != nil {
		return list, nil, err
	}
	sheet, _, err := p.sheet(lib)
	if err != nil {
		return list, nil, err
	}
	data, err := readBytes(anyFile{}, name, name, pricebook.MaxBytes)
	if err != nil {
		return list, nil, err
	}
	file, issues := pricebook.Open(name, data)
	if len(issues) > 0 {
		return list, nil, p.complain(issues, nil)
	}
	o.Library, o.Currency = lib, sheet.Currency
	for _, price := range own {
		o.Known = append(o.Known, price.Supplier)
	}
	list, issues = pricebook.Read(file, o)
	if err := p.complain(issues, []source.File{*file}); err != nil {
		return list, nil, err
	}
	if len(list.Prices) == 0 {
		return list, nil, fmt.Errorf("%s names columns and holds no price; nothing was changed", name)
	}
	return list, file, nil
}

// takePrices changes the record's book, in one transaction.
func (p *program) takePrices(ctx context.Context, list pricebook.List, w wantedImport, file source.File) error {
	db, shut, err := p.openRecord(ctx, recorddb.Open)
	if err != nil {
		return err
	}
	defer shut()
	var d pricebook.Difference
	var loops source.Issues
	err = db.ChangePrices(ctx, func(old []repair.Price) ([]repair.Price, error) {
		d = pricebook.Compare(old, list, w.replace, source.CleanLine(w.supplier))
		loops = repair.Loops(d.Book)
		return d.Book, loops.Err()
	})
	if len(loops) > 0 {
		return p.complain(loops, []source.File{file})
	}
	if err != nil {
		return p.ofRecord(err)
	}
	p.tellImport(file.Name, list, d, w.all)
	fmt.Fprintf(p.streams.Out, "Taken into the record: %d prices are in its book now.\n", len(d.Book))
	return nil
}
