package report

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// mostNames is how many names a sentence lists before it only counts.
const mostNames = 6

// Sentence is a verdict in one to three plain sentences: what was found and
// what that means, what was not or can't yet be tested, and which label values
// were assumed. complaint is the id of the complaint of the job. It is harmless to
// print.
func Sentence(v walk.Verdict, sys *tree.System, complaint string) string {
	parts := []string{foundSentence(v)}
	if s := noneOfThem(v, sys, complaint); s != "" {
		parts = append(parts, s)
	}
	if s := openSentence(v); s != "" {
		parts = append(parts, s)
	}
	if s := defaultSentence(v, sys); s != "" {
		parts = append(parts, s)
	}
	return source.CleanLine(strings.Join(parts, " "))
}

func foundSentence(v walk.Verdict) string {
	var found []string
	for _, f := range v.Found {
		text := tree.InSentence(f.Fault.Title)
		if says := strings.TrimRight(f.Fault.Says, ". "); says != "" {
			text += " (" + says + ")"
		}
		found = append(found, text)
	}
	switch {
	case len(found) > 0:
		return "Found: " + strings.Join(found, "; ") + "."
	case len(v.Masked)+len(v.Untested) == 0:
		return "No fault was found, and every fault on the list is ruled out."
	case v.Finished:
		return "No fault was found."
	}
	return "No fault is shown yet."
}

// noneOfThem says, once every fault of the system is ruled out, by which tests that was
// shown. While one is open nobody knows yet that it is not that one.
func noneOfThem(v walk.Verdict, sys *tree.System, complaint string) string {
	if !v.Finished || len(v.Found)+len(v.Masked)+len(v.Untested) > 0 {
		return ""
	}
	var tests []string
	for _, c := range v.Cleared {
		for _, by := range c.Evidence {
			if title := tree.InSentence(by.Test.Title); !slices.Contains(tests, title) {
				tests = append(tests, title)
			}
		}
	}
	if len(tests) == 0 {
		return ""
	}
	showed := " These tests showed it: " + namedBy(tests, "; ")
	showed += end(showed)
	if engineDead(sys, complaint) && !otherwise(v) {
		return "What is wrong with it is then not electrical, as far as was tested." + showed + " Compression, fuel and air come next."
	}
	return "What is wrong with it is then nothing on that list, as far as was tested." + showed
}

// complained is the complaint of a job; empty before its intake.
func complained(facts job.Facts) string {
	if facts.Intake == nil {
		return ""
	}
	return facts.Intake.Complaint
}

// noStart is the trouble of an engine that turns and does not start.
const noStart = "no-start"

// engineDead says whether the complaint is of an engine that turns and does not start.
func engineDead(sys *tree.System, complaint string) bool {
	if sys == nil {
		return false
	}
	c := sys.Complaint(complaint)
	return c != nil && c.Trouble == noStart
}

// otherwise says whether what is not electrical was ruled out too: some systems have it
// among their faults.
func otherwise(v walk.Verdict) bool {
	return slices.ContainsFunc(v.Cleared, func(c walk.Clearing) bool { return strings.HasSuffix(c.Fault.ID, ".not-electrical") })
}

func openSentence(v walk.Verdict) string {
	var masked, untested, doubted []string
	for _, m := range v.Masked {
		masked = append(masked, tree.InSentence(m.Fault.Title))
	}
	for _, u := range v.Untested {
		if len(u.Doubt) > 0 {
			doubted = append(doubted, tree.InSentence(u.Fault.Title))
			continue
		}
		untested = append(untested, tree.InSentence(u.Fault.Title))
	}
	var parts []string
	if len(masked) > 0 {
		parts = append(parts, fmt.Sprintf("%d can't be tested until that is repaired: %s", len(masked), named(masked)))
	}
	if len(doubted) > 0 {
		parts = append(parts, fmt.Sprintf("readings contradict each other on %d: %s", len(doubted), named(doubted)))
	}
	if len(untested) > 0 {
		parts = append(parts, fmt.Sprintf("%d not tested: %s", len(untested), named(untested)))
	}
	if len(parts) == 0 {
		return ""
	}
	text := strings.Join(parts, "; ")
	return strings.ToUpper(text[:1]) + text[1:] + "."
}

func defaultSentence(v walk.Verdict, sys *tree.System) string {
	var fields []string
	for _, id := range v.Defaults {
		fields = append(fields, fieldTitle(sys, id))
	}
	if len(fields) == 0 {
		return ""
	}
	return "Taken as usual for the type, because the label was not read: " + strings.Join(fields, ", ") + "."
}

func fieldTitle(sys *tree.System, id string) string {
	if sys != nil {
		for _, f := range sys.Label {
			if f.ID == id && f.Ask != "" {
				return tree.InSentence(f.Ask)
			}
		}
	}
	return strings.ReplaceAll(id, "_", " ")
}

// named lists the first few names and counts the rest.
func named(names []string) string { return namedBy(names, ", ") }

// namedBy is named with another sign between the names: titles of tests have commas.
func namedBy(names []string, between string) string {
	if len(names) <= mostNames {
		return strings.Join(names, between)
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:mostNames], between), len(names)-mostNames)
}

// Untested lists the titles of the faults that are neither found nor cleared,
// the masked ones first. They are harmless to print.
func Untested(v walk.Verdict) []string {
	out := []string{}
	for _, m := range v.Masked {
		out = append(out, source.CleanLine(m.Fault.Title))
	}
	for _, u := range v.Untested {
		out = append(out, source.CleanLine(u.Fault.Title))
	}
	return out
}

// evidenceWords is one answer that speaks for something: what was measured,
// what it read and what that is called.
func evidenceWords(e walk.Evidence, r walk.Result) string {
	text := e.Test.Title
	if value, _, _ := shown(r); value != "" {
		text += ": " + value
	}
	if r.Mark != walk.Seen && e.Says != "" {
		text += ", " + e.Says
	}
	if e.Chance > 0 && e.Chance < 0.995 {
		text += fmt.Sprintf(" (%.0f %% sure)", 100*e.Chance)
	}
	return text
}
