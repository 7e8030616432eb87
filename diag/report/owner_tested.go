package report

import (
	"cmp"
	"fmt"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// beforeAfter sets the readings that prove the repair side by side.
func beforeAfter(d Document) section {
	s := section{Head: "Before and after"}
	for _, p := range d.Proof {
		i := item{Mark: "-", Text: full(p.Title)}
		text := fmt.Sprintf("Before: %s. After: %s.", plainValue(p.was), plainValue(p.is))
		if p.was.value == "" {
			text = "After the repair: " + plainValue(p.is) + "."
		}
		if right := cmp.Or(p.is.right, p.was.right); right != "" {
			text += " Right is " + right + "."
		}
		i.More = append(i.More, text)
		says := p.Title + ". " + strings.Join(i.More, " ")
		if line := scaleOf(says, []string{markBefore, markAfter}, p.was, p.is); line != nil {
			i.Lines = append(i.Lines, line)
		}
		s.Items = append(s.Items, i)
	}
	return s
}

// plainValue is a value with what it is worth.
func plainValue(p plainly) string {
	switch {
	case p.value == "":
		return "not taken"
	case p.judged == "" || p.seen:
		return tree.InSentence(strings.TrimRight(p.value, ". "))
	}
	return p.value + ", " + p.judged
}

// safe are the safety functions, as they were tested last.
func safe(d Document) section {
	s := section{Head: "Safety"}
	words := map[string][2]string{
		SafetyProved: {markDone, "passed"}, SafetyFailed: {markFail, "FAILED"}, SafetyOpen: {markOpen, "NOT TESTED"},
		SafetyAbsent: {markDone, "not applicable"},
	}
	open := false
	for _, l := range d.Safety {
		w := words[l.State]
		open = open || l.State != SafetyProved && l.State != SafetyAbsent
		text := l.Title + ": " + w[1]
		if l.plain.value != "" {
			text += " (" + tree.InSentence(strings.TrimRight(l.plain.value, ". ")) + ")"
		}
		s.Items = append(s.Items, item{Mark: w[0], Text: text + "."})
	}
	if open {
		s.Says = append(s.Says, "What failed or was not tested here may not work. Do not use the machine before it is tested and works.")
	}
	return s
}

// notTested are the faults that nothing speaks for or against. What a proved repair
// has cleared is none of them, even where the check that proved it names no fault;
// nor is what was ruled out before the repair.
func notTested(d Document) section {
	s := section{Head: "What was not tested", Small: true}
	repaired := d.repaired()
	for _, list := range [][]FaultLine{d.Masked, d.Untested} {
		for _, f := range list {
			if !repaired[f.Fault] && !f.earlier {
				s.Items = append(s.Items, item{Text: f.Title})
			}
		}
	}
	if d.testing() {
		return notRuledOut(d, s)
	}
	if len(s.Items) > 0 {
		s.Says = []string{"We did not test for these faults, or the tests did not decide. Any of them may still be there."}
	}
	return s
}

// repaired are the faults that were found and that a repair cleared, of a job that
// was closed as proved.
func (d Document) repaired() map[string]bool {
	out := map[string]bool{}
	if job.Outcome(d.Outcome) != job.Proved {
		return out
	}
	for _, r := range d.repairs() {
		for _, f := range r.clears {
			out[f] = out[f] || r.Done // one of several that clear it is enough
		}
	}
	for _, f := range d.Still {
		delete(out, f.Fault)
	}
	return out
}
