package report

import (
	"fmt"
	"html/template"
	"io"
	"strings"

	"benchlead/diag/source"
)

// Owner writes the report for the owner as one HTML page with its style inside: no
// script, nothing loaded. It prints on A4 and US Letter, and needs no colour.
func Owner(w io.Writer, d Document) error {
	lead, why := warning(d)
	return execute(w, "owner", ownerSheet, map[string]any{
		"Job": d.Job, "About": about(d), "Stop": lead, "NotToUse": why, "Head": head(d), "Sections": sections(d),
	})
}

// execute fills a page and writes it whole or not at all.
func execute(w io.Writer, name, text string, data any) error {
	page, err := template.New(name).Funcs(template.FuncMap{
		"clean": source.CleanLine,
		"px":    func(v float64) string { return fmt.Sprintf("%.1f", v) },
		"add":   func(a, b float64) float64 { return a + b },
	}).Parse(text)
	if err != nil {
		return fmt.Errorf("reading the page %s: %w", name, err)
	}
	var b strings.Builder
	if err := page.Execute(&b, data); err != nil {
		return fmt.Errorf("writing the page %s: %w", name, err)
	}
	if _, err := io.WriteString(w, b.String()); err != nil {
		return fmt.Errorf("writing the page %s: %w", name, err)
	}
	return nil
}
