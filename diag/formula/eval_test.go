package formula_test

import (
	"math"
	"sync"
	"testing"

	"benchlead/diag/formula"
	"benchlead/diag/source"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// reading is one bench: 12 V label, three cells, a 0.30 V drop at 100 A.
func reading() formula.Values {
	return formula.Values{
		Numbers: map[string]float64{
			"label.pack_volts": 12, "label.cells": 3, "label.ah": 18, "label.cca": 250, "bench.celsius": 25,
			"drop": 0.30, "starter_amps": 100, "speed": 3600, "hold": 15,
		},
		Words: map[string]string{"label.chemistry": "agm", "label.pack": "lithium-ion"},
	}
}

// must compiles a formula of any dimension.
func must(t require.TestingT, text string) *formula.Formula {
	for _, want := range []formula.Dimension{
		formula.Volts, formula.Amps, formula.Ohms, formula.Plain, formula.AmpHours, formula.Kelvin, formula.Watts, {Volt: 3, Ampere: -1}, {Volt: -1},
	} {
		if f, issues := formula.Compile(text, source.Origin{}, bench, want); len(issues) == 0 {
			return f
		}
	}
	_, issues := formula.Compile(text, source.Origin{}, bench, formula.Volts)
	require.NoError(t, issues.Err(), text)
	return nil
}

func TestEval(t *testing.T) {
	for text, want := range map[string]float64{
		"7 / 2":                        3.5,
		"2 + 3 * 4 - -1":               15,
		"(2 + 3) * 4":                  20,
		"1e3 + .5":                     1000.5,
		"0.1 * label.pack_volts":       1.2,
		"1000 * drop / starter_amps":   3,
		"1 / label.cells":              1.0 / 3,
		"min(label.cells, 2, 7)":       2,
		"max(1, 2)":                    2,
		"abs(drop - 1)":                0.7,
		"label.cells > 2 ? 10 : 20":    10,
		"label.cells < 2 ? 10 : 20":    20,
		"1 < label.cells < 5 ? 1 : 2":  1,
		"4 < label.cells < 5 ? 1 : 2":  2,
		"within(drop, 0.31, 0.02)?1:2": 1,
		"within(drop, 0.4, 0.02)?1:2":  2,
		`label.chemistry == "agm"?1:2`: 1,
		`label.chemistry != "agm"?1:2`: 2,
		`not (label.chemistry == "flooded" or drop > 1) and drop < 1 ? 1 : 2`: 1,
		`!(drop > 1) && (drop > 1 || drop < 0.5) ? 1 : 2`:                     1,
		"99999999999": 99999999999,
	} {
		f := must(t, text)
		got, err := f.Eval(reading())
		require.NoError(t, err, text)
		require.InDelta(t, want, got, 1e-12, text)
	}
}

// Figures as printed by the sources named.
func TestFunctionsGiveThePublishedFigures(t *testing.T) {
	for text, want := range map[string]float64{
		`lead_rest(0.75, 25, "flooded")`:   12.4, // TM 5-3805-262-20 p 5-142
		`lead_charge(12.2, 25, "flooded")`: 0.5,  // same page
		"load_floor(21.111111, 6)":         9.6,  // TM 5-4210-230-14&P-1 Table 5, 70 °F
		"load_floor(-17.777778, 6)":        8.5,  // same table, 0 °F
		"load_floor_ah(6)":                 9.0,  // TM 5-3805-260-24 p 146
		"load_amps(0, label.ah)":           54,   // same page: three times 18 Ah
		"load_amps(label.cca, 0)":          125,  // half of 250
		"cold_factor(0)":                   0.65, // TM 5-4210-230-14&P-1 Table 3, 32 °F
		`lithium_full(3, "lithium-ion")`:   12.6, // 4.20 V a cell, charger circuit data sheet
		`lithium_empty(label.cells, label.pack == "nickel" ? "iron-phosphate" : "lithium-ion")`: 9, // 3.0 V a cell, cell tables
		"half_wave_mean(16.4)":     7.38,   // 0.4502 x RMS, TC 9-62 para 4-11
		"full_wave_mean(10)":       9.00,   // 0.9003 x RMS, same
		"copper_ohms(1, 30)":       1.0393, // 0.00393 per °C, NBS Handbook 100
		"wire_ohms(10, 304.8, 20)": 0.9989, // ohms per 1000 ft of 10 AWG, NBS Handbook 100
		"drop_allowed(150)":        0.30,   // 0.20 V for each 100 A, TM 10-3930-671-24 p F-303
		"gravity_charge(1.265)":    1,      // TM 5-4210-230-14&P-1 Table 2, p 458
		"stator_hertz(12, 3600)":   360,    // poles x rpm / 120
	} {
		got, err := must(t, text).Eval(reading())
		require.NoError(t, err, text)
		require.InEpsilon(t, want, got, 2e-3, text)
	}
}

func TestMissingIsNeverZero(t *testing.T) {
	f := must(t, `label.chemistry == "agm" ? drop : label.pack_volts + 0 * drop`)
	require.Equal(t, []string{"drop", "label.chemistry", "label.pack_volts"}, f.Needs())
	v := reading()
	require.Empty(t, f.Missing(v))
	delete(v.Numbers, "label.pack_volts") // of the branch that isn't taken
	delete(v.Words, "label.chemistry")
	require.Equal(t, []string{"label.chemistry", "label.pack_volts"}, f.Missing(v))
	_, err := f.Eval(v)
	var missing *formula.Missing
	require.ErrorAs(t, err, &missing)
	require.Equal(t, []string{"label.chemistry", "label.pack_volts"}, missing.Names)
	require.EqualError(t, err, "not known yet: label.chemistry, label.pack_volts")
	_, err = f.Slopes(v, []string{"drop"})
	require.ErrorAs(t, err, &missing)
	_, err = f.Eval(formula.Values{})
	require.ErrorAs(t, err, &missing)
}

func TestNoValue(t *testing.T) {
	v := reading()
	v.Numbers["hold"], v.Numbers["drop"] = math.Inf(1), 0
	for text, says := range map[string]string{
		"1 / drop":                    "1 / drop can't be worked out: it divides by zero",
		"drop / drop":                 "drop / drop can't be worked out: it divides by zero",
		"1 / (1 / drop)":              "1 / (1 / drop) can't be worked out: it divides by zero",
		"1 / drop > 2 ? 1 : 2":        "1 / drop > 2 ? 1 : 2 can't be worked out: it divides by zero",
		"hold > 1 ? 1 : 2":            "hold > 1 ? 1 : 2 can't be worked out: hold is no finite number",
		"1e300 * 1e300":               "1e300 * 1e300 can't be worked out: the result is too large",
		"load_floor(20, 0 * speed)":   "load_floor(20, 0 * speed) can't be worked out: load_floor has no value for what it was given",
		"load_amps(0, 0)":             "load_amps(0, 0) can't be worked out: load_amps has no value for what it was given",
		"load_amps(0, 0) > 1 ? 1 : 2": "load_amps(0, 0) > 1 ? 1 : 2 can't be worked out: load_amps has no value for what it was given",
		// The rest volts of iron-phosphate say nothing between 3.20 and 3.34 V a cell.
		`lithium_charge(3.3, 1, "iron-phosphate")`: `lithium_charge(3.3, 1, "iron-phosphate") can't be worked out: lithium_charge has no value for what it was given`,
	} {
		_, err := must(t, text).Eval(v)
		var none *formula.NotFinite
		require.ErrorAs(t, err, &none, text)
		require.EqualError(t, err, says)
	}
}

func TestSlopesOfKnownFormulas(t *testing.T) {
	v := reading()
	d, a := v.Numbers["drop"], v.Numbers["starter_amps"]
	names := []string{"drop", "starter_amps", "speed", "label.chemistry"}
	for text, want := range map[string][]float64{
		"drop / starter_amps":                 {1 / a, -d / (a * a), 0, 0},
		"1000 * drop / starter_amps":          {1000 / a, -1000 * d / (a * a), 0, 0},
		"drop * drop * drop / starter_amps":   {3 * d * d / a, -d * d * d / (a * a), 0, 0},
		"3 * drop - 2":                        {3, 0, 0, 0},
		`label.chemistry == "agm" ? drop : 5`: {1, 0, 0, 0},
		"max(drop, 0.1) + 7":                  {1, 0, 0, 0},
		"half_wave_mean(drop)":                {math.Sqrt2 / math.Pi, 0, 0, 0}, // TC 9-62 para 4-11
	} {
		f := must(t, text)
		got, err := f.Slopes(v, names)
		require.NoError(t, err, text)
		require.Len(t, got, len(want))
		for i := range want {
			require.InDelta(t, want[i], got[i], 1e-6*math.Abs(want[i]), "%s by %s", text, names[i])
		}
	}
}

func TestSlopeAtZero(t *testing.T) {
	v := reading()
	v.Numbers["drop"] = 0
	got, err := must(t, "2 * drop + label.pack_volts").Slopes(v, []string{"drop"})
	require.NoError(t, err)
	require.InDelta(t, 2, got[0], 1e-6)
}

// The slope of drop/amps is known in closed form for all readings.
func TestSlopesProperty(t *testing.T) {
	f := must(t, "drop / starter_amps")
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.001, 30).Draw(t, "drop")
		a := rapid.Float64Range(0.01, 500).Draw(t, "amps")
		v := reading()
		v.Numbers["drop"], v.Numbers["starter_amps"] = d, a
		got, err := f.Slopes(v, []string{"drop", "starter_amps"})
		require.NoError(t, err)
		require.InEpsilon(t, 1/a, got[0], 1e-6)
		require.InEpsilon(t, -d/(a*a), got[1], 1e-6)
	})
}

