package tree

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/formula"
	"benchlead/diag/measure"
	"benchlead/diag/source"
)

const minimalFolder = "../../testdata/trees/minimal"

// loaded is the minimal library, with a change laid over it.
func loaded(t *testing.T, script string) *Library {
	t.Helper()
	texts := minimalTexts(t)
	change(t, texts, script)
	var files []source.File
	for name, text := range texts {
		files = append(files, source.File{Name: name, Text: text})
	}
	lib, issues := Load(files)
	require.Empty(t, rendered(files, issues))
	return lib
}

func values(numbers map[string]float64) formula.Values {
	return formula.Values{Numbers: numbers, Words: map[string]string{}}
}

func TestLoadHoldsWhatIsWritten(t *testing.T) {
	lib := loaded(t, "")
	require.Equal(t, []string{"rig"}, slices.Collect(maps.Keys(lib.Systems)))
	rig := lib.Systems["rig"]
	require.Equal(t, "bench rig", rig.Machine)
	require.Equal(t, []string{"stop_time"}, rig.HandBack)
	require.Equal(t, []Complaint{{ID: "silent", Title: "Nothing happens", Trees: []string{"no-crank"}}}, rig.Complaints)
	require.Equal(t, map[string]string{"a": "batt.pos", "b": "batt.neg", "c": "fuse.out"}, rig.Sketch.Marks)
	require.Equal(t, "           -{b}------------------ ", rig.Sketch.Lines[1], "spaces of a sketch count")

	rest := rig.Test("rest_volts")
	require.Equal(t, Metered, rest.Kind)
	require.Equal(t, measure.DCVolts, rest.Function)
	require.Equal(t, []string{"batt.pos", "batt.neg", "off"}, []string{rest.Red, rest.Black, rest.State})
	require.Equal(t, []string{"low", "charged"}, rest.Outcomes())
	require.Equal(t, "made up for tests", rest.Bands[0].Source)
	require.Equal(t, []string{"battery.flat"}, rest.Bands[1].Clears)
	require.Equal(t, 1, rest.People, "one person unless it says otherwise")

	look := rig.Test("fuse_look")
	require.Equal(t, Observed, look.Kind)
	require.Equal(t, "Look through the fuse.", look.Tell)
	require.Equal(t, "hot", look.Choices[1].Danger)

	require.Equal(t, []string{"current", "drop"}, rig.Test("drop_mohm").Inputs())
	require.Equal(t, "stop_time", rig.Test("stop_time").ID, "a test of the file that is included")
	require.NotNil(t, rig.Fault("stop.slow"))
	require.Nil(t, rig.Test("nothing"))
	require.Nil(t, rig.Fault("nothing"))
}

func TestLoadTreesAndRepairs(t *testing.T) {
	lib := loaded(t, "")
	tree := lib.Trees["no-crank"]
	require.Equal(t, "rest", tree.Begin)
	charge := tree.Step("charge")
	require.Equal(t, Do, charge.Kind)
	require.Equal(t, []any{"recharge", "rest", "flat", 1, []string{"rest_volts"}},
		[]any{charge.Work, charge.Next, charge.Else, charge.AtMost, charge.Stales})
	require.Equal(t, map[string]string{"low": "charge", "charged": "look", Unsure: "look"}, tree.Step("rest").Then)
	require.Equal(t, []string{"melted"}, tree.Step("blown").By[0].Bands)
	require.Equal(t, "hot", lib.Trees["feed"].Step("dead").Caution)
	require.Equal(t, []string{"battery.flat"}, lib.Trees["feed"].Step("cable").After)

	cable := lib.Repairs["fit-cable"]
	require.Equal(t, Mend, cable.Kind)
	require.Equal(t, []string{"drop_mohm", "stop_time", "current"}, cable.Stales, "a repair makes its checks unknown, and more")
	require.Equal(t, []PartUse{{Part: "cable", Qty: 1}}, cable.Parts, "one unless it says otherwise")
	require.Equal(t, "It is a fuse.", lib.Parts["fuse"].NoBin)
	require.True(t, lib.Parts["battery"].Refund)
	require.False(t, lib.Parts["cable"].Refund)
	require.Len(t, lib.TreesFor("rig"), 3)
	require.Len(t, lib.RepairsFor("rig"), 3)
	require.Empty(t, lib.TreesFor("other"))
}

