package app

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/adrg/xdg"

	"benchlead/diag/repair"
	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// sheet loads the shop's settings: --settings, BENCHLEAD_SETTINGS, the file in the
// user's configuration folder, then the demo's. The file is nil when there is none.
func (p *program) sheet(lib *tree.Library) (shop.Sheet, *source.File, error) {
	file, issues, err := p.demoOr(p.settingsPath(), "demo/settings.yaml")
	if errors.Is(err, fs.ErrNotExist) && p.settingsPath() == "" {
		return shop.Standard(), nil, nil
	}
	if err != nil || len(issues) > 0 {
		return shop.Sheet{}, nil, firstOf(err, p.complain(issues, nil))
	}
	s, err := p.sheetOf(*file, lib)
	return s, file, err
}

// sheetOf reads settings, and holds them against the trees.
func (p *program) sheetOf(file source.File, lib *tree.Library) (shop.Sheet, error) {
	s, issues := shop.Read(file)
	if len(issues) == 0 {
		issues = append(s.CheckMeters(lib.MeterIDs()), repair.NoPrices().Under(s).Check(lib)...)
	}
	return s, p.complain(issues, []source.File{file})
}

// toolsOf are the tools that repairs name.
func toolsOf(lib *tree.Library) []string {
	var out []string
	for _, r := range lib.Repairs {
		out = append(out, r.Tools...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// settingsPath is where the shop's settings are; empty when the shop has none.
func (p *program) settingsPath() string {
	own := p.settingsPlace()
	if own != usualSettings() {
		return own
	}
	if _, err := os.Stat(own); err != nil || p.demo {
		return ""
	}
	return own
}

// settingsPlace is where the shop's settings belong, whether they are there or not.
func (p *program) settingsPlace() string {
	if p.settings != "" {
		return p.settings
	}
	if named := p.env("BENCHLEAD_SETTINGS"); named != "" {
		return named
	}
	return usualSettings()
}

func usualSettings() string { return filepath.Join(xdg.ConfigHome, "benchlead", "settings.yaml") }
