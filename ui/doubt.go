package ui

import (
	"context"
	"fmt"
	"math"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// doubt is why a value is questioned before it counts, and what was probably meant.
type doubt struct {
	why      string   // a sentence
	shown    string   // the value as typed
	meant    *meaning // nil without a guess
	other    *meaning // a second guess, further from what is healthy
	lone     bool     // below nothing, where that can be
	cantShow bool     // the meter has no range for it, so it can't be kept
}

// meaning is one way to read what was typed.
type meaning struct {
	reading measure.Reading
	says    string // the value meant
	why     string // the slip
	digits  bool   // of the decimal point: what was meant has to be typed
}

// ranked is a meaning with how far it is from healthy.
type ranked struct {
	meaning
	off float64
}

// ask is the question in full.
func (d doubt) ask() string {
	out := d.guessed()
	if d.meant != nil {
		out += " Then type " + d.meant.typed() + "."
	}
	if d.other != nil {
		out += fmt.Sprintf(" Or %s (%s)? Then type that.", d.other.says, d.other.why)
	}
	if d.meant != nil || d.other != nil {
		out += " Else type it again"
	} else {
		out += " Type it again"
	}
	if !d.cantShow {
		out += ", or \"keep\" if the meter really shows " + d.shown
		if d.lone {
			out += " with red and black where they belong"
		}
	}
	return out + ". Nothing was recorded yet."
}

// byYes is the value that "yes" stands for: of a sign or a prefix that slipped. Nobody has
// seen the digits of another decimal point on a display, and yes is soon said. nil for none.
func (d doubt) byYes() *meaning {
	if d.meant == nil || d.meant.digits {
		return nil
	}
	return d.meant
}

// typed is what takes a value as it was meant.
func (m meaning) typed() string {
	if m.digits {
		return strings.TrimSuffix(m.says, ".")
	}
	return "yes"
}

// guessed is what is wrong, and what was probably meant.
func (d doubt) guessed() string {
	if d.meant == nil {
		return d.why
	}
	return fmt.Sprintf("%s Did you mean %s (%s)?", d.why, d.meant.says, d.meant.why)
}

// words are what may be typed, for the line that asks.
func (d doubt) words() string {
	out := []string{"the reading again"}
	if m := d.byYes(); m != nil {
		out = append(out, "yes for "+m.says)
	}
	if !d.cantShow {
		out = append(out, string(Keep))
	}
	if len(out) == 1 {
		return out[0]
	}
	return strings.Join(out[:len(out)-1], ", ") + ", or " + out[len(out)-1]
}

// doubts questions a value outside what the system can produce, and one that only turned
// leads would show; nil without a doubt.
func (s *Session) doubts(test *tree.Test, r measure.Reading) *doubt {
	if r.Kind == measure.OverRange || r.Kind == measure.Flicker {
		return nil
	}
	low, high := math.Inf(-1), math.Inf(1)
	values, _ := walk.Values(s.pos.System, *s.facts.Intake)
	if test.Possible != nil {
		var err error
		if low, high, err = test.Possible.Limits(values); err != nil {
			return nil
		}
	}
	d := &doubt{shown: Amount(test, r.Value)}
	switch {
	case r.Value < low || r.Value > high:
		d.why = fmt.Sprintf("%s can't be right here (%s to %s is possible).", d.shown, Amount(test, low), Amount(test, high))
		d.guess(meanings(s.pos.System, *s.facts.Intake, test, r, low, high))
	case s.turned(test, r):
		d.why = fmt.Sprintf("%s is the wrong way round here.", d.shown)
		turned := meant(test, r, slip{-1, 0})
		d.meant = &turned
	case s.below(test, r):
		d.why, d.lone = fmt.Sprintf("%s is below nothing here: the leads swapped, or really so.", d.shown), true
		turned := meant(test, r, slip{-1, 0})
		d.meant = &turned
	default:
		return nil
	}
	return d
}

// below says whether a reading lies below nothing where only a second one would make it
// count.
func (s *Session) below(test *tree.Test, r measure.Reading) bool {
	e, err := s.facts.Intake.Meter.Estimate(r, s.facts.Intake.Celsius)
	return err == nil && walk.Doubtful(s.pos.System, s.facts, test, e)
}

// slipped asks once about a time of whole seconds under ten: a watch shows hundredths, and
// a 1 may be a key that was hit, or meant for a list. Common practice, no source.
func slipped(test *tree.Test, r measure.Reading, text string) *doubt {
	if !timedTest(test) || r.Kind != measure.Number || r.Value >= 10 || strings.ContainsAny(text, ".,") {
		return nil
	}
	shown := Amount(test, r.Value)
	return &doubt{shown: shown, why: fmt.Sprintf("Is %s what the watch shows? With its tenths, as %.1f, it is taken at once.", shown, r.Value)}
}

// turned says whether a reading would be taken for one with the leads turned.
func (s *Session) turned(test *tree.Test, r measure.Reading) bool {
	e, err := s.facts.Intake.Meter.Estimate(r, s.facts.Intake.Celsius)
	return err == nil && walk.Turned(s.pos.System, s.facts, test, e)
}

// guess takes the first of the meanings, and the second where the first is not healthy
// either.
func (d *doubt) guess(list []ranked) {
	if len(list) > 0 {
		d.meant = &list[0].meaning
	}
	if len(list) > 1 && list[0].off > 0 && list[0].reading.Value*list[1].reading.Value > 0 {
		d.other = &list[1].meaning
	}
}

// takeMeant records what was meant by the value that was questioned.
func (s *Session) takeMeant(ctx context.Context) (Reply, error) {
	p := *s.pending
	m := p.doubt.byYes()
	if m == nil {
		return Reply{}, fmt.Errorf("yes to what? Look at the display and type the reading again, or \"keep\". Nothing was recorded")
	}
	return s.recordRead(ctx, s.pos.System.Test(p.test), m.reading, false)
}

// keep records the value that was questioned.
func (s *Session) keep(ctx context.Context) (Reply, error) {
	if s.pending == nil {
		return Reply{}, fmt.Errorf("no value was questioned; nothing was recorded")
	}
	p := *s.pending
	if p.doubt.cantShow {
		return Reply{}, s.readable(p.reading)
	}
	return s.recordRead(ctx, s.pos.System.Test(p.test), p.reading, true)
}
