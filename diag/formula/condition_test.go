package formula_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/formula"
	"benchlead/diag/source"
)

var spot = source.Origin{Lines: []source.Place{{File: "f", Line: 1, Column: 1}}}

// machine is what conditions about a solved circuit may mention.
var machine = formula.Names{
	Numbers: map[string]formula.Dimension{
		"starter.rpm": formula.Plain, "ground_cable.amps": formula.Amps, "was": formula.Ohms, "charge": formula.Plain, "volts": formula.Volts,
	},
	Words: map[string][]string{"key": {"off", "on", "start"}},
	Fixed: map[string]formula.Constant{"open": {Value: 1e9, Dimension: formula.Ohms}},
}

func turning() formula.Values {
	return formula.Values{
		Numbers: map[string]float64{"starter.rpm": 250, "ground_cable.amps": -60, "was": 0.004, "charge": 0.5, "volts": 12},
		Words:   map[string]string{"key": "start"},
	}
}

func TestConditionsHold(t *testing.T) {
	for text, want := range map[string]bool{
		"starter.rpm > 200":                                   true,
		"starter.rpm > 300":                                   false,
		`key == "start"`:                                      true,
		`key != "start" or ground_cable.amps > 0`:             false,
		"abs(ground_cable.amps) >= 60 and not (charge < 0.5)": true,
		"was < open":                                          true,
		"within(starter.rpm, 255, 10)":                        true,
		"charge > 0.4 ? starter.rpm > 1 : starter.rpm < 1":    true,
		"volts / was > 100 / charge":                          true, // 3000 A against a share, in base units
		"yes":                                                 true,
		" no ":                                                false,
		"true":                                                true,
		"1 < 2":                                               true,
	} {
		f, issues := formula.CompileCondition(text, spot, machine)
		require.NoError(t, issues.Err(), text)
		got, err := f.Holds(turning())
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
		got, err = f.HoldsIn(formula.NewKnown(turning()))
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
}

func TestWhatIsNoCondition(t *testing.T) {
	for text, code := range map[string]source.Code{
		"starter.rpm": formula.CodeKind, `key`: formula.CodeKind, "": formula.CodeSyntax, "starter.rmp > 1": formula.CodeName,
		`key == "statr"`: formula.CodeWord, "starter.rpm == 2": formula.CodeEqual, "volts > was": formula.CodeUnit,
		"charge > 0 ? 1 : 2": formula.CodeKind, "yes and no": formula.CodeName,
	} {
		f, issues := formula.CompileCondition(text, spot, machine)
		require.Nil(t, f, text)
		require.NotEmpty(t, issues, text)
		require.Equal(t, code, issues[0].Code, "%s: %v", text, issues)
	}
}

// A condition is no number, a number no condition; asking is an error and no
// guess.
func TestNumbersAndConditionsApart(t *testing.T) {
	for _, text := range []string{"yes", "charge > 0.4"} {
		f, issues := formula.CompileCondition(text, spot, machine)
		require.NoError(t, issues.Err())
		_, err := f.Eval(turning())
		require.Error(t, err, text)
		_, err = f.EvalIn(formula.NewKnown(turning()))
		require.Error(t, err, text)
		_, err = f.Slopes(turning(), []string{"charge"})
		require.Error(t, err, text)
	}
	for _, text := range []string{"1", "charge", "2 * charge"} {
		f, issues := formula.CompileBase(text, spot, machine)
		require.NoError(t, issues.Err())
		_, err := f.Holds(turning())
		require.Error(t, err, text)
		_, err = f.HoldsIn(formula.NewKnown(turning()))
		require.Error(t, err, text)
	}
}

// In base units a share stands for any quantity; a quantity of another kind
// still doesn't.
func TestBaseUnits(t *testing.T) {
	for text, want := range map[string]float64{
		"0.02 / charge": 0.04, "was + 0.5 / charge": 1.004, "open": 1e9, "was": 0.004, "min(open, was)": 0.004,
	} {
		f, issues := formula.CompileBase(text, spot, machine, formula.Ohms)
		require.NoError(t, issues.Err(), text)
		got, err := f.Eval(turning())
		require.NoError(t, err)
		require.InDelta(t, want, got, 1e-12, text)
	}
	f, issues := formula.CompileBase("open", spot, machine, formula.Ohms)
	require.NoError(t, issues.Err())
	require.Empty(t, f.Needs(), "a fixed name need not be known")
	_, issues = formula.CompileBase("volts", spot, machine, formula.Ohms)
	require.Equal(t, formula.CodeUnit, issues[0].Code)
	_, issues = formula.CompileBase("volts / was", spot, machine)
	require.NoError(t, issues.Err(), "without a want, any dimension")
	_, issues = formula.Compile("0.02 / charge", spot, machine, formula.Ohms)
	require.Equal(t, formula.CodeUnit, issues[0].Code, "a cut may not be a share")
}

// Known gives what Values give, after any changes, and nothing for what is not
// known.
func TestKnownIsAsValues(t *testing.T) {
	var all []*formula.Formula
	for _, text := range []string{"charge", "was * starter.rpm", `key == "on" ? charge : 2 * charge`, "1 / charge", "7", "1 / (2 - 2)"} {
		f, issues := formula.CompileBase(text, spot, machine)
		require.NoError(t, issues.Err())
		all = append(all, f)
	}
	k := formula.NewKnown(turning())
	rapid.Check(t, func(t *rapid.T) {
		v := turning()
		k.SetAll(v)
		for _, name := range []string{"charge", "was"} {
			switch rapid.IntRange(0, 3).Draw(t, name) {
			case 0:
				delete(v.Numbers, name)
				k.Forget(name)
			case 1:
				v.Numbers[name] = math.NaN()
				k.Set(name, math.NaN())
			default:
				v.Numbers[name] = rapid.Float64Range(-5, 5).Draw(t, "value")
				k.Set(name, v.Numbers[name])
			}
		}
		v.Words["key"] = rapid.SampledFrom([]string{"off", "on"}).Draw(t, "key")
		k.SetWord("key", v.Words["key"])
		for _, f := range all {
			want, wantErr := f.Eval(v)
			got, err := f.EvalIn(k)
			require.Equal(t, wantErr, err, f.Text())
			require.Equal(t, want, got, f.Text())
		}
	})
}

// A value may have the name of a function: what is called is the function.
func TestValueNamedAsAFunction(t *testing.T) {
	names := formula.Names{Numbers: map[string]formula.Dimension{"max": formula.Plain, "a": formula.Plain}}
	v := formula.Values{Numbers: map[string]float64{"max": 3, "a": 5}}
	for text, want := range map[string]float64{"max + a": 8, "max(a, 7)": 7} {
		f, issues := formula.CompileBase(text, spot, names)
		require.NoError(t, issues.Err(), text)
		got, err := f.Eval(v)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
}
