package repair

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/tree"
)

// NotShown are the part's needs that nothing shown meets, each with its number, why,
// and how its answer is written.
func NotShown(part *tree.Part, shown []string) []string {
	var out []string
	for i, need := range part.BinNeeds {
		if why := unmet(part, need, shown); why != "" {
			out = append(out, fmt.Sprintf("%d %s (%s; %s)", i+1, strings.TrimRight(need, "."), why, howShown(part, i)))
		}
	}
	return out
}

// howShown is how the answer to a need is written.
func howShown(part *tree.Part, i int) string {
	f, asks := part.BinFigures[part.BinNeeds[i]]
	switch {
	case !asks:
		return fmt.Sprintf("if it is so, write \"%d: yes\" and what was read", i+1)
	case f.Least > 0:
		return fmt.Sprintf("write \"%d:\" and what was read, as in %g %s", i+1, f.Least, f.Unit)
	}
	return fmt.Sprintf("write \"%d:\" and what was read, as in %g %s", i+1, f.Most, f.Unit)
}

// unmet says why a need is not met by what was shown; empty when it is. Whatever
// answers it has to meet it: a good answer does not undo a bad one.
func unmet(part *tree.Part, need string, shown []string) string {
	spoken := false
	for _, s := range shown {
		answer, ok := answerTo(s, need)
		if !ok {
			continue
		}
		spoken = true
		if why := unmetBy(part, need, answer); why != "" {
			return why
		}
	}
	if !spoken {
		return "nothing was said of it"
	}
	return ""
}

func unmetBy(part *tree.Part, need, answer string) string {
	if answer == "" {
		return "what was read is missing"
	}
	if word := denies.FindString(strings.ToLower(answer)); word != "" {
		return fmt.Sprintf("%q tells against it", word)
	}
	if f, asks := part.BinFigures[need]; asks {
		return outside(f, answer)
	}
	if !confirms.MatchString(answer) {
		return "it is not confirmed with yes"
	}
	return ""
}

// answerTo is what was shown for a need: what stands behind its words.
func answerTo(shown, need string) (answer string, ok bool) {
	words := strings.TrimRight(need, ".")
	if len(shown) < len(words) || !strings.EqualFold(shown[:len(words)], words) {
		return "", false
	}
	rest := shown[len(words):]
	if rest != "" && !strings.ContainsAny(rest[:1], ".:, ") {
		return "", false
	}
	return strings.Trim(rest, ".:, "), true
}

var (
	confirms = regexp.MustCompile(`(?i)^yes(?:[^\pL\pN]|$)`)
	// denies are words by which an answer says that a need is not met. Some stand in
	// good answers too; those are written with other words, which costs less than a
	// bad piece on the shelf.
	denies = regexp.MustCompile(`\b(?:no|not|never|none|nothing|without|below|under|less|fell|fall(?:s|en)?|drop(?:s|ped)?|dipped|sank|lost|once|twice|but|except|only|` +
		`almost|nearly|about|maybe|perhaps|unknown|untested|failed|fail(?:s)?|swollen|puffed|bulged|bulging|cracked|bent|broken|burnt|wet|leak(?:s|ed|ing)?|loose|rust(?:y|ed)?|dead|weak|bad)\b|n't\b`)
	figure = regexp.MustCompile(`([-+]?\d+(?:[.,]\d+)?)\s*([%\pL]+)`)
)

// outside says what is wrong with the figures in an answer; empty when each that has
// the unit lies where it must, and there is one.
func outside(f tree.NeedFigure, answer string) string {
	read := 0
	for _, m := range figure.FindAllStringSubmatch(answer, -1) {
		if !sameUnit(m[2], f.Unit) {
			continue
		}
		read++
		v, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64)
		switch {
		case err != nil || v < f.Least:
			return fmt.Sprintf("%s is below %g %s", m[0], f.Least, f.Unit)
		case v > f.Most:
			return fmt.Sprintf("%s is above %g %s", m[0], f.Most, f.Unit)
		}
	}
	switch {
	case read > 0:
		return ""
	case math.IsInf(f.Most, 1):
		return fmt.Sprintf("it names no reading of %g %s or more", f.Least, f.Unit)
	}
	return fmt.Sprintf("it names no reading of %g to %g %s", f.Least, f.Most, f.Unit)
}

// spelt are other spellings of a unit, as people write them.
var spelt = map[string][]string{
	"h": {"hour", "hours", "hrs", "H"}, "V": {"volt", "volts", "v"}, "%": {"percent"}, "Mohm": {"megohm", "megohms", "MΩ"},
}

// sameUnit keeps to the letters as they are: mohm is not Mohm.
func sameUnit(written, unit string) bool {
	return written == unit || slices.Contains(spelt[unit], written)
}
