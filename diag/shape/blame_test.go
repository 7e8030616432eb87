package shape

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

// The mistake is told where it was made, at the ¤, and not where reading ended.
func TestTheMistakeIsToldWhereItWasMade(t *testing.T) {
	const (
		nowhere = "and no line above that it can go on with is"
		quote   = "a quote is opened here and not closed"
		dashes  = `where the "-" of line 2 stands`
		keys    = `a "-" stands here where the keys of line 2 go on`
		space   = "a no-break space stands in front of this line"
	)
	for _, c := range []struct{ name, text, message, hint string }{
		{"too deep in an item", "a:\n  - test: x\n    title: T\n      ¤state: off\n    minutes: 1\n", nowhere, "4 spaces, as line 3"},
		{"a space too deep", "a:\n  - test: x\n    title: T\n     ¤state: off\n", nowhere, "4 spaces, as line 3"},
		{"too deep in keys", "a:\n  b: 1\n    ¤c: 2\n", nowhere, "2 spaces, as line 2"},
		{"too deep after braces", "a:\n  b: {c: d}\n    ¤c: {c: d}\n", nowhere, "2 spaces, as line 2"},
		{"too deep after braces of several lines", "a:\n  b: {c: d,\n        e: f}\n    ¤c: {c: d}\n", nowhere, "2 spaces, as line 2"},
		{"too deep after a block", "a:\n  b: |\n      say: more\n  c: 1\n    ¤d: 2\n", nowhere, "2 spaces, as line 4"},
		{"too shallow", "a:\n  - test: x\n    title: T\n   ¤state: off\n    minutes: 1\n", nowhere, "2 spaces, as line 2, or with 4 spaces, as line 3"},
		{"keys too shallow", "a:\n    b: 1\n  ¤c: 2\n", nowhere, "0 spaces, as line 1, or with 4 spaces, as line 2"},
		{"an item too deep", "a:\n  - {test: x}\n   ¤- {test: y}\n", nowhere, "2 spaces, as line 2"},
		{"under the dash", "a:\n  - test: x\n    title: T\n  ¤state: off\n", dashes, `4 spaces to go on with that item, or begin it with "- "`},
		{"a dash under the keys", "a:\n  - test: x\n    ¤- test: y\n", keys, `put the "-" under that of line 2, with 2 spaces`},
		{"a quote closed by the next", "a:\n  - test: ¤\"x\n    title: T\n    tell: \"say\"\n", quote, "add the closing quote"},
		{"an apostrophe below", "a: ¤'x\nb: y\nc: it's\nd: z\n", quote, "add the closing quote"},
		{"an apostrophe in single quotes", "a:\n  tell: 'Don¤'t read it warm.'\n  b: 1\n", "this apostrophe ends the text in single quotes", "write it twice"},
		{"an apostrophe in braces", "a:\n  - {b: c, tell: 'It¤'s hot.', d: e}\n", "this apostrophe ends the text in single quotes", "double quotes"},
		{"a quote in braces", "a: {b: ¤\"x, c: y}\nb: {c: \"z\"}\n", quote, "add the closing quote"},
		{"a quote of two lines is none", "a: \"x\n  y\"\nb: ¤[c, d\ne: f\n", `a "[" is opened here and not closed`, `add "]"`},
		{"truly a second colon", "a:\n  b: say¤: more\n", `a second ":" stands on this line`, "in quotes"},
		{"no-break space", "a:\n  - test: x\n   ¤\u00a0title: T\n", space, "plain spaces"},
		{"no-break space where YAML reads on", "a:\n¤\u00a0 b: T\n", space, "plain spaces"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, after, _ := strings.Cut(c.text, "¤")
			_, issues := Parse(&source.File{Name: "x.yaml", Text: before + after})
			require.Len(t, issues, 1)
			require.Contains(t, issues[0].Message, c.message)
			require.Contains(t, issues[0].Hint, c.hint)
			lines := strings.Split(before, "\n")
			require.Equal(t, []int{len(lines), len([]rune(lines[len(lines)-1])) + 1}, []int{issues[0].Place.Line, issues[0].Place.Column})
		})
	}
}

// What looks like part of a text and is read as a remark is told; a remark is not.
func TestATextThatARemarkCutsOffIsTold(t *testing.T) {
	var into struct {
		Title Word `yaml:"title"`
	}
	for text, lost := range map[string]bool{
		"title: The fuse #1\n": true, "title: The fuse # spare\n": false, "title: \"The fuse #1\"\n": false, "title: Fuse#1\n": false,
	} {
		file := &source.File{Name: "x.yaml", Text: text}
		node, issues := Parse(file)
		require.Empty(t, issues)
		r := NewReader(file, nil)
		r.Read(node, &into, "the file")
		if !lost {
			require.Empty(t, r.Issues, text)
			continue
		}
		require.Len(t, r.Issues, 1)
		require.Contains(t, r.Issues[0].Message, `"#1" is lost`)
		require.Equal(t, 1, r.Issues[0].Place.Line)
	}
}
