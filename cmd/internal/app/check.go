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
the trees call healthy is held against simulated machines without a fault, and
against what finds a fault. Of a case file also the readings that can't be taken
are shown.`,
		Example: "  benchlead check\n  benchlead check --trees ./my-trees\n  benchlead check case.yaml",
		RunE: func(_ *cobra.Command, args []string) error {
			p.checking = true
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
					c, more := casefile.Load(*file, lib)
					if c != nil {
						more = c.Issues()
					}
					issues, files = append(issues, more...), append(files, *file)
				}
				all = append(all, issues...)
			}
			if err := p.complain(all, files); err != nil {
				return err
			}
			fmt.Fprintf(p.streams.Out, "%s, %s, %s, %s: nothing to mend.\n",
				several(len(lib.Systems), "system"), several(len(lib.Trees), "tree"), several(len(lib.Repairs), "repair"), several(len(args), "case file"))
			return nil
		},
	}
}

// several is a number of things in words: "1 tree", "4 trees".
func several(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
