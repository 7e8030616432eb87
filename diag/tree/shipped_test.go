package tree

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

const shippedFolder = "../../trees"

// readFolder opens every YAML file below a folder, named as from that folder.
func readFolder(t testing.TB, folder string) ([]source.File, source.Issues) {
	t.Helper()
	var files []source.File
	var issues source.Issues
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".yaml") {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(folder, path)
		if err != nil {
			return err
		}
		f, is := source.Open(filepath.ToSlash(name), data)
		issues = append(issues, is...)
		if f != nil {
			files = append(files, *f)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files, issues
}

func rendered(files []source.File, issues source.Issues) string {
	var out strings.Builder
	for _, i := range issues.Sorted() {
		var file *source.File
		for k := range files {
			if files[k].Name == i.Place.File {
				file = &files[k]
			}
		}
		out.WriteString(i.Render(file))
	}
	return out.String()
}

func shipped(t testing.TB) []source.File {
	files, issues := readFolder(t, shippedFolder)
	if len(issues) > 0 {
		t.Fatal(issues.Error())
	}
	kept := files[:0]
	for _, f := range files {
		if !strings.HasPrefix(f.Name, "demo/") {
			kept = append(kept, f)
		}
	}
	return kept
}

// shippedOnce is what loading the shipped trees comes to, once for all tests: a library is
// never changed.
var shippedOnce = sync.OnceValues(func() (*Library, source.Issues) {
	files, issues := readFolder(discard{}, shippedFolder)
	if len(issues) > 0 {
		return nil, issues
	}
	return Load(slices.DeleteFunc(files, func(f source.File) bool { return strings.HasPrefix(f.Name, "demo/") }))
})

// discard is a test that is told nothing: what can't be read is an issue then.
type discard struct{ testing.TB }

func (discard) Helper() {}

func TestShippedTrees(t *testing.T) {
	files := shipped(t)
	lib, issues := Load(files)
	if len(issues) > 0 {
		t.Fatalf("%d issues in trees/:\n%s", len(issues), rendered(files, issues))
	}
	if len(lib.Systems) == 0 || len(lib.Trees) == 0 || len(lib.Repairs) == 0 {
		t.Fatal("trees/ holds no systems, trees or repairs")
	}
}

// A text with a comma that stands without quotes in [ ] falls apart into several,
// of which only the first begins like a sentence.
func TestNoSentenceOfARepairHasFallenApart(t *testing.T) {
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for id, r := range lib.Repairs {
		for _, says := range slices.Concat(r.Before, r.Steps, r.Off, r.Kept, r.Scrap, fastenings(r)) {
			first, _ := utf8.DecodeRuneInString(says)
			require.False(t, unicode.IsLower(first), "%s: %q is the rest of another", id, says)
		}
	}
	for id, p := range lib.Parts {
		for _, says := range p.BinNeeds {
			first, _ := utf8.DecodeRuneInString(says)
			require.False(t, unicode.IsLower(first), "%s: %q is the rest of another", id, says)
		}
	}
}

func fastenings(r *Repair) []string {
	var out []string
	for _, f := range r.Fasteners {
		out = append(out, f.What)
	}
	return out
}
