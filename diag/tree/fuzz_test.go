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
		"circuit: rig\nground: batt.neg\nstates: [{state: off, set: {key: a}}]\npositions: [{position: key, settings: [a, a]}, {position: key}]\n" +
			"values: [{value: v, words: {}}, {value: v, usual: v}, {value: open, usual: open, unit: V}]\n" +
			"parts: [{part: p, is: fuse, from: a, to: a, coil: {}}, {part: p, is: motor, ke: p.rpm}]\n" +
			"faults: [{fault: fuse.open, common: 0, ways: [{way: w, severity: {from: 1, to: 0}, set: {p.blown: was, v: x, p.: 1, .p: 1}}], holds: {when: p.amps > v}}]\n" +
			"shows: [{test: drop, choices: [x]}, {test: fuse_look, choices: [{choice: whole, all: [{}]}]}]\ncomplaints: [silent, {}]\nunmodelled: [{what: 'a: b', why: c}]\n",
	} {
		f.Add(odd)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file, issues := source.Open("faults/feed.yaml", []byte(text))
		if file != nil {
			files := []source.File{*file}
			for name, other := range texts {
				if name != "faults/feed.yaml" && (name != "systems/rig-circuit.yaml" || !strings.Contains(text, "circuit:")) {
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
