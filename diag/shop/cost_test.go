package shop

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"
)

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// 10.05 with 30 % on it is 13.065, half up 13.07. Without a markup the book's price
// stands, with all its places.
func TestPriceOfAGrade(t *testing.T) {
	s := Settings{RoundTo: dec("0.01"), Grades: map[string]GradeTerms{"original": {Markup: dec("30")}}}
	require.Equal(t, "13.07", s.Price("original", dec("10.05")).String())
	require.Equal(t, "10.055", s.Price("aftermarket", dec("10.055")).String())
	s.RoundTo = dec("0.05")
	require.Equal(t, "13.05", s.Price("original", dec("10.05")).String(), "13.065 / 0.05 = 261.3")
}

// 25 minutes at 50.00 an hour are 20.8333. The minimum is for what is charged.
func TestWorkHasNoMinimum(t *testing.T) {
	s := Settings{RoundTo: dec("0.01"), LabourRate: dec("50.00"), MinimumLabour: dec("30.00")}
	require.Equal(t, "20.83", s.Work(25).String())
	require.Equal(t, "30", s.Labour(25).String())
	require.True(t, s.Work(0).IsZero())
}

func TestConverted(t *testing.T) {
	s := Settings{RoundTo: dec("0.01"), ConversionWorth: dec("85")}
	require.Equal(t, "161.5", s.Converted(dec("190")).String()) // 190 x 0.85
	require.Equal(t, "190", Settings{}.Converted(dec("190")).String(), "nothing is said of it")
}

func TestAhead(t *testing.T) {
	require.Equal(t, 5, Settings{Seasons: 5}.Ahead())
	require.Equal(t, 3, Settings{}.Ahead())
	require.Equal(t, Plain().Seasons, Settings{}.Ahead())
}

// What is set is there by the name of its key, and nothing else.
func TestUsed(t *testing.T) {
	s := Settings{
		Currency: "EUR", LabourRate: dec("61.50"), MinimumLabour: dec("15"), RoundTo: dec("0.05"), TaxPartsPercent: dec("19"), TaxOn: TaxNone,
		FeeCredited: true, Seasons: 4, ConversionWorth: dec("80"),
		Grades: map[string]GradeTerms{"bin": {Markup: dec("12.5"), WarrantyDays: 30, FailPercent: dec("9")}, "original": {}},
	}
	require.Equal(t, map[string]string{
		"currency": "EUR", "labour rate": "61.5", "minimum labour": "15", "round to": "0.05", "tax parts percent": "19", "tax on": "none",
		"fee credited": "yes", "seasons": "4", "conversion worth percent": "80",
		"bin markup percent": "12.5", "bin warranty days": "30", "bin fail percent": "9",
	}, s.Used())
}
