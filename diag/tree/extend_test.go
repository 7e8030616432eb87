package tree

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/source"
)

func loadTexts(t *testing.T, texts map[string]string) (*Library, source.Issues) {
	t.Helper()
	var files []source.File
	for name, text := range texts {
		f, issues := source.Open(name, []byte(text))
		require.Empty(t, issues)
		files = append(files, *f)
	}
	return Load(files)
}

// A system that extends another has all that the other has, its trees and
// repairs too, with what it writes in the place of what has the same id.
func TestASystemThatExtendsAnother(t *testing.T) {
	texts := minimalTexts(t)
	texts["systems/small.yaml"] = `
system: small
title: Small rig
about: The same with a lighter fuse that nobody can see.
extends: rig
without: [stored]
label:
  - {field: cells, ask: Cells in series, least: 3, most: 6, default: 3}
`
	texts["systems/small-circuit.yaml"] = `
circuit: small
parts:
  - {part: fuse, is: fuse, from: feed, to: fuse.out, amps: 60, ohms: 0.002, basis: memory}
`
	lib, issues := loadTexts(t, texts)
	require.NoError(t, issues.Err())
	rig, small := lib.Systems["rig"], lib.Systems["small"]
	require.Len(t, small.Tests, len(rig.Tests))
	require.Len(t, small.Faults, len(rig.Faults))
	require.Len(t, rig.History, 1)
	require.Empty(t, small.History)
	require.Equal(t, []string{"rig", "small"}, slices.Sorted(slices.Values(lib.Trees["no-crank"].Systems)))
	require.Len(t, lib.RepairsFor("small"), len(lib.RepairsFor("rig")))

	cells := func(s *System) float64 { return s.LabelValues(nil, nil, 20).Numbers["label.cells"] }
	require.Equal(t, []float64{6, 3}, []float64{cells(rig), cells(small)})
	amps := func(s *System) float64 {
		i := slices.IndexFunc(s.Circuit.Parts, func(p CircuitPart) bool { return p.ID == "fuse" })
		v, err := s.Circuit.Parts[i].Numbers["amps"].Eval(s.LabelValues(nil, nil, 20))
		require.NoError(t, err)
		return v
	}
	require.Equal(t, []float64{100, 60}, []float64{amps(rig), amps(small)})
	require.Len(t, small.Circuit.Parts, len(rig.Circuit.Parts))
	require.Len(t, small.Circuit.Faults, len(rig.Circuit.Faults))
}

// A tree that extends another has its steps and what it judges, with its own in
// the place of those of the same name; a system that extends another goes without
// the one and has the other.
func TestATreeThatExtendsAnother(t *testing.T) {
	texts := minimalTexts(t)
	texts["systems/small.yaml"] = `
system: small
title: Small rig
about: The same, and nobody charges it.
extends: rig
without: [no-crank]
complaints:
  - {complaint: dead, title: Nothing happens, trees: [no-crank-small]}
`
	const small = `
tree: no-crank-small
extends: no-crank
title: Nothing turns
systems: [small]
without: [charge]
steps:
  rest: {test: rest_volts, then: {low: flat, charged: look, unsure: look}}
`
	texts["faults/no-crank-small.yaml"] = small
	lib, issues := loadTexts(t, texts)
	require.NoError(t, issues.Err())
	base, tree := lib.Trees["no-crank"], lib.Trees["no-crank-small"]
	require.Equal(t, []string{"rig"}, base.Systems)
	require.Equal(t, []string{"small"}, tree.Systems)
	require.Equal(t, "rest", tree.Begin)
	require.Equal(t, []string{"battery.flat", "fuse.open", "cable.high"}, tree.Judges)
	ids := func(t *Tree) []string {
		var out []string
		for _, s := range t.Steps {
			out = append(out, s.ID)
		}
		return out
	}
	require.Equal(t, []string{"rest", "charge", "flat", "look", "blown", "feed", "stopping"}, ids(base))
	require.Equal(t, []string{"rest", "flat", "look", "blown", "feed", "stopping"}, ids(tree))
	require.Equal(t, []string{"charge", "flat"}, []string{base.Step("rest").Then["low"], tree.Step("rest").Then["low"]})
	require.Equal(t, "faults/no-crank.yaml", tree.Step("look").Place.File)

	for _, row := range []struct{ from, to, says string }{
		{"without: [charge]", "without: [charge, spoon]", `there is no thing to leave out "spoon"`},
		{"extends: no-crank", "extends: no-such", `there is no tree "no-such"`},
		{"extends: no-crank", "begin: rest", "there is nothing to leave out of a tree that extends none"},
		{"extends: no-crank\n", "", `the tree "no-crank-small" lacks "begin"`},
		{"extends: no-crank", "extends: no-crank-tiny", `"no-crank-tiny" extends another tree itself`},
	} {
		texts["faults/no-crank-small.yaml"] = replaceOnce(t, small, row.from, row.to)
		texts["faults/no-crank-tiny.yaml"] = replaceOnce(t, small, "tree: no-crank-small", "tree: no-crank-tiny")
		_, issues = loadTexts(t, texts)
		require.ErrorContains(t, issues.Err(), row.says)
	}
}