// What a repair leaves behind and what a part is worth used come through as they
// are written; a set is told from either side.
func TestLoadWhatIsLeftOver(t *testing.T) {
	lib := loaded(t, strings.Join([]string{
		`@ stock.yaml`,
		`-  - {part: battery, title: Battery, refund: true}`,
		`+  - part: battery`,
		`+    title: Battery`,
		`+    refund: true`,
		`+    life: {seasons: 3.5, judgement: Usual on a board that is used weekly.}`,
		`+    bin needs: [Holds 12 V for a day, {says: "Passes its load test, warm", unit: V, least: 9.6}]`,
		`+    goes with: [cable]`,
		`@ repairs/rig.yaml`,
		`-    off: [The old battery]`,
		`+    off: [The old battery]`,
		`+    scrap: ["Old battery, upright: battery collection point"]`,
		`+    fasteners: [Hold-down bolt, {what: Self-locking nut, new: yes}]`,
		`+    torque: [{what: Hold-down nut, low: 2, high: 3.5, basis: RIG-1}]`,
		``,
	}, "\n"))
	battery, r := lib.Parts["battery"], lib.Repairs["fit-battery"]
	require.Equal(t, &Life{Seasons: 3.5, Judgement: "Usual on a board that is used weekly."}, battery.Life)
	require.Equal(t, []string{"Holds 12 V for a day", "Passes its load test, warm"}, battery.BinNeeds)
	require.Equal(t, map[string]NeedFigure{"Passes its load test, warm": {Unit: "V", Least: 9.6, Most: math.Inf(1)}}, battery.BinFigures)
	require.Equal(t, []string{"cable"}, battery.With)
	require.Equal(t, []string{"battery"}, lib.Parts["cable"].With, "it names the battery too")
	require.Nil(t, lib.Parts["cable"].Life, "a cable lasts")
	require.Equal(t, []string{"Old battery, upright: battery collection point"}, r.Scrap)
	require.Equal(t, []Fastener{{What: "Hold-down bolt"}, {What: "Self-locking nut", New: true}}, r.Fasteners)
	require.Equal(t, []Torque{{What: "Hold-down nut", Low: 2, High: 3.5, Basis: "RIG-1", Source: "made up for tests"}}, r.Torque)
}

// A system's own services come first, then those of what it includes; one that
// both name is done once.
func TestServicesComeInOrder(t *testing.T) {
	lib := loaded(t, strings.Join([]string{
		`@ stock.yaml`,
		`-meters:`,
		`+services:`,
		`+  - {service: oil, title: Fresh oil, tell: Drain it warm., minutes: 15, needs: {spark-lead: "off"}, leaves: {spark-lead: "on"}, cautions: [hot], parts: [{part: cable, qty: 2}]}`,
		`+  - {service: posts, title: Posts greased, tell: Thin., minutes: 2}`,
		`+  - {service: plug, title: Plug, tell: New or cleaned., minutes: 5}`,
		`+meters:`,
		`@ shared/ignition.yaml`,
		`-shared: ignition`,
		`+shared: ignition`,
		`+service: [plug, posts]`,
		`@ systems/rig.yaml`,
		`-include: [ignition]`,
		`+include: [ignition]`,
		`+service: [posts, oil]`,
		``,
	}, "\n"))
	require.Equal(t, []string{"posts", "oil", "plug"}, lib.Systems["rig"].Service)
	oil := *lib.Services["oil"]
	require.Equal(t, "stock.yaml", oil.Place.File)
	oil.Place = source.Place{}
	require.Equal(t, Service{
		ID: "oil", Title: "Fresh oil", Tell: "Drain it warm.", Minutes: 15, Cautions: []string{"hot"}, Parts: []PartUse{{Part: "cable", Qty: 2}},
		Needs: map[string]string{"spark-lead": "off"}, Leaves: map[string]string{"spark-lead": "on"},
	}, oil)
	has := lib.SafeOf(lib.Systems["rig"])
	require.Equal(t, map[string]string{"spark-lead": "off"}, has.Of(oil.Needs))
	require.Equal(t, map[string]string{}, has.Of(map[string]string{"spark-lead": "diesel", "pack": "out"}), "it has no such thing")
}

