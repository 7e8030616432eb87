package shape

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

// What is no YAML is told in our words, where the ¤ stands.
func TestWhatIsNoYAML(t *testing.T) {
	for _, c := range []struct {
		name, text string
		code       source.Code
		message    string
	}{
		{"nothing", "¤", CodeEmpty, "the file holds nothing"},
		{"only a remark", "¤# shed: s\n", CodeEmpty, "the file holds nothing"},
		{"only a mark", "¤---", CodeEmpty, "the file holds nothing"},
		{"two documents", "shed: s\n¤---\nshed: t\n", CodeSecondDocument, `a second document begins ("---"); a file holds one thing`},
		{"the second of two marks", "# first\n---\nshed: s\n¤---\nshed: t\n", CodeSecondDocument, `a second document begins ("---"); a file holds one thing`},
		{"colon", "shed: a¤: b\n", CodeSyntax, `a second ":" stands on this line`},
		{"open bracket", "tools: ¤[a, b\nshed: s\n", CodeSyntax, `a "[" is opened here and not closed`},
		{"open quote", "shed: ¤\"s\n", CodeSyntax, "a quote is opened here and not closed"},
		{"escape that isn't one", "shed: \"¤\\q\"\n", CodeSyntax, `a "\" in double quotes begins an escape that doesn't exist`},
		{"control character", "shed: s¤\x07\n", CodeSyntax, "the invisible control character U+0007 stands here"},
		{"not UTF-8", "shed: ¤\xff\n", source.CodeNotText, "the byte 0xFF is not UTF-8 text"},
		{"too big", "¤" + strings.Repeat("# much\n", source.MaxBytes/7+1), source.CodeTooBig, "the file has 1048579 bytes, more than the 1048576 that are read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, after, _ := strings.Cut(c.text, "¤")
			node, issues := Parse(&source.File{Name: "shed.yaml", Text: before + after})
			require.Nil(t, node)
			require.Len(t, issues, 1, "%v", issues)
			require.Equal(t, []any{c.code, c.message}, []any{issues[0].Code, issues[0].Message})
			lines := strings.Split(before, "\n")
			require.Equal(t, []int{len(lines), len([]rune(lines[len(lines)-1])) + 1}, []int{issues[0].Place.Line, issues[0].Place.Column})
		})
	}
}

func TestDeepNestingIsRefused(t *testing.T) {
	for _, text := range []string{
		"a: " + strings.Repeat("[", 20000) + strings.Repeat("]", 20000),
		strings.Repeat("- ", 20000) + "x",
		strings.Repeat("[", 1_000_000),
		strings.Repeat("a: {", 20000),
	} {
		_, issues := Parse(&source.File{Name: "x", Text: text})
		require.Len(t, issues, 1)
		require.Equal(t, "things are nested more than 50 deep here", issues[0].Message)
	}
}

// References to references would be nine to the twentieth words, were they followed.
func TestReferencesAreNotFollowed(t *testing.T) {
	var text strings.Builder
	text.WriteString("shed: s\ntools: &a0 [x, x, x, x, x, x, x, x, x]\n")
	for i := range 20 {
		refs := strings.TrimSuffix(strings.Repeat(fmt.Sprintf("*a%d, ", i), 9), ", ")
		fmt.Fprintf(&text, "more%d: &a%d [%s]\n", i, i+1, refs)
	}
	text.WriteString("plan: *a20\n")
	file := &source.File{Name: "x", Text: text.String()}
	node, issues := Parse(file)
	require.Empty(t, issues)
	r := form.Reader(file)
	var got shed
	r.Read(node, &got, "the file")
	require.Empty(t, got.Plan)
	aliases := 0
	for _, i := range r.Issues {
		if i.Code == CodeAlias {
			aliases++
		}
	}
	require.Equal(t, 1, aliases)
}

func TestAnEmptyFileIsToldHowToBegin(t *testing.T) {
	_, issues := form.Parse(&source.File{Name: "x"})
	require.Equal(t, "begin it with shed:", issues[0].Hint)
	_, issues = Parse(&source.File{Name: "x"})
	require.Equal(t, "write something in it", issues[0].Hint)
}

// Whatever the text, reading ends, and what is said is harmless and stands
// somewhere in the file.
func FuzzRead(f *testing.F) {
	for _, text := range []string{
		"shed: s\nabout: >\n a\n b\nsize: 1\nopen: yes\nrent: |\n a\n  + b\nplan: [a]\ntools: [a, {tool: b}]\nbins: {a: {holds: [b], label: c}}\nnext: {a: b}\n",
		"", "- a", "shed: &a [*a]", "<<: {}", "shed: !!set {a, b}", "[a, b]: c", "rent: 'it''s'", "---\n---\n", "\ufeffshed: é",
		"rent: \"a \\u0041\\\n b\"", "? a\n: b", "bins: {a: b, a: c}", "{shed: s, rent: a, b}",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file, refused := source.Open("shed.yaml", []byte(text))
		if file == nil {
			require.NotEmpty(t, refused)
			return
		}
		s, issues := read(t, file.Text)
		lines := strings.Count(file.Text, "\n") + 1
		for _, i := range issues {
			require.NotEmpty(t, i.Code)
			require.NotEmpty(t, i.Message)
			require.Equal(t, "shed.yaml", i.Place.File)
			require.True(t, i.Place.Line >= 1 && i.Place.Line <= lines, "%s", i)
			require.Equal(t, source.Clean(i.Render(nil)), i.Render(nil))
		}
		require.Equal(t, source.CleanLine(s.Shed.Text), s.Shed.Text)
		require.Equal(t, source.Clean(s.About.Text), s.About.Text)
	})
}
