package tree

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// The cuts of key start and of lithium packs against the publications that they
// name, typed from these. The rest table is taken at 25 degC;
// Fahrenheit in the load table: 70, 50, 30, 0.
func TestStartingCutsArePublished(t *testing.T) {
	const (
		rest   = "TM 5-3805-262-20 p 5-142: 12.4 V is 75 %, 12.0 V is 25 %"
		load   = "TM 5-4210-230-14&P-1 Table 5, p 463"
		older  = "TM 5-3805-260-24 p 146: 9 V at three times the amp-hours"
		drops  = "TM 5-3820-256-24-4, electrical, p 8"
		charge = "TM 5-3805-254-20-1 p 281: 13.0 to 15.5 V"
		rule   = "16 CFR 1205.5(a)(1)(iii), 3.0 s; ANSI/OPEI B71.1, 5.0 s (memory); less 0.3 s for the person"
		full   = "data sheet of a 4.2 V lithium charger circuit: 4.20 V a cell, within 1 %"
		empty  = "published cell tables: empty at 3.0 V a cell; iron-phosphate 2.5 V (charts)"
		low    = "a note on protection circuits: 2.5 V a cell is the usual lowest cut-off"
	)
	type row struct {
		system, test, band string
		celsius            float64
		words              map[string]string
		numbers            map[string]float64
		want, within       float64
		source             string
	}
	iron := map[string]string{"chemistry": "iron-phosphate"}
	rows := []row{
		{"key-start-12v", "battery_rest", "flat", 25, nil, nil, 12.0, 1e-9, rest},
		{"key-start-12v", "battery_rest", "low", 25, nil, nil, 12.4, 1e-9, rest},
		{"key-start-12v", "battery_load", "under", 21.1, nil, nil, 9.6, 0.01, load},
		{"key-start-12v", "battery_load", "under", 10, nil, nil, 9.4, 0.01, load},
		{"key-start-12v", "battery_load", "under", -1.1, nil, nil, 9.1, 0.01, load},
		{"key-start-12v", "battery_load", "under", -17.8, nil, nil, 8.5, 0.01, load},
		{"key-start-12v", "battery_load", "far under", 21.1, nil, nil, 9.0, 1e-9, older},
		{"key-start-12v", "pos_drop", "good", 20, nil, nil, 0.2, 1e-9, drops},
		{"key-start-12v", "ground_drop", "good", 20, nil, nil, 0.2, 1e-9, drops},
		{"key-start-12v", "sol_drop", "good", 20, nil, nil, 0.3, 1e-9, drops},
		{"key-start-12v", "positive_total", "good", 20, nil, nil, 0.5, 1e-9, drops},
		// The whole positive side and the whole ground side: 0.5 and 0.2 V.
		{"key-start-12v", "drops_sum", "within the manual", 20, nil, nil, 0.5 + 0.2, 1e-9, drops},
		{"key-start-12v", "running_volts", "low", 20, nil, nil, 13.0, 1e-9, charge},
		{"key-start-12v", "running_volts", "charging", 20, nil, nil, 15.5, 1e-9, charge},
		{"key-start-12v", "stop_time", "in time", 20, map[string]string{"driving": "walk-behind"}, nil, 3.0 - 0.3, 1e-9, rule},
		{"key-start-12v", "stop_time", "in time", 20, map[string]string{"driving": "ride-on"}, nil, 5.0 - 0.3, 1e-9, rule},
		{"button-start-pack", "pack_rest", "very low", 20, nil, map[string]float64{"cells": 3}, 3 * 2.5, 1e-9, low},
		{"button-start-pack", "pack_rest", "charged", 20, nil, map[string]float64{"cells": 3}, 3 * 4.20 * 1.01, 0.01, full},
		{"button-start-pack", "pack_rest", "charged", 20, iron, map[string]float64{"cells": 4}, 4 * 3.65, 4 * 0.05, full},
		{"button-start-pack", "pack_lamp", "low", 20, nil, map[string]float64{"cells": 3}, 3 * 3.0, 1e-9, empty},
		{"button-start-pack", "pack_lamp", "low", 20, iron, map[string]float64{"cells": 4}, 4 * 2.5, 1e-9, empty},
	}
	lib, issues := shippedOnce()
	require.NoError(t, issues.Err())
	for _, r := range rows {
		sys := lib.Systems[r.system]
		test := sys.Test(r.test)
		require.NotNil(t, test, r.test)
		i := slices.IndexFunc(test.Bands, func(b Band) bool { return b.Name == r.band })
		require.GreaterOrEqual(t, i, 0, "%s has no band %s", r.test, r.band)
		cut, err := test.Bands[i].Cut(sys.LabelValues(r.numbers, r.words, r.celsius))
		require.NoError(t, err)
		require.InDelta(t, r.want, cut, r.within, "%s of %s: %s", r.band, r.test, r.source)
	}
}
