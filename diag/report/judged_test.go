package report

import (
	"bytes"
	"encoding/json"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/repair"
	"benchlead/diag/walk"
)

func judged(t *testing.T, events ...job.Event) Judged {
	t.Helper()
	lib := lamp(t)
	facts, p, offers := state(t, lib, log(append([]job.Event{intake(lib)}, events...)...))
	return BuildJudged(facts, p, offers)
}

func TestJudged(t *testing.T) {
	j := judged(t, volts(t, "cell_lit", "0.310"), seen("ends", "clean"))
	require.Equal(t, []JudgedReading{{
		Test: "cell_lit", Red: "cell.pos", Black: "cell.neg", State: "lit", Function: "dc volts", Value: json.Number("0.31"),
		Unit: "V", Band: "dead", Sure: true, Healthy: "1.2 to 1.65 V (at the label)",
	}}, j.Readings)
	require.Equal(t, []JudgedFinding{{Fault: "cell.dead", Evidence: []string{"cell_lit"}}}, j.Findings)
	require.Equal(t, []string{"bulb.open"}, j.Masked)
	require.Equal(t, []string{"switch.open"}, j.Verdict.Untested)
	require.Equal(t, "Danger first, leaking cell: Gloves on. Found: the cell is dead (It gives no current). "+
		"1 can't be tested until that is repaired: the bulb is open; 1 not tested: the switch is open. "+
		"Taken as usual for the type, because the label was not read: kind of cell.", j.Verdict.Text)
	require.Equal(t, JudgedNext{Tree: "dark", Test: "bulb_lit"}, j.Next)
	require.Equal(t, []JudgedRepairs{{Repairs: []string{"new-cell"}, Parts: []string{"cell/original"}, Minutes: 5, Total: "6.15", Currency: "USD"}}, j.RepairSets)
}

func TestJudgedCannotTell(t *testing.T) {
	j := judged(t, volts(t, "bulb_lit", "0.100"))
	require.Equal(t, []JudgedUnclear{{Test: "bulb_lit", Why: "", Take: "cell_lit"}}, j.CantTell)
	require.Equal(t, "cell_lit", j.Next.Test)
	require.Equal(t, "Touch the ends themselves.", j.Next.Tell)
	require.Equal(t, "At rest it says nothing.", j.Next.Why)
}

func TestJudgedWorkedOutAndOverRange(t *testing.T) {
	j := judged(t, volts(t, "cell_lit", "1.500"), volts(t, "bulb_lit", "1.450"))
	last := j.Readings[len(j.Readings)-1]
	require.Equal(t, []string{"lost", "worked out", "mV", ""}, []string{last.Test, last.Function, last.Unit, last.Red})

	// 1.500 - 1.450 = 0.050 V, exactly 50 mV although neither is a binary fraction.
	require.Equal(t, json.Number("50"), last.Value)

	j = judged(t, volts(t, "cell_lit", "OL"))
	require.Equal(t, "OL", j.Readings[0].Value)
	j = judged(t, job.Event{Kind: job.KindRead, Read: &job.Read{Test: "cell_lit", Reading: measure.Reading{Function: measure.DCVolts, Kind: measure.Flicker}}})
	require.Equal(t, "flicker", j.Readings[0].Value)
	require.False(t, j.Readings[0].Sure)
}

// The keys are a contract with whoever reads the output.
func TestJudgedKeys(t *testing.T) {
	var b bytes.Buffer
	j := judged(t, volts(t, "cell_lit", "0.310"), volts(t, "bulb_lit", "0.100"))
	j.Suspects = []JudgedSuspect{{Fault: "bulb.open", Probability: 0.25}}
	j.CantTell = []JudgedUnclear{{}}
	j.Tests, j.Again, j.Doubts, j.NotYet = []JudgedTest{{}}, []JudgedAgain{{}}, []JudgedDoubt{{}}, []JudgedNotYet{{}}
	require.NoError(t, j.Write(&b))
	var back map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &back))
	keys := func(v any) []string {
		var out []string
		if list, ok := v.([]any); ok {
			v = list[0]
		}
		for k := range v.(map[string]any) {
			out = append(out, k)
		}
		return out
	}
	require.ElementsMatch(t, []string{"readings", "findings", "cleared", "masked", "cannot_tell", "suspects", "tests", "take_again", "in_doubt", "not_yet", "next", "verdict", "repairs"}, keys(back))
	require.ElementsMatch(t, []string{"test", "red", "black", "state", "function", "value", "unit", "band", "sure", "healthy"}, keys(back["readings"]))
	require.ElementsMatch(t, []string{"fault", "evidence"}, keys(back["findings"]))
	require.ElementsMatch(t, []string{"test", "why", "take"}, keys(back["cannot_tell"]))
	require.ElementsMatch(t, []string{"fault", "probability"}, keys(back["suspects"]))
	require.ElementsMatch(t, []string{"test", "work", "minutes", "splits"}, keys(back["tests"]))
	require.ElementsMatch(t, []string{"test", "why"}, keys(back["take_again"]))
	require.ElementsMatch(t, []string{"fault", "probability", "repeat"}, keys(back["in_doubt"]))
	require.ElementsMatch(t, []string{"part", "fault", "take"}, keys(back["not_yet"]))
	require.ElementsMatch(t, []string{"tree", "test", "tell", "why"}, keys(back["next"]))
	require.ElementsMatch(t, []string{"text", "untested"}, keys(back["verdict"]))
	require.ElementsMatch(t, []string{"repairs", "parts", "minutes", "total", "currency"}, keys(back["repairs"]))
	require.InDelta(t, 0.31, back["readings"].([]any)[0].(map[string]any)["value"], 1e-9, "a number")
}

func TestJudgedOfNothing(t *testing.T) {
	for _, j := range []Judged{judged(t), BuildJudged(job.Facts{}, walk.Position{}, repair.Offers{})} {
		noNilSlice(t, reflect.ValueOf(j), "judged")
		var b bytes.Buffer
		require.NoError(t, j.Write(&b))
		require.NotContains(t, b.String(), "null")
	}
}
