package tree

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/formula"
	"benchlead/diag/source"
)

// named are the files of these names, in their order.
func named(files []source.File, names ...string) []source.File {
	return slices.DeleteFunc(slices.Clone(files), func(f source.File) bool { return !slices.Contains(names, f.Name) })
}

// shippedOutlined is the whole library with its outline, read once.
func shippedOutlined(t *testing.T) ([]source.File, *Library, Outline) {
	files := shipped(t)
	is := outlined(files)
	require.Empty(t, is.issues)
	return files, is.lib, is.outline
}

type outlinedLibrary struct {
	lib     *Library
	outline Outline
	issues  source.Issues
}

var outlined = func() func([]source.File) outlinedLibrary {
	var once sync.Once
	var is outlinedLibrary
	return func(files []source.File) outlinedLibrary {
		once.Do(func() { is.lib, is.outline, is.issues = LoadOutlined(files) })
		return is
	}
}()

// A system opened from its own files is the one that the whole library holds, in
// everything that is written of it.
func TestAPartIsWhatTheWholeHolds(t *testing.T) {
	files, whole, outline := shippedOutlined(t)
	require.Len(t, outline.Systems, len(whole.Systems))
	for _, h := range outline.Systems {
		own := named(files, slices.Concat(outline.Lists, h.Files)...)
		part := OpenSystem(own, outline, h.ID)
		require.Equal(t, []string{h.ID}, slices.Collect(maps.Keys(part.Systems)))
		require.Equal(t, whole.Digest, part.Digest)
		sameText(t, written(onlyFor(whole, h.ID)), written(onlyFor(part, h.ID)), h.ID)
		require.Less(t, len(own), len(files), "the whole library is read for %s", h.ID)
	}
}

// The lists are there without any system: with the heads of all of them, nothing can
// be walked.
func TestTheListsComeWithHeads(t *testing.T) {
	files, whole, outline := shippedOutlined(t)
	lists := OpenLists(named(files, outline.Lists...), outline)
	require.Equal(t, whole.Digest, lists.Digest)
	require.Equal(t, whole.Troubles, lists.Troubles)
	require.Equal(t, whole.Terms, lists.Terms)
	for _, pair := range [][2]any{{whole.Parts, lists.Parts}, {whole.Meters, lists.Meters}, {whole.Cautions, lists.Cautions}, {whole.Services, lists.Services}} {
		require.Equal(t, pair[0], pair[1])
	}
	require.Empty(t, lists.Trees)
	require.Empty(t, lists.Repairs)
	require.Len(t, lists.Systems, len(whole.Systems))
	for id, s := range whole.Systems {
		head := lists.Systems[id]
		require.Equal(t, []any{s.Title, s.About, s.Machine, s.Complaints}, []any{head.Title, head.About, head.Machine, head.Complaints})
		require.Empty(t, head.Tests)
	}
}

// Trees in which something is to be mended have no outline: what is left out of a
// part might be what is wrong.
func TestNoOutlineOfWhatIsNotRight(t *testing.T) {
	files := shipped(t)
	at := slices.IndexFunc(files, func(f source.File) bool { return f.Name == "systems/standing-12v.yaml" })
	files[at].Text = strings.Replace(files[at].Text, "include:", "inclose:", 1)
	_, outline, issues := LoadOutlined(files)
	require.NotEmpty(t, issues)
	require.Empty(t, outline.Systems)
}

// onlyFor is what a library holds for one system: of trees and repairs that serve
// others too, what they say of this one.
func onlyFor(lib *Library, system string) []any {
	s := lib.Systems[system]
	out := []any{s}
	has := func(id string) bool { return s.Fault(id) == nil && s.Test(id) == nil }
	for _, t := range lib.TreesFor(system) {
		tree := *t
		tree.Systems = nil
		out = append(out, tree)
	}
	for _, r := range lib.RepairsFor(system) {
		repair := *r
		repair.Systems = nil
		for _, list := range []*[]string{&repair.Clears, &repair.Checks, &repair.Stales} {
			*list = slices.DeleteFunc(slices.Clone(*list), has)
		}
		out = append(out, repair)
	}
	for _, j := range lib.judging[system].list {
		out = append(out, []any{j.Tree.ID, j.Step.ID, j.Fault, j.By, j.After})
	}
	return out
}

// written is all of a value in words, one line a field: of formulas the text and the
// names that they need.
func written(v any) []string {
	var out []string
	seen := map[uintptr]bool{}
	var write func(way string, v reflect.Value)
	write = func(way string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			if v.IsNil() || seen[v.Pointer()] {
				return
			}
			if f, ok := v.Interface().(*formula.Formula); ok {
				out = append(out, fmt.Sprintf("%s: %s %v %v %t %t", way, f.Text(), f.Origin(), f.Needs(), f.Bare(), f.Condition()))
				return
			}
			seen[v.Pointer()] = true
			write(way, v.Elem())
		case reflect.Interface:
			write(way, v.Elem())
		case reflect.Struct:
			for i := range v.NumField() {
				if f := v.Type().Field(i); f.IsExported() {
					write(way+"."+f.Name, v.Field(i))
				}
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				write(fmt.Sprintf("%s[%d]", way, i), v.Index(i))
			}
		case reflect.Map:
			keys := v.MapKeys()
			slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(fmt.Sprint(a), fmt.Sprint(b)) })
			for _, k := range keys {
				write(fmt.Sprintf("%s[%v]", way, k), v.MapIndex(k))
			}
		case reflect.Func:
		default:
			out = append(out, fmt.Sprintf("%s: %v", way, v))
		}
	}
	write("", reflect.ValueOf(v))
	return out
}

// sameText shows the first line that differs: all of them are tens of thousands.
func sameText(t *testing.T, want, have []string, of string) {
	t.Helper()
	require.Greater(t, len(want), 1000, "hardly anything of %s was compared", of)
	for i := range min(len(want), len(have)) {
		require.Equal(t, want[i], have[i], of)
	}
	require.Len(t, have, len(want), of)
}
