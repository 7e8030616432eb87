package ui

import (
	"fmt"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/walk"
)

// closedPrompt is a job that is closed: what came of it, and how to hand it over.
func (s *Session) closedPrompt(p walk.Position) Prompt {
	c := s.facts.Closed
	out := Prompt{Stage: p.Stage, Title: fmt.Sprintf("Job %d is closed: %s", s.id, c.Outcome)}
	if c.Why != "" {
		out.Tell = append(out.Tell, "Because: "+trimStop(c.Why)+".")
	}
	if c.Outcome == job.Unsafe {
		out.Tell = append(out.Tell, "Tag it. It is not run, and the owner has it in writing.")
	}
	verb := fmt.Sprintf("  benchlead report %d ", s.id)
	out.Tell = append(out.Tell, s.whatCameOfIt()...)
	out.Tell = append(out.Tell,
		"All that is on record, at the command line:", strings.TrimRight(verb, " "),
		"The owner's report:", verb+fmt.Sprintf("--for owner --html --to job%d.html", s.id),
		"A message for the owner's telephone:", verb+"--for message",
		"A tag for the machine:", verb+fmt.Sprintf("--for tag --html --to tag%d.html", s.id),
	)
	return out
}

// whatCameOfIt is what was found and by what, what was done and for how much, and the
// readings before and after: whoever looks a job up again wants that first.
func (s *Session) whatCameOfIt() []string {
	doc, err := s.Document()
	if err != nil {
		return nil
	}
	var out []string
	for _, f := range doc.Findings {
		out = append(out, "Found: "+f.Title+", by "+strings.Join(f.Evidence, "; ")+".")
	}
	if len(doc.Findings) == 0 {
		out = append(out, "No fault was shown.")
	}
	works := doc.Earlier
	if doc.Work != nil {
		works = append(works[:len(works):len(works)], *doc.Work)
	}
	for _, w := range works {
		var done []string
		for _, r := range w.Repairs {
			if r.Done {
				done = append(done, r.Title)
			}
		}
		switch price := strings.TrimSpace(w.Quote.Total + " " + w.Quote.Currency); {
		case len(done) > 0 && w.Quote.Total != "":
			out = append(out, "Repaired: "+strings.Join(done, ", ")+". Estimate: "+price+without(w.Unpriced)+".")
		case len(done) > 0:
			out = append(out, "Repaired: "+strings.Join(done, ", ")+".")
		default:
			out = append(out, "Chosen: "+w.Path+".")
		}
	}
	for _, p := range doc.Proof {
		if p.Before != "" && p.After != "" {
			out = append(out, p.Title+": before "+p.Before+"; after "+p.After+".")
		}
	}
	for i := range out {
		out[i] = strings.ReplaceAll(out[i], "±", "+-") // as everywhere on the bench
	}
	return out
}
