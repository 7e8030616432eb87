package app

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"benchlead/diag/pricebook"
	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/ui"
)

// mostListed is how many prices are listed unless all are asked for.
const mostListed = 40

func (p *program) pricesVerb() *cobra.Command {
	var all, asJSON bool
	cmd := &cobra.Command{
		Use:   "prices",
		Short: "List, search, import and export the price book",
		Long: `Lists the price book in use: that of --prices, else the record's own, else the
demo's. Prices older than the shop's settings allow are marked.

The record's own book is imported from CSV tables; "benchlead prices import --help"
says which columns they may have.`,
		Example: "  benchlead prices\n  benchlead prices find start motor\n  benchlead prices import spring.csv --supplier Nordtal --dry-run",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usage{fmt.Errorf("prices has no %q; it has find, show, import and export", args[0])}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			return p.findPrices(cmd.Context(), "", all, asJSON)
		},
	}
	find := &cobra.Command{
		Use:     "find WORDS",
		Short:   "List the prices in which all of the words stand, each by its beginning",
		Example: "  benchlead prices find aftermarket start\n  benchlead prices find N-10",
		Args:    someWords,
		RunE: func(cmd *cobra.Command, args []string) error {
			return p.findPrices(cmd.Context(), strings.Join(args, " "), all, asJSON)
		},
	}
	show := &cobra.Command{
		Use:     "show PART",
		Short:   "Show all that is known of the prices of one part",
		Example: "  benchlead prices show starter",
		Args:    exactly(1, "the id of one part"),
		RunE:    func(cmd *cobra.Command, args []string) error { return p.showPart(cmd.Context(), args[0], asJSON) },
	}
	for _, c := range []*cobra.Command{cmd, find} {
		c.Flags().BoolVar(&all, "all", false, fmt.Sprintf("list all, not only the first %d", mostListed))
	}
	for _, c := range []*cobra.Command{cmd, find, show} {
		c.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	}
	cmd.AddCommand(find, show, p.pricesImportVerb(), p.pricesExportVerb())
	return cmd
}

func someWords(_ *cobra.Command, args []string) error {
	if strings.TrimSpace(strings.Join(args, "")) == "" {
		return usage{errors.New("find wants a word or two, such as \"benchlead prices find starter\"")}
	}
	return nil
}

// inUse is the price book in use, with the trees. own is the record's, as it is kept.
func (p *program) inUse(ctx context.Context) (in priced, own []repair.Price, lib *tree.Library, err error) {
	if lib, err = p.library(); err != nil {
		return in, nil, nil, err
	}
	if own, err = p.recordedPrices(ctx); err != nil {
		return in, nil, nil, err
	}
	in, err = p.priceBook(lib, own)
	return in, own, lib, err
}

// findPrices lists the prices in which words stand.
func (p *program) findPrices(ctx context.Context, words string, all, asJSON bool) error {
	in, _, lib, err := p.inUse(ctx)
	if err != nil {
		return err
	}
	most := mostListed
	if all || asJSON {
		most = len(in.book.Prices)
	}
	found, count := pricebook.Find(in.book.Prices, partTitles(lib), words, most)
	if asJSON {
		return p.json(map[string]any{"from": in.from, "prices": p.listedPrices(in.book, found)})
	}
	if count == 0 && words != "" {
		return fmt.Errorf("no price has %q in it; try fewer words, or the beginnings of words", source.CleanLine(words))
	}
	out := p.streams.Out
	fmt.Fprintln(out, source.CleanLine(in.from))
	for _, price := range found {
		fmt.Fprintln(out, source.CleanLine(priceLine(ui.PriceWords(in.book, price))))
	}
	if count > len(found) {
		fmt.Fprintf(out, "And %d more. \"benchlead prices find WORDS\" narrows it down; --all lists them.\n", count-len(found))
	}
	return nil
}

func partTitles(lib *tree.Library) func(string) string {
	return func(id string) string {
		if part := lib.Parts[id]; part != nil {
			return part.Title
		}
		return ""
	}
}

// priceLine is one price in a sentence: part, grade, price, where it is, who sells it.
func priceLine(r ui.PriceRow) string {
	return joined("; ", fmt.Sprintf("%s, %s: %s", r.Part, r.Grade, r.Price), r.Where, r.From) + "."
}

// showPart shows each price of a part in full.
func (p *program) showPart(ctx context.Context, id string, asJSON bool) error {
	in, _, lib, err := p.inUse(ctx)
	if err != nil {
		return err
	}
	part := lib.Parts[id]
	if part == nil {
		hint := "\"benchlead prices find WORDS\" searches"
		if near := source.Nearest(id, slices.Sorted(maps.Keys(lib.Parts))); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		return fmt.Errorf("no part is called %q; %s", source.CleanLine(id), hint)
	}
	var found []repair.Price
	for _, price := range in.book.Prices {
		if price.Part == id {
			found = append(found, price)
		}
	}
	if asJSON {
		return p.json(map[string]any{"from": in.from, "prices": p.listedPrices(in.book, found)})
	}
	fmt.Fprintf(p.streams.Out, "%s (%s). %s\n", source.CleanLine(part.Title), id, source.CleanLine(in.from))
	if len(found) == 0 {
		fmt.Fprintln(p.streams.Out, "It has no price.")
	}
	for _, price := range found {
		r := ui.PriceWords(in.book, price)
		p.say("")
		p.say("%s: %s.", r.Grade, joined("; ", r.Price, r.Old()))
		for _, l := range r.Facts() {
			p.say("  %s: %s.", l[0], strings.TrimSuffix(l[1], "."))
		}
	}
	return nil
}
