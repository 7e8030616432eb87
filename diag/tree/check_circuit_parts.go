package tree

import (
	"fmt"
	"slices"
	"strings"
)

// hasItsOwn: a part has the quantities of its kind, and no others.
func (b *builder) hasItsOwn(p *CircuitPart, s *pieceShape) {
	k := kindsOfPart[p.Kind]
	var lacks []string
	for _, q := range quantities {
		given := q.of(s).Place.Line > 0
		switch {
		case given && !slices.Contains(k.needs, q.key) && !slices.Contains(k.may, q.key):
			b.report(CodePartKind, q.of(s).Place, fmt.Sprintf("%s has no %q", a(p.Kind), q.key), "it may have: "+strings.Join(slices.Concat(k.needs, k.may), ", "))
		case !given && slices.Contains(k.needs, q.key):
			lacks = append(lacks, q.key)
		}
	}
	if p.Kind == IsWire {
		lacks = append(lacks, b.wire(s)...)
	}
	if s.Coil == nil && p.Kind == IsRelay {
		lacks = append(lacks, "coil")
	}
	if !s.Sense.Given() && p.Kind == IsElectronics {
		lacks = append(lacks, "sense")
	}
	if len(lacks) > 0 {
		b.report(CodeMissing, s.Part.Place, fmt.Sprintf("%q is %s, and lacks %s", p.ID, a(p.Kind), strings.Join(lacks, ", ")), "add "+lacks[0]+": ...")
	}
	b.strayEnds(p, s)
}

// wire is given by its ohms, or by its gauge and length.
func (b *builder) wire(s *pieceShape) []string {
	ohms, gauge, metres := s.Ohms.Place, s.Gauge.Place, s.Metres.Place
	switch {
	case ohms.Line > 0 && (gauge.Line > 0 || metres.Line > 0 || s.Ends.Place.Line > 0):
		b.report(CodeNotBoth, ohms, fmt.Sprintf("the wire %q is given by its ohms and by its gauge", s.Part.Text), "keep ohms:, or gauge: with metres: and ends:")
	case ohms.Line > 0:
	case gauge.Line == 0 && metres.Line == 0:
		return []string{"ohms"}
	case gauge.Line == 0:
		return []string{"gauge"}
	case metres.Line == 0:
		return []string{"metres"}
	}
	return nil
}

// strayEnds reports ends that a kind doesn't have, and both ends at one place.
func (b *builder) strayEnds(p *CircuitPart, s *pieceShape) {
	if s.Coil != nil && p.Kind != IsRelay {
		b.report(CodePartKind, s.Coil.Place, fmt.Sprintf("%s has no coil", a(p.Kind)), "take coil: away, or make it a relay")
	}
	if s.Sense.Given() && p.Kind != IsElectronics {
		b.report(CodePartKind, s.Sense.Place, fmt.Sprintf("%s senses nothing", a(p.Kind)), "take sense: away, or make it electronics")
	}
	if p.From != "" && p.From == p.To {
		b.report(CodeTwice, s.To.Place, fmt.Sprintf("both ends of %q are at %q", p.ID, p.To), "name two places")
	}
	if p.Coil[0] != "" && p.Coil[0] == p.Coil[1] {
		b.report(CodeTwice, s.Coil.To.Place, fmt.Sprintf("both ends of the coil of %q are at %q", p.ID, p.Coil[0]), "name two places")
	}
}

// a is the kind with its article.
func a(k PartKind) string {
	switch {
	case k == IsElectronics:
		return "electronics"
	case k == IsEMF:
		return "an emf"
	}
	return "a " + string(k)
}
