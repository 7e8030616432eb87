package app

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/diag/formula"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/ui"
)

func (p *program) treesVerb() *cobra.Command {
	var functions, asJSON bool
	var find string
	cmd := &cobra.Command{
		Use:   "trees [SYSTEM]",
		Short: "List systems and fault trees, or the points, states, tests and faults of one system",
		Long: `Lists the systems and fault trees. With a system it lists the ids that a case file or
a plain line may name: points, states, setups, tests with their answers, faults.
With --find it lists the complaints in which every word stands.
With --json it prints all of it as one object: {"trees": [...], "systems": [...]}.`,
		Example: "  benchlead trees\n  benchlead trees key-start-12v\n  benchlead trees --find \"no spark\"\n  benchlead trees --json\n  benchlead trees --functions",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage{errors.New("trees takes one system at most")}
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if functions {
				p.functions()
				return nil
			}
			lib, err := p.library()
			switch {
			case err != nil:
				return err
			case len(args) == 1 && lib.Systems[args[0]] == nil:
				return usage{fmt.Errorf("there is no system %q; \"benchlead trees\" lists them", args[0])}
			case asJSON && len(args) == 1:
				return p.json(saySystem(lib, lib.Systems[args[0]]))
			case asJSON:
				return p.json(sayLibrary(lib))
			case find != "":
				return p.findComplaints(lib, find)
			case len(args) == 1:
				p.listSystem(lib.Systems[args[0]])
			default:
				p.listTrees(lib)
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	cmd.Flags().StringVar(&find, "find", "", "list the complaints in which all of these `words` stand")
	cmd.Flags().BoolVar(&functions, "functions", false, "list the functions that formulas may use")
	return cmd
}

// findComplaints lists the complaints that words lead to, with the trees that
// answer them.
func (p *program) findComplaints(lib *tree.Library, words string) error {
	found := ui.Search(lib, words)
	if len(found) == 0 {
		return fmt.Errorf("nothing is called %q; try fewer words, or \"benchlead trees\" for all", source.CleanLine(words))
	}
	for _, f := range found {
		fmt.Fprintf(p.streams.Out, "%s: %s\n  %s, complaint %s, trees %s\n", f.Complaint.Title, f.System.Title, f.System.ID, f.Complaint.ID, strings.Join(f.Complaint.Trees, ", "))
	}
	return nil
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

// listSystem prints the ids of one system with what they mean.
func (p *program) listSystem(s *tree.System) {
	out := p.streams.Out
	fmt.Fprintf(out, "%s  %s\n\nLabel\n", s.ID, s.Title)
	for _, f := range s.Label {
		fmt.Fprintf(out, "  %-18s %s %s\n", f.ID, f.Ask, strings.Join(f.Options, ", "))
	}
	fmt.Fprintln(out, "\nPoints")
	for _, x := range s.Points {
		fmt.Fprintf(out, "  %-18s %s\n", x.ID, x.Title)
	}
	fmt.Fprintln(out, "\nStates")
	for _, x := range s.States {
		fmt.Fprintf(out, "  %-18s %s\n", x.ID, x.Title)
	}
	fmt.Fprintln(out, "\nSetups")
	for _, x := range s.Setups {
		fmt.Fprintf(out, "  %-18s %s\n", x.ID, x.Title)
	}
	fmt.Fprintln(out, "\nTests")
	for _, t := range s.Tests {
		fmt.Fprintf(out, "  %-18s %s\n  %-18s %s\n", t.ID, t.Title, "", how(t))
	}
	fmt.Fprintln(out, "\nFaults")
	for _, f := range s.Faults {
		fmt.Fprintf(out, "  %-24s %s\n", f.ID, f.Title)
	}
	if c := s.Circuit; c != nil {
		fmt.Fprintf(out, "\nThe circuit behind it has %d parts, %d faults in %d ways, and leaves %s out.\n", len(c.Parts), len(c.Faults), ways(c), several(len(c.Unmodelled), "thing"))
	}
}

func ways(c *tree.Circuit) int {
	n := 0
	for _, f := range c.Faults {
		n += len(f.Ways)
	}
	return n
}

// how is where and how a test is read, and what may come of it.
func how(t *tree.Test) string {
	outcomes := strings.Join(t.Outcomes(), ", ")
	switch t.Kind {
	case tree.Observed:
		return "seen, " + t.State + ": " + outcomes
	case tree.Worked:
		return "worked out from " + strings.Join(t.Inputs(), ", ") + ": " + outcomes
	}
	where := t.Red
	if t.Black != "" {
		where += " to " + t.Black
	}
	with := ""
	if len(t.With) > 0 {
		with = " with " + strings.Join(t.With, ", ")
	}
	return fmt.Sprintf("%s, %s, %s%s: %s", t.Function, where, t.State, with, outcomes)
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
