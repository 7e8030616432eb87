package job_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
)

// number gives events their place in a log.
func number(events ...job.Event) []job.Event {
	for i := range events {
		events[i].Seq = int64(i) + 1
	}
	return events
}

// corrected says that the machine is another one, on another system than it is.
func corrected(machine string) job.Event {
	return job.Event{Kind: job.KindCorrected, Corrected: &job.Intake{System: "other", Complaint: "c", Machine: machine, Digest: "other"}}
}

func cant(test string) job.Event {
	return job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: test, Why: "skipped"}}
}

func seen(test, choice string) job.Event {
	return job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test, Choice: choice}}
}

func done(work string, stales ...string) job.Event {
	return job.Event{Kind: job.KindDone, Done: &job.Done{Work: work, Stales: stales}}
}

func ticked(repair string, stales ...string) job.Event {
	return job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: repair, Stales: stales}}
}

func chosen(repairs ...string) job.Event {
	return job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: repairs}}
}

func binned(part string) job.Event {
	return job.Event{Kind: job.KindBinned, Binned: &job.Binned{Part: part, Shown: []string{"runs"}}}
}

func drawn(piece string) job.Event {
	return job.Event{Kind: job.KindDrawn, Drawn: &job.Drawn{Piece: piece, Part: "p"}}
}

func lined(repair string) job.Event {
	return job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: repair, Line: "l"}}
}

func asked() job.Event {
	return job.Event{Kind: job.KindAsked, Asked: &job.Asked{Who: "the owner", Total: "5.00"}}
}

func undo(seq int64) job.Event {
	return job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: seq}}
}

func safe(item, setting string) job.Event {
	return job.Event{Kind: job.KindSafe, Safe: &job.Safe{Confirmed: map[string]string{item: setting}}}
}

func heeded(caution, test string) job.Event {
	return job.Event{Kind: job.KindHeeded, Heeded: &job.Heeded{Caution: caution, Test: test}}
}

func opened() job.Event { return job.Event{Kind: job.KindOpened} }

func volts(test string, v float64) job.Event { return jobtest.Volts(test, v, "typed") }

func fold(t *testing.T, events ...job.Event) job.Facts {
	t.Helper()
	facts, err := job.Fold(number(events...))
	require.NoError(t, err)
	return facts
}

// values are the volts of answers; -1 for a choice, -2 for a passing-over.
func values(answers []job.Answer) []float64 {
	out := []float64{}
	for _, a := range answers {
		switch {
		case a.Read != nil:
			out = append(out, a.Read.Reading.Value)
		case a.Seen != nil:
			out = append(out, -1)
		default:
			out = append(out, -2)
		}
	}
	return out
}

func TestNothingIsKnownOfAnEmptyLog(t *testing.T) {
	facts := fold(t)
	require.Nil(t, facts.Intake)
	require.Empty(t, facts.Current("pack_rest"))
	_, ok := facts.Latest("pack_rest")
	require.False(t, ok)
}

func TestWhatALifeAmountsTo(t *testing.T) {
	life := jobtest.Life()
	facts, err := job.Fold(life)
	require.NoError(t, err)

	in := *jobtest.Intake().Intake
	in.Label = map[string]float64{"cells": 4}
	require.Equal(t, &in, facts.Intake)
	require.Empty(t, facts.Safe, "opened again since")
	require.Equal(t, []job.Note{{Seq: 12, At: life[11].At, Text: "smells of fuel"}}, facts.Notes)
	require.Equal(t, "d2", facts.Digest)
	require.Len(t, facts.History, 1)
	require.EqualValues(t, 14, facts.History[0].Seq)
	require.Equal(t, []string{"replace-pack"}, facts.Chosen.Repairs)
	require.Equal(t, []string{"replace-pack"}, facts.Ticked)
	require.Equal(t, job.Proved, facts.Closed.Outcome)
	require.EqualValues(t, 25, facts.Last)

	require.Equal(t, []float64{12.3}, values(facts.Current("pack_rest")))
	require.Equal(t, []float64{0.36}, values(facts.Before("pack_rest")), "3.6 was taken back")
	require.Equal(t, []float64{0.37, 0.36, 12.3}, values(facts.Answers["pack_rest"]))
	require.Empty(t, facts.Current("pack_contacts"), "staled by cleaning")
	require.Equal(t, []float64{-1}, values(facts.Before("pack_contacts")))
	latest, ok := facts.Latest("pack_held")
	require.True(t, ok)
	require.Equal(t, "can't reach", latest.Cant.Why)
	require.EqualValues(t, 11, facts.Declined("charge-pack"))
	require.EqualValues(t, 4, facts.HeededAt("lithium", "pack_rest"))
	require.Zero(t, facts.HeededAt("lithium", "pack_held"))
	count, last := facts.Works("clean-contacts")
	require.Equal(t, 1, count)
	require.EqualValues(t, 6, last)
}

