package formula_test

import (
	"strings"
	"testing"

	"benchlead/diag/formula"
	"benchlead/diag/source"
	"github.com/stretchr/testify/require"
)

// bench is what the formulas of these tests may mention.
var bench = formula.Names{
	Numbers: map[string]formula.Dimension{
		"label.pack_volts": formula.Volts, "label.cells": formula.Plain, "label.ah": formula.AmpHours,
		"label.cca": formula.Amps, "bench.celsius": formula.Kelvin, "drop": formula.Volts,
		"starter_amps": formula.Amps, "speed": formula.Plain, "hold": formula.Seconds,
	},
	Words: map[string][]string{
		"label.chemistry": {"flooded", "agm"},
		"label.pack":      {"lithium-ion", "nickel"},
	},
}

// compiled gives the issues as a person sees them. The text begins at line 7,
// column 10 of its file and goes on at column 3 of the lines after.
func compiled(text string, want formula.Dimension) (*formula.Formula, string) {
	lines := strings.Split(text, "\n")
	places := []source.Place{{File: "t.yaml", Line: 7, Column: 10}}
	file := &source.File{Name: "t.yaml", Text: strings.Repeat("\n", 6) + "  below: " + lines[0]}
	for i, line := range lines[1:] {
		places = append(places, source.Place{File: "t.yaml", Line: 8 + i, Column: 3})
		file.Text += "\n  " + line
	}
	f, issues := formula.Compile(text, source.Block(places), bench, want)
	var b strings.Builder
	for _, i := range issues {
		b.WriteString(i.Render(file))
	}
	return f, b.String()
}

