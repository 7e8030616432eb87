package tree

import (
	"fmt"
	"math"
	"slices"
)

func (b *builder) part(shape partShape) {
	if !b.add(b.parts, shape.Part, plainID) {
		return
	}
	p := &Part{
		ID: shape.Part.Text, Title: b.title(shape.Title), NoBin: b.tell(shape.NoBin), Refund: shape.Refund.Value,
		Life: b.life(shape.Life),
	}
	b.binNeeds(p, shape.BinNeeds)
	if p.NoBin != "" && len(p.BinNeeds) > 0 {
		b.report(CodeNotBoth, shape.BinNeeds[0].Says.Place, fmt.Sprintf("%q never goes to the parts bin, and something is to be shown before it does", p.ID),
			"take no bin: or bin needs: away")
	}
	b.lib.Parts[p.ID] = p
}

// binNeeds builds what a used piece has to show. A figure without its unit, or a
// unit without a figure, is half of a need.
func (b *builder) binNeeds(p *Part, shapes []binNeedShape) {
	for _, s := range shapes {
		says := b.tell(s.Says)
		if says == "" {
			continue // and was reported so
		}
		p.BinNeeds = append(p.BinNeeds, says)
		asks := s.Least.Given || s.Most.Given
		switch {
		case asks != s.Unit.Given():
			b.report(CodeMissing, s.Says.Place, fmt.Sprintf("%q needs its unit and its figure, or neither", says), `write unit: "%", least: 80`)
		case asks:
			f := NeedFigure{Unit: b.title(s.Unit), Least: b.amount(s.Least, 0, 0), Most: b.amount(s.Most, 0, math.Inf(1))}
			if f.Least > f.Most {
				b.report(CodeBadNumber, s.Most.Place, fmt.Sprintf("%q can't be met: most is below least", says), "let most be least or more")
			}
			if p.BinFigures == nil {
				p.BinFigures = map[string]NeedFigure{}
			}
			p.BinFigures[says] = f
		}
	}
}

// shortestLife is the least that a part that wears can last, in seasons. What
// lasts shorter belongs to a service.
const shortestLife = 0.1

func (b *builder) life(shape *lifeShape) *Life {
	if shape == nil || !shape.Seasons.Given || shape.Judgement.Text == "" {
		return nil // and was reported so
	}
	return &Life{Seasons: b.amount(shape.Seasons, shortestLife, shortestLife), Judgement: b.tell(shape.Judgement)}
}

// sets joins the parts that have to match each other. It is enough that one of
// two names the other.
func (b *builder) sets() {
	for _, s := range b.stockShapes {
		for _, shape := range s.Parts {
			for _, id := range b.referAll(b.parts, shape.With) {
				join(b.lib.Parts[shape.Part.Text], b.lib.Parts[id])
			}
			for _, w := range shape.With {
				if w.Given() && w.Text == shape.Part.Text {
					b.report(CodeTwice, w.Place, fmt.Sprintf("%q goes with itself", w.Text), "take it out of goes with:")
				}
			}
		}
	}
}

// join puts each of two parts among those that the other goes with.
func join(p, q *Part) {
	if p == nil || q == nil {
		return
	}
	if !slices.Contains(p.With, q.ID) {
		p.With = append(p.With, q.ID)
	}
	if !slices.Contains(q.With, p.ID) {
		q.With = append(q.With, p.ID)
	}
}

// serviceList builds every service, when all parts and cautions are known.
func (b *builder) serviceList() {
	for _, s := range b.stockShapes {
		for _, shape := range s.Services {
			if b.add(b.services, shape.Service, plainID) {
				b.lib.Services[shape.Service.Text] = &Service{
					ID: shape.Service.Text, Title: b.title(shape.Title), Tell: b.tell(shape.Tell), Minutes: b.whole(shape.Minutes, 0, 0),
					Needs: b.needs(shape.Needs), Leaves: b.needs(shape.Leaves),
					Cautions: b.referAll(b.cautions, shape.Cautions), Parts: b.uses(shape.Parts), Place: shape.Service.Place,
				}
			}
		}
	}
}
