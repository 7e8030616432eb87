package ui

import (
	"fmt"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Words are what can be typed where the job stands, a line each, for whoever hears
// them: what can't be typed here is left out.
func (s *Session) Words() []string {
	var out []string
	if Asked(s.Position().Stage) {
		out = append(out, answerWords...)
		out = append(out, s.severalAtOnce()...)
	}
	for _, v := range verbs {
		if s.helps(v.Verb) {
			form := strings.NewReplacer("[", "", "]", "", "...", "WORDS").Replace(v.Form)
			out = append(out, fmt.Sprintf("%s: %s", form, v.Says))
			if v.Verb == Paths { // the screen has all of it in one list
				out = append(out, "paths more: what else there is to say of them")
			}
		}
	}
	return out
}

// answerWords say how a step is answered.
var answerWords = []string{
	"A number or OL answers the step. 12.3..12.7 is a display that wanders; \"flicker\" one that never settles.",
	"0.18 @2 says that the meter was on its 2 V range.",
}

// severalAtOnce shows how several readings are typed, by two tests of this system; it
// is left out for one that has no two.
func (s *Session) severalAtOnce() []string {
	var shown []string
	if s.pos.System == nil {
		return nil
	}
	for _, t := range s.pos.System.Tests {
		if t.Kind != tree.Metered || t.Function != measure.DCVolts || t.PerUnit != 1 || len(t.Bands) == 0 || len(shown) == 2 {
			continue
		}
		volts := 12.6 // what a reading looks like, where the test shows none
		if such := t.Bands[len(t.Bands)-1].SuchAs; len(such) > 0 {
			volts = such[0]
		}
		shown = append(shown, fmt.Sprintf("%s %g", t.ID, volts))
	}
	if len(shown) < 2 {
		return nil
	}
	return []string{"Several at once: " + strings.Join(shown, "; ")}
}

// helps says whether a verb is of use where the job stands.
func (s *Session) helps(v Verb) bool {
	stage := s.Position().Stage
	lists := stage == walk.AtRepair || stage == walk.AtService
	switch v {
	case Help:
		return false
	case Why, Left, Found, Leave:
		return true
	case Suspected, Tell:
		return s.Suspecting() && stage != walk.AtClosed
	case Yes:
		return stage == walk.AtDanger || stage == walk.AtSafe || stage == walk.AtTerms || stage == walk.AtRepair || s.sure != nil || s.pending != nil && s.pending.doubt.byYes() != nil
	case Done:
		return stage == walk.AtWork || stage == walk.AtRepair
	case Tick, All, List:
		return lists
	case Keep:
		return s.pending != nil
	case Time, Stop:
		return s.Timed()
	case Approve, Decline:
		return stage == walk.AtEstimate
	case Paths, Aim, Choose:
		return len(s.paths.Paths) > 0 || stage == walk.AtVerdict
	case ToBin:
		return s.pos.System != nil && len(s.cameOff()) > 0
	}
	return stage != walk.AtClosed
}

// Numbers are those of a list that was just said: what is typed before one of them, and
// how many there are.
type Numbers struct {
	Words string
	Most  int
	Any   bool // any number may stand there: a value is asked for
}

// Numbered are the numbers that a reply has just listed; a page may have two lists.
func (s *Session) Numbered(r Reply) []Numbers {
	switch {
	case r.Show == Paths:
		return []Numbers{{Words: string(Choose), Most: len(s.paths.Ways())}}
	case r.Show == Suspected && s.Unweighed() == "":
		c := s.Counsel()
		return []Numbers{{Words: string(Suspected), Most: len(c.Suspects)}, {Words: string(Tell), Most: len(c.Tests)}}
	case r.Show == Machine && s.pos.System != nil && s.facts.Closed == nil:
		_, items := s.again()
		return []Numbers{{Words: string(Machine), Most: len(items)}}
	case len(s.endings) > 0:
		return []Numbers{{Words: string(Close), Most: len(s.endings)}}
	case r.Lists.Words != "":
		return []Numbers{r.Lists}
	}
	return nil
}