func TestWhatIsWrongIsShownInPlace(t *testing.T) {
	for _, c := range []struct{ name, text, shown string }{
		{"decimal comma", "12,5", `
t.yaml:7:10: a comma stands in a number [formula-syntax]
      below: 12,5
             ^^^^
  hint: write 12.5
`},
		{"unit", "drop + 12.5V", `
t.yaml:7:17: "12.5V" has a unit in it [formula-syntax]
      below: drop + 12.5V
                    ^^^^^
  hint: write 12.5: a bare number is in the unit of the test; in a circuit in volts, amps and ohms
`},
		{"unit after a space", "12.5 mV", `
t.yaml:7:10: "12.5 mV" has a unit in it [formula-syntax]
      below: 12.5 mV
             ^^^^^^^
  hint: write 12.5: a bare number is in the unit of the test; in a circuit in volts, amps and ohms
`},
		{"forgotten multiplication", "2 label.cells", `
t.yaml:7:12: an operator is missing before "label.cells" [formula-syntax]
      below: 2 label.cells
               ^^^^^^^^^^^
  hint: to multiply, write 2 * label.cells
`},
		{"several unknown names, on two lines", "lable.cells\n + pack_volts", `
t.yaml:7:10: there is no "lable.cells" here [formula-name]
      below: lable.cells
             ^^^^^^^^^^^
  hint: did you mean label.cells?
t.yaml:8:6: there is no "pack_volts" here [formula-name]
       + pack_volts
         ^^^^^^^^^^
  hint: did you mean label.pack_volts?
`},
		{"unknown name and wrong unit together", "drop + bogus + drop * starter_amps + drop", `
t.yaml:7:17: there is no "bogus" here [formula-name]
      below: drop + bogus + drop * starter_amps + drop
                    ^^^^^
  hint: known here: bench.celsius, drop, hold, label.ah, label.cca, label.cells, label.chemistry, label.pack, label.pack_volts, speed, starter_amps
`},
		{"unknown function", "load_flor(bench.celsius, 6)", `
t.yaml:7:10: there is no function "load_flor" [formula-function]
      below: load_flor(bench.celsius, 6)
             ^^^^^^^^^
  hint: did you mean load_floor(celsius, cells)?
`},
		{"library's own function", "now()", `
t.yaml:7:10: there is no function "now" [formula-function]
      below: now()
             ^^^
  hint: "benchlead trees --functions" lists them
`},
		{"function without values", "load_floor", `
t.yaml:7:10: "load_floor" is a function and needs its values [formula-function]
      below: load_floor
             ^^^^^^^^^^
  hint: write load_floor(celsius, cells)
`},
		{"value called", "drop(3)", `
t.yaml:7:10: "drop" is a value and no function [formula-function]
      below: drop(3)
             ^^^^
  hint: to multiply, write drop * (...)
`},
		{"too few values", "load_floor(bench.celsius)", `
t.yaml:7:10: load_floor takes 2 values, not 1 [formula-arguments]
      below: load_floor(bench.celsius)
             ^^^^^^^^^^^^^^^^^^^^^^^^^
  hint: write load_floor(celsius, cells)
`},
		{"wrong unit of a value", "load_floor(drop, 6)", `
t.yaml:7:21: this comes to volts; celsius of load_floor must be degrees Celsius [formula-unit]
      below: load_floor(drop, 6)
                        ^^^^
  hint: write load_floor(celsius, cells)
`},
		{"sum of volts and amps", "1 + (drop - starter_amps)", `
t.yaml:7:15: volts and amps can't be subtracted [formula-unit]
      below: 1 + (drop - starter_amps)
                  ^^^^^^^^^^^^^^^^^^^
`},
		{"result of another unit", "drop / starter_amps", `
t.yaml:7:10: this comes to ohms; volts are wanted [formula-unit]
      below: drop / starter_amps
             ^^^^^^^^^^^^^^^^^^^
  hint: multiply it by amps, or name something else: drop is volts, starter_amps is amps
`},
		{"a share where volts are wanted", "drop / label.pack_volts", `
t.yaml:7:10: this comes to a plain number; volts are wanted [formula-unit]
      below: drop / label.pack_volts
             ^^^^^^^^^^^^^^^^^^^^^^^
  hint: multiply it by volts, or name something else: drop is volts, label.pack_volts is volts
`},
		{"amps and seconds", "starter_amps * hold", `
t.yaml:7:10: amp-hours can only be multiplied or divided by plain numbers [formula-unit]
      below: starter_amps * hold
             ^^^^^^^^^^^^^^^^^^^
  hint: load_amps(cca, ah) gives the amps of a load test
`},
		{"equal numbers", "(drop + 1) == 3 ? 1 : 2", `
t.yaml:7:10: two numbers are hardly ever exactly equal [formula-equal]
      below: (drop + 1) == 3 ? 1 : 2
             ^^^^^^^^^^^^^^^
  hint: write within(drop + 1, 3, tolerance)
`},
		{"word that is never there", `label.chemistry == "agn" ? 1 : 2`, `
t.yaml:7:29: "agn" is not one of the words here [formula-word]
      below: label.chemistry == "agn" ? 1 : 2
                                ^^^^^
  hint: did you mean "agm"?
`},
		{"word that a function doesn't know", `lead_rest(1, bench.celsius, label.pack)`, `
t.yaml:7:38: lead_rest knows no "lithium-ion" [formula-word]
      below: lead_rest(1, bench.celsius, label.pack)
                                         ^^^^^^^^^^
  hint: it may be: flooded, agm
t.yaml:7:38: lead_rest knows no "nickel" [formula-word]
      below: lead_rest(1, bench.celsius, label.pack)
                                         ^^^^^^^^^^
  hint: it may be: flooded, agm
`},
		{"number for a word", `lead_rest(1, bench.celsius, 3)`, `
t.yaml:7:38: chemistry of lead_rest is a word, not a number [formula-kind]
      below: lead_rest(1, bench.celsius, 3)
                                         ^
  hint: it may be: flooded, agm
`},
		{"text for a number", `label.chemistry + "12"`, `
t.yaml:7:10: label.chemistry is text, not a number [formula-kind]
      below: label.chemistry + "12"
             ^^^^^^^^^^^^^^^
  hint: compare it: label.chemistry == "flooded"
t.yaml:7:28: "12" is text, not a number [formula-kind]
      below: label.chemistry + "12"
                               ^^^^
  hint: leave out the quotes around 12
`},
		{"condition as a result", "drop < 1", `
t.yaml:7:10: this gives yes or no; volts are wanted [formula-kind]
      below: drop < 1
             ^^^^^^^^
  hint: write: condition ? value : other value
`},
		{"number as a condition", "drop ? 1 : 2", `
t.yaml:7:10: drop is no condition [formula-kind]
      below: drop ? 1 : 2
             ^^^^
  hint: compare it with something
`},
		{"zero", "drop / 0", `
t.yaml:7:17: nothing can be divided by 0 [formula-zero]
      below: drop / 0
                    ^
`},
		{"remark", "drop // lowest", `
t.yaml:7:15: a remark can't stand in a formula [formula-syntax]
      below: drop // lowest
                  ^^^^^^^^^
  hint: put it on a line of its own in the file, after #
`},
		{"range", "1..2", `
t.yaml:7:11: a range can't be used [formula-syntax]
      below: 1..2
              ^^
  hint: compare both ends: a <= x and x <= b
`},
		{"ends too early", "drop +", `
t.yaml:7:15: the formula ends too early, after + [formula-syntax]
      below: drop +
                  ^
`},
		{"two operators", "drop + * 2", `
t.yaml:7:17: * can't stand here [formula-syntax]
      below: drop + * 2
                    ^
`},
		{"open bracket", "abs(drop", `
t.yaml:7:13: this "(" is never closed [formula-syntax]
      below: abs(drop
                ^
  hint: write the ")" that it belongs to
`},
		{"closing bracket", "drop)", `
t.yaml:7:14: this ")" closes nothing [formula-syntax]
      below: drop)
                 ^
  hint: delete it, or write the "(" that it belongs to
`},
		{"other multiplication sign", "2 × drop − 1", `
t.yaml:7:12: this sign can't be used [formula-syntax]
      below: 2 × drop − 1
               ^
  hint: to multiply, write *
t.yaml:7:19: this is not the minus of the keyboard [formula-syntax]
      below: 2 × drop − 1
                      ^
  hint: write -
`},
		{"empty", " ", `
t.yaml:7:10: there is no formula here [formula-syntax]
      below:
             ^
  hint: write a number, or names with + - * /
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, shown := compiled(c.text, formula.Volts)
			require.Nil(t, f)
			require.Equal(t, strings.TrimPrefix(c.shown, "\n"), shown)
		})
	}
}

func TestWhatIsLeftOut(t *testing.T) {
	for _, text := range []string{
		"let x = 1; x", "drop[0]", "{a: 1}", "[1, 2]", "drop ** 2", "drop ^ 2", "drop % 2", "drop ?? 1", "label?.cells",
		"::abs(drop)", "drop | abs()", "drop in [1]", "if drop > 1 { 1 } else { 2 }", "nil", "true ? 1 : 2", "$env", "`agm`",
		`label["cells"]`, "all(drop, {# > 1})", "drop /* x */", "0x10", "1_000", "1e400", "drop = 1", "drop & 1", "1\u00a0+ 1",
		`"a\"b"`, "label.cells.more", "label", "(1, 2)", "1 2", "drop drop", "drop; drop", "'agm", `"agm`, "99999999999999999999",
	} {
		f, shown := compiled(text, formula.Volts)
		require.Nil(t, f, text)
		require.NotEmpty(t, shown, text)
	}
}

func TestLimits(t *testing.T) {
	for _, c := range []struct {
		name, text string
		code       source.Code
	}{
		{"length", "1" + strings.Repeat(" ", formula.MaxBytes), formula.CodeLong},
		{"depth", strings.Repeat("(", 31) + "1" + strings.Repeat(")", 31), formula.CodeLong},
		{"parts", "1" + strings.Repeat("+1", 200), formula.CodeLong},
		{"signs", strings.Repeat("-", 4000) + "1", formula.CodeLong},
		{"not UTF-8", "1 + \xff", formula.CodeSyntax},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, issues := formula.Compile(c.text, source.Origin{}, bench, formula.Volts)
			require.Nil(t, f)
			require.Len(t, issues, 1)
			require.Equal(t, c.code, issues[0].Code)
		})
	}
}