// Steps that stand before anything comes off are steps as the others.
func TestFirstStepsAreSteps(t *testing.T) {
	r := loaded(t, strings.Join([]string{
		`@ repairs/rig.yaml`,
		`-    steps: [Charge the new battery before it is fitted.]`,
		`+    first: [Clamp off., Boot back.]`,
		`+    steps: [Charge the new battery before it is fitted.]`,
		``,
	}, "\n")).Repairs["fit-battery"]
	require.Equal(t, []string{"Clamp off.", "Boot back.", "Charge the new battery before it is fitted."}, r.Steps)
	require.Equal(t, 2, r.First)
}

// off and on are words in these files, though YAML readers may take them for
// yes and no.
func TestOffIsAWord(t *testing.T) {
	lib := loaded(t, strings.Join([]string{
		`@ systems/rig.yaml`,
		`-    needs: {spark-lead: "off", fuel: "off"}`,
		`+    needs: {spark-lead: off, fuel: off}`,
		`@ stock.yaml`,
		`-      - {setting: "off", tell: Close the tap.}`,
		`+      - {setting: off, tell: Close the tap.}`,
		``,
	}, "\n"))
	require.Equal(t, map[string]string{"spark-lead": "off", "fuel": "off"}, lib.Systems["rig"].State("key-held").Needs)
	require.Equal(t, "off", lib.Safe["fuel"].Settings[0].ID)
}

func TestMetersKeepTheirScales(t *testing.T) {
	m := loaded(t, "").Meters["pocket"]
	require.Equal(t, []measure.Scale{{
		Function: measure.DCVolts, FullScale: 20, Resolution: 0.01, Percent: 0.5, Counts: 2, InputOhms: 10e6,
	}}, m.Scales)
	require.False(t, m.TrueRMS)
}

// Bare numbers are in the unit shown; what has a unit of its own is in base
// units.
func TestLimitsComeInBaseUnits(t *testing.T) {
	rig := loaded(t, strings.Join([]string{
		`@ systems/rig.yaml`,
		`-      - {band: good, below: 200, basis: practice}`,
		`+      - {band: good, below: 200, basis: practice}`,
		`+      - {band: fair, below: 0.1 * label.volts, basis: practice}`,
		`-    alone: Clip both leads on first.`,
		`+    alone: Clip both leads on first.`,
		`+    healthy: {to: 150}`,
		``,
	}, "\n")).Systems["rig"]
	v := values(map[string]float64{"label.cells": 6, "label.volts": 12})

	low, err := rig.Test("rest_volts").Bands[0].Cut(v)
	require.NoError(t, err)
	require.InDelta(t, 11.4, low, 1e-9, "1.9 x 6 cells, in V")

	drop := rig.Test("drop")
	require.Equal(t, "mV", drop.Unit)
	for i, want := range []float64{0.200, 1.2, math.Inf(1)} { // 200 mV; a tenth of 12 V; the last band is open
		cut, err := drop.Bands[i].Cut(v)
		require.NoError(t, err)
		if math.IsInf(want, 1) {
			require.Equal(t, want, cut)
			continue
		}
		require.InDelta(t, want, cut, 1e-9)
	}
	from, to, err := drop.Healthy.Limits(v)
	require.NoError(t, err)
	require.Equal(t, math.Inf(-1), from, "an open end")
	require.InDelta(t, 0.150, to, 1e-9, "150 mV")

	mohm := rig.Test("drop_mohm")
	cut, err := mohm.Bands[0].Cut(v)
	require.NoError(t, err)
	require.InDelta(t, 0.006, cut, 1e-12, "6 mohm")
	worked, err := mohm.FromValue(values(map[string]float64{"drop": 0.42, "current": 60}))
	require.NoError(t, err)
	require.InDelta(t, 0.007, worked, 1e-12, "0.42 V at 60 A")
	slopes, err := mohm.FromSlopes(values(map[string]float64{"drop": 0.42, "current": 60}), []string{"drop", "current"})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{1.0 / 60, -0.42 / 3600}, slopes, 1e-7, "d(U/I)/dU = 1/I, d(U/I)/dI = -U/I^2")
}

