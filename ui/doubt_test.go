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

// A digit too much or too few on the keys is no digit on the display. A yes that is soon
// said must not make up a reading.
func TestAnotherDecimalPointIsNotTakenByYes(t *testing.T) {
	for _, tc := range []struct{ typed, asks, test string }{
		{"126", "Did you mean 12.6 V (the decimal point)? Then type 12.6 V.", "rest"},
		{"1262", "Did you mean 12.62 V (the decimal point)? Then type 12.62 V.", "rest"},
	} {
		s := beginPump(t, bench(t))
		said := enter(t, s, tc.typed)
		require.Contains(t, said[0], tc.asks)
		require.NotContains(t, s.Prompt().Ask, "yes")
		require.NotContains(t, s.Prompt().Ask, ", or the reading again")
		require.Empty(t, s.Prompt().Meant)
		_, err := s.Enter(context.Background(), "yes")
		require.ErrorContains(t, err, "type the reading again")
		require.Empty(t, s.Facts().Answers[tc.test])

		enter(t, s, "12.62 V")
		require.InDelta(t, 12.62, s.Facts().Answers[tc.test][0].Read.Reading.Value, 1e-12)
	}
}

// The words that were typed stay in the log, beside what they were taken for.
func TestWhatWasTypedStaysInTheLog(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12600", "yes")
	last := s.Events()[len(s.Events())-1]
	require.Equal(t, "12600, meant as 12.6 V", last.Read.Reading.Text)
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

// Probes that are swapped are commoner than a battery charged backwards. Asked once, the
// tech stands by it, and then it counts.
func TestAReadingBelowNothingIsQuestionedAndCountsWhenItIsKept(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, `{band: dead, below: 0.2 * label.volts`, `{band: backwards, below: "-1", basis: practice}
      - {band: dead, below: 0.2 * label.volts`, `then: {dead: `, `then: {backwards: end, dead: `)
	s := beginPump(t, b)
	said := enter(t, s, "-12.6")
	require.Contains(t, said[0], "below nothing")
	require.Contains(t, said[0], "Did you mean 12.6 V (leads swapped)? Then type yes.")
	require.Contains(t, said[0], "where they belong")
	require.Empty(t, s.Facts().Answers["rest"])
	enter(t, s, "keep")
	require.Equal(t, "backwards", s.Position().Results["rest"].Best())
	require.False(t, s.Position().Results["rest"].Lone)
}
