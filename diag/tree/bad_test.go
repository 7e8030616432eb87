package tree

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

var update = flag.Bool("update", false, "write the .want files anew")

const badFolder = "../../testdata/bad"

// minimalTexts is the small good library, by name.
func minimalTexts(t testing.TB) map[string]string {
	files, issues := readFolder(t, minimalFolder)
	require.Empty(t, issues)
	texts := map[string]string{}
	for _, f := range files {
		texts[f.Name] = f.Text
	}
	return texts
}

// change lays a .change file over the texts.
func change(t *testing.T, texts map[string]string, script string) {
	t.Helper()
	name, was, is := "", []string{}, []string{}
	flush := func() {
		if old := strings.Join(was, ""); old != "" {
			require.Equal(t, 1, strings.Count("\n"+texts[name], "\n"+old), "the lines\n%s must stand in %s once", old, name)
			texts[name] = strings.Replace("\n"+texts[name], "\n"+old, "\n"+strings.Join(is, ""), 1)[1:]
		} else if len(is) > 0 {
			texts[name] = strings.Join(is, "")
		}
		was, is = nil, nil
	}
	for line := range strings.Lines(script) {
		switch line[0] {
		case '@':
			flush()
			words := strings.Fields(line[1:])
			name = words[0]
			if len(words) > 1 && words[1] == "gone" {
				delete(texts, name)
			}
		case '-':
			if len(is) > 0 {
				flush()
			}
			was = append(was, line[1:])
		case '+':
			is = append(is, line[1:])
		case '#':
		default:
			t.Fatalf("a line of a change must begin with @ - + or #: %q", line)
		}
	}
	flush()
}

// told opens and loads the texts, and is what a person is then told.
func told(texts map[string]string) string {
	var files []source.File
	var issues source.Issues
	for name, text := range texts {
		f, is := source.Open(name, []byte(text))
		issues = append(issues, is...)
		if f != nil {
			files = append(files, *f)
		}
	}
	if len(issues) > 0 {
		return rendered(files, issues)
	}
	_, issues = Load(files)
	return rendered(files, issues)
}

func TestBadTrees(t *testing.T) {
	changes, err := filepath.Glob(filepath.Join(badFolder, "*.change"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(changes), 36)
	for _, path := range changes {
		name := strings.TrimSuffix(filepath.Base(path), ".change")
		t.Run(name, func(t *testing.T) {
			script, err := os.ReadFile(path)
			require.NoError(t, err)
			texts := minimalTexts(t)
			change(t, texts, string(script))
			compareWant(t, name, told(texts))
		})
	}
}

// compareWant compares with NAME.want, or writes it.
func compareWant(t *testing.T, name, got string) {
	t.Helper()
	require.NotEmpty(t, got, "nothing was reported")
	want := filepath.Join(badFolder, name+".want")
	if *update {
		require.NoError(t, os.WriteFile(want, []byte(got), 0o644))
		return
	}
	text, err := os.ReadFile(want)
	require.NoError(t, err)
	require.Equal(t, string(text), got)
	requireHarmless(t, got)
}

func requireHarmless(t *testing.T, text string) {
	t.Helper()
	require.NotContains(t, text, "\x1b")
	require.Equal(t, source.Clean(text), text)
}

// Files that are too large or too odd to lie in the folder.
func TestBadBytes(t *testing.T) {
	for _, c := range []struct{ name, text string }{
		{"bytes-not-utf8", "tree: feed\ntitle: caf\xe9\n"},
		{"bytes-too-many", "tree: feed\n" + strings.Repeat("# much\n", source.MaxBytes/7)},
		{"bytes-20000-deep", "tree: " + strings.Repeat("[", 20000) + strings.Repeat("]", 20000) + "\n"},
		{"bytes-20000-deep-unclosed", "tree: " + strings.Repeat("{a: ", 20000) + "\n"},
		{"bytes-20000-deep-block", "tree:\n" + deepBlock(20000)},
	} {
		t.Run(c.name, func(t *testing.T) {
			texts := minimalTexts(t)
			texts["faults/feed.yaml"] = c.text
			compareWant(t, c.name, told(texts))
		})
	}
}

// deepBlock nests block sequences on one line, which costs no room.
func deepBlock(levels int) string { return strings.Repeat("- ", levels) + "x\n" }

func TestMarksThatAreNoMistake(t *testing.T) {
	texts := minimalTexts(t)
	for name, text := range texts {
		texts[name] = "\uFEFF---\n" + strings.ReplaceAll(text, "\n", "\r\n")
	}
	require.Empty(t, told(texts), "a byte-order mark, a document mark and CRLF are all right")
}

// What was loaded is the same whatever order the files came in.
func TestOrderOfFilesIsNothing(t *testing.T) {
	files, _ := readFolder(t, minimalFolder)
	one, issues := Load(files)
	require.Empty(t, issues)
	slices.Reverse(files)
	other, issues := Load(files)
	require.Empty(t, issues)
	require.Equal(t, one.Digest, other.Digest)
	require.Len(t, one.Digest, 64)
	files[0].Text += "# more\n"
	other, _ = Load(files)
	require.NotEqual(t, one.Digest, other.Digest)
}

// Every kind of mistake has an example that a person can look at.
func TestEveryCodeIsShown(t *testing.T) {
	wants, err := filepath.Glob(filepath.Join(badFolder, "*.want"))
	require.NoError(t, err)
	var all strings.Builder
	for _, path := range wants {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		all.Write(text)
	}
	for _, file := range []string{"codes.go", "../shape/codes.go"} {
		codes, err := os.ReadFile(file)
		require.NoError(t, err)
		found := regexp.MustCompile(`= "([a-z-]+)"`).FindAllStringSubmatch(string(codes), -1)
		require.NotEmpty(t, found)
		for _, code := range found {
			require.True(t, strings.Contains(all.String(), "["+code[1]+"]"), code[1])
		}
	}
	for _, sort := range []string{
		"basis", "caution", "complaint", "fault", "part", "point", "point-or-joint", "position", "safe-item", "service", "setup", "shared-file", "state", "step", "system", "test", "tree", "value", "work",
	} {
		require.True(t, strings.Contains(all.String(), "[unknown-"+sort+"]"), sort)
	}
}
