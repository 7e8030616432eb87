package circuit_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
)

// charger is a battery charger on 60 Hz mains. Volts are taken at P against 0,
// behind the output lead. A diode has 20 milliohm of its own and as much of its
// joints.
type charger struct {
	rms, ohms  float64 // secondary
	bridge     bool
	farads, by float64 // filter, and its series ohms; no farads: none
	diode      circuit.Part
	short      bool // 50 milliohm behind the rectifier, before the lead
	lead       float64
}

// kinds of charger in the tables: half-wave 16.4 V behind 6 ohm, full-wave 16.4 V
// behind 2 ohm, filtered 11.5 V behind 2 ohm and 2200 microfarad with 0.1 ohm.
var kinds = map[string]charger{
	"half-wave": {rms: 16.4, ohms: 6, lead: .1},
	"full-wave": {rms: 16.4, ohms: 2, lead: .1, bridge: true},
	"filtered":  {rms: 11.5, ohms: 2, lead: .1, bridge: true, farads: 2200e-6, by: .1},
}

var chargerFaults = map[string]func(*charger){
	"healthy":       func(*charger) {},
	"diode open":    func(c *charger) { c.diode = joint("D1", "A", "O", away) },
	"diode shorted": func(c *charger) { c.diode = joint("D1", "A", "O", .02) },
	// The EMF is off, or its volts would reach the meter over the insulation.
	"transformer open": func(c *charger) { c.rms, c.ohms = 0, away },
	"output shorted":   func(c *charger) { c.short = true },
	"output lead open": func(c *charger) { c.lead = 1e8 },
	// A dried-out capacitor has 0.5 % left, behind 10 ohm.
	"dead cap": func(c *charger) { c.farads, c.by = .005*2200e-6, 10 },
	"cap open": func(c *charger) { c.farads = 1e-15 },
}

func joint(name, from, to string, ohms float64) circuit.Part {
	return circuit.Resistor{Name: name, From: from, To: to, Ohms: ohms}
}

func junction(name, anode, cathode string, ohms float64) circuit.Part {
	return circuit.Diode{Name: name, Anode: anode, Cathode: cathode, Ohms: ohms}
}

func (c charger) parts(loads ...circuit.Part) []circuit.Part {
	if c.diode == nil {
		c.diode = junction("D1", "A", "O", .04)
	}
	parts := []circuit.Part{c.diode, joint("lead", "O", "P", c.lead)}
	back := "0"
	if c.bridge {
		back = "B"
		parts = append(parts, junction("D2", "B", "O", .04), junction("D3", "0", "A", .04), junction("D4", "0", "B", .04),
			joint("insulation", "A", "0", 10e6))
	}
	parts = append(parts, circuit.Winding{Name: "secondary", From: "A", To: back, RMS: c.rms, Hertz: 60, Ohms: c.ohms})
	if c.farads > 0 {
		parts = append(parts, circuit.Capacitor{Name: "filter", From: "O", To: "0", Farads: c.farads, Ohms: c.by},
			joint("bleed", "O", "0", 4700))
	}
	if c.short {
		parts = append(parts, joint("short", "O", "0", .05))
	}
	return append(parts, loads...)
}

// meterLeads are a voltmeter of 10 megohm with 100 picofarad of leads.
func meterLeads() []circuit.Part {
	return []circuit.Part{joint("meter", "P", "0", 10e6), circuit.Capacitor{Name: "leads", From: "P", To: "0", Farads: 100e-12}}
}

// chargerOf reads a row's name: kind and faults.
func chargerOf(t *testing.T, name string) charger {
	t.Helper()
	kind, faults, _ := strings.Cut(name, ": ")
	c, have := kinds[kind]
	require.True(t, have, name)
	for _, fault := range strings.Split(faults, " + ") {
		fault = strings.TrimPrefix(fault, "one ")
		require.Contains(t, chargerFaults, fault, name)
		chargerFaults[fault](&c)
	}
	return c
}

