package app

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"benchlead/diag/casefile"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

func (p *program) checkVerb() *cobra.Command {
	return &cobra.Command{
		Use:   "check [CASE...]",
		Short: "Check all fault trees and prices, and the case files named",
		Long: `Reads the fault trees (built in, or --trees) and the prices, and any case files
named, and shows every mistake with its place and what to write instead. What
the trees call healthy is held against simulated machines without a fault, and
against what finds a fault. What is no mistake and may be an oversight (a test that
nothing asks, a part without a price) is a remark. Of a case file also the readings that can't be taken
are shown.`,
		Example: "  benchlead check\n  benchlead check --trees ./my-trees\n  benchlead check case.yaml",
		RunE: func(_ *cobra.Command, args []string) error {
			p.checking = true
			lib, files, err := p.libraryFiles(true)
			if err != nil {
				return err
			}
			if err := p.systemless(lib); err != nil {
				return err
			}
			prices, err := p.priceBook(lib, nil)
			if err != nil {
				return err
			}
			if err := meterless(lib); err != nil {
				return err
			}
			all := append(virtual.CheckHealthy(lib), virtual.CheckStill(lib)...)
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
			remarks := p.remark(slices.Concat(tree.Remarks(lib), prices.book.Remarks(lib)), files)
			fmt.Fprintf(p.streams.Out, "%s, %s, %s, %s: nothing to mend%s.\n",
				several(len(lib.Systems), "system"), several(len(lib.Trees), "tree"), several(len(lib.Repairs), "repair"), several(len(args), "case file"), remarks)
			return nil
		},
	}
}

// remark shows what is no mistake and may still be an oversight, and counts it in words.
func (p *program) remark(issues source.Issues, files []source.File) string {
	issues = issues.Sorted()
	for _, issue := range issues[:min(len(issues), mostIssues)] {
		fmt.Fprintln(p.streams.Out, "remark: "+issue.Render(fileNamed(files, issue.Place.File)))
	}
	if len(issues) == 0 {
		return ""
	}
	return ", " + several(len(issues), "remark")
}

// several is a number of things in words: "1 tree", "4 trees".
func several(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
