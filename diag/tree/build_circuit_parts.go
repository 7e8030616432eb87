package tree

import (
	"fmt"
	"maps"
	"slices"

	"benchlead/diag/formula"
)

// pieces builds the parts of a circuit.
func (b *builder) pieces(c *circuitNotes) {
	for i := range c.file.Parts {
		s := &c.file.Parts[i]
		if !s.Part.Given() || c.pieces.at[s.Part.Text] != s.Part.Place {
			continue
		}
		p := CircuitPart{
			ID: s.Part.Text, Kind: PartKind(s.Is.Text), Spread: b.amount(s.Spread, 0, 0) / 100, Firm: s.Firm.Value,
			Numbers: map[string]*formula.Formula{}, Conditions: map[string]*formula.Formula{}, Place: s.Part.Place,
		}
		if p.Spread >= 1 {
			b.report(CodeBadNumber, s.Spread.Place, fmt.Sprintf("a spread of %g %% would leave nothing", s.Spread.Value), "write less than 100: how many percent it differs up and down")
		}
		p.Basis, _ = b.basis(s.Basis)
		p.From, p.To = b.node(c, s.From), b.node(c, s.To)
		p.Sense = b.node(c, s.Sense)
		if s.Coil != nil {
			p.Coil = [2]string{b.node(c, s.Coil.From), b.node(c, s.Coil.To)}
		}
		p.When = b.yesNo(s.When, c.names)
		if b.only(s.Is, "a kind of part", partKinds()) {
			b.quantities(c, &p, s)
			b.hasItsOwn(&p, s)
		}
		c.out.Parts = append(c.out.Parts, p)
	}
}

func (b *builder) node(c *circuitNotes, w word) string {
	if !b.refer(c.nodes, w) {
		return ""
	}
	return w.Text
}

func (b *builder) quantities(c *circuitNotes, p *CircuitPart, s *pieceShape) {
	for _, q := range quantities {
		e := q.of(s)
		switch {
		case !e.Given():
		case q.yesNo:
			p.Conditions[q.name] = b.yesNo(e, c.names)
		default:
			p.Numbers[q.name] = b.figure(e, c.names, q.want...)
		}
	}
}

// asked lets conditions mention what the solved circuit gives.
func (b *builder) asked(c *circuitNotes) {
	c.asked = c.names
	c.asked.Numbers, c.asked.Elsewhere = maps.Clone(c.names.Numbers), nil
	for _, p := range c.out.Parts {
		for _, q := range slices.Concat([]string{"volts", "amps"}, kindsOfPart[p.Kind].gives) {
			c.asked.Numbers[p.ID+"."+q] = solved[q]
		}
	}
}

// piece is the part of that id, or nil.
func (c *circuitNotes) piece(id string) *CircuitPart {
	for i := range c.out.Parts {
		if c.out.Parts[i].ID == id {
			return &c.out.Parts[i]
		}
	}
	return nil
}

// value is the value of that id, or nil.
func (c *circuitNotes) value(id string) *Value {
	for i := range c.out.Values {
		if c.out.Values[i].ID == id {
			return &c.out.Values[i]
		}
	}
	return nil
}
