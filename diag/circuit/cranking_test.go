package circuit_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
)

// probes are the columns of the cranking table with their nodes.
var probes = [][3]string{
	{"BP-BN", "BP", "BN"},
	{"ST-EB", "ST", "EB"},
	{"BP-ST", "BP", "ST"},
	{"EB-BN", "EB", "BN"},
	{"SB-SM", "SB", "SM"},
	{"SC-EB", "SC", "EB"},
	{"F2-BN", "F2", "BN"},
	{"KS-BN", "KS", "BN"},
	{"BO-BN", "BO", "BN"},
	{"PO-BN", "PO", "BN"},
}

func TestCrankingAtEachProbe(t *testing.T) {
	table := map[string]map[string]string{}
	for _, row := range rows(t, "cranking.csv") {
		table[row["fault"]] = row
	}
	require.Len(t, table, len(faults))
	for _, f := range faults {
		t.Run(f.name, func(t *testing.T) {
			row := table[f.name]
			m := newMachine(reference.Start)
			f.set(m)
			s := solved(t, m.parts())
			require.Equal(t, row["state"] == "CHATTER", s.Chatters())
			for _, probe := range probes {
				for i, cell := range strings.Split(row[probe[0]], "/") {
					shows(t, cell, s.Phases[i].Metered(probe[1], probe[2], 10e6), probe[0])
				}
			}
			for i, cell := range strings.Split(row["amps"], "/") {
				shows(t, cell, s.Phases[i].Amps("starter"), "amps")
			}
			shows(t, row["rpm"], rpm(s.Phases[0].Speed("starter")), "rpm")
			require.Equal(t, row["state"] == "FUSE BLOWS" || f.name == "fuse", s.Phases[0].Blown("fuse"))
			rest := newMachine(reference.Off)
			f.set(rest)
			shows(t, row["rest"], solved(t, rest.parts()).Phases[0].Metered("BP", "BN", 10e6), "rest")
		})
	}
}

// Which faults make a solenoid go round is physics: it does where the starter's
// amps take the volts from under its own coil, and not where the same ohms stand
// behind the coil's return.
func TestTheSolenoidChattersForTheseFaultsAndNoOthers(t *testing.T) {
	var chatter []string
	for _, f := range faults {
		m := newMachine(reference.Start)
		f.set(m)
		if s := solved(t, m.parts()); s.Chatters() {
			chatter = append(chatter, f.name)
			require.Len(t, s.Phases, 2)
			require.True(t, s.Phases[0].Closed("solenoid"), "closed first")
			require.False(t, s.Phases[1].Closed("solenoid"))
		}
	}
	require.Equal(t, []string{"flat", "sul2", "pos2", "gnd2", "gnd3"}, chatter)
}

// Kirchhoff's current law at every node, and the search's length, for every fault
// in every position of the key.
func TestEveryFaultIsSolvedInEveryPositionOfTheKey(t *testing.T) {
	for _, f := range faults {
		for _, key := range []reference.Key{reference.Off, reference.Run, reference.Start} {
			t.Run(fmt.Sprintf("%s %s", f.name, key), func(t *testing.T) {
				m := newMachine(key)
				f.set(m)
				parts := m.parts()
				s := solved(t, parts)
				require.LessOrEqual(t, s.Iterations, 50)
				require.Zero(t, s.Noisy)
				for _, phase := range s.Phases {
					requireKirchhoff(t, phase, parts)
				}
			})
		}
	}
}

// requireKirchhoff sums the currents that leave each node but the reference.
func requireKirchhoff(t require.TestingT, phase *circuit.Phase, parts []circuit.Part) {
	sum, most := map[string]float64{}, 0.0
	flow := func(from, to string, amps float64) {
		sum[from] += amps
		sum[to] -= amps
		most = max(most, math.Abs(amps))
	}
	for _, part := range parts {
		from, to, name := endsOf(part)
		flow(from, to, phase.Amps(name))
		if r, is := part.(circuit.Relay); is {
			flow(r.CoilFrom, r.CoilTo, phase.CoilAmps(name))
		}
	}
	for node, amps := range sum {
		if phase.Volts(node) != 0 {
			require.LessOrEqual(t, math.Abs(amps), 1e-6+1e-9*most, "node %s", node)
		}
	}
}

func endsOf(part circuit.Part) (from, to, name string) {
	switch p := part.(type) {
	case circuit.EMF:
		return p.Plus, p.Minus, p.Name
	case circuit.Resistor:
		return p.From, p.To, p.Name
	case circuit.Switch:
		return p.From, p.To, p.Name
	case circuit.Fuse:
		return p.From, p.To, p.Name
	case circuit.Relay:
		return p.From, p.To, p.Name
	case circuit.Motor:
		return p.Plus, p.Minus, p.Name
	case circuit.Diode:
		return p.Anode, p.Cathode, p.Name
	case circuit.Lamp:
		return p.From, p.To, p.Name
	}
	panic(fmt.Sprintf("no ends are known of %T", part))
}

// steady asserts what the tables of one cause against cranking have in common.
func steady(t *testing.T, row map[string]string, m *machine, volts string, from, to string) {
	t.Helper()
	s := solved(t, m.parts())
	require.Equal(t, row["state"] == "chatter", s.Chatters(), "%v", row)
	shows(t, row[volts], s.Phases[0].Metered(from, to, 10e6), row)
	shows(t, row["amps"], s.Phases[0].Amps("starter"), row)
	shows(t, row["rpm"], rpm(s.Phases[0].Speed("starter")), row)
}

