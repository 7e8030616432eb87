package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Amount is a value of a test in the unit that its step shows: "0.37 V".
func Amount(test *tree.Test, base float64) string {
	if math.IsInf(base, 1) {
		return "OL"
	}
	per := test.PerUnit
	if per == 0 {
		per = 1
	}
	if test.Unit == "ohm" && math.Abs(base) >= 1e4 {
		prefix, by := "k", 1e3
		if math.Abs(base) >= 999_950 { // which four digits show as 1000 k
			prefix, by = "M", 1e6
		}
		return trim(base/by) + " " + prefix + "ohm"
	}
	return strings.TrimSpace(trim(base/per) + " " + test.Unit)
}

// trim writes a number with up to four significant digits and no tail of
// noughts.
func trim(v float64) string {
	if v == 0 {
		return "0"
	}
	digits := 3 - int(math.Floor(math.Log10(math.Abs(v))))
	s := strconv.FormatFloat(v, 'f', min(max(digits, 0), 4), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// WithUncertainty is a judged value with its expanded uncertainty (k = 2, about
// 95 %): "0.42 +- 0.01 V".
func WithUncertainty(r walk.Result) string {
	switch {
	case r.Flicker:
		return "flickers"
	case r.Over:
		return "OL"
	}
	if r.Mark != walk.Read {
		return string(r.Mark)
	}
	u := 2 * r.Estimate.U()
	if math.IsInf(r.Estimate.Value, 0) {
		return "OL"
	}
	per := r.Test.PerUnit
	if per == 0 {
		per = 1
	}
	if u <= 0 {
		return Amount(r.Test, r.Estimate.Value)
	}
	places := min(max(1-int(math.Floor(math.Log10(u/per))), 0), 4)
	// One digit of uncertainty is enough unless it begins with 1.
	if first := u / per * math.Pow(10, float64(places-1)); first >= 2 && places > 0 {
		places--
	}
	return strings.TrimSpace(fmt.Sprintf("%.*f +- %.*f %s", places, r.Estimate.Value/per, places, u/per, r.Test.Unit)) // a ratio has no unit
}

// titled is a test's title before what it came out as; a question keeps its
// mark and takes no colon.
func titled(t *tree.Test) string {
	if strings.HasSuffix(t.Title, "?") {
		return t.Title + " "
	}
	return t.Title + ": "
}

// Judged is one answered test in a sentence: value, band, how sure, and what it
// means.
func Judged(r walk.Result) string {
	switch {
	case r.Test == nil:
		return ""
	case r.Mark == walk.Seen:
		return judgedChoice(r)
	case r.Mark == walk.Passed:
		return fmt.Sprintf("%snot answered, %s.", titled(r.Test), r.Why)
	case r.Mark == walk.Unknown:
		return fmt.Sprintf("%snot taken.", titled(r.Test))
	case r.Over:
		return titled(r.Test) + "OL. That says nothing here: choose a higher range and read again."
	case r.Flicker:
		return titled(r.Test) + "the display never settles. That is a sign by itself; no number was taken."
	}
	return judgedReading(r)
}

func judgedChoice(r walk.Result) string {
	for _, c := range r.Test.Choices {
		if c.Name == r.Choice {
			return strings.TrimSpace(fmt.Sprintf("%s%s. %s", titled(r.Test), ChoiceTitle(c), c.Says))
		}
	}
	return fmt.Sprintf("%s%s.", titled(r.Test), r.Choice)
}

func judgedReading(r walk.Result) string {
	call := r.Call()
	head := titled(r.Test) + WithUncertainty(r)
	if r.Count > 1 {
		head += fmt.Sprintf(" (%d readings)", r.Count)
	}
	if r.Astray {
		head += ", readings disagree, take it again"
	}
	if r.Clash != nil {
		return head + ", doubtful. " + r.Clash.Says + " Neither reading counts until they agree."
	}
	if r.Lone {
		return head + ", below nothing. It says nothing until a second reading agrees with it: the leads may be swapped."
	}
	if r.Backward {
		return head + ", the wrong way round. It says nothing until it is read with leads or clamp turned."
	}
	if call.Answer == measure.ByRepeat {
		return head + ". Neither counts until one more agrees with it."
	}
	switch call.Answer {
	case measure.Called:
		band := r.Test.Bands[call.Band]
		return strings.TrimSpace(fmt.Sprintf("%s, %s. %s", head, band.Name, band.Says))
	case measure.TooClose:
		return head + ", too close to call" + mayBe(r) + "."
	case measure.ByLabel:
		return fmt.Sprintf("%s, not called. %s", head, ByLabel(r))
	}
	return head + ", this meter can't decide" + mayBe(r) + "."
}

// mayBe is Nearly in brackets; empty when no band is named.
func mayBe(r walk.Result) string {
	if near := Nearly(r); near != "" {
		return " (" + near + ")"
	}
	return ""
}

// ByLabel says what an unread label leaves open, without odds: they would be of labels.
func ByLabel(r walk.Result) string {
	var bands []string
	for i, chance := range r.Chance {
		if chance > 1-measure.SureAt {
			bands = append(bands, r.Test.Bands[i].Name)
		}
	}
	return fmt.Sprintf("It may be %s: it depends on the label, which was not read. Read it off, then put it in with \"%s\".", strings.Join(bands, " or "), Machine)
}

// Nearly names the bands that a reading may lie in.
func Nearly(r walk.Result) string {
	var out []string
	for i, chance := range r.Chance {
		if chance > 1-measure.SureAt {
			out = append(out, fmt.Sprintf("%s %.0f %%", r.Test.Bands[i].Name, 100*chance))
		}
	}
	return strings.Join(out, ", ")
}

// Minutes is a duration in words.
func Minutes(m float64) string {
	switch {
	case m <= 0:
		return ""
	case m < 1:
		return fmt.Sprintf("%.0f s", m*60)
	case m < 180:
		return trim(m) + " min"
	}
	return trim(m/60) + " h"
}

// Functions of a meter as its dial says them.
var dial = map[measure.Function]string{
	measure.DCVolts: "DC volts", measure.ACVolts: "AC volts", measure.Ohms: "ohms",
	measure.Continuity: "continuity", measure.DiodeTest: "diode test",
	measure.DCAmps: "DC amps, red lead in the amps jack", measure.ClampAmps: "DC clamp",
	measure.Speed: "tachometer", measure.Seconds: "stop watch", measure.Celsius: "thermometer",
}
