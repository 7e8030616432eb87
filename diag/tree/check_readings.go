package tree

import (
	"fmt"
	"math"
	"slices"
)

// readingsFit holds the readings that are known to belong in a band against its
// cuts, at the usual label: a cut that was mistyped, or worked out from the wrong
// field, puts some of them into another band.
func (b *builder) readingsFit(n *systemNotes, t *Test, usual sample) {
	shapes := n.testShapes[t.ID].Bands
	least, most, asks := limits(t.Possible, usual.values)
	for _, band := range t.Bands {
		i := slices.IndexFunc(shapes, func(s bandShape) bool { return s.Band.Text == band.Name })
		for j, reading := range band.SuchAs {
			in, ok := bandAt(t, reading, usual)
			place, says := shapes[i].SuchAs[j].Place, shownIn(reading, t.Unit, t.PerUnit)
			switch {
			case !ok: // a cut that has no value is reported by itself
			case in.Name != band.Name:
				b.report(CodeSuchAs, place, fmt.Sprintf("%s %s lies in %q%s, not in %q", at(usual), says, in.Name, t.reaches(in, usual), band.Name),
					"mend the cut, or the reading")
			case asks && (reading < least || reading > most):
				b.report(CodePossible, place, fmt.Sprintf("%s lies outside possible, which runs from %s to %s", says, shownIn(least, t.Unit, t.PerUnit), shownIn(most, t.Unit, t.PerUnit)),
					"widen possible:, or name another reading")
			}
		}
	}
}

// bandAt is the band of a reading; false when a cut below it has no value.
func bandAt(t *Test, reading float64, s sample) (Band, bool) {
	for _, band := range t.Bands {
		cut, err := band.Cut(s.values)
		if err != nil {
			return Band{}, false
		}
		if reading < cut {
			return band, true
		}
	}
	return Band{}, false
}

// reaches says where a band ends, if it does.
func (t *Test) reaches(band Band, s sample) string {
	cut, err := band.Cut(s.values)
	if err != nil || math.IsInf(cut, 0) {
		return ""
	}
	return ", below " + shownIn(cut, t.Unit, t.PerUnit)
}
