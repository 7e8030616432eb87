package report

import (
	"strings"

	"benchlead/diag/job"
)

// section is one part of what the owner reads. Every form of it says the same.
type section struct {
	Head  string
	Says  []string // sentences
	Items []item
	Rows  []row // a name and a figure
	Small bool  // a long list, in small letters
}

// item is one entry of a section.
type item struct {
	Mark  string // a shape in letters, before the text
	Text  string
	More  []string
	Lines []*scale
}

// row is a name with a figure; the last of a bill is its sum.
type row struct {
	Name, Figure string
	Sum          bool
}

// The shapes before what was done and what was not.
const (
	markDone = "[x]"
	markOpen = "[ ]"
	markFail = "[!]"
)

// sections are the whole of the owner's report, in the order of reading.
func sections(d Document) []section {
	var out []section
	for _, s := range []section{
		inShort(d), dangers(d), wrong(d), work(d), beforeAfter(d), changed(d), disclosed(d), safe(d),
		notTested(d), watch(d), cost(d), warranted(d), pleaseNote(d),
	} {
		if len(s.Says)+len(s.Items)+len(s.Rows) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// about is the machine as the owner calls it.
func about(d Document) string {
	switch {
	case d.Machine != "":
		return d.Machine
	case d.Kind != "":
		return sentenceStart(d.Kind)
	}
	return "The machine"
}

// inShort says how it ended, or how far it is.
func inShort(d Document) section {
	s := section{Head: "In short"}
	if d.Words != "" {
		s.Says = append(s.Says, "You told us: \u201c"+d.Words+"\u201d")
	}
	s.Says = append(s.Says, ended(d))
	if d.Outcome == "" && d.Next != "" {
		s.Says = append(s.Says, "Where it stands: "+d.State+".")
	}
	if next := d.nextPlain(); next != "" {
		s.Says = append(s.Says, next)
	}
	return s
}

// ended is the outcome in a sentence.
func ended(d Document) string {
	switch job.Outcome(d.Outcome) {
	case job.Proved:
		if len(d.Findings) == 0 {
			return "It is repaired, and the safety functions were tested."
		}
		return "It is repaired. What was wrong was measured again after the repair, and the safety functions were tested."
	case job.NotProved:
		return join("It is repaired, but not everything could be proved", ": ", strings.TrimRight(d.Why, ".")) + "."
	case job.SoldAsIs:
		return "It is sold as it is, with the faults that are told below."
	case job.PartedOut:
		return "It was taken apart for its parts."
	case job.Unrepaired:
		return "It goes back without a repair."
	case job.Unsafe:
		return "It is not safe. Nobody may use it before it is made safe and tested again."
	}
	return "We are not finished with it."
}

func dangers(d Document) section {
	s := section{Head: "Danger"}
	for _, c := range d.Dangers {
		if c.unsure {
			continue
		}
		s.Items = append(s.Items, item{Mark: markFail, Text: full(c.Title), More: []string{c.Tell}})
	}
	return s
}

// wrong is each finding with how it is known. A reading that was taken again after
// the repair is drawn there and not twice.
func wrong(d Document) section {
	s := section{Head: "What is wrong, and how we know"}
	if d.mended() {
		s.Head = "What was wrong, and how we know"
	}
	again := map[string]bool{}
	for _, p := range d.Proof {
		again[p.Test] = p.was.drawn || p.is.drawn
	}
	for _, f := range d.Findings {
		i := item{Mark: "-", Text: full(f.Title)}
		if f.Says != "" {
			i.More = append(i.More, f.Says)
		}
		if f.Doubt != "" {
			i.More = append(i.More, "We are not sure of this. "+f.Doubt)
		}
		for _, p := range f.plain {
			if p.sentence() == "" {
				continue
			}
			i.More = append(i.More, "How we know: "+p.sentence())
			if line := scaleOf(p.sentence(), []string{markMeasured}, p); line != nil && !again[p.test] {
				i.Lines = append(i.Lines, line)
			}
		}
		s.Items = append(s.Items, i)
	}
	switch {
	case len(s.Items) > 0:
	case d.lost:
		s.Says = []string{"What was found can't be shown any more."}
	default:
		return undecidedWrong(d, s)
	}
	return s
}

func soFar(d Document) string {
	if d.Outcome == "" {
		return " so far"
	}
	return ""
}

// full ends a text as a sentence.
func full(s string) string {
	s = strings.TrimRight(strings.TrimSpace(s), ".")
	if s == "" || strings.ContainsAny(s[len(s)-1:], "!?") {
		return s
	}
	return sentenceStart(s) + "."
}

// pleaseNote are the limits of what was done, and the cautions that always hold.
func pleaseNote(d Document) section {
	s := section{Head: "Please note", Small: true}
	for _, text := range append(ownersCautions(), d.Defer...) {
		s.Items = append(s.Items, item{Text: text})
	}
	return s
}

// ownersCautions are common practice, no source.
func ownersCautions() []string {
	return []string{
		"Before you reach near a blade, belt, fan or chain: engine off, key out, and the lead pulled off the spark plug, or the plug pulled out of the mains.",
		"Run an engine outdoors only: its exhaust gas kills in a closed room, and you do not smell it.",
		"No flame and no smoking near fuel, or near a battery that charges.",
	}
}
