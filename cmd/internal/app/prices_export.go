package app

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"benchlead/diag/pricebook"
	"benchlead/diag/source"
)

func (p *program) pricesExportVerb() *cobra.Command {
	return &cobra.Command{
		Use:   "export [FILE.csv]",
		Short: "Write the price book in use as a CSV table, to a file or to the output",
		Long: `Writes the price book in use as a CSV table in UTF-8, with a row that names the
columns. "benchlead prices import" reads it back as it was. A value that a spreadsheet
would run as a formula gets an apostrophe before it, which the import takes away.`,
		Example: "  benchlead prices export book.csv\n  benchlead prices export --prices mine.yaml mine.csv",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage{fmt.Errorf("export takes one file at most")}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			in, own, _, err := p.inUse(cmd.Context())
			if err != nil {
				return err
			}
			prices := in.book.Prices
			if len(own) > 0 {
				prices = own // with the parts that these trees don't have
			}
			if len(args) == 0 {
				return pricebook.Write(p.streams.Out, prices)
			}
			if err := p.notARecord(args[0]); err != nil {
				return err
			}
			if err := writeWhole(args[0], func(w io.Writer) error { return pricebook.Write(w, prices) }); err != nil {
				return fmt.Errorf("%s was not written: %w", args[0], err)
			}
			fmt.Fprintf(p.streams.Out, "%d prices written to %s. %s\n", len(prices), source.CleanLine(args[0]), source.CleanLine(in.from))
			return nil
		},
	}
}
