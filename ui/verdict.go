package ui

import (
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
	out.Tell = append(out.Tell, s.wayLines(false)...)
	return out
}
