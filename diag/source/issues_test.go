package source_test

import (
	"strings"
	"testing"

	"benchlead/diag/source"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
)

func issue(file string, line, column int, code, message string) source.Issue {
	return source.Issue{
		Code: source.Code(code), Message: message,
		Place: source.Place{File: file, Line: line, Column: column},
	}
}

func TestIssuesAreSortedAndOnlyOnce(t *testing.T) {
	given := source.Issues{
		issue("b", 1, 1, "x", "one"), issue("a", 2, 1, "x", "one"), issue("a", 1, 9, "x", "one"),
		issue("a", 1, 2, "y", "one"), issue("a", 1, 2, "x", "two"), issue("a", 1, 2, "x", "one"),
		issue("a", 2, 1, "x", "one"), issue("a", 10, 1, "x", "one"),
	}
	before := given[0]
	require.EqualError(t, given.Err(), strings.Join([]string{
		"a:1:2: one [x]", "a:1:2: two [x]", "a:1:2: one [y]", "a:1:9: one [x]", "a:2:1: one [x]", "a:10:1: one [x]", "b:1:1: one [x]",
	}, "\n"))
	require.Len(t, given.Sorted(), 7)
	require.Equal(t, before, given[0], "the issues given stay as they were")
	require.NoError(t, source.Issues{}.Err())
	require.NoError(t, source.Issues(nil).Err())
}

func TestPlacesInWords(t *testing.T) {
	require.Equal(t, "t.yaml:3:4", source.Place{File: "t.yaml", Line: 3, Column: 4}.String())
	require.Equal(t, "t.yaml", source.Place{File: "t.yaml"}.String())
	require.Equal(t, "3:4", source.Place{Line: 3, Column: 4}.String())
	require.Equal(t, "t x.yaml:3:4", source.Place{File: "\x1b[31mt\nx.yaml", Line: 3, Column: 4}.String())
}

func TestRender(t *testing.T) {
	for _, c := range []struct {
		name, line   string
		column, long int
		shown        string
	}{
		{"plain", "below: 12,5 volts", 8, 4, "    below: 12,5 volts\n           ^^^^\n"},
		{"length 0 marks one", "below", 2, 0, "    below\n     ^\n"},
		{"after a tab", "a\tbc", 3, 2, "    a   bc\n        ^^\n"},
		{"on a tab", "a\tbc", 2, 1, "    a   bc\n     ^^^\n"},
		{"after wide characters", "漢字 x", 4, 1, "    漢字 x\n         ^\n"},
		{"on wide characters", "漢字 x", 1, 2, "    漢字 x\n    ^^^^\n"},
		{"after a combining accent", "e\u0301 x", 4, 1, "    e\u0301 x\n      ^\n"},
		{"at the end of the line", "abc", 4, 1, "    abc\n       ^\n"},
		{"beyond the line", "abc", 9, 5, "    abc\n       ^\n"},
		{"longer than the line", "abc", 2, 99, "    abc\n     ^^\n"},
		{"an escape", "a\x1b[31mb", 7, 1, "    a\uFFFD[31mb\n          ^\n"},
		{"an empty line", "", 1, 1, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := &source.File{Name: "t", Text: "first\n" + c.line + "\nlast"}
			i := source.Issue{Code: "x", Message: "wrong", Hint: "write it right", Place: f.At(2, c.column, c.long)}
			head := strings.Split(i.Render(nil), "\n")[0]
			require.Equal(t, head+"\n"+c.shown+"  hint: write it right\n", i.Render(f))
		})
	}
}

func TestRenderOfALongLine(t *testing.T) {
	line := strings.Repeat("a", 300) + "BAD" + strings.Repeat("z", 300)
	f := &source.File{Name: "t", Text: line}
	shown := source.Issue{Code: "x", Message: "wrong", Place: f.At(1, 301, 3)}.Render(f)
	lines := strings.Split(shown, "\n")
	require.Equal(t, "t:1:301: wrong [x]", lines[0])
	require.Regexp(t, `^    \.\.\.a+BADz+\.\.\.$`, lines[1])
	require.LessOrEqual(t, ansi.StringWidth(lines[1]), 110)
	require.GreaterOrEqual(t, ansi.StringWidth(lines[1]), 95)
	at := strings.Index(lines[2], "^^^")
	require.Equal(t, "BAD", lines[1][at:at+3])
	require.Equal(t, strings.TrimSpace(lines[2]), "^^^")

	for _, column := range []int{1, 2, 99, 101, 600, 603, 604, 9999} {
		lines := strings.Split(source.Issue{Place: f.At(1, column, 1000)}.Render(f), "\n")
		require.LessOrEqual(t, ansi.StringWidth(lines[1]), 110, column)
		require.LessOrEqual(t, ansi.StringWidth(lines[2]), 110, column)
		require.Contains(t, lines[2], "^", column)
	}
}

func TestRenderIsHarmless(t *testing.T) {
	f := &source.File{Name: "\x1b]0;t\a", Text: "\x1b[2J\u202Eb\u009b31m\rc"}
	i := source.Issue{Code: "x\n", Message: "bad\x1b[31m\nthing", Hint: "no\x07\nne", Place: f.At(1, 3, 2)}
	shown := i.Render(f)
	require.NotRegexp(t, "[\x00-\x09\x0b-\x1f\x7f\u0080-\u009f\u202e]", shown)
	require.Equal(t, 4, strings.Count(shown, "\n"), shown)
}

func TestNearest(t *testing.T) {
	known := []string{"label.cells", "label.pack_volts", "pack_rest", "pack_held", "min", "max"}
	for name, want := range map[string]string{
		"lable.cells":                     "label.cells", // two swapped
		"label.cell":                      "label.cells",
		"cells":                           "label.cells", // prefix left out
		"pack-rest":                       "pack_rest",
		"Pack_Rest":                       "pack_rest",
		"packrest":                        "pack_rest",
		"mix":                             "max", // max and min are as near: the first by alphabet
		"mn":                              "min",
		"bogus":                           "",
		"x":                               "",
		"":                                "",
		"pack":                            "",
		strings.Repeat("pack_rest", 1000): "",
	} {
		require.Equal(t, want, source.Nearest(name, known), name)
	}
	require.Empty(t, source.Nearest("a", nil))
}
