package tree

import (
	"strings"
	"testing"

	"benchlead/diag/source"
)

// Whatever a tree file holds, loading ends, and says something harmless at a
// place in a file that was given.
func FuzzLoad(f *testing.F) {
	texts := minimalTexts(f)
	for _, text := range texts {
		f.Add(text)
	}
	for _, odd := range []string{
		"", "tree: x", "- a", "tree: {a: [b, {c: d}]}", "steps:\n  a: {test: b}\ntree: t\n", "tree: &a [*a]\n",
		"tree: t\nbegin: a\nsteps: {a: {walk: t, then: {shown: a, cleared: a, unsure: a}}}\n",
		"tree: |\n  x\n\n   y\nsteps: !!set {a, b}\n", "system: s\nlabel: [{field: f, default: 'it''s'}]\n", "---\n---\n",
		"system: s\ntests: [{test: t, from: >\n a\n b}]\n", "\ufeffsystem: é\n",
	} {
		f.Add(odd)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file, issues := source.Open("faults/feed.yaml", []byte(text))
		if file != nil {
			files := []source.File{*file}
			for name, other := range texts {
				if name != "faults/feed.yaml" {
					files = append(files, source.File{Name: name, Text: other})
				}
			}
			_, issues = Load(files)
		}
		for _, i := range issues {
			if _, known := texts[i.Place.File]; !known || i.Code == "" || i.Message == "" {
				t.Fatalf("an issue without place, code or message: %+v", i)
			}
			if shown := i.Render(file); shown != source.Clean(shown) || strings.Contains(shown, "\x1b") {
				t.Fatalf("not harmless: %q", shown)
			}
		}
	})
}
