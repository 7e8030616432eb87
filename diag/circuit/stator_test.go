package circuit_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
)

// stator is a flywheel alternator of six pairs of poles; its figures are those at
// 3600 rpm and 360 Hz.
type stator struct {
	rms, ohms, henries float64
	diode              circuit.Part // in the place of D1; nil: sound
	bridge             bool
}

// The half-wave winding and the one for a bridge.
func halfWave() stator  { return stator{rms: 31, ohms: 1, henries: 3e-3} }
func fullWave() stator  { return stator{rms: 28, ohms: .45, henries: .8e-3, bridge: true} }
func cut(s *stator)     { s.rms, s.ohms, s.henries = .6*s.rms, .6*s.ohms, .6*.6*s.henries }
func gone(s *stator)    { s.ohms = away }
func unmade(s *stator)  { s.diode = joint("D1", "A", "P", away) }
func shorted(s *stator) { s.diode = joint("D1", "A", "P", .02) }

var statorFaults = map[string]func(*stator){
	"healthy":                       func(*stator) {},
	"40 % of the turns shorted out": cut,
	"winding open":                  gone,
	"diode open":                    unmade,
	"diode shorted":                 shorted,
}

func (s stator) winding(rpm float64, back string) circuit.Part {
	return circuit.Winding{Name: "winding", From: "A", To: back, RMS: s.rms * rpm / 3600, Hertz: rpm / 10, Ohms: s.ohms, Henries: s.henries}
}

func (s stator) follow(t *testing.T, rpm float64, loads ...circuit.Part) *circuit.Waves {
	t.Helper()
	if s.diode == nil {
		s.diode = junction("D1", "A", "P", .02)
	}
	parts := []circuit.Part{s.diode}
	back := "0"
	if s.bridge {
		back = "B"
		parts = append(parts, junction("D2", "B", "P", .02),
			junction("D3", "0", "A", .02), junction("D4", "0", "B", .02),
			joint("insulation", "A", "0", 10e6))
	}
	parts = append(parts, s.winding(rpm, back))
	run := circuit.Run{Hertz: rpm / 10, Settle: 30, Keep: 6, Steps: 2000}
	w, err := circuitOf(t, "0", append(parts, loads...)).Follow(run)
	require.NoError(t, err)
	return w
}

// open is the winding on nothing but a meter of 10 megohm.
func (s stator) open(t *testing.T, rpm float64) circuit.Wave {
	t.Helper()
	run := circuit.Run{Hertz: rpm / 10, Settle: 5, Keep: 2, Steps: 1000}
	w, err := circuitOf(t, "0", []circuit.Part{s.winding(rpm, "0"), joint("meter", "A", "0", 10e6)}).Follow(run)
	require.NoError(t, err)
	return w.Between("A", "0")
}

func batteryOf(volts, ohms float64) circuit.Part {
	return circuit.EMF{Name: "battery", Plus: "P", Minus: "0", Volts: volts, Ohms: ohms}
}

func TestStatorsBySpeed(t *testing.T) {
	for _, row := range rows(t, "stator.csv") {
		rpm := number(t, row["rpm"])
		near(t, row, "true", fullWave().open(t, rpm).True)
		near(t, row, "average", fullWave().open(t, rpm).Average)
		w := fullWave().follow(t, rpm, batteryOf(14, .03))
		near(t, row, "bridge A", w.Through("battery").Mean)
		near(t, row, "winding A", w.Through("winding").RMS)
		near(t, row, "half-wave A", halfWave().follow(t, rpm, batteryOf(13, .05)).Through("battery").Mean)
		near(t, row, "10k V", halfWave().follow(t, rpm, joint("load", "P", "0", 10e3)).Between("P", "0").Mean)
	}
}

func TestHalfWaveStatorsWithFaults(t *testing.T) {
	for _, row := range rows(t, "stator-halfwave.csv") {
		s := halfWave()
		statorFaults[row["case"]](&s)
		near(t, row, "open", s.open(t, 3600).True)
		v := s.follow(t, 3600, joint("load", "P", "0", 10e3)).Between("P", "0")
		near(t, row, "mean", v.Mean)
		near(t, row, "average", v.Average)
		near(t, row, "true", v.True)
		near(t, row, "cheap", v.Cheap)
		onBattery(t, row, s.follow(t, 3600, batteryOf(12.6, .05)))
	}
}

func TestBridgedStatorsWithFaults(t *testing.T) {
	for _, row := range rows(t, "stator-bridge.csv") {
		s := fullWave()
		statorFaults[row["case"]](&s)
		near(t, row, "open", s.open(t, 3600).True)
		onBattery(t, row, s.follow(t, 3600, batteryOf(12.6, .03)))
	}
}

func onBattery(t *testing.T, row map[string]string, w *circuit.Waves) {
	t.Helper()
	near(t, row, "battery V", w.Between("P", "0").Mean)
	near(t, row, "battery AC", w.Between("P", "0").True)
	near(t, row, "battery A", w.Through("battery").Mean)
	near(t, row, "winding A", w.Through("winding").RMS)
}

// The capacitance of leads holds up what a half-wave output shows unloaded.
func TestStrayCapacitanceOnAHalfWaveOutput(t *testing.T) {
	for _, row := range rows(t, "stray.csv") {
		loads := []circuit.Part{joint("meter", "P", "0", number(t, row["meter"]))}
		if pico := number(t, row["lead pF"]); pico > 0 {
			loads = append(loads, circuit.Capacitor{Name: "leads", From: "P", To: "0", Farads: pico * 1e-12})
		}
		if pico := number(t, row["diode pF"]); pico > 0 {
			loads = append(loads, circuit.Capacitor{Name: "junction", From: "A", To: "P", Farads: pico * 1e-12})
		}
		w, err := circuitOf(t, "0", kinds["half-wave"].parts(loads...)).Follow(sixty)
		require.NoError(t, err)
		near(t, row, "charger", w.Between("P", "0").Mean)
		near(t, row, "stator", halfWave().follow(t, 3600, loads...).Between("P", "0").Mean)
	}
}
