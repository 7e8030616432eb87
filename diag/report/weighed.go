package report

import (
	"fmt"
	"strings"

	"benchlead/diag/counsel"
	"benchlead/diag/tree"
)

// Doubt is a finding that the other readings speak against.
type Doubt struct {
	Fault  string `json:"fault"`
	Title  string `json:"title"`
	Says   string `json:"says"`   // how likely it is, in words
	Repeat string `json:"repeat"` // title of the reading to take again; empty when none stands out
}

// Again is a reading that fits nothing that is likely.
type Again struct {
	Test  string `json:"test"`
	Title string `json:"title"`
	Why   string `json:"why"`
}

// NotYet is a part that is not to be bought before a test was taken.
type NotYet struct {
	Part  string `json:"part"` // title
	Fault string `json:"fault"`
	Title string `json:"title"` // of the fault
	Says  string `json:"says"`  // how likely it is, in words
	Take  string `json:"take"`  // title of the test that decides
}

// Weighed puts in what the suspects have to say before anything is bought. It takes
// nothing away: a finding in doubt stays one, and says so.
func (d *Document) Weighed(c counsel.Counsel) {
	d.fits(c)
	for _, one := range c.Doubts {
		line := Doubt{Fault: one.Fault.ID, Title: one.Fault.Title, Says: counsel.Words(one.P)}
		if one.Repeat != nil {
			line.Repeat = one.Repeat.Title
		}
		d.Doubts = append(d.Doubts, line)
		for i := range d.Findings {
			if d.Findings[i].Fault == line.Fault {
				d.Findings[i].Doubt = line.words()
			}
		}
	}
	for _, a := range c.Again {
		d.Again = append(d.Again, Again{Test: a.Test.ID, Title: a.Test.Title, Why: a.Says})
	}
	for _, n := range c.NotYet {
		d.NotYet = append(d.NotYet, NotYet{
			Part: n.Part, Fault: n.Fault.ID, Title: n.Fault.Title, Says: counsel.Words(n.P), Take: n.Take.Title,
		})
	}
	if len(d.Doubts) > 0 {
		var titles []string
		for _, one := range d.Doubts {
			titles = append(titles, tree.InSentence(one.Title))
		}
		d.Verdict += " In doubt, because the other readings speak against it: " + strings.Join(titles, "; ") + "."
	}
	d.Phone = phone(*d)
}

// words are what stands behind the finding.
func (d Doubt) words() string {
	text := "In doubt, " + d.Says + ": the other readings speak against it."
	if d.Repeat != "" {
		text += " Take again: " + d.Repeat + "."
	}
	return text
}

// words are the part not to buy in a sentence.
func (n NotYet) words() string {
	return fmt.Sprintf("%s, for: %s (%s); first take: %s", n.Part, tree.InSentence(n.Title), n.Says, n.Take)
}
