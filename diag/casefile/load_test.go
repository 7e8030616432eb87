package casefile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// Each broken case is told with these words, where the ¤ stands.
func TestBrokenCases(t *testing.T) {
	const head = "system: spray-pump\n"
	for _, c := range []struct {
		name, text    string
		code          source.Code
		message, hint string
	}{
		{"empty", "¤", shape.CodeEmpty, "the file holds nothing", "begin it with system:, the id of a system, and readings:"},
		{"no system", "¤words: It is dead.", shape.CodeMissing, `a case lacks "system"`, "add system: ..."},
		{"unknown key", head + "¤reading: []", shape.CodeUnknownField, `a case has no "reading"`, `did you mean "readings"?`},
		{"no value", head + "readings: [{¤state: held}]", shape.CodeMissing, `a reading lacks "value"`, "add value: ..."},
		{"system", "system: ¤spray-pmup", CodeUnknown, `there is no system "spray-pmup"`, `did you mean "spray-pump"?`},
		{"complaint", head + "complaint: ¤deaf", CodeUnknown, `there is no complaint of this system "deaf"`, `did you mean "dead"?`},
		{"label field", head + "label: {¤vlots: 12}", CodeUnknown, `there is no label field of this system "vlots"`, `did you mean "volts"?`},
		{"label word", head + "label: {chemistry: ¤wet}", CodeUnknown, `there is no chemistry "wet"`, "one of: flooded, agm"},
		{"label number", head + "label: {volts: ¤120}", CodeValue, `"120" can't be volts here`, "write a number from 6 to 24"},
		{"label without a number", head + "label: {volts: ¤NaN}", CodeValue, `"NaN" can't be volts here`, "write a number from 6 to 24"},
		{"history", head + "history: [¤stord]", CodeUnknown, `there is no line of history "stord"`, `did you mean "stored"?`},
		{"meter", head + "meter: ¤tset", CodeUnknown, `there is no meter "tset"`, `did you mean "test"?`},
		{"meter without anything", head + "meter: ¤{title: Mine}", CodeUnknown, "the meter has neither a name nor scales", "write meter: test"},
		{"scale", head + "meter: {scales: [{measure: ¤dc volt, full: 2, step: 0.001, percent: 1, counts: 1}]}", CodeUnknown, `there is no function of a meter "dc volt"`, `did you mean "dc volts"?`},
		{"scale of nothing", head + "meter: {scales: [{measure: dc volts, full: ¤0, step: 0.001, percent: 1, counts: 1}]}", CodeValue, "a scale has a full value and a step above nothing, and no negative accuracy", "copy it from the meter's own table"},
		{"bench", head + "bench: ¤400", CodeValue, "no bench is that warm or cold", "write the temperature in degrees C, -40 to 60"},
		{"worth", head + "worth: ¤$200", CodeValue, `"$200" is not an amount`, "write digits such as 450.00, without a currency sign"},
		{"worth beyond all", head + "worth: ¤1e900000000", CodeValue, `"1e900000000" is not an amount`, "write digits such as 450.00, without a currency sign"},
		{"red point", head + "readings: [{red: ¤bat.poz, value: 1}]", CodeUnknown, `there is no point of this system "bat.poz"`, `did you mean "bat.pos"?`},
		{"black point", head + "readings: [{black: ¤frame, value: 1}]", CodeUnknown, `there is no point of this system "frame"`, "one of: bat.pos, bat.neg, chg.pos, chg.neg, mot.pos"},
		{"state", head + "readings: [{state: ¤hled, value: 1}]", CodeUnknown, `there is no state of this system "hled"`, `did you mean "held"?`},
		{"function", head + "readings: [{function: ¤dc vlots, value: 1}]", CodeUnknown, `there is no function of a meter "dc vlots"`, `did you mean "dc volts"?`},
		{"setup", head + "readings: [{with: [¤unplugged], value: 1}]", CodeUnknown, `there is no setup of this system "unplugged"`, "this system has none"},
		{"observation", head + "seen: [{test: ¤trns, choice: turns}]", CodeUnknown, `there is no observation of this system "trns"`, `did you mean "turns"?`},
		{"a reading is no observation", head + "seen: [{test: ¤rest, choice: full}]", CodeUnknown, `there is no observation of this system "rest"`, "one of: turns, safe_stop"},
		{"choice", head + "seen: [{test: turns, choice: ¤stand}]", CodeUnknown, `there is no choice of turns "stand"`, `did you mean "stands"?`},
		{"expected fault", head + "expect: {found: [¤mot.opne]}", CodeUnknown, `there is no fault of this system "mot.opne"`, `did you mean "mot.open"?`},
		{"expected question", head + "expect: {asks: [¤mottor]}", CodeUnknown, `there is no test of this system "mottor"`, `did you mean "motor"?`},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, after, _ := strings.Cut(c.text, "¤")
			got, issues := Load(source.File{Name: "case.yaml", Text: before + after}, pump(t))
			require.Nil(t, got)
			require.Len(t, issues, 1, "%v", issues)
			require.Equal(t, []any{c.code, c.message, c.hint}, []any{issues[0].Code, issues[0].Message, issues[0].Hint})
			lines := strings.Split(before, "\n")
			require.Equal(t, source.Place{
				File: "case.yaml", Line: len(lines), Column: len(lines[len(lines)-1]) + 1, Length: issues[0].Place.Length,
			}, issues[0].Place)
		})
	}
}

func TestEveryMistakeIsToldAtOnce(t *testing.T) {
	_, issues := load(t, "label: {vlots: 1}", "readings: [{red: x, state: y, value: 1}]", "seen: [{test: z, choice: z}]", "expect: {found: [w]}")
	require.Len(t, issues, 5)
}

// Whatever the file holds, reading it ends, gives no more events and asides than
// it has room for, and a case that is read makes a job.
func FuzzCase(f *testing.F) {
	lib := pump(f)
	for _, text := range []string{
		"system: spray-pump\nreadings:\n- {function: dc volts, red: bat.neg, black: bat.pos, state: 'off', value: '-12.6 V', range: 20 V}\nseen: [{test: turns, choice: stands}]\n",
		"system: spray-pump\nmeter: {scales: [{measure: dc volts, full: 1e300, step: 1, percent: 1, counts: 1}]}\nreadings: [{value: 1e300}, {value: OL}, {value: flicker}]\n",
		"system: spray-pump\nlabel: {volts: 6, chemistry: agm}\nbench: -40\nworth: 1\nhistory: [stored]\nexpect: {found: [mot.open], asks: [rest]}\n",
		"system: spray-pump\nreadings: [{function: dc volts, red: bat.pos, black: bat.neg, state: held, value: 1..2}]\n",
		"", "system: [", "system: spray-pump\nmeter: {}\n", "system: *x\n",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		file, issues := source.Open("case.yaml", []byte(text))
		if file == nil {
			require.NotEmpty(t, issues)
			return
		}
		c, issues := Load(*file, lib)
		for _, i := range issues {
			require.Equal(t, source.Clean(i.Render(file)), i.Render(file))
		}
		if c == nil {
			require.NotEmpty(t, issues)
			return
		}
		require.Empty(t, issues)
		require.LessOrEqual(t, len(c.Events)+len(c.Aside), 1+len(file.Text)/len("value"))
		for _, a := range c.Aside {
			require.Equal(t, source.CleanLine(a.What+a.Why), a.What+a.Why)
			require.NotEmpty(t, a.Why)
		}
		_, err := job.Fold(c.Events)
		require.NoError(t, err)
	})
}
