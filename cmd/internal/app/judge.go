package app

import (
	"context"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/spf13/cobra"

	"benchlead/diag/casefile"
	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/report"
	"benchlead/diag/source"
	"benchlead/diag/walk"
	"benchlead/ui"
)

func (p *program) judgeVerb() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "judge CASE",
		Short: "Judge readings already taken, written in a case file",
		Long: `Judges the readings of a case file: what each shows, which faults are found
or cleared, what can't be told from them, what to take next, and the ways to
repair. Nothing is recorded.

A reading is named by where and how it was taken; "benchlead trees SYSTEM" lists
the points, states and tests. Quotes keep the digits that were on the display, and
"off" a word. Where two tests are read alike, test: names the one that is meant. A
reading that fits no test, or can't be right, is not taken, and is said.
A whole case file, of an invented chipper:

` + exampleCase,
		Example: "  benchlead judge case.yaml\n  benchlead judge case.yaml --json",
		Args:    exactly(1, "one case file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := p.judge(cmd.Context(), args[0])
			if err != nil {
				return err
			}
			if asJSON {
				return p.json(j.object())
			}
			for _, l := range j.lines() {
				fmt.Fprintln(p.streams.Out, source.CleanLine(l))
			}
			if n := len(j.file.Aside); n > 0 {
				fmt.Fprintf(p.streams.Out, "%s not taken; \"benchlead check %s\" shows where and why.\n", several(n, "reading"), source.CleanLine(args[0]))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON object")
	return cmd
}

// judged is a case with where it stands.
type judged struct {
	file   *casefile.Case
	facts  job.Facts
	pos    walk.Position
	offers repair.Offers
	says   counsel.Counsel
}

func (p *program) judge(ctx context.Context, name string) (*judged, error) {
	lib, err := p.library()
	if err != nil {
		return nil, err
	}
	own, err := p.recordedPrices(ctx)
	if err != nil {
		return nil, err
	}
	prices, err := p.priceBook(lib, own)
	if err != nil {
		return nil, err
	}
	file, issues, err := openFile(name)
	if err != nil {
		return nil, err
	}
	if file == nil {
		return nil, p.complain(issues, nil)
	}
	c, issues := casefile.Load(*file, lib)
	if err := p.complain(issues, []source.File{*file}); err != nil {
		return nil, err
	}
	facts, err := job.Fold(c.Events)
	if err != nil {
		return nil, err
	}
	j := &judged{file: c, facts: facts, pos: walk.Where(lib, facts)}
	worth, _ := decimal.NewFromString(facts.Intake.Worth) // checked when it was read; zero: the book's own
	if j.offers, err = repair.Paths(lib, c.System, j.pos.Verdict, prices.book, worth, repair.Choices{}); err != nil {
		return nil, err
	}
	in := *facts.Intake
	in.Complaint = c.Complaint
	maker := cloudMaker{of: whole(lib), files: p.cloudFiles(), cores: mostCores()}
	cloud, err := maker.make(wanted{in: in, digest: cloudDigest(lib, in)}, nil, nil)
	if err != nil {
		return nil, fmt.Errorf("the suspects can't be worked out: %w", err)
	}
	j.says = counsel.Of(lib, facts, j.pos, cloud, counsel.Shop{})
	return j, nil
}

// object is what --json prints. What was set aside can't be told, with the
// question that would settle it.
func (j *judged) object() report.Judged {
	out := report.BuildJudged(j.facts, j.pos, j.offers)
	out.Weighed(j.says)
	for _, a := range j.file.Aside {
		out.CantTell = append(out.CantTell, report.JudgedUnclear{Test: a.Test, Why: a.What + ": " + a.Why})
	}
	return out
}

func (j *judged) lines() []string {
	out := []string{report.Sentence(j.pos.Verdict, j.pos.System, j.facts.Intake.Complaint), ""}
	for _, d := range j.pos.Danger {
		out = append([]string{"DANGER: " + d.Caution.Title + ". " + d.Caution.Tell}, out...)
	}
	for _, t := range j.pos.System.Tests {
		if r := j.pos.Results[t.ID]; r.Mark != walk.Unknown && !(r.Mark == walk.Passed && r.Test.From != nil) {
			out = append(out, ui.Judged(r))
		}
	}
	for _, a := range j.file.Aside {
		out = append(out, strings.TrimSpace("Not taken: "+a.What+". "+strings.TrimSuffix(a.Why, ".")+". "+j.guess(a)))
	}
	for _, u := range j.pos.Verdict.Unclear {
		out = append(out, ui.Undecided(u))
	}
	out = append(out, "")
	switch {
	case j.pos.Test != nil:
		out = append(out, "Next: "+j.pos.Test.Title+" ("+j.pos.Test.ID+"). "+j.pos.Test.Tell)
	case j.pos.Work != nil:
		out = append(out, "Next: "+j.pos.Work.Title+". "+j.pos.Work.Tell)
	}
	out = append(out, j.weighed()...)
	for _, path := range j.offers.Paths {
		cost := path.Lacks()
		if cost == "" {
			cost = path.Money(path.Total)
		}
		out = append(out, fmt.Sprintf("Repair: %s: %s, %s.", path.Title(), cost, ui.Minutes(float64(path.Minutes))))
	}
	return out
}

// guess is what a value that can't be right was probably meant for, where its sign does
// not say so already.
func (j *judged) guess(a casefile.Aside) string {
	if a.Reading == nil || strings.Contains(a.Why, "swapped") {
		return ""
	}
	return ui.Guess(j.pos.System, *j.facts.Intake, j.pos.System.Test(a.Test), *a.Reading)
}

// weighed is what the suspects say.
func (j *judged) weighed() []string {
	c := j.says
	if len(c.Suspects) == 0 && c.Unlike == "" {
		return nil
	}
	out := []string{""}
	if c.Unlike != "" {
		out = append(out, "Suspects: "+c.Unlike)
	}
	if c.NoneFits != "" {
		out = append(out, c.NoneFits)
	}
	for i, s := range c.Suspects {
		head := "Suspects: "
		if i > 0 {
			head = "          "
		}
		out = append(out, fmt.Sprintf("%s%s, %.0f %% (%s); %s.", head, s.Title, 100*s.P, s.Words, s.Why))
	}
	if len(c.Alike) > 0 {
		out = append(out, "No test that is left tells these apart: "+strings.Join(c.Alike, "; ")+".")
	}
	for i, t := range c.Tests {
		head := "Would tell most: "
		if i > 0 {
			head = "Then: "
		}
		line := head + t.Offer.Test.Title + " (" + t.Offer.Test.ID + "), " + ui.Minutes(t.Minutes)
		for k, w := range t.Work {
			line += []string{" with this work before: ", ", "}[min(k, 1)] + w.Title
		}
		out = append(out, line+".")
		for _, split := range t.Splits {
			out = append(out, "    "+split.String()+".")
		}
	}
	for _, a := range c.Again {
		out = append(out, "Take again: "+a.Test.Title+" ("+a.Test.ID+"). "+a.Says)
	}
	for _, d := range c.Doubts {
		line := "In doubt: " + d.Fault.Title + "."
		if d.Repeat != nil {
			line += " Repeat: " + d.Repeat.Title + " (" + d.Repeat.ID + ")."
		}
		out = append(out, line)
	}
	for _, n := range c.NotYet {
		out = append(out, fmt.Sprintf("Don't buy yet: %s, for \"%s\" (%s). First: %s (%s).", n.Part, n.Fault.Title, counsel.Words(n.P), n.Take.Title, n.Take.ID))
	}
	out = append(out, c.Plan...)
	return append(out, "")
}

// exampleCase is a whole case file; a test judges it.
const exampleCase = `    system: key-start-12v
    complaint: slow
    words: "Turns the chipper over slowly since winter."
    label: {battery_cca: 300}
    readings:
      - {function: dc volts, red: batt.pos, black: batt.neg, state: "off", value: "12.62"}
      - {function: dc volts, red: batt.pos, black: batt.neg, state: key-start, value: "11.2"}
      - {function: dc volts, red: block, black: batt.neg, state: key-start, value: "1.94"}
    seen:
      - {test: start_sound, choice: slow}
`
