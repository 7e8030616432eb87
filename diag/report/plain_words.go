package report

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"benchlead/diag/tree"
)

// sentence is the answer in a sentence; empty without an answer.
func (p plainly) sentence() string {
	switch {
	case p.value == "":
		return ""
	case p.seen:
		return titled(p.title, p.value)
	case p.judged == plainOpen:
		return titled(p.title, plainOpen)
	case p.judged == plainRight:
		return titled(p.title, p.verb+" "+p.value+", which is right")
	case p.judged == plainClose:
		return titled(p.title, fmt.Sprintf("%s %s, close to the limit of what is right: %s", p.verb, p.value, p.right))
	case p.right != "":
		return titled(p.title, fmt.Sprintf("%s %s, where %s is right", p.verb, p.value, p.right))
	}
	return titled(p.title, p.verb+" "+p.value)
}

// titled is what is asked with its answer, as a sentence.
func titled(title, answer string) string {
	answer = strings.TrimRight(answer, ". ")
	switch {
	case answer == "":
		return ""
	case strings.HasSuffix(title, "?"):
		return title + " " + sentenceStart(answer) + "."
	}
	return strings.TrimRight(title, ".: ") + ": " + tree.InSentence(answer) + "."
}

// sentenceStart is text with a capital letter in front.
func sentenceStart(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return strings.ToUpper(s[:1]) + s[1:]
	}
	return s
}

// plainDay writes a day as people do; what is no day stays as it is.
func plainDay(day string) string {
	at, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return at.Format("2 January 2006")
}

// plainGrades are the grades of parts for whoever pays for them.
var plainGrades = map[string]string{
	"original": "new, as the machine's maker supplies it", "aftermarket": "new, from another maker", "bin": "used, tested by us",
}

func plainGrade(grade string) string {
	if words, known := plainGrades[grade]; known {
		return words
	}
	return grade
}

// listedAnd joins names for a sentence.
func listedAnd(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(slices.Clone(names[:last]), ", ") + " and " + names[last]
}
