// Command vulnindex lays out the Go vulnerability reports of a folder as a
// database that govulncheck reads from disk (the layout of the public
// database: index/db.json, index/modules.json, ID/*.json). It lets the check
// run where only a Go module proxy can be reached: the reports themselves are a
// Go module.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sort"
)

type report struct {
	ID       string `json:"id"`
	Modified string `json:"modified"`
	Affected []struct {
		Package struct {
			Name string `json:"name"`
		} `json:"package"`
		Ranges []struct {
			Events []struct {
				Fixed string `json:"fixed"`
			} `json:"events"`
		} `json:"ranges"`
	} `json:"affected"`
}

type vuln struct {
	ID       string `json:"id"`
	Modified string `json:"modified"`
	Fixed    string `json:"fixed,omitempty"`
}

type module struct {
	Path  string `json:"path"`
	Vulns []vuln `json:"vulns"`
}

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "usage: vulnindex REPORTS DATABASE")
		os.Exit(2)
	}
	if err := index(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "vulnindex:", err)
		os.Exit(1)
	}
}

func index(from, to string) error {
	names, err := filepath.Glob(filepath.Join(from, "*.json"))
	if err != nil || len(names) == 0 {
		return fmt.Errorf("no reports in %s: %v", from, err)
	}
	modules, latest := map[string]*module{}, ""
	for _, dir := range []string{"ID", "index"} {
		if err := os.MkdirAll(filepath.Join(to, dir), 0o755); err != nil {
			return err
		}
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		var r report
		if err := json.Unmarshal(data, &r); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		latest = max(latest, r.Modified)
		add(modules, r)
		if err := os.WriteFile(filepath.Join(to, "ID", r.ID+".json"), data, 0o644); err != nil {
			return err
		}
	}
	return write(to, modules, latest)
}

func add(modules map[string]*module, r report) {
	for _, a := range r.Affected {
		m := modules[a.Package.Name]
		if m == nil {
			m = &module{Path: a.Package.Name}
			modules[m.Path] = m
		}
		v := vuln{ID: r.ID, Modified: r.Modified}
		for _, ranges := range a.Ranges {
			for _, e := range ranges.Events {
				v.Fixed = e.Fixed
			}
		}
		m.Vulns = append(m.Vulns, v)
	}
}

func write(to string, modules map[string]*module, latest string) error {
	var list []*module
	for _, m := range modules {
		list = append(list, m)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].Path < list[j].Path })
	for name, v := range map[string]any{
		"modules.json": list,
		"db.json":      map[string]string{"modified": latest},
	} {
		data, err := json.Marshal(v)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(to, "index", name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
