package repair

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/shop"
)

// What was offered, and with which settings, is frozen.
func TestChosenFreezesLinesSettingsAndAim(t *testing.T) {
	b := edited(t, `"48.00"`, `"54.50"`, packLine, `stock: 0, lead days: 4, note: second shelf}`, `"14.00"`, `"14.005"`, "stock: 2", "stock: 1")
	b.Shop.Grades = map[string]shop.GradeTerms{"original": {WarrantyDays: 90, FailPercent: dec("2.5")}}
	o := offersFor(t, b, Choices{Aim: Quickest}, "pack.weak", "ground.lossy")
	c := pathOf(t, o, "new-pack+clean-ground: pack=original (second shelf)").Chosen()
	require.Equal(t, []job.QuoteLine{{Part: "pack", Grade: "original", Qty: 1, Each: "84.00", Note: "second shelf"}}, c.Lines)
	require.Equal(t, "quickest", c.Aim)
	require.Equal(t, map[string]string{
		"currency": "USD", "labour rate": "54.5", "tax percent": "7.5", "tax on": "parts", "warn above percent": "50", "round to": "0.01",
		"fee credited": "yes", "seasons": "3", "conversion worth percent": "100", "original warranty days": "90", "original fail percent": "2.5",
	}, c.Shop)
	require.NoError(t, job.Event{Kind: job.KindChosen, Chosen: &c}.Check())
	c.Shop["currency"] = "EUR"
	require.Equal(t, "USD", o.Leave[0].Chosen().Shop["currency"], "each record has its own")
	require.Equal(t, "quickest", o.Leave[0].Chosen().Aim)

	// Every place of a price is kept, and what lies in stock is said.
	o = offersFor(t, b, Choices{}, "ground.lossy")
	require.Equal(t, []job.QuoteLine{{Part: "cable", Grade: "original", Qty: 1, Each: "14.005", InHand: true}},
		pathOf(t, o, "new-ground: cable=original").Chosen().Lines)
	require.Equal(t, "cheapest now", o.Leave[2].Chosen().Aim)
}

func TestAQuoteKeepsWhosePricesTheyWere(t *testing.T) {
	o := offersFor(t, edited(t).From("The record's own prices"), Choices{}, "pack.no-output")
	require.Equal(t, "The record's own prices", PricesFrom(o.Paths[0].Chosen().Shop))
	require.Equal(t, "The record's own prices", PricesFrom(o.Leave[0].Chosen().Shop))
	o = offersFor(t, edited(t), Choices{}, "pack.no-output")
	require.NotContains(t, o.Paths[0].Chosen().Shop, "prices from")
}