func TestPiecesThatMoved(t *testing.T) {
	facts := fold(t, jobtest.Intake(), binned("p"), binned("q"), drawn("b7"), undo(2), drawn("b8"), undo(4))
	require.Equal(t, []job.Piece{{Seq: 3, Binned: *binned("q").Binned}}, facts.Binned)
	require.Equal(t, []job.Drawn{*drawn("b8").Drawn}, facts.Drawn)
}

func TestWhichAnswersCount(t *testing.T) {
	for name, c := range map[string]struct {
		log             []job.Event
		current, before []float64
	}{
		"repeats together":                 {[]job.Event{volts("a", 1), volts("a", 2), volts("a", 3)}, []float64{1, 2, 3}, []float64{}},
		"other tests between":              {[]job.Event{volts("a", 1), volts("b", 9), volts("a", 2)}, []float64{1, 2}, []float64{}},
		"a passing-over ends a run":        {[]job.Event{volts("a", 1), cant("a"), volts("a", 2)}, []float64{2}, []float64{}},
		"a passing-over counts alone":      {[]job.Event{volts("a", 1), cant("a")}, []float64{-2}, []float64{}},
		"the latest choice counts":         {[]job.Event{seen("a", "x"), seen("a", "y")}, []float64{-1}, []float64{}},
		"work makes it unknown":            {[]job.Event{volts("a", 1), done("w", "a")}, []float64{}, []float64{1}},
		"work leaves the others":           {[]job.Event{volts("a", 1), done("w", "b")}, []float64{1}, []float64{}},
		"a repair too":                     {[]job.Event{volts("a", 1), volts("a", 2), ticked("r", "a"), volts("a", 3)}, []float64{3}, []float64{1, 2}},
		"twice in one list is once":        {[]job.Event{volts("a", 1), done("w", "a", "a"), volts("a", 3)}, []float64{3}, []float64{1}},
		"before skips an empty epoch":      {[]job.Event{volts("a", 1), done("w", "a"), ticked("r", "a"), volts("a", 3)}, []float64{3}, []float64{1}},
		"before skips what was passed":     {[]job.Event{volts("a", 1), done("w", "a"), cant("a"), ticked("r", "a"), volts("a", 3)}, []float64{3}, []float64{1}},
		"before is the latest before":      {[]job.Event{volts("a", 1), ticked("r", "a"), volts("a", 2), ticked("r", "a"), volts("a", 3)}, []float64{3}, []float64{2}},
		"undone work makes it known again": {[]job.Event{volts("a", 1), done("w", "a"), undo(3)}, []float64{1}, []float64{}},
		"undone reading":                   {[]job.Event{volts("a", 1), volts("a", 2), undo(3)}, []float64{1}, []float64{}},
		"undone passing-over joins runs":   {[]job.Event{volts("a", 1), cant("a"), volts("a", 2), undo(3)}, []float64{1, 2}, []float64{}},
	} {
		t.Run(name, func(t *testing.T) {
			facts := fold(t, append([]job.Event{jobtest.Intake()}, c.log...)...)
			require.Equal(t, c.current, values(facts.Current("a")))
			require.Equal(t, c.before, values(facts.Before("a")))
		})
	}
}