func TestCrankingOnABadGround(t *testing.T) {
	for _, row := range rows(t, "ground.csv") {
		m := newMachine(reference.Start)
		m.CableMinus += number(t, row["ohm"])
		steady(t, row, m, "EB-BN", "EB", "BN")
	}
}

func TestCrankingByTemperatureRatingAndCharge(t *testing.T) {
	for _, row := range rows(t, "temperature.csv") {
		m := newMachine(reference.Start)
		m.battery(number(t, row["cca"]), 1, number(t, row["celsius"]))
		shows(t, row["emf"], m.EMF, row)
		shows(t, row["mohm"], 1e3*m.Internal, row)
		steady(t, row, m, "volts", "BP", "BN")
	}
	for _, row := range rows(t, "charge.csv") {
		m := newMachine(reference.Start)
		m.battery(250, number(t, row["charge"]), 20)
		shows(t, row["emf"], m.EMF, row)
		shows(t, row["mohm"], 1e3*m.Internal, row)
		steady(t, row, m, "volts", "BP", "BN")
	}
}

// Ghosts: the brake switch open and damp, the solenoid's wire off, the probe on
// the loose end.
func TestGhostVolts(t *testing.T) {
	for _, row := range rows(t, "ghosts.csv") {
		m := newMachine(reference.Start)
		m.Brake, m.CoilPlug = false, false
		if leak := number(t, row["leak"]); leak < reference.Open {
			m.BrakeLeak = 1 / (1/leak + 1/reference.Open)
		} // else the switch is dry, and leaks as any open contact does
		phase := solved(t, m.parts()).Phases[0]
		for column, input := range map[string]float64{"10M": 10e6, "1M": 1e6, "3k": 3000, "29": 29} {
			shows(t, row[column], phase.Metered("PO", "BN", input), row, column)
		}
		open, behind := phase.Thevenin("PO", "BN")
		shows(t, row["open"], open, row)
		require.InEpsilon(t, number(t, row["behind"]), behind, 1.5e-4, "four digits: %v", row)
		shows(t, row["shown"], open*10e6/(10e6+behind), row)
	}
}

// The meter as a resistor of the circuit is the meter of a probe.
func TestAProbeShowsWhatTheMeterInTheCircuitWould(t *testing.T) {
	for _, pair := range [][2]string{{"PO", "BN"}, {"RO", "EB"}, {"KM", "CH"}, {"ST", "EB"}} {
		m := newMachine(reference.Start)
		m.Brake, m.CoilPlug = false, false
		probe := solved(t, m.parts()).Phases[0].Metered(pair[0], pair[1], 10e6)
		m.MeterAt, m.Meter = pair[0], pair[1]
		require.InDelta(t, solved(t, m.parts()).Phases[0].Across(pair[0], pair[1]), probe, 1e-6, "%v", pair)
	}
}

// A lamp on the probes draws what bends the diode between, and the tangent of the
// point without it would be far off.
func TestALampOnTheProbesBendsTheDiodeBehind(t *testing.T) {
	parts := []circuit.Part{
		circuit.EMF{Name: "b", Plus: "a", Minus: "BN", Volts: 12, Ohms: .1},
		junction("d", "a", "p", .02), joint("leak", "p", "BN", 10e6),
	}
	probe := solved(t, parts).Phases[0].Metered("p", "BN", 29)
	loaded := solved(t, append(parts, joint("lamp", "p", "BN", 29))).Phases[0].Across("p", "BN")
	require.Greater(t, loaded, 10.0)
	require.InEpsilon(t, loaded, probe, 1e-6)
}

func TestDrawOnAMeterWithBurden(t *testing.T) {
	set := map[string]func(*machine){
		"normal (regulator leak 50k)": func(*machine) {},
		"regulator leak 1k":           func(m *machine) { m.Leak = 1000 },
		"stuck relay 80 ohm":          func(m *machine) { m.across("F2", "CH", 80) },
		"key left in RUN (fuel solenoid)": func(m *machine) {
			m.Key, m.KillKey = reference.Run, false
		},
		"lamp 21 W left on 7 ohm": func(m *machine) { m.across("F2", "CH", 7) },
		"leaky diode (Is 2 mA)":   func(m *machine) { m.Saturation = 2e-3 },
		"diode shorted (fuse removed from model)": func(m *machine) {
			m.Shorted, m.Fuse.Rating = true, 1000
		},
	}
	for _, row := range rows(t, "draws.csv") {
		m := newMachine(reference.Off)
		require.Contains(t, set, row["case"])
		set[row["case"]](m)
		// The ammeter stands where the negative clamp stood.
		m.ohms["negative"] = number(t, row["burden"])
		milliamps := -1e3 * solved(t, m.parts()).Phases[0].Amps("battery")
		require.InEpsilon(t, number(t, row["mA"]), milliamps, 5e-6, "half of the sixth digit: %v", row)
	}
}

func BenchmarkProbe(b *testing.B) {
	s, err := circuitOf(b, reference.Ground, newMachine(reference.Start).parts()).Solve()
	require.NoError(b, err)
	for b.Loop() {
		s.Phases[0].Metered("ST", "EB", 10e6)
	}
}
