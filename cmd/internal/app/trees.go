package app

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/diag/formula"
	"benchlead/diag/tree"
)

func (p *program) treesVerb() *cobra.Command {
	var functions bool
	cmd := &cobra.Command{
		Use:     "trees",
		Short:   "List systems, trees and what they judge",
		Example: "  benchlead trees\n  benchlead trees --functions",
		Args:    exactly(0, "no arguments"),
		RunE: func(*cobra.Command, []string) error {
			if functions {
				p.functions()
				return nil
			}
			lib, err := p.library()
			if err == nil {
				p.listTrees(lib)
			}
			return err
		},
	}
	cmd.Flags().BoolVar(&functions, "functions", false, "list the functions that formulas may use")
	return cmd
}

func (p *program) listTrees(lib *tree.Library) {
	out := p.streams.Out
	for _, id := range slices.Sorted(maps.Keys(lib.Systems)) {
		s := lib.Systems[id]
		fmt.Fprintf(out, "%s  %s\n  %s\n", s.ID, s.Title, s.About)
		for _, c := range s.Complaints {
			fmt.Fprintf(out, "  complaint %-14s %s (%s)\n", c.ID, c.Title, strings.Join(c.Trees, ", "))
		}
		for _, t := range lib.TreesFor(id) {
			fmt.Fprintf(out, "  tree %-19s %s: %s\n", t.ID, t.Title, strings.Join(t.Judges, ", "))
		}
		fmt.Fprintf(out, "  %d tests, %d faults, %d repairs\n\n", len(s.Tests), len(s.Faults), len(lib.RepairsFor(id)))
	}
}

// functions prints the manual of the formula language from its own table.
func (p *program) functions() {
	for _, f := range formula.Functions() {
		var args []string
		for _, a := range f.Args {
			args = append(args, a.Name)
		}
		fmt.Fprintf(p.streams.Out, "%s(%s)\n    %s\n", f.Name, strings.Join(args, ", "), f.Says)
		if f.Source != "" {
			fmt.Fprintf(p.streams.Out, "    Source: %s\n", f.Source)
		}
	}
}
