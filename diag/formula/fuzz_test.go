package formula_test

import (
	"math"
	"testing"

	"benchlead/diag/formula"
	"benchlead/diag/source"
)

// FuzzFormula: whatever is written, nothing panics; there is either a formula
// or an issue with a place inside the text; and what compiles gives the same
// finite value, or the same error, each time.
func FuzzFormula(f *testing.F) {
	for _, seed := range []string{
		"12.5", "2.5 * label.cells", "drop / starter_amps", "12,5", "12.5V", "max(1, drop) > 3 ? 1 : 2",
		`lead_rest(0.75, bench.celsius, label.chemistry)`, `label.chemistry == "agm" ? 1 : 2`, "a // b", "1..2",
		"all(x, {# > 1})", "let x = 1; x", "((((1))))", "-!not-1", "1 < 2 < 3 ? 1 : 2", "drop\n+\n1", "::abs(1)", "b'x'", "`x`",
		"abs(drop,)", "min()", "label.", ".5.", "1e", "Ω", "\"", "? :", "a ?: b", "not in", "1/0", "drop not in drop",
	} {
		f.Add(seed)
	}
	v := reading()
	f.Fuzz(func(t *testing.T, text string) {
		compiled, issues := formula.Compile(text, source.Origin{Lines: []source.Place{{File: "f", Line: 1, Column: 1}}}, bench, formula.Volts)
		if (compiled == nil) != (len(issues) > 0) {
			t.Fatalf("formula %v with issues %v", compiled, issues)
		}
		for _, i := range issues {
			if i.Place.Line != 1 || i.Place.Column < 1 || i.Place.Column > len(text)+1 || i.Message == "" {
				t.Fatalf("issue %+v", i)
			}
		}
		if compiled == nil {
			return
		}
		once, err := compiled.Eval(v)
		again, errAgain := compiled.Eval(v)
		if once != again || (err == nil) != (errAgain == nil) {
			t.Fatalf("%v %v, then %v %v", once, err, again, errAgain)
		}
		if err == nil && (math.IsNaN(once) || math.IsInf(once, 0)) {
			t.Fatalf("gave %v", once)
		}
	})
}
