package ui_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// lastSaid is the last line that was said.
func lastSaid(said string) string {
	lines := strings.Split(strings.TrimSpace(said), "\n")
	return lines[len(lines)-1]
}

// What was said of the machine is numbered too, and so are the choices of one of its
// questions: a number behind either is not taken for the reading of the step.
func TestANumberAfterWhatWasSaidOfTheMachineIsAskedAbout(t *testing.T) {
	s := beginPump(t, bench(t))
	last := s.Facts().Last
	for list, words := range map[string]string{"machine": `"machine 2"`, "machine 6": `"machine 6 2"`} {
		said := inPlain(t, s, list, "2")
		require.Contains(t, said, "2 may be meant for the list just said or for the step. Type "+words+" for the list", list)
		require.Equal(t, last, s.Facts().Last, "nothing was recorded")
	}
	for _, typed := range []string{"12.4", "12,4", "180"} { // a value that the question asks for
		said := inPlain(t, s, "machine 5", typed)
		require.Contains(t, said, typed+` may be meant for the question just said or for the step. Type "machine 5 `+typed+`" for the question`)
		require.Equal(t, last, s.Facts().Last, "nothing was recorded")
	}
	require.NotContains(t, inPlain(t, s, "machine", "1.5"), "may be meant")
	require.NotContains(t, inPlain(t, s, "machine", "99"), "may be meant", "it is no number of the list")
	s = atClamp(t, "clamp", nil, nil)
	require.Contains(t, inPlain(t, s, "machine 1 can't tell", "1"), `"machine 1 1"`)
}

// What may be typed behind the number of a question is not followed by what the step
// wants.
func TestHowToPutOneThingRightIsSaidLast(t *testing.T) {
	s := beginPump(t, bench(t))
	require.Equal(t, "Type machine 6 and a number of the list.", lastSaid(inPlain(t, s, "machine 6")))
}

// Where the step was not said again, what may be typed names it.
func TestTheStepIsNamedWhereItIsNotSaidAgain(t *testing.T) {
	s := beginPump(t, bench(t))
	for _, typed := range []string{"found", "left", "suspects", "help", "why", "", "note it hums"} {
		require.Equal(t, "Type the reading, in volts, or pass, for: battery at rest.", lastSaid(inPlain(t, s, typed)), "%q", typed)
	}
	require.Equal(t, "Type the reading, in volts, or pass.", lastSaid(inPlain(t, s, "again")))
	enter(t, s, "rest 12.8", "held 8.2")
	require.Regexp(t, `(?i), for: make safe before: battery with the switch held\.$`, lastSaid(inPlain(t, s, "undo")))
	require.Regexp(t, `^Type yes when all of it is so, for: make safe before: `, lastSaid(inPlain(t, s, "")))
}

// A card has the beginning of each caution; "again" says them whole, and so does the
// first card after a job was put aside.
func TestTheCardIsHeardWhole(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "12.8")
	require.Equal(t, walk.AtSafe, s.Position().Stage)
	b.Library.Cautions["slow"] = &tree.Caution{ID: "slow", Title: "Acid", Tell: "Glasses on. Never while frozen."}
	s.Position().Test.Cautions = []string{"slow"}
	const whole, short = "Caution: Acid. Glasses on. Never while frozen.\n", "Caution: Acid. Glasses on.\n"
	require.NotContains(t, inPlain(t, s, "found"), whole)
	require.Contains(t, inPlain(t, s, "again"), short)
	require.Contains(t, inPlain(t, s, "again"), whole)
	s, _, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	said := inPlain(t, s, "found")
	require.Contains(t, said, whole)
	require.NotContains(t, said, short)
	require.Contains(t, inPlain(t, s, "again", "take charger", "take held"), "Caution, as before: Acid.\n", "once is enough")
}

