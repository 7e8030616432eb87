package app

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"
	"github.com/spf13/cobra"

	"benchlead/diag/shop"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

func (p *program) settingsVerb() *cobra.Command {
	var check string
	var write, tools, asJSON bool
	cmd := &cobra.Command{
		Use:   "settings",
		Short: "Show how the shop charges and works, check a file of settings, or begin one",
		Long: `Shows every setting in use, and where it comes from: a line of the shop's file, or
the default. The file is the one that --settings or BENCHLEAD_SETTINGS names, or
settings.yaml in the user's configuration folder; without one the demo's invented
figures are used.

--check reads another file, shows every mistake with its place, and changes nothing.
--write puts a file with all defaults, each with what it means, where the shop's own
belongs. It never writes over one that is there.`,
		Example: "  benchlead settings\n  benchlead settings --write\n  benchlead settings --check ./settings.yaml",
		Args:    exactly(0, "no arguments"),
		RunE: func(*cobra.Command, []string) error {
			if count(check != "", write, tools, asJSON) > 1 {
				return usage{errors.New("choose one of --check, --write, --tools and --json")}
			}
			if write {
				return p.writeSettings()
			}
			lib, err := p.library()
			if err != nil {
				return err
			}
			if tools {
				p.listTools(lib)
				return nil
			}
			if check != "" {
				return p.checkSettings(lib, check)
			}
			return p.showSettings(lib, asJSON)
		},
	}
	cmd.Flags().StringVar(&check, "check", "", "read this `file`, and show what is wrong with it")
	cmd.Flags().BoolVar(&write, "write", false, "write a file of the defaults where the shop has none")
	cmd.Flags().BoolVar(&tools, "tools", false, "list the tools that the repairs name, and in how many")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return cmd
}

// listTools lists the tools that repairs name, the most needed first.
func (p *program) listTools(lib *tree.Library) {
	needed := map[string]int{}
	for _, r := range lib.Repairs {
		for _, t := range r.Tools {
			needed[t]++
		}
	}
	names := slices.SortedFunc(maps.Keys(needed), func(a, b string) int {
		return cmp.Or(cmp.Compare(needed[b], needed[a]), cmp.Compare(a, b))
	})
	for _, name := range names {
		fmt.Fprintf(p.streams.Out, "%4d  %s\n", needed[name], name)
	}
}

// checkSettings reads a file as the shop's own would be read.
func (p *program) checkSettings(lib *tree.Library, name string) error {
	file, issues, err := openFile(name)
	if err != nil || len(issues) > 0 {
		return firstOf(err, p.complain(issues, nil))
	}
	sheet, err := p.sheetOf(*file, lib)
	if err != nil {
		return err
	}
	written := 0
	for _, e := range sheet.Entries {
		if !e.Default() {
			written++
		}
	}
	fmt.Fprintf(p.streams.Out, "%s: nothing to mend. %d settings are its own, %d the defaults.\n", source.CleanLine(name), written, len(sheet.Entries)-written)
	if odd := sheet.Unnamed(toolsOf(lib)); len(odd) > 0 {
		fmt.Fprintf(p.streams.Out, "No repair names these tools: %s. Mistyped? \"benchlead settings --tools\" lists those that are named.\n", source.CleanLine(strings.Join(odd, ", ")))
	}
	return nil
}

// listedSetting is one setting as --json prints it. From is empty for a default.
type listedSetting struct {
	Section string `json:"section"`
	Key     string `json:"key"`
	Value   string `json:"value"`
	From    string `json:"from"`
	Default bool   `json:"default"`
}

func (p *program) showSettings(lib *tree.Library, asJSON bool) error {
	sheet, file, err := p.sheet(lib)
	if err != nil {
		return err
	}
	if asJSON {
		all := []listedSetting{}
		for _, e := range sheet.Entries {
			l := listedSetting{Section: e.Section, Key: e.Key, Value: e.Value, Default: e.Default()}
			if !e.Default() {
				l.From = e.Place.String()
			}
			all = append(all, l)
		}
		return p.json(map[string]any{"own": p.settingsPath() != "", "settings": all})
	}
	out := p.streams.Out
	switch {
	case p.settingsPath() != "":
		fmt.Fprintf(out, "The shop's settings, from %s.\n", source.CleanLine(file.Name))
	case file != nil:
		fmt.Fprintln(out, "The shop has no settings of its own; the demo's invented figures are in use.")
	default:
		fmt.Fprintln(out, "The shop has no settings of its own; the defaults are in use, which charge nothing.")
	}
	p.listEntries(sheet)
	fmt.Fprintf(out, "\nMeters on file: %s.\n", strings.Join(lib.MeterIDs(), ", "))
	if p.settingsPath() == "" {
		fmt.Fprintf(out, "\"benchlead settings --write\" begins your own file: %s\n", source.CleanLine(p.settingsPlace()))
	}
	return nil
}

// listEntries prints each section with its settings.
func (p *program) listEntries(sheet shop.Sheet) {
	section := ""
	for _, e := range sheet.Entries {
		if e.Section != section {
			section = e.Section
			fmt.Fprintf(p.streams.Out, "\n%s\n", source.CleanLine(section))
		}
		from := "default"
		if !e.Default() {
			from = fmt.Sprintf("line %d", e.Place.Line)
		}
		value := strings.Split(ansi.Wordwrap(source.CleanLine(e.Value), 40, ""), "\n")
		fmt.Fprintln(p.streams.Out, source.CleanLine(fmt.Sprintf("  %-25s %-18s %s", e.Key, value[0], from)))
		for _, more := range value[1:] {
			fmt.Fprintf(p.streams.Out, "  %-25s %s\n", "", more)
		}
	}
}

// writeSettings begins the shop's own file, whole or not at all, and never over one
// that is there.
func (p *program) writeSettings() error {
	name := p.settingsPlace()
	if _, err := os.Lstat(name); err == nil {
		return fmt.Errorf("%s is there already and was left as it is; \"benchlead settings\" shows what it says", name)
	}
	if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
		return fmt.Errorf("%s was not written: %w", name, err)
	}
	if err := writeNew(name, func(w io.Writer) error { _, err := io.WriteString(w, shop.Defaults); return err }); err != nil {
		return fmt.Errorf("%s was not written: %w", name, err)
	}
	fmt.Fprintf(p.streams.Out, "Written: %s\nIt charges nothing yet. Begin with currency, labour rate and tax, then look with \"benchlead settings\".\n", source.CleanLine(name))
	return nil
}

// writeNew writes a file that is not there yet, whole or not at all. A link is made
// only where nothing stands; where there are no links, an empty file is made first.
func writeNew(name string, write func(io.Writer) error) error {
	part, err := os.CreateTemp(filepath.Dir(name), ".benchlead-*")
	if err != nil {
		return err
	}
	defer os.Remove(part.Name())
	if err := firstOf(write(part), part.Sync(), part.Close()); err != nil {
		return err
	}
	err = os.Link(part.Name(), name)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	return firstOf(f.Close(), os.Rename(part.Name(), name))
}

// count is how many of the flags are set.
func count(flags ...bool) int {
	n := 0
	for _, f := range flags {
		if f {
			n++
		}
	}
	return n
}