// Services are taken over like all else, and left out by their id.
func TestASystemTakesOverServices(t *testing.T) {
	texts := minimalTexts(t)
	texts["services.yaml"] = `
services:
  - {service: oil, title: Fresh oil, tell: Drain it warm., minutes: 15}
  - {service: posts, title: Posts greased, tell: Thin., minutes: 2}
  - {service: belt, title: Belt looked at, tell: Both sides., minutes: 2}
`
	texts["systems/rig.yaml"] += "service: [oil, posts]\n"
	texts["systems/small.yaml"] = `
system: small
title: Small rig
about: The same, on a belt and without oil.
extends: rig
without: [oil]
service: [belt, posts]
`
	lib, issues := loadTexts(t, texts)
	require.NoError(t, issues.Err())
	require.Equal(t, []string{"oil", "posts"}, lib.Systems["rig"].Service)
	require.Equal(t, []string{"belt", "posts"}, lib.Systems["small"].Service)

	texts["systems/small.yaml"] = replaceOnce(t, texts["systems/small.yaml"], "without: [oil]", "without: [petrol]")
	_, issues = loadTexts(t, texts)
	require.ErrorContains(t, issues.Err(), `there is no thing to leave out "petrol"`)
}

// What a shared file only points at is left out of a system that lacks it, and
// still reported where no system has it.
func TestASharedFilePointsAtWhatOneSystemHas(t *testing.T) {
	texts := minimalTexts(t)
	texts["shared/looks.yaml"] = `
shared: looks
title: Looking
tests:
  - test: glance
    title: A glance
    see: Look.
    state: "off"
    minutes: 1
    choices: [{choice: bright, clears: [fuse.open], take: fuse_look}, dull]
`
	texts["systems/other.yaml"] = `
system: other
title: Other
about: Another.
include: [looks]
complaints:
  - {complaint: dull, title: Dull, trees: [stops-here, dark]}
faults:
  - {fault: lamp.out, title: The lamp is out, says: It is dark.}
tests:
  - {test: lamp_look, title: The lamp, see: Look., state: "off", minutes: 1, choices: [{choice: whole, clears: [lamp.out]}, broken]}
states:
  - {state: "off", title: All off, tell: Off.}
`
	texts["faults/stops-here.yaml"] = `
tree: stops-here
title: Nothing for us
systems with: looks
begin: look
steps:
  look: {test: glance, then: {bright: end, dull: closed, unsure: end}}
  closed: {stop: Leave it closed.}
`
	texts["faults/dark.yaml"] = `
tree: dark
title: Is it dark?
systems: [other]
judges: [lamp.out]
begin: look
steps:
  look: {test: lamp_look, then: {whole: end, broken: out, unsure: end}}
  out: {find: lamp.out, by: {lamp_look: [broken]}, then: end}
`
	texts["repairs/lamp.yaml"] = `
repairs:
  - repair: fit-lamp
    title: Fit a lamp
    systems: [other]
    clears: [lamp.out]
    minutes: 1
    steps: [Fit it.]
    checks: [lamp_look]
`
	texts["systems/rig-circuit.yaml"] += "  - {what: glance, why: nothing shines}\n"
	texts["systems/rig.yaml"] = replaceOnce(t, texts["systems/rig.yaml"], "include: [ignition]", "include: [ignition, looks]")
	lib, issues := loadTexts(t, texts)
	require.NoError(t, issues.Err())
	choice := func(system string) Choice { return lib.Systems[system].Test("glance").Choices[0] }
	require.Equal(t, []string{"fuse.open"}, choice("rig").Clears)
	require.Equal(t, "fuse_look", choice("rig").Take)
	require.Empty(t, choice("other").Clears)
	require.Empty(t, choice("other").Take)
	require.Equal(t, []string{"other", "rig"}, lib.Trees["stops-here"].Systems)
	require.Empty(t, lib.Trees["stops-here"].Judges)

	texts["shared/looks.yaml"] = replaceOnce(t, texts["shared/looks.yaml"], "take: fuse_look", "take: fuse_lok")
	_, issues = loadTexts(t, texts)
	require.ErrorContains(t, issues.Err(), `there is no test "fuse_lok"`)
}

// Work under which everything that is read with power on becomes unknown names
// those tests by their state.
func TestWorkStalesWhatIsReadUnderPower(t *testing.T) {
	lib, issues := loadTexts(t, minimalTexts(t))
	require.NoError(t, issues.Err())
	sys := lib.Systems["rig"]
	plain := sys.StaledBy(&Step{Stales: []string{"rest_volts"}})
	require.Equal(t, []string{"rest_volts"}, plain)
	live := sys.StaledBy(&Step{Stales: []string{"rest_volts"}, Powered: true})
	for _, test := range sys.Tests {
		want := test.ID == "rest_volts" || sys.State(test.State).Live()
		require.Equal(t, want, slices.Contains(live, test.ID), test.ID)
	}
	require.Greater(t, len(live), 1)
}

func replaceOnce(t *testing.T, text, old, new string) string {
	t.Helper()
	require.Equal(t, 1, strings.Count(text, old))
	return strings.Replace(text, old, new, 1)
}
