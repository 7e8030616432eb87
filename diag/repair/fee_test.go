package repair

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// The fee of a machine that goes back unrepaired, worked out by hand.
func TestTheFeeIsTaxedAsInARepair(t *testing.T) {
	fee := `diagnostic fee: "25.00", warn above`
	for _, c := range []struct {
		name string
		edit []string
		want job.Quote
	}{{
		// 7.5 % on parts alone: nothing on the fee.
		name: "tax on parts", edit: []string{"warn above", fee},
		want: job.Quote{Other: "25.00", Tax: "0.00", Total: "25.00"},
	}, {
		// 7.5 % of 25.00 = 1.875, half up 1.88. Total 26.88.
		name: "tax on both", edit: []string{"warn above", fee, "tax on: parts", "tax on: both"},
		want: job.Quote{Other: "25.00", Tax: "1.88", Total: "26.88"},
	}, {
		// 20 % of 25.00 = 5.00, whatever the rates of parts and work.
		name: "a rate for the rest", edit: []string{"warn above", fee, `tax percent: "7.5", tax on: parts`, `tax parts percent: 5, tax labour percent: 10, tax other percent: 20`},
		want: job.Quote{Other: "25.00", Tax: "5.00", Total: "30.00"},
	}, {
		// To 0.05: fee 25.02 / 0.05 = 500.4, so 25.00; tax 1.875 / 0.05 = 37.5, so
		// 38 x 0.05 = 1.90. Total 26.90.
		name: "to five cents", edit: []string{"warn above", `diagnostic fee: "25.02", round to: "0.05", warn above`, "tax on: parts", "tax on: both"},
		want: job.Quote{Other: "25.00", Tax: "1.90", Total: "26.90"},
	}, {
		// A fee that a repair is credited with is due all the same without one.
		name: "credited against a repair", edit: []string{"warn above", `diagnostic fee: "25.00", fee credited: yes, warn above`, "tax on: parts", "tax on: both"},
		want: job.Quote{Other: "25.00", Tax: "1.88", Total: "26.88"},
	}, {
		name: "no fee", edit: []string{"tax on: parts", "tax on: both"},
		want: job.Quote{Other: "0.00", Tax: "0.00", Total: "0.00"},
	}} {
		t.Run(c.name, func(t *testing.T) {
			o := offersFor(t, edited(t, c.edit...), Choices{}, "ground.lossy")
			back := o.Leave[len(o.Leave)-1].Chosen()
			c.want.Currency, c.want.Parts, c.want.Labour = "USD", "0.00", "0.00"
			require.Equal(t, c.want, back.Quote)
			all, tax := FeeOwed(back.Shop)
			require.Equal(t, []string{c.want.Total, c.want.Tax}, []string{all.StringFixed(2), tax.StringFixed(2)}, "by the settings that were frozen")
		})
	}
}
