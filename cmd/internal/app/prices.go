package app

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"

	"github.com/adrg/xdg"

	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees"
)

// priceBook loads --prices, or the demo's prices, with the shop's settings.
func (p *program) priceBook(lib *tree.Library) (*repair.PriceBook, error) {
	settings, err := p.shop()
	if err != nil {
		return nil, err
	}
	file, issues, err := p.demoOr(p.prices, "demo/prices.yaml")
	if errors.Is(err, fs.ErrNotExist) && p.prices == "" {
		book := repair.NoPrices()
		book.Shop = settings
		return book, nil
	}
	if err != nil || len(issues) > 0 {
		return nil, firstOf(err, p.complain(issues, nil))
	}
	book, issues := repair.LoadPrices(*file)
	issues = append(issues, book.Check(lib)...)
	if len(issues) == 0 {
		book.Shop = settings
	}
	return book, p.complain(issues, []source.File{*file})
}

// shop loads the shop's settings: --settings, BENCHLEAD_SETTINGS, the file in the
// user's configuration folder, then the demo's.
func (p *program) shop() (shop.Settings, error) {
	file, issues, err := p.demoOr(p.settingsPath(), "demo/settings.yaml")
	if errors.Is(err, fs.ErrNotExist) && p.settingsPath() == "" {
		return shop.Plain(), nil
	}
	if err != nil || len(issues) > 0 {
		return shop.Settings{}, firstOf(err, p.complain(issues, nil))
	}
	s, issues := shop.Load(*file)
	return s, p.complain(issues, []source.File{*file})
}

// settingsPath is where the shop's settings are; empty when the shop has none.
func (p *program) settingsPath() string {
	if p.settings != "" {
		return p.settings
	}
	if named := p.env("BENCHLEAD_SETTINGS"); named != "" {
		return named
	}
	own := filepath.Join(xdg.ConfigHome, "benchlead", "settings.yaml")
	if _, err := os.Stat(own); err != nil || p.demo {
		return ""
	}
	return own
}

// demoOr opens a file that the user named; without a name, that of the demo, or
// of the user's own folder of trees, which may have none.
func (p *program) demoOr(named, demo string) (*source.File, source.Issues, error) {
	switch {
	case named != "":
		return openFile(named)
	case p.treeDir != "":
		// The demo's figures are of the demo's parts. A folder may bring its own.
		return readFile(os.DirFS(p.treeDir), demo, path.Join(p.treeDir, demo))
	}
	return readFile(trees.Demo, demo, demo)
}
