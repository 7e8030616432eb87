package report

import (
	"maps"
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// path is a way that was taken, with what came of it.
type path struct {
	chosen *job.Chosen
	agreed []job.Agreed
	lined  []job.Lined
	ticked []string
}

// begun says that something of it was done.
func (p path) begun() bool { return len(p.ticked)+len(p.lined) > 0 }

// paths are all that were chosen, in order; what was taken back is left out.
func paths(events []job.Event) []path {
	gone := undone(events)
	var out []path
	for _, e := range events {
		if e.Kind == job.KindChosen && !gone[e.Seq] {
			out = append(out, path{chosen: e.Chosen})
		}
		if gone[e.Seq] || len(out) == 0 {
			continue
		}
		p := &out[len(out)-1]
		switch e.Kind {
		case job.KindAgreed:
			p.agreed = append(p.agreed, *e.Agreed)
		case job.KindLined:
			p.lined = append(p.lined, *e.Lined)
		case job.KindTicked:
			p.ticked = append(p.ticked, e.Ticked.Repair)
		}
	}
	return out
}

// work is the path chosen with its quote as frozen, and those before it that
// were begun; while none is chosen, what could be done.
func (s *story) work(d *Document, offers repair.Offers) {
	for i, p := range s.paths {
		w := s.pathWork(p)
		switch {
		case i == len(s.paths)-1:
			d.Work = &w
			if whose := source.CleanLine(repair.PricesFrom(p.chosen.Shop)); whose != "" {
				d.MoneyNote = full(whose)
			}
		case p.begun():
			d.Earlier = append(d.Earlier, w)
		default:
			continue
		}
		d.Law = append(d.Law, w.Law...)
		s.warranty(d, w)
		s.wears(d, w)
	}
	if d.Work == nil && s.facts.Closed == nil {
		d.Offers = offered(offers)
	}
}

func (s *story) pathWork(p path) Work {
	c := p.chosen
	w := Work{Path: source.CleanLine(c.Path), Quote: cleanQuote(c.Quote), Aim: source.CleanLine(c.Aim)}
	for _, id := range c.Repairs {
		w.Repairs = append(w.Repairs, s.repairLine(p, id))
		if r := s.lib.Repairs[id]; r != nil {
			w.Law = append(w.Law, s.law(r, p.agreed)...)
		}
	}
	for _, g := range c.Grades {
		w.Grades = append(w.Grades, s.gradeWords(g))
	}
	w.Parts = s.partLines(p)
	for _, id := range c.Unpriced {
		w.Unpriced = append(w.Unpriced, s.partTitle(id))
	}
	for _, name := range slices.Sorted(maps.Keys(c.Shop)) {
		w.Shop = append(w.Shop, Setting{Name: source.CleanLine(name), Value: source.CleanLine(c.Shop[name])})
	}
	return w
}

func (s *story) repairLine(p path, id string) RepairLine {
	line := RepairLine{Repair: source.CleanLine(id), Title: s.repairTitle(id), Done: slices.Contains(p.ticked, id)}
	for _, l := range p.lined {
		if l.Repair == id {
			line.Lines = append(line.Lines, source.CleanLine(l.Line))
		}
	}
	r := s.lib.Repairs[id]
	if r == nil {
		return line
	}
	line.Minutes, line.Converts, line.clears = r.Minutes, r.Kind == tree.Conversion, r.Clears
	line.Off, line.Kept, line.Scrap = slices.Clone(r.Off), slices.Clone(r.Kept), slices.Clone(r.Scrap)
	for _, f := range r.Fasteners {
		if f.New {
			line.New = append(line.New, f.What)
			continue
		}
		line.Again = append(line.Again, f.What)
	}
	return line
}

// cleanQuote makes the text of a quote harmless: it comes from a file.
func cleanQuote(q job.Quote) job.Quote {
	for _, text := range []*string{&q.Currency, &q.Parts, &q.Labour, &q.Other, &q.Tax, &q.Total, &q.Deposit} {
		*text = source.CleanLine(*text)
	}
	return q
}

// mended says that some repair was done.
func (d Document) mended() bool { return slices.ContainsFunc(d.paths(), Work.done) }

// repairs are those of all paths, in order.
func (d Document) repairs() []RepairLine {
	var out []RepairLine
	for _, w := range d.paths() {
		out = append(out, w.Repairs...)
	}
	return out
}

// paths are those that were begun and the one chosen, in order.
func (d Document) paths() []Work {
	out := d.Earlier[:len(d.Earlier):len(d.Earlier)]
	if d.Work != nil {
		out = append(out, *d.Work)
	}
	return out
}
