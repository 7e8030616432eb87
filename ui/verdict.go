package ui

import (
	"fmt"
	"slices"

	"benchlead/diag/report"
	"benchlead/diag/walk"
)

func (s *Session) verdictPrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: "Verdict", Ask: "choose and the number of a way, or close"}
	out.Tell = append(out.Tell, report.Standing(s.bench.Library, p, s.facts))
	if p.Stop != nil {
		out.Tell = append(out.Tell, p.Stop.Say)
		out.Caution = s.cautionWords([]string{p.Stop.Caution})
	}
	if no := walk.Declined(s.facts); no != nil {
		out.Tell = append(out.Tell, declinedWords(no.Asked))
	}
	out.Tell = append(out.Tell, s.beforeBuying()...)
	out.Aloud = append(slices.Clone(out.Tell), s.WaysAloud()...)
	out.Tell = append(out.Tell, s.wayLines(false)...)
	out.Ways = s.wayRows()
	return out
}

// wayRows are the ways to go on in short: number, title, and the total with the time.
func (s *Session) wayRows() []Row {
	var out []Row
	for i, w := range s.paths.Ways() {
		row := Row{Text: fmt.Sprintf("%d  %s", i+1, w.Title())}
		switch {
		case w.Path == nil && w.Leave.Refused != "":
			row.Amount = "not allowed"
		case w.Path == nil:
		case w.Path.Priced():
			row.Amount = w.Path.Money(w.Path.Total) + ", " + Minutes(float64(w.Path.Minutes))
		default:
			row.Amount = "not priced"
		}
		out = append(out, row)
	}
	return out
}
