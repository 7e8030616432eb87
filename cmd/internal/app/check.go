package app

import (
	"fmt"

	"github.com/spf13/cobra"

	"benchlead/diag/casefile"
	"benchlead/diag/virtual"
)

func (p *program) checkVerb() *cobra.Command {
	return &cobra.Command{
		Use:   "check [CASE...]",
		Short: "Check all fault trees and prices, and the case files named",
		Long: `Reads the fault trees (built in, or --trees) and the prices, and any case files
named, and shows every mistake with its place and what to write instead. What
the trees call healthy is held against simulated machines without a fault.`,
		Example: "  benchlead check\n  benchlead check --trees ./my-trees\n  benchlead check case.yaml",
		RunE: func(_ *cobra.Command, args []string) error {
			lib, files, err := p.libraryFiles(true)
			if err != nil {
				return err
			}
			if _, err := p.priceBook(lib, nil); err != nil {
				return err
			}
			if err := meterless(lib); err != nil {
				return err
			}
			all := virtual.CheckHealthy(lib)
			for _, name := range args {
				file, issues, err := openFile(name)
				if err != nil {
					return err
				}
				if file != nil {
					_, more := casefile.Load(*file, lib)
					issues, files = append(issues, more...), append(files, *file)
				}
				all = append(all, issues...)
			}
			if err := p.complain(all, files); err != nil {
				return err
			}
			fmt.Fprintf(p.streams.Out, "%d systems, %d trees, %d repairs, %d case files: nothing to mend.\n",
				len(lib.Systems), len(lib.Trees), len(lib.Repairs), len(args))
			return nil
		},
	}
}
