package app

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/ui"
)

func (p *program) wordsVerb() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "words [WORD]",
		Short: "Say what a word of the trade means that the steps use, or all of them",
		Long: strings.TrimSpace(`
Says what a word of the trade means that the steps use, or all of them. On the bench "?"
at a step shows those that stand in it. The list is trees/words.yaml.`),
		Example: "  benchlead words\n  benchlead words stator\n  benchlead words \"voltage drop\"",
		RunE: func(_ *cobra.Command, args []string) error {
			lib, err := p.library()
			if err != nil {
				return err
			}
			terms, err := termsCalled(lib, strings.Join(args, " "))
			if err != nil {
				return err
			}
			if asJSON {
				return p.json(sayTerms(terms))
			}
			for _, t := range terms {
				fmt.Fprintln(p.streams.Out, ui.TermLine(t))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return cmd
}

// termsCalled are the words of the trade that are called so, or have it in one of their
// forms; all for no name.
func termsCalled(lib *tree.Library, name string) ([]tree.Term, error) {
	name = tree.FoldTerm(strings.TrimSpace(name))
	if name == "" {
		return lib.Terms, nil
	}
	var just, within []tree.Term
	var known []string
	for _, t := range lib.Terms {
		for _, form := range t.Forms() {
			known = append(known, tree.FoldTerm(form))
		}
		forms := known[len(known)-len(t.Forms()):]
		switch {
		case slices.Contains(forms, name):
			just = append(just, t)
		case slices.ContainsFunc(forms, func(f string) bool { return strings.Contains(f, name) }):
			within = append(within, t)
		}
	}
	switch {
	case len(just) > 0:
		return just, nil
	case len(within) > 0:
		return within, nil
	}
	hint := "; \"benchlead words\" lists all"
	if near := source.Nearest(name, known); near != "" {
		hint = fmt.Sprintf("; did you mean %q?", near)
	}
	return nil, fmt.Errorf("%q is not among the words of the trade%s", source.CleanLine(name), hint)
}

// saidTerm is a word of the trade as JSON.
type saidTerm struct {
	Word  string   `json:"word"`
	Also  []string `json:"also"`
	Means string   `json:"means"`
	Basis string   `json:"basis"`
}

func sayTerms(terms []tree.Term) map[string][]saidTerm {
	out := []saidTerm{}
	for _, t := range terms {
		out = append(out, saidTerm{Word: t.Word, Also: append([]string{}, t.Also...), Means: t.Means, Basis: t.Source})
	}
	return map[string][]saidTerm{"words": out}
}

// titlesOfTerms are the words of the trade for a shell, which completes one word at a
// time: those of several are left out.
func titlesOfTerms(lib *tree.Library) map[string]string {
	out := map[string]string{}
	for _, t := range lib.Terms {
		for _, form := range t.Forms() {
			if !strings.Contains(form, " ") {
				out[form] = t.Means
			}
		}
	}
	return out
}