func TestEvalByManyAtOnce(t *testing.T) {
	f := must(t, `lead_rest(0.5, bench.celsius, label.chemistry) - drop / label.cells`)
	want, err := f.Eval(reading())
	require.NoError(t, err)
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 200 {
				got, err := f.Eval(reading())
				if err != nil || got != want {
					t.Errorf("got %v, %v; want %v", got, err, want)
				}
			}
		})
	}
	wait.Wait()
}

func TestTableOfFunctions(t *testing.T) {
	seen := map[string]bool{}
	last := ""
	for _, f := range formula.Functions() {
		require.Regexp(t, `^[a-z][a-z0-9_]*$`, f.Name)
		require.Greater(t, f.Name, last, "in alphabetical order")
		last = f.Name
		require.False(t, seen[f.Name])
		seen[f.Name] = true
		require.NotEmpty(t, f.Source, f.Name)
		require.Regexp(t, `\.$`, f.Says, f.Name)
		require.NotContains(t, f.Says, "\n")
		require.NotEmpty(t, f.Args, f.Name)
	}
	for _, name := range []string{
		"lead_rest", "load_floor", "load_amps", "lithium_full", "lithium_empty", "lithium_unsafe", "lithium_rest",
		"copper_ohms", "wire_ohms", "half_wave_mean", "full_wave_mean", "cold_factor", "within", "min", "max", "abs",
	} {
		require.True(t, seen[name], name)
	}
}

// Every function of the table can be called as the table says, and gives a
// finite value for some sensible numbers.
func TestEveryFunctionRuns(t *testing.T) {
	for _, f := range formula.Functions() {
		text := f.Name + "("
		for i, a := range f.Args {
			if i > 0 {
				text += ", "
			}
			switch {
			case len(a.Words) > 0:
				text += `"` + a.Words[0] + `"`
			case a.Name == "rating":
				text += "10" // blade fuses are known from 5 A
			default:
				text += []string{"3", "2", "0.5", "1", "1"}[i]
			}
		}
		text += ")"
		if f.Condition {
			text += " ? 1 : 2"
		}
		want := f.Result
		compiled, issues := formula.Compile(text, source.Origin{}, formula.Names{}, want)
		require.NoError(t, issues.Err(), text)
		got, err := compiled.Eval(formula.Values{})
		require.NoError(t, err, text)
		require.False(t, math.IsNaN(got), text)
	}
}
