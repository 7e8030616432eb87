package tree

import (
	"fmt"
	"regexp"
	"slices"

	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// checkSystem checks what only shows when the whole system is built.
func (b *builder) checkSystem(n *systemNotes) {
	if b.trusting {
		return
	}
	n.usual = samples(n.system.Label)
	b.checkLabel(n)
	b.checkValues(n)
	moving := slices.ContainsFunc(n.system.States, func(s State) bool { return s.Moving })
	if moving && len(n.shape.HandBack) == 0 {
		b.report(CodeHandBack, n.at(), fmt.Sprintf("something moves in system %s, and no test proves its safety functions", n.system.ID),
			"add hand back: the tests that prove them, last and always")
	}
}

// stateNeeds: what is powered or moves must say what has to be made safe.
func (b *builder) stateNeeds(s stateShape) {
	if !s.Powered.Value && !s.Moving.Value || !s.State.Given() {
		return
	}
	if len(s.Needs) == 0 {
		b.report(CodeStateNeeds, s.State.Place, fmt.Sprintf("the state %q is powered or moves, and nothing says what must be safe first", s.State.Text),
			"add needs: {ITEM: SETTING}")
		return
	}
	var lacks []string
	for _, item := range []string{"spark-lead", "fuel"} {
		if b.safe.has(item) && !slices.ContainsFunc(s.Needs, func(p pair) bool { return p.Key.Text == item }) {
			lacks = append(lacks, item)
		}
	}
	if s.Moving.Value && len(lacks) > 0 {
		b.report(CodeStateNeeds, s.State.Place, fmt.Sprintf("something moves in the state %q, and its needs don't name %s", s.State.Text, shape.Quoted(lacks)),
			"add "+lacks[0]+": SETTING to needs")
	}
}

// roundTests reports tests that are worked out from themselves, and breaks the
// circle, so that nothing goes round in it later on.
func (b *builder) roundTests(n *systemNotes) {
	for _, t := range n.system.Tests {
		if path := n.round(t.ID, t.ID, set{}); path != nil {
			b.report(CodeRound, n.testShapes[t.ID].From.Place, fmt.Sprintf("%q is worked out from itself: %s", t.ID, arrows(path)), "take one of them out of its from:")
			t.From = nil
		}
	}
}

// round is the way from a test through what it is worked out from to a test; nil
// when there is none.
func (n *systemNotes) round(from, to string, seen set) []string {
	t := n.system.Test(from)
	if t == nil || seen[from] {
		return nil
	}
	seen[from] = true
	for _, input := range t.Inputs() {
		if input == to {
			return []string{from, to}
		}
		if rest := n.round(input, to, seen); rest != nil {
			return append([]string{from}, rest...)
		}
	}
	return nil
}

func arrows(path []string) string {
	out := path[0]
	for _, p := range path[1:] {
		out += " > " + p
	}
	return out
}

// What of a sketch fits beside a step on an 80-column screen.
const (
	widestSketch = 44
	mostLines    = 12
)

var (
	markIn   = regexp.MustCompile(`\{([^{}]*)\}`)
	markForm = regexp.MustCompile(`^[a-z]$`)
)

// sketch checks that each mark stands once in the lines and names a point.
func (b *builder) sketch(n *systemNotes) {
	s := n.shape.Sketch
	if s == nil {
		return
	}
	out := Sketch{Marks: map[string]string{}}
	placed := b.sketchLines(s)
	for _, l := range s.Lines {
		out.Lines = append(out.Lines, l.Text)
	}
	for _, m := range s.Marks {
		switch {
		case !markForm.MatchString(m.Key.Text):
			b.report(CodeSketch, m.Key.Place, fmt.Sprintf("%q can't be a mark", m.Key.Text), "use one small letter")
		case placed[m.Key.Text].Line == 0:
			b.report(CodeSketch, m.Key.Place, fmt.Sprintf("the mark {%s} stands nowhere in the lines", m.Key.Text), "put it where the point is, or take it away")
		case b.refer(n.points, m.Value):
			out.Marks[m.Key.Text] = m.Value.Text
		}
		delete(placed, m.Key.Text)
	}
	for letter, place := range placed {
		b.report(CodeSketch, place, fmt.Sprintf("nothing says which point {%s} is", letter), "add it to marks:")
	}
	n.system.Sketch = out
}

// sketchLines checks the lines and says where each mark stands.
func (b *builder) sketchLines(s *sketchShape) map[string]source.Place {
	placed := map[string]source.Place{}
	for i, line := range s.Lines {
		if i == mostLines {
			b.report(CodeSketch, line.Place, fmt.Sprintf("the sketch has %d lines; %d fit on the screen", len(s.Lines), mostLines), "draw it lower")
		}
		if w := ansi.StringWidth(line.Text); w > widestSketch {
			b.report(CodeSketch, line.Place, fmt.Sprintf("the line is %d columns wide; %d fit on the screen", w, widestSketch), "draw it narrower")
		}
		b.sketchMarks(line, placed)
	}
	return placed
}

func (b *builder) sketchMarks(line figure, placed map[string]source.Place) {
	for _, m := range markIn.FindAllStringSubmatchIndex(line.Text, -1) {
		letter, column := line.Text[m[2]:m[3]], len([]rune(line.Text[:m[0]]))+1
		place := line.Origin.At(1, column, len([]rune(letter))+2)
		if placed[letter].Line > 0 {
			b.report(CodeSketch, place, fmt.Sprintf("the mark {%s} stands in the lines twice", letter), "use another letter for the other spot")
			continue
		}
		placed[letter] = place
	}
}
