package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"benchlead/diag/tree"
)

// aboutLabel says of a question for a rated value where its answer stands.
const aboutLabel = "It stands on a sticker or in the papers. Without it the usual value is taken, and the verdict says so."

// about says where a rated value stands, or how it is told where nothing is printed.
func about(field tree.LabelField) string {
	if field.Tell == "" {
		return aboutLabel
	}
	return strings.TrimSuffix(field.Tell, ".") + ". Not known, the usual value is taken, and the verdict says so."
}

// numberIn is what is typed for a rated value.
func numberIn(unit string) string {
	if unit == "" {
		return "a number"
	}
	return "a number, in " + unit
}

// inDays says whether a question counts in days.
func inDays(field tree.LabelField) bool { return slices.Contains(tokens(field.Ask), "days") }

// aNight says how a night is written where days are asked for.
func aNight(field tree.LabelField) string {
	if inDays(field) {
		return "; a night is 1"
	}
	return ""
}

// bareNumber is a rated value without what people write behind it: its unit, or the word
// that the question itself counts in ("1 day" where days are asked for).
func bareNumber(field tree.LabelField, text string) string {
	text = strings.TrimSpace(text)
	asked := tokens(field.Ask)
	if inDays(field) && slices.Contains([]string{"overnight", "a night", "one night", "1 night"}, strings.ToLower(text)) {
		return "1"
	}
	at := strings.LastIndexFunc(text, func(r rune) bool { return unicode.IsDigit(r) || r == '.' || r == ',' }) + 1
	number, word := text[:at], strings.ToLower(strings.TrimSpace(text[at:]))
	switch {
	case number == "" || word == "":
		return text
	case strings.EqualFold(word, field.Unit), word == "%" && slices.Contains(asked, "percent"):
		return number
	case len(word) > 2 && slices.ContainsFunc(asked, func(a string) bool { return a == word || a == word+"s" }):
		return number
	}
	return text
}

// labelNumber reads a rated value; its unit may stand behind it.
func labelNumber(field tree.LabelField, text string) (float64, error) {
	number := bareNumber(field, text)
	v, err := strconv.ParseFloat(strings.Replace(number, ",", ".", 1), 64)
	unit := field.Unit
	if unit != "" {
		unit = " " + unit
	}
	if err != nil {
		return 0, fmt.Errorf("write a number, for example %s%s", trim(max(field.Least, min(field.Most, 12))), unit)
	}
	if field.Most > field.Least && !(v >= field.Least && v <= field.Most) {
		return 0, fmt.Errorf("%s%s can't be right here; %s to %s%s is possible%s", trim(v), unit, trim(field.Least), trim(field.Most), unit, aNight(field))
	}
	return v, nil
}
