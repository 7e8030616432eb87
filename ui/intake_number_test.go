package ui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
)

func TestARatedValueWithItsWord(t *testing.T) {
	percent := tree.LabelField{Ask: "Percent of charge it was parked with", Least: 40, Most: 100}
	days := tree.LabelField{Ask: "Days it stood until it was flat", Least: 1, Most: 400}
	amps := tree.LabelField{Ask: "Amp-hours on the battery", Unit: "Ah", Least: 2, Most: 100}
	for _, c := range []struct {
		field tree.LabelField
		text  string
		want  float64 // 0: refused
	}{
		{percent, "90 %", 90},
		{percent, "90%", 90},
		{percent, "90 percent", 90},
		{percent, "90 V", 0},
		{days, "1 day", 1},
		{days, "60 days", 60},
		{days, "overnight", 1},
		{days, "3 weeks", 0},
		{days, "0.5", 0},
		{amps, "24 Ah", 24},
		{amps, "24ah", 24},
		{amps, "24 on", 0},
		{amps, "overnight", 0},
		{amps, "%", 0},
	} {
		got, err := labelNumber(c.field, c.text)
		if c.want == 0 {
			require.Error(t, err, "%s: %s", c.field.Ask, c.text)
			continue
		}
		require.NoError(t, err, "%s: %s", c.field.Ask, c.text)
		require.InDelta(t, c.want, got, 1e-12)
	}
}
