package counsel

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// Suspect is something that may be wrong, with how likely and why.
type Suspect struct {
	suspect.Hypothesis
	Title   string
	P       float64
	Words   string // how likely, in words
	Why     string // one line
	Account string // the same in counts of machines, in full
}

// suspects are those that are worth a line, and how likely the others are together.
func (c *counsel) suspects() (out []Suspect, others float64) {
	for _, s := range c.weighing.Ranked() {
		if len(out) == mostSuspects || s.P < worthALine && len(out) > 0 {
			others += s.P
			continue
		}
		if s.P < contradicts && c.cleared(s.Hypothesis) {
			others += s.P
			continue
		}
		account := c.weighing.Account(c.index(s.Hypothesis))
		out = append(out, Suspect{
			Hypothesis: s.Hypothesis, Title: s.Hypothesis.Title(c.pos.System), P: s.P, Words: Words(s.P),
			Why: c.why(account), Account: account.Says(c.pos.System),
		})
	}
	return out, others
}

// contradicts is how likely a fault must be for the odds to stand beside a reading that
// clears it: that is a contradiction, which should be seen.
const contradicts = 0.2

// cleared says whether the readings clear a fault of the hypothesis.
func (c *counsel) cleared(h suspect.Hypothesis) bool {
	return slices.ContainsFunc(h.Faults, c.pos.Verdict.Clears)
}

// Fault is how likely one fault is, alone or with others.
type Fault struct {
	*tree.Fault
	P float64
}

// faults are those that are worth a line.
func (c *counsel) faults() []Fault {
	var out []Fault
	for _, f := range c.pos.System.Faults {
		if p := c.weighing.Fault(f.ID); p >= worthALine && (p >= contradicts || !c.pos.Verdict.Clears(f.ID)) {
			out = append(out, Fault{f, p})
		}
	}
	slices.SortStableFunc(out, func(a, b Fault) int { return cmp.Compare(b.P, a.P) })
	return out
}

// alike are the suspects between which nothing is left to decide.
func alike(c Counsel) []string {
	if len(c.Tests) > 0 || len(c.Suspects) < 2 {
		return nil
	}
	var out []string
	for _, s := range c.Suspects {
		if s.P >= suspected {
			out = append(out, s.Title)
		}
	}
	if len(out) < 2 {
		return nil
	}
	return out
}

// index is the place of a hypothesis in the cloud.
func (c *counsel) index(h suspect.Hypothesis) int {
	return slices.IndexFunc(c.cloud.Hypotheses(), func(other suspect.Hypothesis) bool {
		return other.Gone == h.Gone && slices.Equal(other.Faults, h.Faults)
	})
}

// Words is a probability in words.
func Words(p float64) string {
	for _, step := range [...]struct {
		least float64
		words string
	}{{suspect.Sure, "almost sure"}, {0.75, "very likely"}, {0.5, "likely"}, {0.2, "possible"}, {0.05, "less likely"}} {
		if p >= step.least {
			return step.words
		}
	}
	return "unlikely"
}

// why is the account in one line: how many machines fit, and the answer that speaks
// most for it, or against it where little fits.
func (c *counsel) why(a suspect.Account) string {
	fit := fmt.Sprintf("%d of %d simulated machines with it read as this one does", a.Still, a.Machines)
	const most = 0.25 // of the machines; fewer is little
	switch {
	case len(c.readings) == 0 && c.inDispute:
		return "how common it is; no reading counts yet"
	case len(c.readings) == 0:
		return "how common it is; nothing was read yet"
	case a.Still == 0 && a.OutCount > 0:
		return fmt.Sprintf("none of %d simulated machines with it reads as this one does; %s rules out %d", a.Machines, c.titled(a.Out), a.OutCount)
	case a.Still == a.Machines:
		fit = fmt.Sprintf("all %d simulated machines with it read as this one does", a.Machines)
	}
	switch {
	case a.AgainstTimes > 0 && float64(a.Still) < most*float64(a.Machines):
		return "what speaks against it: " + c.titled(a.Against) + "; " + fit
	case a.ForTimes > 0:
		return "what speaks for it: " + c.titled(a.For) + "; " + fit
	}
	return fit
}

// titled is a test's title, with the work before it.
func (c *counsel) titled(key suspect.Key) string {
	out := c.pos.System.Test(key.Test).Title
	if s := suspect.StageNamed(c.pos.System, key.Stage); s != nil {
		out += " (" + lower(s.Title) + ")"
	}
	return out
}

func lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}