// Only where a step can be passed over is that said.
func TestPassIsSaidOnlyWhereItWorks(t *testing.T) {
	const pass = "What can't be made so: pass the step."
	b := bench(t)
	leaving(b)
	s := beginPump(t, b)
	enter(t, s, "12.8")
	require.Contains(t, strings.Join(s.View(ui.Why), "\n"), pass)
	enter(t, s, "yes", "pass", "pass", "close 1")
	require.Equal(t, walk.AtSafe, s.Prompt().Stage)
	_, err := s.Enter(context.Background(), "pass")
	require.Error(t, err)
	said := strings.Join(s.View(ui.Why), "\n")
	require.Contains(t, said, "What it is for: ")
	require.NotContains(t, said, pass)
	require.NotContains(t, inPlain(t, s, "?"), pass)
}

// Of a job that is over, or of a machine that was repaired, it is not said that no fault
// is found so far.
func TestAJobThatIsOverIsNotCalledWithoutAFault(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 13.5", "held 8.2", "choose 1", "pass ours", "yes", "all", "done", "12.8", "yes", "11.4", "11.2", "yes", "turns", "pass", "stops")
	require.Equal(t, walk.AtClose, s.Position().Stage)
	require.Equal(t, "It was repaired. Nothing is found since.", s.Resumed()[1])
	enter(t, s, "close 1", "yes")
	require.Len(t, s.Resumed(), 1)
}

// Outcome and words stand while all is put back, and then it is asked once.
func TestClosingGoesOnOnceAllIsPutBack(t *testing.T) {
	b := bench(t)
	leaving(b)
	begun := func() *ui.Session {
		s := beginPump(t, b)
		enter(t, s, "12.8", "yes", "pass", "pass", "close 1 bill paid")
		require.Equal(t, walk.AtSafe, s.Prompt().Stage)
		enter(t, s, "yes")
		require.Equal(t, ui.SureStage, s.Prompt().Stage)
		require.Nil(t, s.Facts().Closed)
		return s
	}
	s := begun()
	enter(t, s, "yes")
	require.Equal(t, job.Unrepaired, s.Facts().Closed.Outcome)
	require.Equal(t, "bill paid", s.Facts().Closed.Why)
	s = begun()
	require.Equal(t, []string{"The job goes on."}, enter(t, s, "no"))
	require.Nil(t, s.Facts().Closed)
	require.NotEqual(t, ui.SureStage, s.Prompt().Stage)
	s = beginPump(t, b)
	enter(t, s, "12.8", "yes", "pass", "pass", "close 1 bill paid")
	for _, typed := range []string{"pass", "no", "9", "done"} { // nothing behind the card is meant by it
		_, err := s.Enter(context.Background(), typed)
		require.Error(t, err, typed)
		require.Contains(t, s.Prompt().Title, "closing the job", typed)
	}
	enter(t, s, "undo")
	require.NotContains(t, s.Prompt().Title, "closing the job", "undo has let go of it")
}

// Where nothing is left but to close the job a number is an outcome, why behind it, on
// both faces; it is asked about all the same.
func TestANumberIsAnOutcomeWhereAJobIsToBeClosed(t *testing.T) {
	for typed, why := range map[string]string{"1": "", "1 bill paid": "bill paid", "close 1 bill paid": "bill paid"} {
		s := beginPump(t, bench(t))
		enter(t, s, "charger 13.5", "held 8.2", "choose 1", "pass ours", "yes", "all", "done", "12.8", "yes", "11.4", "11.2", "yes", "turns", "pass", "stops")
		require.Equal(t, walk.AtClose, s.Position().Stage)
		enter(t, s, typed)
		require.Equal(t, `Close as "repaired and proved"?`, s.Prompt().Title)
		require.Nil(t, s.Facts().Closed)
		_, err := s.Enter(context.Background(), "1")
		require.Error(t, err, "that is no yes")
		require.Nil(t, s.Facts().Closed)
		enter(t, s, typed, "yes")
		require.Equal(t, why, s.Facts().Closed.Why)
	}
	s := beginPump(t, bench(t))
	enter(t, s, "charger 13.5", "held 8.2", "choose 1", "pass ours", "yes", "all", "done", "12.8", "yes", "11.4", "11.2", "yes", "turns", "pass", "stops")
	require.NotContains(t, inPlain(t, s, "close", "1"), "may be meant", "it means the same for both")
	require.Contains(t, inPlain(t, s, "machine", "1"), "may be meant")
	enter(t, s, "no")
	_, err := s.Enter(context.Background(), "9")
	require.ErrorContains(t, err, "9 is no number of the list")
}