// sixty is long enough for a filter to be full and short enough to wait for.
var sixty = circuit.Run{Hertz: 60, Settle: 40, Keep: 4, Steps: 1000}

// near asserts a table's cell: half of its last digit, and a thousandth, which
// two programs' steps may differ where only a meter empties its own leads.
func near(t *testing.T, row map[string]string, column string, v float64) {
	t.Helper()
	_, decimals, _ := strings.Cut(row[column], ".")
	want := number(t, row[column])
	require.InDelta(t, want, v, math.Pow10(-len(decimals))*0.501+1e-3*math.Abs(want), "%s of %v", column, row)
}

func chargerRow(t *testing.T, row map[string]string, parts []circuit.Part) {
	t.Helper()
	w, err := circuitOf(t, "0", parts).Follow(sixty)
	require.NoError(t, err)
	v := w.Between("P", "0")
	near(t, row, "mean", v.Mean)
	near(t, row, "average", v.Average)
	near(t, row, "true", v.True)
	near(t, row, "rms", v.RMS)
	near(t, row, "cheap", v.Cheap)
	near(t, row, "cheap swapped", w.Between("0", "P").Cheap)
	near(t, row, "peak", v.Most)
	near(t, row, "secondary A", w.Through("secondary").RMS)
	if amps := w.Through("battery").Mean; math.IsNaN(amps) {
		require.Zero(t, number(t, row["battery A"]), "there is no battery")
	} else {
		near(t, row, "battery A", amps)
	}
}

func TestChargersWithNothingConnected(t *testing.T) {
	for _, row := range rows(t, "chargers-open.csv") {
		chargerRow(t, row, chargerOf(t, row["case"]).parts(meterLeads()...))
	}
}

func TestChargersOnFiftyOhm(t *testing.T) {
	for _, row := range rows(t, "chargers-50ohm.csv") {
		name := strings.TrimSuffix(strings.ReplaceAll(row["case"], ": 50 ohm", ": healthy"), " 50 ohm")
		chargerRow(t, row, chargerOf(t, name).parts(append(meterLeads(), joint("load", "P", "0", 50))...))
	}
}

func TestChargersOnABattery(t *testing.T) {
	for _, row := range rows(t, "chargers-battery.csv") {
		battery := circuit.EMF{Name: "battery", Plus: "P", Minus: "0", Volts: 12.4, Ohms: .05}
		name, reversed := strings.CutSuffix(row["case"], "battery reversed")
		if reversed {
			battery.Volts, name = -12.4, name+"healthy"
		}
		chargerRow(t, row, chargerOf(t, name).parts(append(meterLeads(), battery)...))
	}
}

// A charger on a resistor has one equation at each moment, so its mean comes from
// a search for the diode's amps and a sum, without the solver. Diode of 5 nA and
// 1.8 at 27 C: k and q of the SI of 2019.
func TestAHalfWaveChargerOnAResistorByQuadrature(t *testing.T) {
	const load, points = 2000.0, 20000
	thermal := 1.8 * 1.380649e-23 * 300.15 / 1.602176634e-19
	volts := func(emf float64) float64 {
		low, high := -5e-9, math.Max(emf, 0)/load
		for range 200 {
			amps := (low + high) / 2
			if thermal*math.Log1p(amps/5e-9)+amps*(6+.04+.1+load) > emf {
				high = amps
			} else {
				low = amps
			}
		}
		return low * load
	}
	mean := 0.0
	for k := range points {
		mean += volts(math.Sqrt2*16.4*math.Sin(2*math.Pi*float64(k)/points)) / points
	}
	run := circuit.Run{Hertz: 60, Settle: 1, Keep: 1, Steps: points}
	w, err := circuitOf(t, "0", kinds["half-wave"].parts(joint("load", "P", "0", load))).Follow(run)
	require.NoError(t, err)
	require.InEpsilon(t, mean, w.Between("P", "0").Mean, 1e-6)
}