func TestMakeSafeIsAskedAnewWhenOpenedAgain(t *testing.T) {
	facts := fold(t, jobtest.Intake(), safe("fuel", "off"), safe("spark-lead", "off"), opened(), safe("spark-lead", "on"))
	require.Equal(t, map[string]string{"spark-lead": "on"}, facts.Safe)
	facts = fold(t, jobtest.Intake(), safe("spark-lead", "off"), safe("spark-lead", "on"), undo(3))
	require.Equal(t, map[string]string{"spark-lead": "off"}, facts.Safe)
}

func TestADangerIsHeededUntilItIsRaisedAgain(t *testing.T) {
	facts := fold(t, jobtest.Intake(), volts("a", 1), heeded("hot", "a"), volts("a", 1))
	latest, _ := facts.Latest("a")
	require.Less(t, facts.HeededAt("hot", "a"), latest.Seq)
	facts = fold(t, jobtest.Intake(), volts("a", 1), heeded("hot", "a"), undo(3))
	require.Zero(t, facts.HeededAt("hot", "a"))
}

func TestAPathChosenAnewBeginsItsOwnChecklist(t *testing.T) {
	log := []job.Event{jobtest.Intake(), chosen("r1"), ticked("r1"), chosen("r2")}
	facts := fold(t, log...)
	require.Empty(t, facts.Ticked)
	require.EqualValues(t, 4, facts.ChosenAt)
	require.Len(t, facts.Earlier, 1)
	require.Equal(t, []string{"r1"}, facts.Earlier[0].Repairs)
	require.Equal(t, []string{"r1"}, facts.Repaired)
	facts = fold(t, append(log, undo(4))...)
	require.EqualValues(t, 2, facts.ChosenAt)
	require.Empty(t, facts.Earlier)
	require.Equal(t, []string{"r1"}, facts.Chosen.Repairs)
	require.Empty(t, fold(t, jobtest.Intake(), chosen("r1"), chosen("r2")).Earlier, "nothing of the first was done")
	require.Equal(t, []string{"r1"}, facts.Ticked)
}

func TestALogThatIsWrongNamesTheEvent(t *testing.T) {
	closing := job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: job.Unrepaired}}
	swapped := number(jobtest.Intake(), volts("a", 1), volts("a", 2))
	swapped[1], swapped[2] = swapped[2], swapped[1]
	gap := number(jobtest.Intake(), volts("a", 1))
	gap[1].Seq = 7
	for name, c := range map[string]struct {
		log []job.Event
		seq int64
		say string
	}{
		"out of order":            {swapped, 3, "event 2 belongs"},
		"a gap":                   {gap, 7, "event 2 belongs"},
		"no intake":               {number(volts("a", 1)), 1, "intake is the first"},
		"two intakes":             {number(jobtest.Intake(), jobtest.Intake()), 2, "intake is the first"},
		"empty payload":           {number(jobtest.Intake(), job.Event{Kind: job.KindRead}), 2, "holds nothing"},
		"undoes itself":           {number(jobtest.Intake(), undo(2)), 2, "not an earlier one"},
		"undoes the intake":       {number(jobtest.Intake(), undo(1)), 2, "never be taken back"},
		"undoes an undo":          {number(jobtest.Intake(), volts("a", 1), undo(2), undo(3)), 4, "never be taken back"},
		"undoes twice":            {number(jobtest.Intake(), volts("a", 1), undo(2), undo(2)), 4, "event 3 took back already"},
		"a reading after closing": {number(jobtest.Intake(), closing, volts("a", 1)), 3, "closed"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := job.Fold(c.log)
			var bad *job.BadEvent
			require.ErrorAs(t, err, &bad)
			require.Equal(t, c.seq, bad.Seq)
			require.ErrorContains(t, err, c.say)
		})
	}
}

func TestAnEventOfANewerProgramSaysSo(t *testing.T) {
	line := []byte(`{"seq":2,"at":5,"kind":"weighed","weighed":{"grams":12}}`)
	newer, err := job.Decode(line)
	require.NoError(t, err)
	_, err = job.Fold([]job.Event{number(jobtest.Intake())[0], newer})
	require.ErrorIs(t, err, job.ErrNewer)
	require.ErrorContains(t, err, "event 2")
}
