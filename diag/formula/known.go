package formula

import (
	"fmt"
	"math"
)

// Known is what is known, kept so that many formulas are worked out with it one
// after the other without anything being built anew for each. Eval and Holds are
// for one formula now and then; a loop over many takes a Known and EvalIn,
// HoldsIn. One Known with all its copies is for one goroutine.
type Known struct {
	names   *directory
	sorts   []sort // by place: broken for a name that isn't known
	numbers []float64
	words   []string

	// While a formula is worked out: the places of what it needs, arguments of
	// functions, and why it has no value.
	at   []int
	args []float64
	why  string
}

// directory is where a Known and its copies keep each name, and all that each
// formula needs.
type directory struct {
	at map[string]int
	of map[*Formula][]int
}

func newDirectory() *directory { return &directory{map[string]int{}, map[*Formula][]int{}} }

func (d *directory) place(name string) int {
	at, ok := d.at[name]
	if !ok {
		at = len(d.at)
		d.at[name] = at
	}
	return at
}

func (d *directory) places(f *Formula) []int {
	at, ok := d.of[f]
	if !ok {
		at = make([]int, 0, len(f.needs))
		for _, name := range f.needs {
			at = append(at, d.place(name))
		}
		d.of[f] = at
	}
	return at
}

// NewKnown holds what v holds, and room for more.
func NewKnown(v Values) *Known {
	k := &Known{names: newDirectory()}
	k.SetAll(v)
	return k
}

// Copy knows the same; from then on each of the two learns by itself.
func (k *Known) Copy() *Known {
	out := &Known{names: k.names}
	out.grow()
	copy(out.sorts, k.sorts)
	copy(out.numbers, k.numbers)
	copy(out.words, k.words)
	return out
}

// grow makes room for every name that has a place.
func (k *Known) grow() {
	if n := len(k.names.at) - len(k.sorts); n > 0 {
		k.sorts = append(k.sorts, make([]sort, n)...)
		k.numbers = append(k.numbers, make([]float64, n)...)
		k.words = append(k.words, make([]string, n)...)
	}
}

// SetAll makes known what v holds; other names stay as they are.
func (k *Known) SetAll(v Values) {
	for name, value := range v.Numbers {
		k.Set(name, value)
	}
	for name, word := range v.Words {
		k.SetWord(name, word)
	}
}

// Place is where a name is kept, here and in all copies: for SetAt and SetWordAt.
func (k *Known) Place(name string) int {
	at := k.names.place(name)
	k.grow()
	return at
}

// Set makes a number known, in base units.
func (k *Known) Set(name string, value float64) { k.SetAt(k.Place(name), value) }

// SetWord makes a word known.
func (k *Known) SetWord(name, word string) { k.SetWordAt(k.Place(name), word) }

// SetAt is Set for the name of a place, which is quicker.
func (k *Known) SetAt(place int, value float64) {
	k.grow()
	k.sorts[place], k.numbers[place] = quantity, value
}

// SetWordAt is SetWord for the name of a place, which is quicker.
func (k *Known) SetWordAt(place int, word string) {
	k.grow()
	k.sorts[place], k.words[place] = words, word
}

// Forget makes a name unknown.
func (k *Known) Forget(name string) { k.sorts[k.Place(name)] = broken }

// none notes why there is no value. The first reason stays, as what follows it
// has been given no number.
func (k *Known) none(why string) float64 {
	if k.why == "" {
		k.why = why
	}
	return math.NaN()
}

// EvalIn is Eval with what k holds.
func (f *Formula) EvalIn(k *Known) (float64, error) {
	switch {
	case f.yesNo:
		return 0, fmt.Errorf("%s is a condition, not a number", f.text)
	case f.constant:
		return f.value, nil
	}
	if err := f.fit(k); err != nil {
		return 0, err
	}
	value := f.run(k)
	if err := f.worked(k); err != nil {
		return 0, err
	}
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return 0, &NotFinite{Text: f.text, Why: "the result is too large"}
	}
	return value, nil
}

// HoldsIn is Holds with what k holds.
func (f *Formula) HoldsIn(k *Known) (bool, error) {
	switch {
	case !f.yesNo:
		return false, fmt.Errorf("%s is no condition", f.text)
	case f.constant:
		return f.yes, nil
	}
	if err := f.fit(k); err != nil {
		return false, err
	}
	yes := f.ask(k)
	if err := f.worked(k); err != nil {
		return false, err
	}
	return yes, nil
}

// fit makes k ready for the formula. Every name that it needs must be there, a
// number or a word as it should be.
func (f *Formula) fit(k *Known) error {
	k.at, k.args, k.why = k.names.places(f), k.args[:0], ""
	k.grow()
	for i, at := range k.at {
		if f.texts[i] != (k.sorts[at] == words) || k.sorts[at] == broken || math.IsNaN(k.numbers[at]-k.numbers[at]) {
			return f.unfit(k)
		}
	}
	return nil
}

// unfit is the error for what is not as it should be: what is missing before what
// is no finite number.
func (f *Formula) unfit(k *Known) error {
	var missing []string
	odd := ""
	for i, name := range f.needs {
		sort, value := k.sorts[k.at[i]], k.numbers[k.at[i]]
		switch {
		case sort == broken || f.texts[i] != (sort == words):
			missing = append(missing, name)
		case sort == quantity && (math.IsNaN(value) || math.IsInf(value, 0)):
			odd = name
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
