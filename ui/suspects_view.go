package ui

import (
	"fmt"
	"math"
	"strings"

	"benchlead/diag/counsel"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// Unweighed says why there are no suspects to show; empty when there are some.
func (s *Session) Unweighed() string {
	switch {
	case s.bench.Suspects == nil:
		return "Suspects are not weighed here."
	case s.facts.Closed != nil:
		return "The job is closed. Suspects are weighed while it is open."
	case s.facts.MendedAt > 0:
		return "Something was repaired. Suspects are weighed for a machine as it came in."
	case s.pos.System == nil || s.pos.System.Circuit == nil:
		return "There are no suspects for this system: nothing to simulate it by."
	case s.refused():
		return "No suspects can be worked out for this label and complaint. The steps need none."
	case s.Awaited():
		return "The suspects are being worked out. Go on; \"suspects\" shows them when they are ready."
	}
	return ""
}

// refused says whether the suspects of the job can't be worked out.
func (s *Session) refused() bool {
	cloud, final := s.cloud()
	return cloud == nil && final
}

// Suspecting says whether suspects are weighed here at all.
func (s *Session) Suspecting() bool { return s.bench.Suspects != nil }

// Awaited says whether the suspects of the job are still being worked out.
func (s *Session) Awaited() bool {
	if s.bench.Suspects == nil || s.pos.System == nil || s.pos.System.Circuit == nil || s.facts.Closed != nil || s.facts.MendedAt > 0 {
		return false
	}
	cloud, final := s.cloud()
	return cloud == nil && !final
}

// suspectLines is the view of the suspects.
func (s *Session) suspectLines() []string {
	lately := s.lately()
	if why := s.Unweighed(); why != "" {
		return append([]string{why}, lately...)
	}
	c := s.Counsel()
	var out []string
	if len(lately) > 0 {
		out = append(lately, "")
	}
	if c.Unlike != "" {
		out = append(out, c.Unlike)
		return append(out, headed([]part{{"Readings that fit nothing:", againLines(c.Again)}, {"For a fault that comes and goes:", numberLines(c.Plan)}})...)
	}
	if c.NoneFits != "" {
		out = append(out, c.NoneFits, "")
	}
	out = append(out, "What may be wrong, "+weighedBy(c.Readings)+":")
	for i, one := range c.Suspects {
		line := fmt.Sprintf("     %s  %s, %s", Bar(one.P), percent(one.P), one.Words)
		if c.Readings > 0 { // before that the same is said of all
			line += "; " + one.Why
		}
		out = append(out, fmt.Sprintf("  %d  %s", i+1, one.Title), line)
	}
	const few = 0.03 // less than that together is not worth a line
	if c.Others >= few {
		out = append(out, "     All others together", fmt.Sprintf("     %s  %s", Bar(c.Others), percent(c.Others)))
	}
	if c.Readings > 0 {
		out = append(out, `     "suspects 1" says why the first is that likely.`)
	}
	out = append(out, headed([]part{
		{"Readings that fit nothing:", againLines(c.Again)},
		{"Findings in doubt:", doubtLines(c.Doubts)},
		{"Don't buy yet:", notYetLines(c.NotYet)},
	})...)
	out = append(out, s.offerLines(c)...)
	return append(out, headed([]part{
		{"For a fault that comes and goes:", numberLines(c.Plan)},
		{"What moved the odds before any reading:", c.Moved},
	})...)
}

// lately is what the shop's last jobs of this kind were, while that is of use.
func (s *Session) lately() []string {
	if s.bench.Suspects == nil || s.facts.Intake == nil || s.facts.Closed != nil || s.facts.MendedAt > 0 {
		return nil
	}
	in := s.facts.Intake
	if says := counsel.Lately(s.pos.System, in.Complaint, s.bench.Suspects.Shop(in.System)); says != "" {
		return []string{says}
	}
	return nil
}

// part is lines under a heading.
type part struct {
	head  string
	lines []string
}

// headed are the parts that have lines.
func headed(parts []part) []string {
	var out []string
	for _, p := range parts {
		if len(p.lines) > 0 {
			out = append(out, "", p.head)
		}
		for _, l := range p.lines {
			out = append(out, "  "+l)
		}
	}
	return out
}

// offerLines are the tests that would tell most.
func (s *Session) offerLines(c counsel.Counsel) []string {
	switch {
	case c.Named:
		return []string{"", "The first is sure enough. Nothing more has to be taken for it."}
	case c.Lost:
		return []string{"", "What was done to the machine changes what it shows in a way that is not simulated.", "Its answers from before are weighed; go on with the steps as they are asked."}
	case c.Held && len(c.Tests) == 0:
		return []string{"", "A danger stops the work here. Nothing that needs power is offered."}
	case len(c.Alike) > 0:
		return []string{"", "No test that is left tells these apart: " + strings.Join(c.Alike, ", or ") + "."}
	case len(c.Tests) == 0:
		return []string{"", "No test that is left would tell us much."}
	}
	out := []string{"", "What would tell us most:"}
	for i, t := range c.Tests {
		line := fmt.Sprintf("  tell %d  %s", i+1, t.Test.Title)
		if took := Minutes(t.Minutes); took != "" {
			line += " (" + took + ")"
		}
		if t.After != nil {
			line += ", after this work: " + workTitles(t)
		}
		out = append(out, line)
		for _, split := range t.Splits {
			out = append(out, "          "+split.String())
		}
		if len(t.Splits) == 0 {
			out = append(out, "          Its answer makes some of these likelier than others.")
		}
	}
	return out
}

func workTitles(t counsel.Test) string {
	var out []string
	for _, w := range t.Work {
		out = append(out, w.Title)
	}
	return strings.Join(out, ", then ")
}

// weighedBy says what the suspects were weighed by.
func weighedBy(answers int) string {
	switch answers {
	case 0:
		return "by how common it is; nothing was read yet"
	case 1:
		return "by simulated machines, after 1 answer"
	}
	return fmt.Sprintf("by simulated machines, after %d answers", answers)
}

func numberLines(lines []string) []string {
	var out []string
	for i, l := range lines {
		out = append(out, fmt.Sprintf("%d. %s", i+1, l))
	}
	return out
}

// notYetLines are the parts not to buy yet, a line each.
func notYetLines(list []counsel.NotYet) []string {
	var out []string
	for _, n := range list {
		out = append(out, fmt.Sprintf("%s, for: %s (%s). First: %s.", n.Part, tree.InSentence(n.Fault.Title), counsel.Words(n.P), testToTake(n.Take)))
	}
	return out
}

// doubtLines are the findings in doubt, a line each.
func doubtLines(list []counsel.Doubt) []string {
	var out []string
	for _, d := range list {
		line := fmt.Sprintf("%s (%s). The other readings speak against it.", d.Fault.Title, counsel.Words(d.P))
		if d.Repeat != nil {
			line += " Take again: " + testToTake(d.Repeat) + "."
		}
		out = append(out, line)
	}
	return out
}

// againLines are the readings that fit nothing, a line each.
func againLines(list []counsel.Again) []string {
	var out []string
	for _, a := range list {
		out = append(out, fmt.Sprintf("%s. %s", testToTake(a.Test), a.Says))
	}
	return out
}

// testToTake names a test in words and as it is typed.
func testToTake(t *tree.Test) string { return fmt.Sprintf("%s (take %s)", t.Title, t.ID) }

// barCells is how long a bar of a probability is.
const barCells = 10

// Bar is a probability as a bar of characters, that needs no colour.
func Bar(p float64) string {
	full := min(max(int(math.Round(p*barCells)), 0), barCells)
	return strings.Repeat("#", full) + strings.Repeat(".", barCells-full)
}

// percent is no finer than simulated machines can say.
func percent(p float64) string {
	switch {
	case p < 0.01:
		return "under 1 %"
	case p > 0.99:
		return "over 99 %"
	}
	return fmt.Sprintf("%.0f %%", 100*p)
}

// mostLeaders is how many suspects stand on one line.
const mostLeaders = 3

// possible is how likely a suspect must be to stand on that line.
const possible = 0.2

// Leaders names the first suspects with how likely they are; empty when none stands
// out.
func (s *Session) Leaders() []string {
	var out []string
	for _, one := range s.Counsel().Suspects {
		if len(out) == mostLeaders || one.P < possible {
			break
		}
		out = append(out, fmt.Sprintf("%s (%s)", inSentence(s.pos.System, one.Hypothesis), one.Words))
	}
	return out
}

// inSentence is a suspect as it stands in a sentence.
func inSentence(sys *tree.System, h suspect.Hypothesis) string {
	if len(h.Faults) == 0 {
		return tree.InSentence(h.Title(sys))
	}
	var out []string
	for _, id := range h.Faults {
		out = append(out, tree.InSentence(sys.Fault(id).Title))
	}
	return strings.Join(out, " and ")
}
