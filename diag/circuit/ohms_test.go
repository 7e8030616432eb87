package circuit_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
)

// lifted are the changes of the ohms table.
var lifted = map[string]func(*machine){
	"healthy": func(*machine) {},
	// The coil is measured with its wire pulled off.
	"coil":                         func(m *machine) { m.CoilPlug = false },
	"coil open":                    func(m *machine) { m.CoilPlug, m.Coil.CoilOhms = false, away },
	"coil shorted turns":           func(m *machine) { m.CoilPlug, m.Coil.CoilOhms = false, .5 },
	"solenoid ground open":         func(m *machine) { m.CoilPlug = false; m.ohms["SG-CH"] = away },
	"fuse":                         func(*machine) {},
	"fuse blown":                   func(m *machine) { m.Fuse.Blown = true },
	"welded":                       func(m *machine) { m.Coil.Welded = true },
	"fuel solenoid and hour meter": func(*machine) {},
	"diode shorted":                func(m *machine) { m.Shorted = true },
	"diode open":                   func(m *machine) { m.Shorted, m.Diode = true, away },
	"starter":                      func(*machine) {},
	"brush open":                   func(m *machine) { m.Motor.Ohms = away },
	"brake pressed":                func(*machine) {},
	"brake open":                   func(m *machine) { m.Brake = false },
	"brake damp":                   func(m *machine) { m.Brake, m.BrakeLeak = false, 1/(1/20e6+1/reference.Open) },
	"wet connector":                func(m *machine) { m.across("KM", "CH", 5000) },
	"stator":                       func(*machine) {},
	"stator part short":            func(m *machine) { m.Winding = .25 },
	"stator open":                  func(m *machine) { m.Winding = away },
	"regulator unplugged":          func(m *machine) { m.Leak, m.ohms["RO-F2"] = math.Inf(1), math.Inf(1) },
	"4k7 load":                     func(m *machine) { m.Leak = 4700 },
	"kill lead":                    func(*machine) {},
	"module unplugged":             func(m *machine) { m.Ignition = math.Inf(1) },
	"seat empty":                   func(m *machine) { m.Seat = true },
	"chafed":                       func(m *machine) { m.across("KM", "CH", .5) },
	"key contact open":             func(m *machine) { m.KillKey = false },
}

func TestOhmsAndDiodesWithTheBatteryLifted(t *testing.T) {
	for _, row := range rows(t, "ohms.csv") {
		t.Run(row["what"]+" "+row["key"]+" "+row["red"], func(t *testing.T) {
			m := newMachine(reference.Key(row["key"]))
			// Lifted clear: over the reference machine's gap of a gigohm the battery
			// would still show on a meter.
			m.Negative, m.EMF = false, 0
			for _, what := range strings.Split(row["what"], "; ") {
				require.Contains(t, lifted, what)
				lifted[what](m)
			}
			c := circuitOf(t, reference.Engine, m.parts())
			test := c.Ohms
			if row["test"] == "diode" {
				test = c.DiodeTest
			}
			shown, err := test(row["red"], row["black"], circuit.OhmMeter{Leads: 0.2})
			require.NoError(t, err)
			require.False(t, shown.Live)
			require.Equal(t, row["display"] == "OL", shown.Over, "%+v", shown)
			if shown.Over {
				return
			}
			scale := 1.0
			digits, isKilo := strings.CutSuffix(row["display"], "k")
			digits, isMega := strings.CutSuffix(digits, "M")
			switch {
			case isKilo:
				scale = 1e3
			case isMega:
				scale = 1e6
			}
			shows(t, digits, shown.Value/scale, shown)
		})
	}
}

// Ohms are measured dead: with its battery in, the machine says so.
func TestOhmsOnALiveCircuitAreToldLive(t *testing.T) {
	c := circuitOf(t, reference.Ground, newMachine(reference.Off).parts())
	shown, err := c.Ohms("SB", "CH", circuit.OhmMeter{Leads: 0.2})
	require.NoError(t, err)
	require.True(t, shown.Live)
	_, err = c.Ohms("SB", "nowhere", circuit.OhmMeter{})
	var bad *circuit.BadPart
	require.ErrorAs(t, err, &bad)
}
