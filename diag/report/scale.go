package report

import "math"

// scale is a line from low to high with what is right on it as a stretch, and one
// or two readings as marks: drawn to measure, so that far off looks far off.
type scale struct {
	Says     string // all of it in words, for those who don't see it
	Low      string // number at the left end
	High     string // at the right
	From, To float64
	LowSide  bool // there is something below what is right
	HighSide bool
	Marks    []scaleMark
}

// scaleMark is one reading: 0 at the left end of the line, 1 at the right.
type scaleMark struct {
	At   float64
	Word string // before, after, measured
}

// The words of marks.
const (
	markBefore   = "before"
	markAfter    = "after"
	markMeasured = "measured"
)

// scaleOf draws readings of one test, in order, with the word for each; nil when
// there is nothing to draw.
func scaleOf(says string, words []string, readings ...plainly) *scale {
	lo, hi := math.Inf(1), math.Inf(-1)
	reach := func(v float64) {
		if !math.IsInf(v, 0) {
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
	}
	var on []plainly
	for _, p := range readings {
		if p.drawn {
			on = append(on, p)
			reach(p.number)
			reach(p.low)
			reach(p.high)
		}
	}
	if len(on) == 0 {
		return nil
	}
	lo, hi = ends(lo, hi)
	along := func(v float64) float64 { return math.Max(0, math.Min(1, (v-lo)/(hi-lo))) }
	s := &scale{Says: says, Low: figures(lo), High: figures(hi), From: along(on[0].low), To: along(on[0].high)}
	s.LowSide, s.HighSide = s.From > 0, s.To < 1
	for i, p := range readings {
		if p.drawn {
			s.Marks = append(s.Marks, scaleMark{At: along(p.number), Word: words[i]})
		}
	}
	return s
}

// ends are round numbers some way outside of all that is shown. Zero is not gone
// past when nothing lies below it.
func ends(lo, hi float64) (from, to float64) {
	const room = 0.25
	span := hi - lo
	if !(span > 0) {
		span = math.Max(math.Abs(hi), 1)
	}
	step := math.Pow(10, math.Floor(math.Log10(span)))
	if span/step < 4 {
		step /= 4
	}
	from, to = math.Floor((lo-room*span)/step)*step, math.Ceil((hi+room*span)/step)*step
	if lo >= 0 && from < step {
		from = 0
	}
	return from, to
}

// The picture of a scale: where its line begins, and how long it is.
const (
	scaleLeft  = 60.0 // room for the number at its left end
	scaleWide  = 520.0
	scaleLeast = 4.0 // a stretch narrower than this is not seen
)

// Top is where the picture begins: higher when something points down on the line.
func (s scale) Top() int {
	for _, m := range s.Marks {
		if m.Word != markAfter {
			return 8
		}
	}
	return 22
}

// Tall is the picture's height, down to a word below the line when there is one.
func (s scale) Tall() int {
	for _, m := range s.Marks {
		if m.Word == markAfter {
			return 86 - s.Top()
		}
	}
	return 60 - s.Top()
}

// X is where a place on the line stands in the picture.
func (s scale) X(at float64) float64 { return scaleLeft + at*scaleWide }

// Stretch is the picture of what is right: its left end and its width.
func (s scale) Stretch() [2]float64 {
	wide := (s.To - s.From) * scaleWide
	if wide >= scaleLeast {
		return [2]float64{s.X(s.From), wide}
	}
	left := math.Min(s.X(s.From)-(scaleLeast-wide)/2, scaleLeft+scaleWide-scaleLeast)
	return [2]float64{math.Max(scaleLeft, left), scaleLeast}
}

// label is a word on the line, at its middle.
type label struct {
	X    float64
	Word string
}

// Labels are the words on the line, each where there is room for it.
func (s scale) Labels() []label {
	const letter = 7
	stretch := s.Stretch()
	left, right := stretch[0], stretch[0]+stretch[1]
	var out []label
	put := func(word string, from, to float64) {
		if to-from >= float64(len(word)+1)*letter {
			out = append(out, label{X: (from + to) / 2, Word: word})
		}
	}
	from, to := scaleLeft, scaleLeft+scaleWide
	switch width := float64(len(plainRight)+1) * letter; {
	case right-left >= width:
		put(plainRight, left, right)
	case to-right >= 2*width:
		// too narrow for its word, which then stands beside it
		put("< "+plainRight, right, right+1.5*width)
		right += 1.5 * width
	default:
		put(plainRight+" >", left-1.5*width, left)
		left -= 1.5 * width
	}
	if s.LowSide {
		put(plainLow, from, left)
	}
	if s.HighSide {
		put(plainHigh, right, to)
	}
	return out
}
