package record

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
)

func TestAQuoteAddsUp(t *testing.T) {
	for _, q := range []job.Quote{
		{},
		{Total: "20.00"}, // of before, without its lines
		{Parts: "60.00", Labour: "10.00", Tax: "14.00", Total: "84.00"},
		{Parts: "60", Labour: "10.00", Other: "0.005", Tax: "14.000", Total: "84.005"},
		{Parts: "0.00", Labour: "0.00", Other: "25.00", Tax: "0.00", Total: "25.00"},
	} {
		require.NoError(t, addsUp(q), q)
	}
	require.Error(t, addsUp(job.Quote{Parts: "0.1", Labour: "0.2", Total: "0.30000001"}))
	require.Error(t, addsUp(job.Quote{Parts: "1", Total: ""}))
}

// It adds up exactly when the total is the sum to the last place, whatever the lines.
func TestOnlyTheSumIsTheTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cents := func(name string) int64 { return rapid.Int64Range(0, 1_000_000).Draw(t, name) }
		p, l, o, x, off := cents("parts"), cents("labour"), cents("other"), cents("tax"), rapid.Int64Range(0, 2).Draw(t, "off")
		text := func(n int64) string { return decimal.New(n, -2).StringFixed(2) }
		q := job.Quote{Parts: text(p), Labour: text(l), Other: text(o), Tax: text(x), Total: text(p + l + o + x + off)}
		require.Equal(t, off == 0, addsUp(q) == nil)
	})
}

func TestWhatIsNoAmount(t *testing.T) {
	quote := func(q job.Quote) job.Event { return job.Event{Chosen: &job.Chosen{Quote: q}} }
	for says, e := range map[string]job.Event{
		`its parts is "NaN", which is no amount`: quote(job.Quote{Parts: "NaN"}),
		`its labour is "-4.00"`:                  quote(job.Quote{Labour: "-4.00"}),
		`its other is "1e3"`:                     quote(job.Quote{Other: "1e3"}),
		`its tax is "6,40"`:                      quote(job.Quote{Tax: "6,40"}),
		`its total is "84.00 EUR"`:               quote(job.Quote{Total: "84.00 EUR"}),
		`its price of "pack" is "Inf"`:           {Chosen: &job.Chosen{Lines: []job.QuoteLine{{Part: "pack", Each: "Inf"}}}},
		`its total is "some"`:                    {Asked: &job.Asked{Total: "some"}},
		`its ceiling is ".5"`:                    {Asked: &job.Asked{Total: "1", Ceiling: ".5"}},
		`its asking price is "a lot"`:            {Binned: &job.Binned{Asking: "a lot"}},
	} {
		require.ErrorContains(t, sums(e), says)
	}
	require.NoError(t, sums(job.Event{Binned: &job.Binned{}}), "of before")
}
