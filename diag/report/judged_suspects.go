package report

import (
	"math"

	"benchlead/diag/counsel"
	"benchlead/diag/source"
)

// JudgedTest is a test that would tell much, with the work to be done before and what
// its answers would say.
type JudgedTest struct {
	Test    string   `json:"test"`
	Work    []string `json:"work"`
	Minutes float64  `json:"minutes"`
	Splits  []string `json:"splits"`
}

// JudgedAgain is a reading that fits nothing that is likely.
type JudgedAgain struct {
	Test string `json:"test"`
	Why  string `json:"why"`
}

// JudgedDoubt is a finding that the suspects hold to be unlikely, with the reading to
// repeat; empty when none stands out.
type JudgedDoubt struct {
	Fault       string  `json:"fault"`
	Probability float64 `json:"probability"`
	Repeat      string  `json:"repeat"`
}

// JudgedNotYet is a part not to buy before a test was taken.
type JudgedNotYet struct {
	Part  string `json:"part"`
	Fault string `json:"fault"`
	Take  string `json:"take"`
}

// Weighed puts in what the suspects say.
func (j *Judged) Weighed(c counsel.Counsel) {
	for _, f := range c.Faults {
		j.Suspects = append(j.Suspects, JudgedSuspect{Fault: f.ID, Probability: hundredths(f.P)})
	}
	for _, t := range c.Tests {
		line := JudgedTest{Test: t.Offer.Test.ID, Work: []string{}, Minutes: t.Minutes, Splits: []string{}}
		for _, split := range t.Splits {
			line.Splits = append(line.Splits, source.CleanLine(split.String()))
		}
		for _, w := range t.Work {
			line.Work = append(line.Work, w.ID)
		}
		j.Tests = append(j.Tests, line)
	}
	for _, a := range c.Again {
		j.Again = append(j.Again, JudgedAgain{Test: a.Test.ID, Why: a.Says})
	}
	for _, d := range c.Doubts {
		line := JudgedDoubt{Fault: d.Fault.ID, Probability: hundredths(d.P)}
		if d.Repeat != nil {
			line.Repeat = d.Repeat.ID
		}
		j.Doubts = append(j.Doubts, line)
	}
	for _, n := range c.NotYet {
		j.NotYet = append(j.NotYet, JudgedNotYet{Part: n.Fault.Part, Fault: n.Fault.ID, Take: n.Take.ID})
	}
}

// hundredths is a probability no finer than it is.
func hundredths(p float64) float64 { return math.Round(100*p) / 100 }
