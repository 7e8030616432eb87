package app

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees"
)

// priced is the price book in use.
type priced struct {
	book  *repair.PriceBook
	files []source.File // what it was read from
	from  string        // in words, for lists of prices
	note  string        // said wherever prices are shown
}

// priceBook is what --prices names, else the record's own prices, else the demo's,
// as the shop's settings use it today.
func (p *program) priceBook(lib *tree.Library, own []repair.Price) (priced, error) {
	sheet, file, err := p.sheet(lib)
	if err != nil {
		return priced{}, err
	}
	in, err := p.givenPrices(lib, own)
	if err != nil {
		return in, err
	}
	if file != nil {
		in.files = append(in.files, *file)
	}
	whose, _, _ := strings.Cut(in.from, ". ") // what follows counts lines left out
	in.book = in.book.Under(sheet).At(p.today()).From(strings.TrimSuffix(whose, "."))
	return in, p.complain(in.book.Check(lib), in.files)
}

// givenPrices decides whose prices they are.
func (p *program) givenPrices(lib *tree.Library, own []repair.Price) (priced, error) {
	if len(own) > 0 && p.prices == "" {
		return fromRecord(lib, own), nil
	}
	file, issues, err := p.demoOr(p.prices, "demo/prices.yaml")
	if errors.Is(err, fs.ErrNotExist) && p.prices == "" {
		return priced{book: repair.NoPrices(), from: "There are no prices.", note: "There are no prices. Give your own with \"benchlead prices import\" or --prices FILE."}, nil
	}
	if err != nil || len(issues) > 0 {
		return priced{}, firstOf(err, p.complain(issues, nil))
	}
	book, issues := repair.LoadPrices(*file)
	in := priced{book: book, files: []source.File{*file}, from: "Prices of " + file.Name + "."}
	switch {
	case p.prices != "" && len(own) > 0:
		in.note = "Prices of " + file.Name + ", not the record's own."
	case p.prices == "" && p.treeDir == "":
		in.from = "The demo's prices, invented."
		in.note = "The prices are invented, for the demo. Give your own with \"benchlead prices import\" or --prices FILE."
	}
	return in, p.complain(issues, in.files)
}

// fromRecord is the record's own book. Trees may have changed since it was imported:
// what they don't know is left out, and counted.
func fromRecord(lib *tree.Library, own []repair.Price) priced {
	fit, left := repair.Fit(own, lib)
	in := priced{book: repair.NewBook(fit), from: "The record's own prices.", note: "The prices are the record's own."}
	if left > 0 {
		more := fmt.Sprintf(" %d lines are left out: these trees don't have the part, or allow no used one.", left)
		in.from, in.note = in.from+more, in.note+more
	}
	return in
}

// demoOr opens a file that the user named; without a name, that of the demo, or
// of the user's own folder of trees, which may have none.
func (p *program) demoOr(named, demo string) (*source.File, source.Issues, error) {
	switch {
	case named != "":
		return openFile(named)
	case p.treeDir != "":
		// The demo's figures are of the demo's parts. A folder may bring its own.
		return readFile(inside(p.treeDir), demo, path.Join(p.treeDir, demo))
	}
	return readFile(trees.Demo, demo, demo)
}
