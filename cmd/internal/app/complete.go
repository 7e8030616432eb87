package app

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/cmd/internal/recorddb"
	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// filler gives what may stand at a place of the command line, for a shell that
// completes it: a word each, with a title behind a tab.
type filler = cobra.CompletionFunc

// mostCompleted is how many closed jobs a shell is offered.
const mostCompleted = 50

// complete has a shell complete the names of systems, trees, parts, jobs and pieces.
// Nothing is changed by it, and what can't be read is not offered.
func (p *program) complete(root *cobra.Command) {
	yaml, json, csv := files("yaml", "yml"), files("json"), files("csv")
	systems, trees, parts := p.ofLibrary(titlesOfSystems), p.ofLibrary(titlesOfTrees), p.ofLibrary(titlesOfParts)
	args := map[string]filler{
		"walk": once(p.jobs(true)), "words": once(p.ofLibrary(titlesOfTerms)), "report": once(p.jobs(false)), "trees": once(systems),
		"judge": once(yaml), "check": yaml, "import": once(json), "prices import": once(csv), "prices export": once(csv),
		"prices show": once(parts), "bin add": once(parts), "bin out": once(p.pieces),
		"prove": func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
			if suspects, _ := cmd.Flags().GetBool("suspects"); suspects {
				return systems(cmd, args, begun)
			}
			return trees(cmd, args, begun)
		},
		"backup": nil, // any file
	}
	flags := map[string]filler{
		"settings": yaml, "prices": yaml, "check": yaml, "outcome": words(outcomeWords()), "for": words(reportWhom),
		"system": systems, "fault": p.ofLibrary(titlesOfFaults), "repair": p.ofLibrary(titlesOfRepairs), "part": parts,
		"decimal": words([]string{"comma", "point"}), "date": words([]string{"today"}),
	}
	_ = root.MarkPersistentFlagDirname("trees")
	for cmd := range below(root) {
		name := strings.TrimPrefix(cmd.CommandPath(), root.Name()+" ")
		if fill, known := args[name]; known {
			cmd.ValidArgsFunction = fill
		} else if cmd.ValidArgs == nil {
			cmd.ValidArgsFunction = cobra.NoFileCompletions
		}
		for flag, fill := range flags {
			if f := cmd.Flag(flag); f != nil && f.Value.Type() == "string" {
				_ = cmd.RegisterFlagCompletionFunc(flag, fill) // set once already for the options of all verbs
			}
		}
		if f := cmd.Flags().Lookup("csv"); f != nil && f.Value.Type() == "string" {
			_ = cmd.MarkFlagDirname("csv")
		}
	}
}

// below are a command and all commands under it.
func below(root *cobra.Command) func(func(*cobra.Command) bool) {
	return func(yield func(*cobra.Command) bool) {
		list := []*cobra.Command{root}
		for len(list) > 0 {
			cmd := list[0]
			list = append(list[1:], cmd.Commands()...)
			if !yield(cmd) {
				return
			}
		}
	}
}

// once offers a word for the first argument alone.
func once(fill filler) filler {
	return func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return fill(cmd, args, begun)
	}
}

func words(list []string) filler {
	return cobra.FixedCompletions(list, cobra.ShellCompDirectiveNoFileComp)
}

func files(endings ...string) filler {
	return cobra.FixedCompletions(endings, cobra.ShellCompDirectiveFilterFileExt)
}

// ofLibrary offers ids of the trees in use with their titles.
func (p *program) ofLibrary(titles func(*tree.Library) map[string]string) filler {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		lib, err := p.library()
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		named := titles(lib)
		var out []string
		for _, id := range slices.Sorted(maps.Keys(named)) {
			out = append(out, cobra.CompletionWithDesc(id, source.CleanLine(named[id])))
		}
		return out, cobra.ShellCompDirectiveNoFileComp
	}
}

// jobs offers the numbers of jobs on record, the newest first.
func (p *program) jobs(open bool) filler {
	return func(cmd *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
		var out []string
		for _, j := range p.newest(cmd.Context()) {
			if open && !j.Open {
				continue
			}
			title := fmt.Sprintf("%s, %s", j.Machine, j.Complaint)
			out = append(out, cobra.CompletionWithDesc(fmt.Sprint(j.ID), source.CleanLine(title)))
		}
		return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
	}
}

func (p *program) newest(ctx context.Context) []job.Summary {
	db, err := recorddb.Glance(ctx, p.recordPath())
	if err != nil {
		return nil
	}
	defer db.Close()
	jobs, _, _ := db.Newest(ctx, mostCompleted)
	return jobs
}

// pieces offers what lies in the parts bin.
func (p *program) pieces(cmd *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
	db, err := recorddb.Glance(cmd.Context(), p.recordPath())
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	defer db.Close()
	pieces, _ := db.Bin(cmd.Context())
	var out []string
	for _, s := range pieces {
		if s.Free() {
			out = append(out, cobra.CompletionWithDesc(s.Name, source.CleanLine(strings.TrimSpace(s.Part+" "+s.Place))))
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
}

func titlesOfSystems(lib *tree.Library) map[string]string {
	out := map[string]string{}
	for id, s := range lib.Systems {
		out[id] = s.Title
	}
	return out
}

func titlesOfTrees(lib *tree.Library) map[string]string {
	out := map[string]string{}
	for id, t := range lib.Trees {
		out[id] = t.Title
	}
	return out
}

func titlesOfParts(lib *tree.Library) map[string]string {
	out := map[string]string{}
	for id, part := range lib.Parts {
		out[id] = part.Title
	}
	return out
}

func titlesOfRepairs(lib *tree.Library) map[string]string {
	out := map[string]string{}
	for id, r := range lib.Repairs {
		out[id] = r.Title
	}
	return out
}

func titlesOfFaults(lib *tree.Library) map[string]string {
	out := map[string]string{}
	for _, s := range lib.Systems {
		for _, f := range s.Faults {
			out[f.ID] = f.Title
		}
	}
	return out
}
