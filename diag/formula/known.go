package formula

import (
	"fmt"
	"math"

	"github.com/expr-lang/expr/vm"
)

// Known is what is known, kept so that many formulas are worked out with it one
// after the other without anything being built anew for each. Eval and Holds are
// for one formula now and then; a loop over many takes a Known and EvalIn,
// HoldsIn. One Known is for one goroutine.
type Known struct {
	env     map[string]any
	machine vm.VM
}

// NewKnown holds what v holds, and room for more.
func NewKnown(v Values) *Known {
	k := &Known{env: make(map[string]any, len(v.Numbers)+len(v.Words))}
	k.SetAll(v)
	return k
}

// SetAll makes known what v holds; other names stay as they are.
func (k *Known) SetAll(v Values) {
	for name, value := range v.Numbers {
		k.env[name] = value
	}
	for name, word := range v.Words {
		k.env[name] = word
	}
}

// Set makes a number known, in base units.
func (k *Known) Set(name string, value float64) { k.env[name] = value }

// SetWord makes a word known.
func (k *Known) SetWord(name, word string) { k.env[name] = word }

// Forget makes a name unknown.
func (k *Known) Forget(name string) { delete(k.env, name) }

// EvalIn is Eval with what k holds.
func (f *Formula) EvalIn(k *Known) (float64, error) {
	switch {
	case f.yesNo:
		return 0, fmt.Errorf("%s is a condition, not a number", f.text)
	case f.constant:
		return f.value, nil
	}
	if err := f.fit(k.env); err != nil {
		return 0, err
	}
	if f.single {
		return k.env[f.needs[0]].(float64), nil
	}
	return f.run(k)
}

// HoldsIn is Holds with what k holds.
func (f *Formula) HoldsIn(k *Known) (bool, error) {
	switch {
	case !f.yesNo:
		return false, fmt.Errorf("%s is no condition", f.text)
	case f.constant:
		return f.yes, nil
	}
	if err := f.fit(k.env); err != nil {
		return false, err
	}
	return f.ask(k)
}

// fit: every name that the formula needs is there, a number or a word as it
// should be. What is missing is told before what is no finite number.
func (f *Formula) fit(env map[string]any) error {
	var missing []string
	odd := ""
	for i, name := range f.needs {
		switch value := env[name].(type) {
		case float64:
			if f.texts[i] {
				missing = append(missing, name)
			} else if math.IsNaN(value) || math.IsInf(value, 0) {
				odd = name
			}
		case string:
			if !f.texts[i] {
				missing = append(missing, name)
			}
		default:
			missing = append(missing, name)
		}
	}
	switch {
	case len(missing) > 0:
		return &Missing{Names: missing}
	case odd != "":
		return &NotFinite{Text: f.text, Why: odd + " is no finite number"}
	}
	return nil
}
