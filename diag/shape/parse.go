package shape

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"benchlead/diag/source"
)

// deepest is how far things may be nested in a file. Ours need eight.
const deepest = 50

// Parse reads the text as one YAML document. What it reports is that the text
// isn't YAML; what the YAML means comes later.
func Parse(file *source.File) (*yaml.Node, source.Issues) {
	var node yaml.Node
	if !utf8.ValidString(file.Text) || len(file.Text) > source.MaxBytes {
		_, issues := source.Open(file.Name, []byte(file.Text))
		return nil, issues
	}
	if at, odd := oddIndent(file); odd {
		return nil, source.Issues{{
			Code: CodeSyntax, Place: at, Message: "a no-break space stands in front of this line; it looks like a space and is none",
			Hint: "delete what stands in front of the line, and indent it with plain spaces",
		}}
	}
	limits := loaderlimits.New(loaderlimits.DepthValue(deepest))
	err := yaml.Load([]byte(file.Text), &node, yaml.WithPlugin(limits))
	if err != nil {
		return nil, source.Issues{syntax(file, err)}
	}
	if node.Kind != yaml.DocumentNode || len(node.Content) != 1 {
		return nil, source.Issues{empty(file)}
	}
	top := node.Content[0]
	if top.Kind == yaml.ScalarNode && top.Value == "" && top.Tag == "!!null" { // only a "---"
		return nil, source.Issues{empty(file)}
	}
	return top, nil
}

func empty(file *source.File) source.Issue {
	return source.Issue{
		Code: CodeEmpty, Place: file.At(1, 1, 0),
		Message: "the file holds nothing", Hint: "write something in it",
	}
}

// syntax puts an error of the YAML reader in our own words.
func syntax(file *source.File, err error) source.Issue {
	message, mark, context := err.Error(), yaml.Mark{}, yaml.Mark{}
	var one *yaml.LoadError
	var many *yaml.LoadErrors
	switch {
	case errors.As(err, &many) && len(many.Errors) > 0:
		message, mark, context = many.Errors[0].Message, many.Errors[0].Mark, many.Errors[0].ContextMark
	case errors.As(err, &one):
		message, mark, context = one.Message, one.Mark, one.ContextMark
	}
	switch {
	case strings.Contains(message, "no documents"):
		return empty(file)
	case strings.Contains(message, "multiple"):
		return secondDocument(file)
	case strings.Contains(message, "control characters"):
		return controlCharacter(file)
	}
	is := source.Issue{Code: CodeSyntax, Place: placed(file, mark)}
	if at, found := apostrophe(file, is.Place.Line); found {
		is.Place, is.Message, is.Hint = at, "this apostrophe ends the text in single quotes", "write it twice (''), or put the text in double quotes"
		return is
	}
	if at, found := leftOpen(file, is.Place.Line); found {
		is.Place, is.Message, is.Hint = at, "a quote is opened here and not closed", "add the closing quote; one inside a text in quotes is written \\\" (or twice, in single quotes)"
		return is
	}
	if misplaced(file, message, is.Place) {
		if at, said, hint := indented(file, is.Place.Line); said != "" {
			is.Place, is.Message, is.Hint = at, said, hint
			return is
		}
	}
	for _, s := range spoken {
		if strings.Contains(message, s.theirs) {
			is.Message, is.Hint = s.ours, s.hint
			if s.opened && context.Line > 0 {
				is.Place = placed(file, context)
			}
			return is
		}
	}
	is.Message = "this can't be read as YAML: " + source.CleanLine(message)
	return is
}

