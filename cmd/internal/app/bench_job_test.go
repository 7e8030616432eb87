package app

import (
	"bytes"
	"cmp"
	"context"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/report"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// deadPackDeadCharger is what the bench shows of a push-button machine whose
// pack (10.8 V on its label) reads 0.37 V and whose charger (12.45 V) gives
// nothing: common practice, no source. The rest of the machine is sound.
var deadPackDeadCharger = map[string]string{
	"machine_scope": "plain", "pack_look": "sound", "look_over": "nothing wrong", "oil_level": "right",
	"by_hand": "turns", "pack_contacts": "clean", "pack_rest": "0.37", "outlet_lamp": "lights",
	"labels_match": "match", "cord_look": "good", "charger_plug": "clean", "charger_dc": "0.00",
	"charger_ac": "0.00", "charger_build": "transformer",
	"lever_released_ohms": "OL", "lever_closed_ohms": "0.3", "button_released_ohms": "OL", "button_pressed_ohms": "0.3",
	"stop_released": "0.4", "stop_held": "OL", "rope_pull": "1", "guards": "1", "engine_stops": "1",
	"stop_time": "2.1", "button_only": "no button",
}

// bench1 is one job of the push-button machine on the shipped trees.
func bench1(t *testing.T) *ui.Session {
	t.Helper()
	return begin1(t, shippedBench(t))
}

// shippedBench is a bench with the shipped trees, the prices of the demo, a record
// of its own and a clock that stands.
func shippedBench(t *testing.T) ui.Bench {
	t.Helper()
	p := &program{demo: true, env: func(string) string { return "" }, now: func() int64 { return 1_700_000_000_000_000 }}
	lib, err := p.library()
	require.NoError(t, err)
	in, err := p.priceBook(lib, nil)
	require.NoError(t, err)
	return ui.Bench{Library: lib, Prices: in.book, Store: new(job.Memory), Now: p.now}
}

// begin1 takes the push-button machine in.
func begin1(t *testing.T, b ui.Bench) *ui.Session {
	t.Helper()
	s, err := ui.Begin(context.Background(), b, job.Intake{
		System: "button-start-pack", Complaint: "silent", Celsius: 20, Worth: "180",
		Label: map[string]float64{"pack_volts": 10.8, "cells": 3, "charger_volts": 12.45},
		Meter: b.Library.Instruments("pocket"),
	})
	require.NoError(t, err)
	return s
}

// goOn answers what is asked until the job waits for a decision: the verdict,
// the end, or something that there is no answer to.
func goOn(t *testing.T, s *ui.Session, answers map[string]string) {
	t.Helper()
	for range 300 {
		if !one(t, s, answers) {
			return
		}
	}
	require.Fail(t, "the job goes round")
}

// one answers what is asked now; false when it is a decision.
func one(t *testing.T, s *ui.Session, answers map[string]string) bool {
	t.Helper()
	pos := s.Position()
	line := ""
	switch pos.Stage {
	case walk.AtSafe, walk.AtDanger:
		line = "yes"
	case walk.AtEstimate:
		line = "approve 900 the owner, by telephone"
	case walk.AtTerms:
		line = "yes"
		if len(pos.Term.Ways) > 1 {
			line = "1"
		}
	case walk.AtWork:
		line = "pass not at hand"
	case walk.AtRepair:
		line = "done"
		if slices.ContainsFunc(pos.Lines, func(l walk.Line) bool { return l.Needed() && !l.Done }) {
			line = "all"
		}
		if s.Prompt().Care {
			line = "yes"
		}
	case walk.AtService:
		line = "pass"
	case walk.AtTest, walk.AtCheck, walk.AtHandBack:
		line = cmp.Or(answers[pos.Test.ID], "pass can't be had")
	default:
		return false
	}
	_, err := s.Enter(context.Background(), line)
	require.NoError(t, err, "%s: %s", pos.Stage, line)
	return true
}

// The whole job, intake to hand-back: both faults are found, the pack's cells
// are not called dead, what hangs on them is masked, the conversion is among the
// paths and is proved.
func TestDeadPackAndDeadChargerFromIntakeToHandBack(t *testing.T) {
	s := bench1(t)
	goOn(t, s, deadPackDeadCharger)
	require.Equal(t, walk.AtVerdict, s.Position().Stage)
	v := s.Position().Verdict
	require.ElementsMatch(t, []string{"pack.no-output", "charger.no-output"}, foundIn(v))
	require.Contains(t, report.Sentence(v, s.Position().System, s.Facts().Intake.Complaint), "not shown to be dead")
	masked := []string{}
	for _, m := range v.Masked {
		masked = append(masked, m.Fault.ID)
	}
	require.Contains(t, masked, "control.start")
	require.NotContains(t, masked, "switch.lever", "its ohms can be read with the pack out")
	n := slices.IndexFunc(s.Offer().Paths, func(p repair.Path) bool { return p.Converts })
	require.GreaterOrEqual(t, n, 0, "the rope start is among the paths")
	_, err := s.Enter(context.Background(), "choose "+strconv.Itoa(n+1))
	require.NoError(t, err)
	goOn(t, s, deadPackDeadCharger)
	require.Equal(t, walk.AtClose, s.Position().Stage, "%+v", s.Position().Verdict.Found)
	// The last test has spark and fuel off; nobody hands it over so.
	for i, line := range []string{"close 1", "yes", "close 1", "yes"} {
		_, err = s.Enter(context.Background(), line)
		require.NoError(t, err)
		if i == 0 {
			require.Contains(t, strings.Join(s.Prompt().Tell, " "), "Push the spark lead back")
		}
	}
	require.Equal(t, job.Proved, s.Facts().Closed.Outcome)
	handedOver(t, s)
}

// handedOver checks what is handed over: both faults, the rule with the way
// that was confirmed, and that it is a rope start now.
func handedOver(t *testing.T, s *ui.Session) {
	t.Helper()
	doc, err := s.Document()
	require.NoError(t, err)
	var text, html bytes.Buffer
	require.NoError(t, report.Text(&text, doc))
	require.NoError(t, report.HTML(&html, doc))
	for _, want := range []string{"1205.5(a)(1)(iv)", "repaired and proved"} {
		require.Contains(t, text.String(), want)
		require.Contains(t, html.String(), want)
	}
	met := ""
	for _, l := range doc.Law {
		if l.Cite == "16 CFR 1205.5(a)(1)(iv)" {
			require.Len(t, l.Ways, 3)
			met = l.Met
		}
	}
	require.NotEmpty(t, met)
	require.Contains(t, doc.Phone[1], "rope start")
}

// The same machine with a good charger: the charger is cleared, and the pack is
// still found.
func TestAGoodChargerIsNotCondemned(t *testing.T) {
	answers := map[string]string{}
	for id, a := range deadPackDeadCharger {
		answers[id] = a
	}
	answers["charger_dc"], answers["charger_ac"], answers["charger_load"], answers["cord_wiggle"] = "12.40", "0.00", "12.1", "steady"
	s := bench1(t)
	goOn(t, s, answers)
	found := foundIn(s.Position().Verdict)
	require.Contains(t, found, "pack.no-output")
	require.NotContains(t, found, "charger.no-output")
}

// An electronic charger may show nothing without a pack: it is not condemned,
// the pack isn't either before that is settled, and the test that decides is
// asked for.
func TestAnElectronicChargerThatShowsNothingIsAskedAgain(t *testing.T) {
	answers := map[string]string{}
	for id, a := range deadPackDeadCharger {
		answers[id] = a
	}
	answers["charger_build"] = "electronic"
	s := bench1(t)
	asked := false
	for range 300 {
		pos := s.Position()
		if pos.Test != nil && pos.Test.ID == "charger_amps" {
			asked = true
			break
		}
		if pos.Stage == walk.AtVerdict {
			break
		}
		one(t, s, answers)
	}
	require.True(t, asked, "amps into a known-good pack are what decides")
	require.Empty(t, foundIn(s.Position().Verdict))
}
