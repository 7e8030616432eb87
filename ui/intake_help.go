package ui

import (
	"fmt"
	"strconv"
	"strings"

	"benchlead/diag/tree"
)

// cantTell is the choice of who does not know.
const cantTell = "can't tell"

// Explain says how a choice is recognised, for "3?", or how all of them are told apart,
// for the choice of who can't tell; false when nothing of that is asked.
func (q Question) Explain(text string) ([]string, bool) {
	text = strings.TrimSpace(text)
	if q.Unsure != "" && (text == q.Unsure || strings.EqualFold(text, cantTell)) {
		return q.apart(), true
	}
	number, asked := strings.CutSuffix(text, "?")
	n, err := strconv.Atoi(strings.TrimSpace(number))
	if !asked || err != nil || n < 1 || n > len(q.Tells) {
		return nil, false
	}
	return []string{q.Tells[n-1]}, true
}

// apart says how each choice is recognised, and what to do when none is.
func (q Question) apart() []string {
	var out []string
	if len(q.Tells) > 0 {
		out = append(out, "How each is recognised:")
	}
	for i, tell := range q.Tells {
		out = append(out, fmt.Sprintf("  %d  %s", i+1, tell))
	}
	if q.Nearest != "" {
		out = append(out, q.Nearest)
	}
	return out
}

// Help explains a question: what it is asked for, the usual mistake, how it is answered,
// and how its choices are told apart.
func (q Question) Help() []string {
	var out []string
	for _, l := range []struct{ head, text string }{
		{"What it is for: ", q.About}, {"What to do: ", q.answered()}, {"The usual mistake: ", q.Mistake},
	} {
		if l.text != "" {
			out = append(out, l.head+l.text)
		}
	}
	return append(out, q.apart()...)
}

// answered says how a question is answered.
func (q Question) answered() string {
	out := "Type " + q.Ask + ", then Enter."
	switch {
	case q.Default != "":
		out += " Not known: Enter alone, and it is taken as: " + q.Default + "."
	case q.Unsure != "":
		out += " Can't tell: type " + q.Unsure + "."
	}
	if len(q.Tells) > 0 {
		out += " A number and ? says how that one is recognised, as 1?."
	}
	return out
}

// unsure adds the choice of who can't tell to the choices of a question that needs an
// answer. nearest is what to do when nothing is recognised.
func (q Question) unsure(nearest string) Question {
	q.Unsure, q.Nearest = fmt.Sprint(len(q.Choices)+1), nearest
	q.Choices = append(q.Choices, q.Unsure+" "+cantTell+": show how")
	if len(q.titles) > 0 {
		q.titles = append(q.titles, cantTell)
	}
	return q
}

// The mistakes people make at intake. Common practice, without a source.
const (
	mistakeTrouble = "Writing down what the owner thinks is broken. What the machine does is asked."
	mistakeMachine = "Going by the colour or the name on the hood. Look how it starts and charges, and at the pack or battery."
	mistakeHistory = "Not asking. A battery swapped, a wash or a jump start just before is worth more than a reading."
	mistakeLabel   = "Typing a figure from memory, or from another machine. A limit that rests on it then condemns a good part. Enter alone is honest."
	mistakeCelsius = "The weather outside. What counts is what the battery and the meter have had for some hours."
	mistakeMeter   = "Choosing the best of the list. A reading near a limit is then called surer than it is."
	mistakeWorth   = "What was paid for it. What it fetches today, running, is asked."
	mistakeWords   = "Leaving it out. Two like machines on one bench are mixed up in a week."
)

// nearestMachine is what to do when no machine of the list is recognised.
const nearestMachine = "None of them: go back and look by a word of what is wrong. Not covered here, as fuel injection or an inverter generator: it needs its maker's procedure."

// nearestComplaint is what to do when it is not known what the machine does.
const nearestComplaint = "Ask whoever used it last. Nobody knows: take what comes nearest, or a check over where there is one. It is not tried out for this: the first steps look before anything is started. A complaint that is a little off costs minutes and no verdict: the walk goes by what is read, and says what it did not test."

// cantTellOption is the choice of a label field whose words have none for who does not
// know.
func cantTellOption(field tree.LabelField) (choice string, ok bool) {
	for _, o := range field.Options {
		if o == "unknown" {
			return "", false
		}
	}
	return fmt.Sprintf("%d %s: %s", len(field.Options)+1, cantTell, byType(field.Word)), true
}

// saysCantTell says whether an answer to a label field is that choice.
func saysCantTell(field tree.LabelField, text string) bool {
	_, ok := cantTellOption(field)
	return ok && (text == fmt.Sprint(len(field.Options)+1) || strings.EqualFold(text, cantTell))
}