// A ratio has no unit, and no blank in the place of one.
func TestARatioHasNoUnit(t *testing.T) {
	r := walk.Result{Mark: walk.Read, Test: &tree.Test{Title: "Loaded to unloaded"}, Estimate: measure.Estimate{Value: 1.42, Own: 0.04}}
	require.Equal(t, "1.42 +- 0.08", ui.WithUncertainty(r))
}

// What an unread label leaves open is told in words that say what to do.
func TestAnUnreadLabelSaysWhatToDo(t *testing.T) {
	r := walk.Result{Test: &tree.Test{Bands: []tree.Band{{Name: "low"}, {Name: "good"}}}, Chance: []float64{0.4, 0.6}}
	require.Equal(t, `It may be low or good: it depends on the label, which was not read. Read it off, then put it in with "machine".`, ui.ByLabel(r))
}

// What is told of a healthy range does not say its limits twice, nor does the setting
// of the meter name the function that the dial names.
func TestAHealthyRangeIsSaidOnce(t *testing.T) {
	s := beginPump(t, bench(t))
	test := s.Position().Test
	require.Equal(t, "12.4 V to 13 V", s.Prompt().Healthy)
	for say, want := range map[string]string{
		"12.4 to 13.0 V":                "12.4 V to 13 V",
		"12.4 to 13 V, and over rest":   "12.4 V to 13 V, and over rest",
		"12.5 to 13 V":                  "12.4 V to 13 V: 12.5 to 13 V",
		"12.4 to 13 Volts of a cell":    "12.4 V to 13 V: 12.4 to 13 Volts of a cell",
		"about 12.4 to 13 V":            "12.4 V to 13 V: about 12.4 to 13 V",
		"12.4.1 to 13 V by the numbers": "12.4 V to 13 V: 12.4.1 to 13 V by the numbers",
	} {
		test.Healthy.Say = say
		require.Equal(t, want, s.Prompt().Healthy)
	}
	for scale, want := range map[string]string{"DC, 200 V": "DC volts, 200 V", "20 V": "DC volts, 20 V", "AC, 200 V": "DC volts, AC, 200 V"} {
		test.Scale = scale
		require.Equal(t, want, s.Prompt().Meter)
	}
}

// An amount is asked for in the currency of the prices.
func TestAnAmountIsAskedForInItsCurrency(t *testing.T) {
	require.Equal(t, "the amount, in USD", ask(t, bench(t).Intake(), "What is it worth").Ask)
	b := bench(t)
	b.Prices = nil
	require.Equal(t, "the amount", ask(t, b.Intake(), "What is it worth").Ask)
}

// "undo" at the intake goes back; "back" on the bench is told the word, unless a choice
// is called so.
func TestBackAndUndo(t *testing.T) {
	for _, word := range []string{"undo", "back", "UNDO "} {
		said, _ := takenIn(t, "1", word)
		require.Regexp(t, `(?s)Question 1\..*Question 2.*Question 1\.`, said)
		require.NotContains(t, said, "is none of")
	}
	s := beginPump(t, bench(t))
	_, err := s.Enter(t.Context(), "back") // at a reading
	require.ErrorContains(t, err, `"undo" is the word`)
	enter(t, s, "rest 12.8; held 8.2; motor 0", "take turns", "yes")
	_, err = s.Enter(t.Context(), "back") // at a look
	require.ErrorContains(t, err, `"undo" is the word`)
	s.Position().Test.Choices = append(s.Position().Test.Choices, tree.Choice{Name: "backwards"})
	enter(t, s, "back")
	require.Equal(t, "backwards", s.Facts().Seen("turns"))
}
