package report

import (
	"cmp"
	"encoding/json"
	"io"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Judged is what judging a case prints: one object, with no list nil. Tests,
// points, states, faults, repairs and parts are ids.
type Judged struct {
	Readings   []JudgedReading `json:"readings"`
	Findings   []JudgedFinding `json:"findings"`
	Cleared    []string        `json:"cleared"`
	Masked     []string        `json:"masked"`
	CantTell   []JudgedUnclear `json:"cannot_tell"`
	Suspects   []JudgedSuspect `json:"suspects"`
	Tests      []JudgedTest    `json:"tests"`
	Again      []JudgedAgain   `json:"take_again"`
	Doubts     []JudgedDoubt   `json:"in_doubt"`
	NotYet     []JudgedNotYet  `json:"not_yet"`
	Next       JudgedNext      `json:"next"`
	Verdict    JudgedVerdict   `json:"verdict"`
	RepairSets []JudgedRepairs `json:"repairs"`
}

// JudgedReading is one reading, or one value worked out from others (function
// "worked out"). Value is a number in Unit, or "OL" or "flicker".
type JudgedReading struct {
	Test     string `json:"test"`
	Red      string `json:"red"`
	Black    string `json:"black"`
	State    string `json:"state"`
	Function string `json:"function"`
	Value    any    `json:"value"`
	Unit     string `json:"unit"`
	Band     string `json:"band"` // the likeliest
	Sure     bool   `json:"sure"` // 95 % or more
	Healthy  string `json:"healthy"`
}

// JudgedFinding is a fault with the tests that show it.
type JudgedFinding struct {
	Fault    string   `json:"fault"`
	Evidence []string `json:"evidence"`
}

// JudgedUnclear is a test that decides nothing. Take is the test that would;
// empty when it is the same one again, or none.
type JudgedUnclear struct {
	Test string `json:"test"`
	Why  string `json:"why"`
	Take string `json:"take"`
}

// JudgedSuspect is a fault with its probability, alone or with others.
type JudgedSuspect struct {
	Fault       string  `json:"fault"`
	Probability float64 `json:"probability"`
}

// JudgedNext is what to do next; all empty when the walk is finished. Test is
// empty when it is a piece of work.
type JudgedNext struct {
	Tree string `json:"tree"`
	Test string `json:"test"`
	Tell string `json:"tell"`
	Why  string `json:"why"`
}

// JudgedVerdict is the verdict in words, dangers first, and the faults that
// were not tested.
type JudgedVerdict struct {
	Text     string   `json:"text"`
	Untested []string `json:"untested"`
}

// JudgedRepairs is one repair path. A part is "id/grade", or only its id when
// it has no price; then it stands in Unpriced too, and Total is empty. Total is an
// exact decimal.
type JudgedRepairs struct {
	Repairs  []string `json:"repairs"`
	Parts    []string `json:"parts"`
	Unpriced []string `json:"unpriced,omitempty"`
	Minutes  int      `json:"minutes"`
	Total    string   `json:"total"`
	Currency string   `json:"currency"`
}

// BuildJudged makes the object from where a case stands. What the suspects say is put
// in by Weighed.
func BuildJudged(facts job.Facts, p walk.Position, offers repair.Offers) Judged {
	j := Judged{
		Readings: []JudgedReading{}, Findings: []JudgedFinding{}, Cleared: []string{}, Masked: []string{},
		CantTell: []JudgedUnclear{}, Suspects: []JudgedSuspect{}, Tests: []JudgedTest{}, Again: []JudgedAgain{}, Doubts: []JudgedDoubt{}, NotYet: []JudgedNotYet{}, RepairSets: []JudgedRepairs{},
		Verdict: JudgedVerdict{Text: dangerWords(p) + Sentence(p.Verdict, p.System, complained(facts)), Untested: []string{}},
		Next:    judgedNext(p),
	}
	if p.System == nil || facts.Intake == nil {
		return j
	}
	j.read(facts, p)
	j.conclude(p.Verdict)
	for _, path := range offers.Paths {
		j.RepairSets = append(j.RepairSets, judgedRepairs(path))
	}
	return j
}

func (j *Judged) read(facts job.Facts, p walk.Position) {
	values, _ := walk.Values(p.System, *facts.Intake)
	for _, r := range answered(p) {
		if r.Mark != walk.Read {
			continue
		}
		says, _, _ := healthy(r.Test, values)
		name, answer, _ := band(r)
		j.Readings = append(j.Readings, JudgedReading{
			Test: r.Test.ID, Red: r.Test.Red, Black: r.Test.Black, State: r.Test.State, Function: function(r.Test),
			Value: judgedValue(r), Unit: r.Test.Unit, Band: name, Sure: answer == string(measure.Called), Healthy: says,
		})
	}
}

func function(t *tree.Test) string {
	if t.Kind == tree.Metered {
		return string(t.Function)
	}
	return string(t.Kind)
}

func judgedValue(r walk.Result) any {
	text, number, _ := shown(r)
	if number == "" {
		return text
	}
	return json.Number(number)
}

// answered are the results with an answer, in the order of the answers.
func answered(p walk.Position) []walk.Result {
	var out []walk.Result
	for _, t := range p.System.Tests {
		if r := p.Results[t.ID]; r.Mark == walk.Read || r.Mark == walk.Seen {
			out = append(out, r)
		}
	}
	slices.SortStableFunc(out, func(a, b walk.Result) int { return cmp.Compare(a.Seq, b.Seq) })
	return out
}

func (j *Judged) conclude(v walk.Verdict) {
	for _, f := range v.Found {
		finding := JudgedFinding{Fault: f.Fault.ID, Evidence: []string{}}
		for _, e := range f.Evidence {
			finding.Evidence = append(finding.Evidence, e.Test.ID)
		}
		j.Findings = append(j.Findings, finding)
	}
	for _, c := range v.Cleared {
		j.Cleared = append(j.Cleared, c.Fault.ID)
	}
	for _, m := range v.Masked {
		j.Masked = append(j.Masked, m.Fault.ID)
	}
	for _, u := range v.Untested {
		j.Verdict.Untested = append(j.Verdict.Untested, u.Fault.ID)
	}
	for _, u := range v.Unclear {
		line := JudgedUnclear{Test: u.Test.ID, Why: source.CleanLine(u.Why)}
		if u.Take != nil {
			line.Take = u.Take.ID
		}
		j.CantTell = append(j.CantTell, line)
	}
}

func judgedNext(p walk.Position) JudgedNext {
	switch {
	case p.Test != nil:
		return JudgedNext{Tree: p.Tree, Test: p.Test.ID, Tell: source.CleanLine(p.Test.Tell), Why: source.CleanLine(p.Test.Why)}
	case p.Work != nil:
		return JudgedNext{Tree: p.Tree, Tell: source.CleanLine(p.Work.Tell), Why: source.CleanLine(p.Work.Why)}
	}
	return JudgedNext{}
}

// dangerWords puts the hazards that the readings show before everything else.
func dangerWords(p walk.Position) string {
	var b strings.Builder
	for _, d := range p.Danger {
		b.WriteString("Danger first, " + tree.InSentence(d.Caution.Title) + ": " + strings.TrimRight(d.Caution.Tell, ". ") + ". ")
	}
	return source.CleanLine(b.String())
}

func judgedRepairs(p repair.Path) JudgedRepairs {
	out := JudgedRepairs{Repairs: []string{}, Parts: []string{}, Minutes: p.Minutes, Currency: p.Currency}
	for _, r := range p.Repairs {
		out.Repairs = append(out.Repairs, r.ID)
	}
	for _, l := range p.Lines {
		out.Parts = append(out.Parts, l.Part.ID+"/"+string(l.Grade))
	}
	for _, part := range p.Unpriced {
		out.Parts, out.Unpriced = append(out.Parts, part.ID), append(out.Unpriced, part.ID)
	}
	if p.Priced() {
		out.Total = p.Quote().Total
	}
	return out
}

// Write writes the object as indented JSON with a line end.
func (j Judged) Write(w io.Writer) error { return writeJSON(w, j) }
