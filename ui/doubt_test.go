package ui_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

func TestOneAnswerTakesAQuestionedValueAsItWasMeant(t *testing.T) {
	for _, tc := range []struct {
		typed, asks, test string
		value             float64
	}{
		{"126", "12.6 V (the decimal point)", "rest", 12.6},
		{"1262", "12.62 V (the decimal point)", "rest", 12.62},
		{"12600", "12600 mV (that is 12.6 V)", "rest", 12.6}, // no scale of the meter goes that far
		{"held -11.5", "11.5 V (leads swapped)", "held", 11.5},
	} {
		s := beginPump(t, bench(t))
		said := enter(t, s, tc.typed)
		require.Contains(t, said[0], "Did you mean "+tc.asks, tc.typed)
		require.Contains(t, s.Prompt().Ask, "yes for ")
		require.Equal(t, walk.Unknown, s.Position().Results[tc.test].Mark)

		enter(t, s, "yes")
		read := s.Facts().Answers[tc.test][0].Read
		require.InDelta(t, tc.value, read.Reading.Value, 1e-12)
		require.False(t, read.Sure)
		require.Contains(t, read.Reading.Text, "meant as")
		require.NotContains(t, s.Prompt().Ask, "yes for ")
	}
}

// The words that were typed stay in the log, beside what they were taken for.
func TestWhatWasTypedStaysInTheLog(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "126", "yes")
	last := s.Events()[len(s.Events())-1]
	require.Equal(t, "126, meant as 12.6 V", last.Read.Reading.Text)
}

func TestAValueThatTheMeterHasNoRangeForCantBeKept(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12600")
	require.NotContains(t, s.Prompt().Ask, "keep")
	_, err := s.Enter(context.Background(), "keep")
	require.ErrorContains(t, err, "does not fit a scale")
	require.Equal(t, walk.Unknown, s.Position().Results["rest"].Mark)
}

// No slip makes 0.002 lie between 12 and 13: it is a thousandth of 2, and a hundredth of 0.2.
func TestYesWithoutAGuessRecordsNothing(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, `possible: {from: "-20", to: "30"}`, `possible: {from: "12", to: "13"}`)
	s := beginPump(t, b)
	said := enter(t, s, "0.002")
	require.NotContains(t, said[0], "Did you mean")
	_, err := s.Enter(context.Background(), "yes")
	require.ErrorContains(t, err, "yes to what?")
	require.Equal(t, walk.Unknown, s.Position().Results["rest"].Mark)
}

func TestAReadingThatDisagreesIsAskedForOnceMoreInWords(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "rest 12.8", "yes", "held 11.5", "held 9.0")
	p := s.Prompt()
	require.Equal(t, "held", s.Position().Test.ID)
	require.Contains(t, p.Tell[0], "11.5 V, then 9 V")
	require.False(t, s.Line(s.Position().Test, "").Sure)
	said := enter(t, s, "held 9.0")
	require.Contains(t, said[0], "2 readings")
	require.Equal(t, "sags", s.Position().Results["held"].Best())
}