// spoken are the reader's messages that people meet, and ours. opened: the
// mistake is where the thing began, not where the reader gave up.
var spoken = []struct {
	theirs, ours, hint string
	opened             bool
}{
	{"tab character", "a tab is used to indent", "indent with spaces", false},
	{"cannot start any token", "this character can't begin a text", `put the text in quotes: "..."; in place of a tab, use spaces`, false},
	{"mapping values are not allowed", `a second ":" stands on this line`, `put the text in quotes: "..."`, false},
	{"expected ',' or ']'", `a "[" is opened here and not closed`, `add "]", and commas between the items`, true},
	{"expected ',' or '}'", `a "{" is opened here and not closed`, `add "}", and commas between the items`, true},
	{"unexpected end of stream", "a quote is opened here and not closed", `add the closing quote`, true},
	{"expected key", "this line is indented differently from its neighbours", "line it up with the keys it belongs to; if it is, a quote or a bracket is open above", false},
	{"expected '-' indicator", "this line is indented differently from its neighbours", `line it up with the keys or the "-" it belongs to; if it is, a quote or a bracket is open above`, false},
	{"could not find expected ':'", `a ":" is missing after the key on this line`, "write: key: value", false},
	{"unknown escape character", `a "\" in double quotes begins an escape that doesn't exist`, `write "\\", or use single quotes`, false},
	{"depth", fmt.Sprintf("things are nested more than %d deep here", deepest), "nothing in these files needs more than ten", false},
	{"undefined alias", `"*" begins a reference, and these files have none`, "write the text out in full, in quotes if it begins with *", false},
	{"unknown anchor", `"*" begins a reference, and these files have none`, "write the text out in full, in quotes if it begins with *", false},
	{"expected node content", "something is missing here", `close the "[" or "{" that was opened before, or take it away`, false},
	{"block entries are not allowed", `a "-" can't stand here`, "begin the list on the line below its key", false},
}

// misplaced says whether the reader's message may come of a line that begins in the
// wrong column. A ":" does so only when it ends the first key of its line.
func misplaced(file *source.File, message string, at source.Place) bool {
	if strings.Contains(message, "expected key") || strings.Contains(message, "expected '-' indicator") {
		return true
	}
	if !strings.Contains(message, "mapping values are not allowed") {
		return false
	}
	line := []rune(strings.Split(file.Text, "\n")[at.Line-1])
	return !strings.Contains(string(line[:min(at.Column-1, len(line))]), ": ")
}

// oddIndent finds a space in front of a line that is none to YAML.
func oddIndent(file *source.File) (source.Place, bool) {
	for i, line := range strings.Split(file.Text, "\n") {
		text := strings.TrimLeft(line, " ")
		if strings.HasPrefix(text, "\u00a0") {
			return file.At(i+1, len(line)-len(text)+1, 1), true
		}
	}
	return source.Place{}, false
}

func placed(file *source.File, mark yaml.Mark) source.Place {
	line, column := max(mark.Line, 1), max(mark.Column, 1)
	if last := strings.Count(file.Text, "\n") + 1; line > last {
		line = last
	}
	return file.At(line, column, 0)
}

// secondDocument finds the second "---": the reader doesn't say where it is.
func secondDocument(file *source.File) source.Issue {
	is := source.Issue{
		Code:    CodeSecondDocument,
		Message: `a second document begins ("---"); a file holds one thing`,
		Hint:    "move what follows into a file of its own",
	}
	begun := false
	for i, line := range strings.Split(file.Text, "\n") {
		if strings.HasPrefix(line, "---") && begun {
			is.Place = file.At(i+1, 1, 3)
			return is
		}
		text := strings.TrimSpace(line)
		begun = begun || strings.HasPrefix(line, "---") || text != "" && text[0] != '#' && text[0] != '%'
	}
	is.Place = file.At(1, 1, 0)
	return is
}

func controlCharacter(file *source.File) source.Issue {
	is := source.Issue{
		Code: CodeSyntax, Place: file.At(1, 1, 0),
		Message: "an invisible control character stands here", Hint: "delete it",
	}
	for i, line := range strings.Split(file.Text, "\n") {
		column := 0
		for _, r := range line {
			column++
			if r < ' ' && r != '\t' || r >= 0x7F && r < 0xA0 && r != 0x85 || r == 0xFFFE || r == 0xFFFF {
				is.Place = file.At(i+1, column, 1)
				is.Message = fmt.Sprintf("the invisible control character U+%04X stands here", r)
				return is
			}
		}
	}
	return is
}
