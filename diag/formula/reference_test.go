package formula_test

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/types"
	"github.com/expr-lang/expr/vm"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/formula"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/trees/treetest"
)

// The reference is the virtual machine of the expr library,
// github.com/expr-lang/expr: it compiles the same text to code of its own and runs
// it. Only what the language means otherwise than the library is told to it: every
// number is a float64, and a division by zero or a function without a finite value
// is an error.

// reference is a text as the library compiles it.
type reference struct {
	*vm.Program
	names formula.Names
}

func referenceOf(t require.TestingT, text string, names formula.Names, yesNo bool) reference {
	declared := types.Map{"yes": types.Bool, "no": types.Bool}
	for name := range names.Numbers {
		declare(declared, name, types.Float64)
	}
	for name := range names.Fixed {
		declare(declared, name, types.Float64)
	}
	for name := range names.Words {
		declare(declared, name, types.String)
	}
	options := []expr.Option{
		expr.Env(declared), expr.DisableAllBuiltins(), expr.Patch(floats{}), expr.Operator("/", "over"),
		expr.Function("over", over, new(func(a, b any) float64)), expr.AsFloat64(),
	}
	if yesNo {
		options = append(options, expr.AsBool())
	}
	for _, f := range formula.Functions() {
		options = append(options, expr.Function(f.Name, finite(f), f.Run()))
	}
	program, err := expr.Compile(text, options...)
	require.NoError(t, err, text)
	return reference{program, names}
}

// declare puts the type of a name with dots where the library looks for it.
func declare(in types.Map, name string, of types.Type) {
	first, rest, dotted := strings.Cut(name, ".")
	if !dotted {
		in[name] = of
		return
	}
	inner, _ := in[first].(types.Map)
	if inner == nil {
		inner = types.Map{}
		in[first] = inner
	}
	declare(inner, rest, of)
}

// floats makes every number a float64.
type floats struct{}

func (floats) Visit(node *ast.Node) {
	if n, ok := (*node).(*ast.IntegerNode); ok {
		ast.Patch(node, &ast.FloatNode{Value: float64(n.Value)})
	}
}

func over(args ...any) (any, error) {
	if args[1].(float64) == 0 {
		return nil, fmt.Errorf("divides by zero")
	}
	return args[0].(float64) / args[1].(float64), nil
}

// finite is a function of the table as the library calls it.
func finite(f formula.Function) func(...any) (any, error) {
	run := reflect.ValueOf(f.Run())
	return func(args ...any) (any, error) {
		var in []reflect.Value
		for _, a := range args {
			in = append(in, reflect.ValueOf(a))
		}
		out := run.Call(in)[0].Interface()
		if v, ok := out.(float64); ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
			return nil, fmt.Errorf("%s has no value", f.Name)
		}
		return out, nil
	}
}

// run is what the library gives for what is known.
func (r reference) run(v formula.Values) (any, error) {
	env := map[string]any{"yes": true, "no": false}
	for name, c := range r.names.Fixed {
		put(env, name, c.Value)
	}
	for name, value := range v.Numbers {
		put(env, name, value)
	}
	for name, word := range v.Words {
		put(env, name, word)
	}
	return expr.Run(r.Program, env)
}

func put(in map[string]any, name string, value any) {
	first, rest, dotted := strings.Cut(name, ".")
	if !dotted {
		in[name] = value
		return
	}
	inner, _ := in[first].(map[string]any)
	if inner == nil {
		inner = map[string]any{}
		in[first] = inner
	}
	put(inner, rest, value)
}

// alike holds a formula against its reference: the same number to the last bit, the
// same answer, or an error of both. It says whether there was a value.
func alike(t require.TestingT, f *formula.Formula, r reference, v formula.Values) bool {
	want, wantErr := r.run(v)
	if f.Condition() {
		got, err := f.Holds(v)
		require.Equal(t, wantErr == nil, err == nil, "%s of %v: %v; the reference says %v", f.Text(), v, err, wantErr)
		if err == nil {
			require.Equal(t, want, got, "%s of %v", f.Text(), v)
		}
		return err == nil
	}
	got, err := f.Eval(v)
	number, _ := want.(float64)
	none := wantErr != nil || math.IsNaN(number) || math.IsInf(number, 0)
	require.Equal(t, none, err != nil, "%s of %v: %v, %v; the reference gives %v, %v", f.Text(), v, got, err, want, wantErr)
	if none {
		return false
	}
	require.Equal(t, math.Float64bits(number), math.Float64bits(got), "%s of %v: %v; the reference gives %v", f.Text(), v, got, number)
	return true
}

