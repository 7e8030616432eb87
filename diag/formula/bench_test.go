package formula_test

import (
	"testing"

	"benchlead/diag/formula"
	"benchlead/diag/source"
)

// What working out costs, of a formula with two names and of one with none. The
// loop over many formulas is the proof of the trees: 60 formulas for each of
// 100 000 machines.
func BenchmarkFormula(b *testing.B) {
	v := reading()
	k := formula.NewKnown(v)
	for name, text := range map[string]string{
		"constant": "2 * 3", "one name": "drop", "two names": "drop / starter_amps",
		"table":  `lead_rest(0.75, bench.celsius, label.chemistry)`,
		"choice": `label.chemistry == "agm" ? 0.15 * drop : 0.1`,
	} {
		f := must(b, text)
		b.Run(name+"/Eval", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = f.Eval(v)
			}
		})
		b.Run(name+"/EvalIn", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = f.EvalIn(k)
			}
		})
	}
	c, issues := formula.CompileCondition(`label.chemistry == "agm" and drop > 0.1`, source.Origin{}, bench)
	if len(issues) > 0 {
		b.Fatal(issues)
	}
	b.Run("condition/HoldsIn", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = c.HoldsIn(k)
		}
	})
}