func TestUnitsOfResults(t *testing.T) {
	for _, c := range []struct {
		text string
		want formula.Dimension
		bare bool
	}{
		{"12.5", formula.Volts, true},
		{"2.5 * label.cells", formula.Volts, true},
		{"(12.6 + 0.2) / 2", formula.Volts, true},
		{"0.1 * label.pack_volts", formula.Volts, false},
		{"label.pack_volts + 0.5", formula.Volts, false},
		{"drop / starter_amps", formula.Ohms, false},
		{"1000 * drop / starter_amps", formula.Ohms, false},
		{"starter_amps * (drop / starter_amps)", formula.Volts, false},
		{"drop / label.pack_volts", formula.Plain, false},
		{"speed / 3600", formula.Plain, true},
		{"(speed - 3000) / speed", formula.Plain, false},
		{"max(9.6, 0.8 * drop)", formula.Volts, false},
		{"max(9.6, 10)", formula.Volts, true},
		{"load_floor(bench.celsius, 6)", formula.Volts, false},
		{"9.6 * cold_factor(bench.celsius)", formula.Volts, true},
		{"load_amps(label.cca, 0)", formula.Amps, false},
		{"3 * label.ah", formula.AmpHours, false},
		{"label.ah / label.ah", formula.Plain, false},
		{"bench.celsius - 5", formula.Kelvin, false},
		{`label.chemistry == "agm" ? 12.8 : 12.6`, formula.Volts, true},
		{`label.chemistry != "agm" and 1 < drop < 2 ? drop : 12.6`, formula.Volts, false},
		{"not within(drop, 1, 0.1) || drop > 3 ? 1 : 2", formula.Volts, true},
		{`lead_rest(0.75, bench.celsius, bench.celsius > 20 ? "agm" : label.chemistry)`, formula.Volts, false},
	} {
		f, shown := compiled(c.text, c.want)
		require.Empty(t, shown, c.text)
		require.Equal(t, c.bare, f.Bare(), c.text)
		require.Equal(t, c.text, f.Text())
		require.Equal(t, 7, f.Origin().Start().Line)
	}
}

func TestDimensionsInWords(t *testing.T) {
	for unit, says := range map[string]string{
		"V": "volts", "A": "amps", "ohm": "ohms", "s": "seconds", "Ah": "amp-hours", "degC": "degrees Celsius",
		"W": "volts x amps", "rpm": "a plain number", "%": "a plain number", "": "a plain number",
	} {
		d, ok := formula.DimensionOf(unit)
		require.True(t, ok, unit)
		require.Equal(t, says, d.String())
	}
	_, ok := formula.DimensionOf("mV")
	require.False(t, ok)
	require.Equal(t, "amps per volt", formula.Dimension{Volt: -1, Ampere: 1}.String())
	require.Equal(t, "1 per second", formula.Dimension{Second: -1}.String())
	require.Equal(t, "volts x volts per amp", formula.Dimension{Volt: 2, Ampere: -1}.String())
}

func TestReservedWords(t *testing.T) {
	for _, word := range []string{"and", "not", "in", "min", "load_floor"} {
		require.True(t, formula.Reserved(word), word)
	}
	require.False(t, formula.Reserved("pack_rest"))
}
