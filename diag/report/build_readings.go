package report

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// readings lists every test that was ever answered, in the order of its first
// answer, with what it read in each chapter.
func (s *story) readings(d *Document) {
	first := map[string]int64{}
	for _, test := range s.system.Tests {
		line := s.reading(test, first)
		if len(line.Taken) > 0 {
			d.Readings = append(d.Readings, line)
		}
	}
	slices.SortStableFunc(d.Readings, func(a, b Reading) int { return cmp.Compare(first[a.Test], first[b.Test]) })
	s.lostReadings(d)
}

func (s *story) reading(test *tree.Test, first map[string]int64) Reading {
	line := s.place(test)
	line.Healthy, line.low, line.high = healthy(test, s.values)
	last := int64(0)
	for _, c := range s.chapters {
		r := c.results[test.ID]
		if r.Mark != walk.Read && r.Mark != walk.Seen || r.Seq == last {
			continue
		}
		if last == 0 {
			first[test.ID] = r.Seq
		}
		last = r.Seq
		t := taken(r, c.after)
		if c.mended && test.Kind == tree.Worked && !walk.Checks(s.lib, s.facts, test.ID) {
			t.Says = "" // it explains what was
		}
		t.plain = plain(r, s.values)
		line.Taken = append(line.Taken, t)
	}
	return line
}

// place says where the leads go and how the machine is, in words.
func (s *story) place(test *tree.Test) Reading {
	line := Reading{Test: test.ID, Title: test.Title, Unit: test.Unit, Red: s.point(test.Red), Black: s.point(test.Black)}
	if test.Kind != tree.Observed {
		line.Function = function(test)
	}
	if st := s.system.State(test.State); st != nil {
		line.State = st.Title
	}
	var with []string
	for _, id := range test.With {
		if setup := s.system.Setup(id); setup != nil {
			with = append(with, setup.Title)
		}
	}
	line.With = strings.Join(with, ", ")
	return line
}

func (s *story) point(id string) string {
	if p := s.system.Point(id); p != nil {
		return p.Title
	}
	return id
}

func taken(r walk.Result, after string) Taken {
	t := Taken{After: after, seen: r.Mark == walk.Seen}
	t.Value, t.number, t.uncertainty = shown(r)
	t.Band, t.Answer, t.Says = band(r)
	t.Called = t.Answer == string(measure.Called)
	if r.InDispute() {
		for _, e := range r.Disputes {
			t.Others = append(t.Others, amount(r.Test, e.Value))
		}
		return t // on a line it would be a fact
	}
	t.line = lineOf(r)
	return t
}

// bandLine is the bands of a test on a line from 0 to 1, with a reading on it.
// Bands share the line evenly, so that a narrow one stays readable.
type bandLine struct {
	names    []string
	cuts     []string // between them
	at       float64
	from, to float64 // the reading less and plus its expanded uncertainty
}

func lineOf(r walk.Result) *bandLine {
	if r.Mark != walk.Read || r.Mute() || len(r.Test.Bands) < 2 || len(r.Cuts) != len(r.Test.Bands)-1 || math.IsNaN(r.Estimate.Value) {
		return nil
	}
	l := &bandLine{}
	for i, b := range r.Test.Bands {
		l.names = append(l.names, b.Name)
		if i < len(r.Cuts) {
			l.cuts = append(l.cuts, amount(r.Test, r.Cuts[i]))
		}
	}
	u := coverage * r.Estimate.U()
	l.at = along(r.Estimate.Value, r.Cuts)
	l.from, l.to = along(r.Estimate.Value-u, r.Cuts), along(r.Estimate.Value+u, r.Cuts)
	return l
}

// along is where a value stands on the line. The outer bands are open; a value
// as far out as all cuts are apart stands at the end.
func along(v float64, cuts []float64) float64 {
	share := 1 / float64(len(cuts)+1)
	first, last := cuts[0], cuts[len(cuts)-1]
	span := last - first
	if !(span > 0) {
		span = math.Max(math.Abs(first), 1e-9)
	}
	switch {
	case math.IsInf(v, 1):
		return 1
	case v < first:
		return math.Max(0, share*(1-(first-v)/span))
	case v >= last:
		return math.Min(1, 1-share+share*(v-last)/span)
	}
	for i := 1; ; i++ {
		if v < cuts[i] {
			return share * (float64(i) + (v-cuts[i-1])/(cuts[i]-cuts[i-1]))
		}
	}
}