// values draws everything that is known: sizes that the trade has, small ones that
// break functions and divide by zero, and large ones.
func values(t *rapid.T, names formula.Names) formula.Values {
	size := rapid.OneOf(
		rapid.Float64Range(0, 20), rapid.Float64Range(-50, 5000), rapid.Float64Range(0, 1),
		rapid.SampledFrom([]float64{0, 1, -1, 0.5, 12, 25, 1e-9, 1e200}),
	)
	v := formula.Values{Numbers: map[string]float64{}, Words: map[string]string{}}
	for name := range sorted(names.Numbers) {
		v.Numbers[name] = size.Draw(t, name)
	}
	for name, options := range sorted(names.Words) {
		v.Words[name] = rapid.SampledFrom(options).Draw(t, name)
	}
	return v
}

func TestShippedFormulasGiveWhatTheReferenceGives(t *testing.T) {
	lib, issues := tree.Load(treetest.Read(t, "../..", "trees"))
	require.Empty(t, issues)
	shipped := map[*formula.Formula]bool{}
	gather(reflect.ValueOf(lib), shipped, map[seen]bool{})
	require.Greater(t, len(shipped), 500, "all formulas of the trees")
	texts := map[string]bool{}
	for f := range shipped {
		if texts[f.Text()] {
			continue
		}
		texts[f.Text()] = true
		r := referenceOf(t, f.Text(), f.Names(), f.Condition())
		rapid.Check(t, func(t *rapid.T) { alike(t, f, r, values(t, f.Names())) })
	}
}

type seen struct {
	at uintptr
	of reflect.Type
}

// gather finds every formula that a value leads to.
func gather(v reflect.Value, into map[*formula.Formula]bool, been map[seen]bool) {
	switch v.Kind() {
	case reflect.Pointer:
		here := seen{v.Pointer(), v.Type()}
		if v.IsNil() || been[here] {
			return
		}
		been[here] = true
		if v.CanInterface() {
			if f, ok := v.Interface().(*formula.Formula); ok {
				into[f] = true
				return
			}
		}
		gather(v.Elem(), into, been)
	case reflect.Interface:
		gather(v.Elem(), into, been)
	case reflect.Struct:
		for i := range v.NumField() {
			gather(v.Field(i), into, been)
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			gather(v.Index(i), into, been)
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			gather(v.MapIndex(key), into, been)
		}
	}
}

func TestRandomFormulasGiveWhatTheReferenceGives(t *testing.T) {
	asked, worked := map[bool]int{}, map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		w := writer{t}
		yesNo := rapid.Bool().Draw(t, "yes or no")
		var f *formula.Formula
		var issues source.Issues
		var text string
		if yesNo {
			text = w.condition(4)
			f, issues = formula.CompileCondition(text, source.Origin{}, bench)
		} else {
			text = w.number(dims[rapid.IntRange(0, len(dims)-1).Draw(t, "of")], 4)
			f, issues = formula.CompileBase(text, source.Origin{}, bench)
		}
		if issues.Err() != nil {
			t.Skip(text, issues.Err()) // a function of two words that no value has in common
		}
		r := referenceOf(t, text, bench, yesNo)
		for range 4 {
			asked[yesNo]++
			if alike(t, f, r, values(t, bench)) {
				worked[yesNo]++
			}
		}
	})
	for _, yesNo := range []bool{false, true} {
		require.Greater(t, worked[yesNo], asked[yesNo]/3, "most random formulas must have a value")
	}
}

// sorted is a map in the order of its names, so that the same seed draws the same.
func sorted[T any](m map[string]T) func(func(string, T) bool) {
	return func(yield func(string, T) bool) {
		for _, name := range slices.Sorted(maps.Keys(m)) {
			if !yield(name, m[name]) {
				return
			}
		}
	}
}
