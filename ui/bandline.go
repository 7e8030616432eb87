package ui

import (
	"fmt"
	"math"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// BandLine is the line of bands of one test, with a reading on it: positions
// run from 0 to 1 along the line. Bands share the line evenly, so that narrow
// ones stay readable; a reading stands in its band in proportion.
type BandLine struct {
	Names []string  // low to high
	Cuts  []string  // the limits between them, in the test's unit
	At    float64   // where the reading stands; NaN when there is none
	From  float64   // reading less its expanded uncertainty
	To    float64   // reading plus its expanded uncertainty
	Was   float64   // where the reading before the repair stands; NaN when there was none
	Best  int       // band it most likely lies in, -1 when there is no reading
	Sure  bool      // called
	Value string    // the reading with its uncertainty, in words
	Says  string    // the reading in words: value, band, how sure; empty without one
	Band  string    // what it is called: the band, or that it is too close to call; empty without one
	Means string    // what that means; may be empty
	Doubt bool      // it can't be right, and will be asked about
	cuts  []float64 // base units

	WasSays string // the reading before the repair in words; empty without one
}

// Line draws up the line of bands for a test, with the reading as typed so far
// (which may be no reading yet). It is nil for a test without bands, or while a
// limit is not known.
func (s *Session) Line(test *tree.Test, typed string) *BandLine {
	if test == nil || len(test.Bands) == 0 {
		return nil
	}
	cuts, ok := s.cuts(test)
	if !ok {
		return nil
	}
	line := &BandLine{At: math.NaN(), Was: math.NaN(), Best: -1, cuts: cuts}
	for _, b := range test.Bands {
		line.Names = append(line.Names, b.Name)
	}
	for _, cut := range cuts {
		line.Cuts = append(line.Cuts, Amount(test, cut))
	}
	if e, ok := s.estimateBefore(test); ok {
		line.Was, line.WasSays = line.along(e.Value), "before "+s.beforeWords(test)
	}
	if e, ok := s.trial(test, typed); ok {
		line.place(test, e)
	}
	if r := s.pos.Results[test.ID]; typed == "" && r.Call().Answer == measure.ByLabel {
		line.Sure, line.Band, line.Means = false, "the label decides", ByLabel(r)
		line.Says = line.Value + ": the label decides"
	}
	if means := doubtful(s.pos.Results[test.ID]); typed == "" && means != "" {
		line.Sure, line.Band, line.Means = false, "doubtful", means
		line.Says = line.Value + ": doubtful"
	}
	if ask := s.doubtTyped(test, typed); ask != "" && line.Best >= 0 {
		line.Doubt, line.Sure, line.Band, line.Means = true, false, "can't be right", ask
		line.Says = line.Value + ": can't be right"
	}
	return line
}

// doubtful says why a reading that was taken proves nothing, by others or by its sign;
// empty when it does.
func doubtful(r walk.Result) string {
	switch r.Call().Answer {
	case measure.ByRepeat:
		return "Its readings disagree. None counts until one more agrees with it."
	case measure.ByClash:
		return r.Clash.Says
	case measure.ByOne:
		return "Below nothing, and read once. It counts when a second reading agrees with it."
	case measure.ByLeads:
		return "The wrong way round: turn leads or clamp and take it again."
	}
	return ""
}

// trial is the estimate that a typed text would give.
func (s *Session) trial(test *tree.Test, typed string) (measure.Estimate, bool) {
	r := s.pos.Results[test.ID]
	if typed == "" {
		return r.Estimate, r.Mark == walk.Read && !r.Mute()
	}
	reading, err := measure.Parse(typed, test.Function)
	if err != nil || reading.Kind == measure.Flicker {
		return measure.Estimate{}, false
	}
	if reading, err = inTestUnit(test, reading, typed); err != nil {
		return measure.Estimate{}, false
	}
	e, err := s.facts.Intake.Meter.Estimate(reading, s.facts.Intake.Celsius)
	return e, err == nil
}

// doubtTyped says why a typed text can't be right, before it is entered; empty when
// it can.
func (s *Session) doubtTyped(test *tree.Test, typed string) string {
	reading, err := measure.Parse(typed, test.Function)
	if err != nil {
		return ""
	}
	if reading, err = inTestUnit(test, reading, typed); err != nil {
		return ""
	}
	d := s.doubts(test, reading)
	if d == nil {
		return ""
	}
	return d.guessed()
}

func (l *BandLine) place(test *tree.Test, e measure.Estimate) {
	u := 2 * e.U()
	l.At, l.From, l.To = l.along(e.Value), l.along(e.Value-u), l.along(e.Value+u)
	if math.IsInf(e.Value, 1) {
		l.From, l.To = 1, 1
	}
	l.Value = WithUncertainty(walk.Result{Test: test, Mark: walk.Read, Estimate: e})
	call := measure.Judge(e, l.cuts, nil)
	l.Sure, l.Best = call.Answer == measure.Called, call.Band
	r := walk.Result{Test: test, Mark: walk.Read, Estimate: e, Cuts: l.cuts, Chance: measure.Spread(e, l.cuts)}
	switch call.Answer {
	case measure.Called:
		l.Says = fmt.Sprintf("%s: %s, sure", WithUncertainty(r), l.Names[call.Band])
		l.Band, l.Means = l.Names[call.Band], test.Bands[call.Band].Says
	case measure.TooClose:
		l.Says = fmt.Sprintf("%s: too close to call (%s)", WithUncertainty(r), Nearly(r))
		l.Band, l.Means = "too close to call", "It may be "+Nearly(r)+". Take it again if you can."
	default:
		l.Says = fmt.Sprintf("%s: this meter can't decide (%s)", WithUncertainty(r), Nearly(r))
		l.Band, l.Means = "this meter can't decide", "It may be "+Nearly(r)+". Another range or a better meter may tell."
	}
}

// along is the place of a value on the line, 0 to 1. The first and last band
// are open: a value one band's width beyond the outer limit reaches the end.
func (l *BandLine) along(v float64) float64 {
	n := len(l.cuts)
	if n == 0 {
		return 0.5
	}
	if math.IsInf(v, 1) {
		return 1
	}
	span := math.Abs(l.cuts[n-1] - l.cuts[0])
	if n == 1 || span == 0 {
		span = math.Max(math.Abs(l.cuts[0]), 1e-9)
	}
	share := 1 / float64(n+1)
	if v < l.cuts[0] {
		return math.Max(0, share*(1-(l.cuts[0]-v)/span))
	}
	for i := 1; i < n; i++ {
		if v < l.cuts[i] {
			return share * (float64(i) + (v-l.cuts[i-1])/(l.cuts[i]-l.cuts[i-1]))
		}
	}
	return math.Min(1, share*(float64(n)+(v-l.cuts[n-1])/span))
}
