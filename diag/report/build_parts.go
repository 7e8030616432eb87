package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// partLines are the parts of a path as they were offered. A record of before
// knows part and grade only.
func (s *story) partLines(p path) []PartLine {
	var out []PartLine
	for _, l := range p.chosen.Lines {
		out = append(out, PartLine{
			Part: source.CleanLine(l.Part), Title: s.partTitle(l.Part), Grade: source.CleanLine(l.Grade), Qty: l.Qty,
			Each: source.CleanLine(l.Each), Note: source.CleanLine(l.Note), Piece: source.CleanLine(l.Piece),
			InHand: l.InHand, fitted: s.fitted(p, l.Part),
		})
	}
	if len(out) > 0 {
		return out
	}
	for _, g := range p.chosen.Grades {
		if id, grade, ok := strings.Cut(g, "="); ok {
			out = append(out, PartLine{
				Part: source.CleanLine(id), Title: s.partTitle(id), Grade: source.CleanLine(grade), InHand: true, fitted: s.fitted(p, id),
			})
		}
	}
	return out
}

func (s *story) partTitle(id string) string {
	if part := s.lib.Parts[id]; part != nil {
		return part.Title
	}
	return source.CleanLine(id)
}

// fitted says whether a repair that takes the part is done. When today's trees
// know of none, that all of the path is done has to do.
func (s *story) fitted(p path, part string) bool {
	known := false
	for _, id := range p.chosen.Repairs {
		r := s.lib.Repairs[id]
		if r == nil {
			continue
		}
		for _, use := range r.Parts {
			if use.Part != part {
				continue
			}
			if slices.Contains(p.ticked, id) {
				return true
			}
			known = true
		}
	}
	return !known && len(p.ticked) > 0 && len(p.ticked) >= len(p.chosen.Repairs)
}

// warranty is what the settings frozen with the quote promise for the parts that
// were fitted. Settings that say nothing promise nothing, and nothing is said.
func (s *story) warranty(d *Document, w Work) {
	for _, l := range w.Parts {
		if days, said := warrantyDays(w.Shop, l.Grade); said && l.fitted {
			d.Warranty = append(d.Warranty, Warranty{Part: l.Part, Title: l.Title, Grade: l.Grade, Days: days})
		}
	}
}

// warrantyDays finds a grade's days among settings: the name speaks of the grade
// and of the warranty, the value is a whole number.
func warrantyDays(shop []Setting, grade string) (days int, said bool) {
	for _, set := range shop {
		if !strings.Contains(set.Name, "warranty") || !strings.Contains(set.Name, grade) || grade == "" {
			continue
		}
		if n, err := strconv.Atoi(set.Value); err == nil && n >= 0 {
			return n, true
		}
	}
	return 0, false
}

// wears lists the parts fitted that do not last for ever.
func (s *story) wears(d *Document, w Work) {
	for _, l := range w.Parts {
		part := s.lib.Parts[l.Part]
		if part == nil || part.Life == nil || !l.fitted {
			continue
		}
		says := fmt.Sprintf("usually lasts about %s of usual use", counted(part.Life.Seasons, "season"))
		d.Wears = append(d.Wears, Wears{Part: l.Part, Title: l.Title, Says: says + " (" + tree.InSentence(strings.TrimRight(part.Life.Judgement, ".")) + ")"})
	}
}

// counted is a number with its noun.
func counted(n float64, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return bare(n) + " " + noun + "s"
}

// bin lists what went into the parts bin and what came out of it.
func (s *story) bin(d *Document) {
	for _, p := range s.facts.Binned {
		line := Binned{
			Piece: job.PieceOf(d.Job, p.Seq), Part: source.CleanLine(p.Part), Title: s.partTitle(p.Part), Words: source.CleanLine(p.Words),
			Asking: amountOf(p.Asking, p.Currency), Place: source.CleanLine(p.Place),
		}
		for _, text := range p.Shown {
			line.Shown = append(line.Shown, source.CleanLine(text))
		}
		d.Binned = append(d.Binned, line)
	}
	for _, p := range s.facts.Drawn {
		d.Drawn = append(d.Drawn, Drawn{Piece: source.CleanLine(p.Piece), Part: source.CleanLine(p.Part), Title: s.partTitle(p.Part)})
	}
}

// amountOf is money with its currency; empty without an amount.
func amountOf(amount, currency string) string {
	if amount == "" {
		return ""
	}
	return source.CleanLine(strings.TrimSpace(amount + " " + currency))
}

// asked lists the owner's answers, and the services that were offered.
func (s *story) asked(d *Document) {
	for _, a := range s.facts.Asked {
		line := Asked{
			On: dayOf(a.At), Approved: a.Approved, Who: source.CleanLine(a.Who), How: source.CleanLine(a.How),
			Total: amountOf(a.Total, a.Currency), Ceiling: amountOf(a.Ceiling, a.Currency),
		}
		for _, text := range a.Declined {
			line.Declined = append(line.Declined, s.declined(text))
		}
		d.Asked = append(d.Asked, line)
	}
	for _, v := range s.facts.Served {
		d.Served = append(d.Served, Service{Service: source.CleanLine(v.Service), Title: s.serviceTitle(v), Left: v.Left})
	}
	for _, w := range s.facts.Worked {
		d.Worked = append(d.Worked, s.workTitle(w.Work))
	}
}

func (s *story) serviceTitle(v job.Served) string {
	if service := s.lib.Services[v.Service]; service != nil {
		return service.Title
	}
	return source.CleanLine(v.Service)
}

// declined is work that was not wanted, as it was written down: a repair or a
// service by its id, or words.
func (s *story) declined(text string) string {
	if r := s.lib.Repairs[text]; r != nil {
		return r.Title
	}
	return s.serviceTitle(job.Served{Service: text})
}
