package report

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// MessageLength is how many characters a message has at most: three of the short
// messages of a telephone.
const MessageLength = 480

// Message is the job in a few plain sentences for the owner's telephone, without
// markup and on one line. What has no room is left out, sentence by sentence: what
// it costs and what the owner does now go last.
func Message(d Document) string {
	said := []struct {
		text  string
		worth int // the smallest is left out first
	}{
		{messageLead(d), 7},
		{messageStand(d), 6},
		{messageFound(d), 3},
		{messageAmiss(d), 3},
		{d.nextPlain(), 2},
		{messageDone(d), 2},
		{messageCost(d), 5},
		{messagePickUp(d), 4},
		{messageOpen(d), 1},
	}
	for least := 1; ; least++ {
		var kept []string
		for _, s := range said {
			if text := strings.TrimSpace(source.CleanLine(s.text)); text != "" && s.worth >= least {
				kept = append(kept, text)
			}
		}
		all := strings.Join(kept, " ")
		if utf8.RuneCountInString(all) <= MessageLength || len(kept) < 2 {
			return shorten(all, MessageLength)
		}
	}
}

// MessageText writes the message as a line of its own.
func MessageText(w io.Writer, d Document) error {
	if _, err := fmt.Fprintln(w, Message(d)); err != nil {
		return fmt.Errorf("writing the message: %w", err)
	}
	return nil
}

// shorten cuts a text to some characters.
func shorten(text string, most int) string {
	runes := []rune(strings.TrimSpace(source.CleanLine(text)))
	if len(runes) <= most {
		return string(runes)
	}
	return strings.TrimSpace(string(runes[:most-2])) + ".."
}

// messageLead is which machine, and first of all whether it must not be used.
func messageLead(d Document) string {
	name := shorten(about(d), 60)
	if len(d.NotToUse) == 0 {
		return fmt.Sprintf("%s, job %d:", name, d.Job)
	}
	return fmt.Sprintf("%s: %s, job %d. %s", notToUse, name, d.Job, shorten(d.NotToUse[0], 120))
}

func messageStand(d Document) string {
	switch job.Outcome(d.Outcome) {
	case job.Proved:
		return "It is repaired and tested."
	case job.NotProved:
		return "It is repaired, but not everything could be proved."
	case job.Unrepaired:
		if backUntested(d) {
			return "It was not repaired. Do not use it: its safety functions are not tested."
		}
		return "It was not repaired."
	case job.SoldAsIs:
		return "It is sold as it is, with the faults that are told."
	case job.PartedOut:
		return "It was taken apart for its parts."
	case job.Unsafe:
		return "It is not safe. Do not start it."
	}
	switch d.State {
	case StateParts:
		return "It waits for parts. We write when it is done."
	case StateRepair:
		return "It is being repaired. We write when it is done."
	case StateProof, StateReady:
		return "It is repaired and is being tested. We write when it is done."
	case StateTests:
		return "It is being tested. We write when we know more."
	}
	return ""
}

// backUntested says that a machine goes back unrepaired, and nobody knows whether its
// safety functions work.
func backUntested(d Document) bool {
	return job.Outcome(d.Outcome) == job.Unrepaired && slices.ContainsFunc(d.Safety, func(l SafetyLine) bool { return l.State == SafetyOpen })
}

// messageFound names what was found, and apart from it what is in doubt.
func messageFound(d Document) string {
	sure, doubted := d.found()
	text := ""
	if len(sure) > 0 {
		text = "Found: " + strings.Join(sure, "; ") + "."
	}
	if len(doubted) > 0 {
		text += " Not sure yet: " + strings.Join(doubted, "; ") + "."
	}
	return strings.TrimSpace(text)
}

func messageDone(d Document) string {
	var titles []string
	for _, r := range d.repairs() {
		if r.Done {
			titles = append(titles, tree.InSentence(r.Title))
		}
	}
	if len(titles) == 0 || d.Outcome == "" {
		return ""
	}
	return "Done: " + strings.Join(titles, "; ") + "."
}

// messageCost is what it comes to, or would.
func messageCost(d Document) string {
	switch {
	case d.Outcome == "" && d.State == StateApproval && d.Work == nil:
		return phoneNext(d)
	case d.Outcome == "" && d.State == StateApproval:
		return asksFor(d)
	case d.Outcome == "" && d.State == StateRefused:
		return "You did not approve the estimate. Please call us: shall it go back as it is?"
	case d.Outcome == string(job.PartedOut) || d.sale():
		return ""
	case len(d.billed()) == 0 && d.Outcome != "":
		return notMade(d)
	case d.Outcome == "":
		return ""
	}
	if total, currency, ok := totalOf(due(d)); ok {
		return "To pay: " + exact(total, currency) + taxWord(due(d)) + "."
	}
	return "Ask us what is to pay."
}

// due is the document with the paths alone whose quote is due.
func due(d Document) Document {
	billed := d.billed()
	d.Work, d.Earlier = nil, nil
	if n := len(billed); n > 0 {
		d.Work, d.Earlier = &billed[n-1], billed[:n-1]
	}
	return d
}

// asksFor asks the owner to approve the path that was chosen.
func asksFor(d Document) string {
	var titles []string
	for _, r := range d.Work.Repairs {
		titles = append(titles, tree.InSentence(r.Title))
	}
	what := strings.Join(titles, "; ")
	total, currency, ok := totalOf(d)
	if !ok {
		return "We propose: " + what + ". May we? Please answer yes or no."
	}
	text := fmt.Sprintf("We propose: %s. It comes to %s%s.", what, exact(total, currency), taxWord(d))
	if last := lastAsked(d); last != nil && d.Work.Above {
		text += " That is more than the " + last.Ceiling + " you approved."
	}
	return text + " May we? Please answer yes or no."
}

// messagePickUp says what the owner does now.
func messagePickUp(d Document) string {
	switch job.Outcome(d.Outcome) {
	case job.Proved, job.NotProved, job.Unrepaired:
		if len(d.NotToUse) > 0 {
			return "Please call us before you pick it up."
		}
		return fmt.Sprintf("You can pick it up. Please bring this number: %d.", d.Job)
	case job.Unsafe:
		return "Please call us before you pick it up."
	}
	return ""
}

// messageOpen says how much was not tested.
func messageOpen(d Document) string {
	n := len(notTested(d).Items)
	switch {
	case n == 0 || d.Outcome == string(job.PartedOut) || d.Outcome == "" && d.State != StateApproval:
		return ""
	case n == 1:
		return "One possible fault was not tested for."
	}
	return fmt.Sprintf("%d possible faults were not tested for; the report names them.", n)
}
