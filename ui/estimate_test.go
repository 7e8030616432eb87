package ui_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// estimated is a job whose battery and charger are found, with the first way
// chosen: battery 40.00 in stock, charger 25.00 for order, 15 minutes at 48.00 an
// hour = 12.00, tax 7.5 % of the parts = 4.875, 4.88. Together 81.88.
func estimated(t *testing.T) *ui.Session {
	t.Helper()
	s := beginPump(t, bench(t))
	enter(t, s, "charger 0", "held 9.0", "choose 1")
	require.Equal(t, walk.AtEstimate, s.Position().Stage)
	return s
}

func TestTheEstimateIsToldWithEveryAmount(t *testing.T) {
	p := estimated(t).Prompt()
	require.Equal(t, []ui.Row{
		{Text: "Battery, original, 1 at 40.00"},
		{Text: "Charger, original, 1 at 25.00, to be ordered"},
		{Text: "Parts", Amount: "65.00"},
		{Text: "Labour, 15 min", Amount: "12.00"},
		{Text: "Tax", Amount: "4.88"},
		{Text: "Total", Amount: "81.88 USD"},
	}, p.Rows)
	require.Len(t, p.Phone, 2)
	require.Contains(t, p.Phone[1], "81.88 USD")
	require.Equal(t, "81.88", p.Total)
}

func TestWhatTheOwnerSaid(t *testing.T) {
	for typed, want := range map[string]job.Asked{
		"approve 120 Mrs. K, by telephone":      {Approved: true, Who: "Mrs. K", How: "by telephone", Total: "81.88", Ceiling: "120.00", Currency: "USD"},
		"approve 81,88 Mrs. K":                  {Approved: true, Who: "Mrs. K", Total: "81.88", Ceiling: "81.88", Currency: "USD"},
		"approve 120 usd Mrs. K":                {Approved: true, Who: "Mrs. K", Total: "81.88", Ceiling: "120.00", Currency: "USD"},
		"approve 40 Mrs. K":                     {Approved: true, Who: "Mrs. K", Total: "81.88", Ceiling: "40.00", Currency: "USD"},
		"declined Mrs. K, at the counter, cash": {Who: "Mrs. K", How: "at the counter, cash", Total: "81.88", Currency: "USD", Declined: []string{"Fit a battery", "Fit a charger"}},
		"pass the shop's own machine":           {Approved: true, Who: "the shop", How: "the shop's own machine", Total: "81.88", Ceiling: "81.88", Currency: "USD"},
	} {
		s := estimated(t)
		enter(t, s, typed)
		require.Len(t, s.Facts().Asked, 1, typed)
		require.Equal(t, want, s.Facts().Asked[0].Asked, typed)
	}
}

// What can be read in two ways, or says nobody, records nothing.
func TestAnAnswerToTheEstimateThatIsNone(t *testing.T) {
	for _, typed := range []string{
		"approve", "approve 120", "approve 120 USD", "approve Mrs. K", "approve 1,200 Mrs. K", "approve 1e9 Mrs. K", "approve -5 Mrs. K",
		"approve 120 , by telephone", "declined", "declined , gone", "pass", "pass yes", "pass No", "120", "yes", "done", "1",
	} {
		s := estimated(t)
		before := len(s.Events())
		_, err := s.Enter(context.Background(), typed)
		require.Error(t, err, typed)
		require.Len(t, s.Events(), before, typed)
	}
	s := estimated(t)
	enter(t, s, "")
	require.Equal(t, walk.AtEstimate, s.Position().Stage, "an empty line is no answer")
	enter(t, s, "undo")
	for _, typed := range []string{"approve 120 Mrs. K", "declined Mrs. K"} {
		_, err := s.Enter(context.Background(), typed)
		require.Error(t, err, "there is nothing to be approved")
	}
}

// Too little is approved: that stands in the log, a cheaper way can be chosen at
// once, and a dearer one is asked about.
func TestACheaperWayFitsTheCeiling(t *testing.T) {
	s := estimated(t)
	said := enter(t, s, "approve 80 Mrs. K")
	require.Contains(t, strings.Join(said, " "), "1.88 less")
	require.Equal(t, walk.AtEstimate, s.Position().Stage)
	require.Contains(t, strings.Join(s.Prompt().Tell, " "), "Approved up to 80.00 USD by Mrs. K. That is 1.88 less than this.")
	enter(t, s, "approve 81.88 Mrs. K")
	require.Equal(t, walk.AtRepair, s.Position().Stage)
	enter(t, s, "undo")
	require.Equal(t, walk.AtEstimate, s.Position().Stage)
}

func TestDeclinedWorkLeadsBackToTheVerdictAndIsKept(t *testing.T) {
	s := estimated(t)
	enter(t, s, "declined Mrs. K")
	require.Equal(t, walk.AtVerdict, s.Position().Stage)
	require.Contains(t, strings.Join(s.Prompt().Tell, "\n"), "Declined by Mrs. K: Fit a battery + Fit a charger, 81.88 USD.")
	enter(t, s, "undo")
	require.Equal(t, walk.AtEstimate, s.Position().Stage)
	enter(t, s, "declined Mrs. K", "close 1", "yes")
	require.Equal(t, job.Unrepaired, s.Facts().Closed.Outcome)
	require.Equal(t, "declined by Mrs. K, 81.88 USD", s.Facts().Closed.Why)
}

// Without a price on file the estimate says what it leaves out.
func TestAPartWithoutAPriceIsNamed(t *testing.T) {
	b := bench(t)
	b.Prices.Prices = nil
	s := beginPump(t, b)
	enter(t, s, "charger 0", "held 9.0", "choose 1")
	require.Contains(t, s.Prompt().Tell, "Battery has no price on file: the total leaves it out.")
	b = bench(t)
	b.Prices = repair.NoPrices()
	s = beginPump(t, b)
	enter(t, s, "charger 0", "held 9.0", "choose 1")
	require.Equal(t, walk.AtEstimate, s.Position().Stage)
	enter(t, s, "approve 90 Mrs. K")
	require.Equal(t, walk.AtRepair, s.Position().Stage)
}

// "a" fills the total in; an amount typed behind it must not become a name.
func TestANameThatBeginsWithANumberIsRefused(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 0", "held 9.0", "choose 1")
	for _, line := range []string{"approve 21.87 20 Oster", "approve 21.87 USD 20", "declined 20 Oster"} {
		refused(t, s, line, "begins with a number")
	}
	require.Empty(t, s.Facts().Asked)
	enter(t, s, "approve 900 Oster, 20 minutes ago")
	require.Equal(t, "Oster", s.Facts().Asked[0].Who)
}