func TestUnknownIsNotZero(t *testing.T) {
	rig := loaded(t, "").Systems["rig"]
	var missing *formula.Missing
	_, err := rig.Test("rest_volts").Bands[0].Cut(values(nil))
	require.ErrorAs(t, err, &missing)
	_, _, err = rig.Test("rest_volts").Healthy.Limits(values(nil))
	require.ErrorAs(t, err, &missing)
	_, err = rig.Test("drop_mohm").FromValue(values(map[string]float64{"drop": 1}))
	require.ErrorAs(t, err, &missing)
	_, err = rig.Test("rest_volts").FromValue(values(nil))
	require.ErrorAs(t, err, &missing, "a test that isn't worked out has no value of its own")
	_, err = rig.Label[2].DefaultValue(values(nil))
	require.ErrorAs(t, err, &missing, "a field chosen from words has no number")
}

// A default may use a field that stands below it; the fields are then in an
// order in which each can be worked out from those before it.
func TestDefaultsInOrder(t *testing.T) {
	rig := loaded(t, strings.Join([]string{
		`@ systems/rig.yaml`,
		`-  - {field: cells, ask: Cells in series, least: 3, most: 6, default: 6}`,
		`+  - {field: charge, unit: Ah, ask: Amp-hours, least: 1, most: 99, default: 3 * label.cells}`,
		`+  - {field: cells, ask: Cells in series, least: 3, most: 6, default: 6}`,
		`+  - {field: small, unit: mA, ask: Draw, least: 1, most: 90, default: 50}`,
		``,
	}, "\n")).Systems["rig"]
	v, order := values(map[string]float64{}), []string{}
	for _, f := range rig.Label {
		order = append(order, f.ID)
		if len(f.Options) > 0 {
			require.Equal(t, "lead", f.Word)
			continue
		}
		number, err := f.DefaultValue(v)
		require.NoError(t, err, f.ID)
		v.Numbers["label."+f.ID] = number
	}
	require.Less(t, slices.Index(order, "cells"), slices.Index(order, "charge"))
	require.InDeltaMapValues(t, map[string]float64{
		"label.cells": 6, "label.volts": 12, "label.charge": 18, "label.small": 0.050,
	}, v.Numbers, 1e-9)
	small := rig.Label[slices.Index(order, "small")]
	require.InDelta(t, 0.001, small.Least, 1e-12, "least and most in base units")
	require.InDelta(t, 0.090, small.Most, 1e-12)
}

// Text from files is harmless wherever it is shown later.
func TestTextsAreClean(t *testing.T) {
	lib := loaded(t, strings.Join([]string{
		`@ systems/rig.yaml`,
		`-    title: Battery at rest`,
		`+    title: "Battery\e[31m at\nrest\u202E"`,
		`-    see: Look through the fuse.`,
		`+    see: "Look\a through\u009B the fuse."`,
		``,
	}, "\n"))
	require.Equal(t, "Battery at rest", lib.Systems["rig"].Test("rest_volts").Title)
	require.Equal(t, "Look through the fuse.", lib.Systems["rig"].Test("fuse_look").Tell)
}

// A finding whose evidence another tree always asks is in order; so is one on a
// test that is worked out, when its inputs were asked.
func TestEvidenceByOtherWays(t *testing.T) {
	for name, step := range map[string]string{
		"a tree that was walked always asks it": `+  again: {clear: cable.high, by: {current: [some]}, then: end}`,
		"what it is worked out from was asked":  `+  again: {test: drop, then: {good: more, lossy: more, unsure: more}}` + "\n" + `+  more: {clear: cable.high, by: {drop_mohm: [good]}, then: end}`,
	} {
		t.Run(name, func(t *testing.T) {
			loaded(t, strings.Join([]string{
				`@ faults/no-crank.yaml`,
				`-  stopping: {walk: stopping, then: {shown: end, cleared: end, unsure: end}}`,
				`+  stopping: {walk: stopping, then: {shown: again, cleared: again, unsure: again}}`,
				step,
				``,
			}, "\n"))
		})
	}
}
