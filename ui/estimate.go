package ui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/walk"
)

// Row is one amount of an estimate.
type Row struct {
	Text   string
	Amount string // empty: it stands in another row
}

// estimatePrompt is what the owner is asked before a repair is begun.
func (s *Session) estimatePrompt(p walk.Position) Prompt {
	out := Prompt{
		Stage: p.Stage, Title: "Estimate for the owner", Cost: Minutes(float64(p.Estimate.Quote.Minutes)),
		Ask: "approve, the amount and who said so; declined and who; or pass and why",
	}
	for _, id := range s.facts.Chosen.Repairs {
		out.Tell = append(out.Tell, s.testTitle(id)+".")
	}
	for _, title := range s.unpriced() {
		out.Tell = append(out.Tell, title+" has no price on file: the total leaves it out.")
	}
	if last := walk.LastAsked(s.facts); last != nil && last.Approved && p.Estimate.Ceiling.IsPositive() {
		out.Tell = append(out.Tell, fmt.Sprintf("%s That is %s less than this.", approvedWords(last.Asked), s.inCurrency(like(p.Estimate.Short(), p.Estimate.Quote.Total))))
	}
	out.Rows, out.Phone = s.rows(p.Estimate), s.phone()
	out.Aloud = append(slices.Clone(out.Tell), s.rowsAloud(out.Rows)...)
	out.Total = like(p.Estimate.Total, p.Estimate.Quote.Total)
	return out
}

// rowsAloud are the rows for whoever hears them: each amount with its currency.
func (s *Session) rowsAloud(rows []Row) []string {
	var out []string
	for i, r := range rows {
		switch lines := s.facts.Chosen.Lines; {
		case i < len(lines):
			each := " at " + lines[i].Each
			out = append(out, strings.Replace(r.Text, each, " "+s.inCurrency(strings.TrimSpace(each)), 1))
		case r.Amount == "":
			out = append(out, r.Text)
		default:
			out = append(out, r.Text+": "+s.inCurrency(strings.TrimSuffix(r.Amount, " "+s.facts.Chosen.Quote.Currency)))
		}
	}
	return out
}

// rows are the estimate as it is told: parts, then what is charged for them.
func (s *Session) rows(e *walk.Estimate) []Row {
	c, q := s.facts.Chosen, e.Quote
	var out []Row
	for _, l := range c.Lines {
		text := fmt.Sprintf("%s, %s, %d at %s", s.partTitle(l.Part), l.Grade, l.Qty, l.Each)
		if !l.InHand {
			text += ", to be ordered"
		}
		out = append(out, Row{Text: text})
	}
	if len(c.Lines) == 0 {
		for _, g := range c.Grades {
			id, grade, _ := strings.Cut(g, "=")
			out = append(out, Row{Text: s.partTitle(id) + ", " + grade})
		}
	}
	add := func(text, amount string) {
		if d, err := decimal.NewFromString(amount); amount != "" && (err != nil || !d.IsZero()) {
			out = append(out, Row{text, amount})
		}
	}
	add("Parts", q.Parts)
	add(strings.TrimSuffix("Labour, "+Minutes(float64(q.Minutes)), ", "), q.Labour)
	add("Consumables, freight, disposal, fee", q.Other)
	add("Tax", q.Tax)
	lacks := ""
	if len(c.Unpriced) > 0 {
		lacks = " so far"
	}
	out = append(out, Row{"Total" + lacks, s.inCurrency(q.Total)})
	if e.Before.IsPositive() {
		add("Done before on this job", like(e.Before, q.Total))
		out = append(out, Row{"Together" + lacks, s.inCurrency(like(e.Total, q.Total))})
	}
	return out
}

func (s *Session) inCurrency(amount string) string {
	return strings.TrimSpace(amount + " " + s.facts.Chosen.Quote.Currency)
}

// like writes an amount with as many places as another has, or more when it needs
// them.
func like(d decimal.Decimal, other string) string {
	_, places, _ := strings.Cut(other, ".")
	return d.StringFixed(max(int32(len(places)), -d.Exponent()))
}

// partTitle is the title of a part; its id when the trees have it no longer.
func (s *Session) partTitle(id string) string {
	if p := s.bench.Library.Parts[id]; p != nil {
		return p.Title
	}
	return id
}

// unpriced are the parts of the chosen path that the quote has no price for.
func (s *Session) unpriced() []string {
	var out []string
	for _, id := range s.facts.Chosen.Unpriced {
		out = append(out, s.partTitle(id))
	}
	return out
}

// without says of a total which parts it leaves out.
func without(titles []string) string {
	if len(titles) == 0 {
		return ""
	}
	return ", without the price of: " + strings.Join(titles, ", ")
}

// phone is two lines to read to the owner, those of the report.
func (s *Session) phone() []string {
	doc, err := s.Document()
	if err != nil {
		return nil
	}
	return doc.Phone
}
