package spice_test

import (
	"maps"
	"math"
	"reflect"
	"slices"
	"testing"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
	"benchlead/diag/circuit/spice"

	"github.com/stretchr/testify/require"
)

// How far solver and ngspice may be apart: nodes with a way of less than a
// megohm, nodes that only a leak or a meter holds, and figures of waves.
const (
	firm     = 1e-6
	floating = 1e-5
	waving   = 5e-4
)

// checks are all circuits that are compared, solved.
func checks(t testing.TB) []check {
	t.Helper()
	var all []check
	for _, p := range append(append(reference.Points(), reference.Lamps()...), reference.Chatter()) {
		all = append(all, atRest(t, p)...)
	}
	for _, m := range reference.Moves() {
		all = append(all, inTime(t, m))
	}
	return all
}

// atRest compares every node and the currents of the parts that Point names, in
// every phase.
func atRest(t testing.TB, p reference.Point) []check {
	t.Helper()
	c, err := circuit.New(p.Ground, p.Parts...)
	require.NoError(t, err, p.Name)
	s, err := c.Solve()
	require.NoError(t, err, p.Name)
	var all []check
	for i, phase := range s.Phases {
		name := p.Name
		if s.Chatters() {
			name += []string{"-a", "-b", "-c", "-d"}[i]
		}
		d, err := spice.Write(p.Says, p.Ground, phase, nil, p.Parts...)
		require.NoError(t, err, p.Name)
		one, asks := check{name: name}, []spice.Ask{}
		for _, node := range slices.Sorted(maps.Keys(d.Nodes())) {
			if node != p.Ground {
				one.ask(&asks, d.Volts(node, p.Ground), quantity{says: "V " + node, ours: phase.Volts(node), part: part(phase, node, p.Ground), scale: 1e-3})
			}
		}
		for _, amps := range p.Amps {
			one.ask(&asks, d.Amps(amps), quantity{says: "A " + amps, ours: phase.Amps(amps), part: firm, scale: 1e-3})
		}
		one.deck = d.OperatingPoint(asks...)
		all = append(all, one)
	}
	return all
}

// part is what a node may be off.
func part(phase *circuit.Phase, node, ground string) float64 {
	if _, ohms := phase.Thevenin(node, ground); ohms < 1e6 {
		return firm
	}
	return floating
}

// inTime compares what every kind of meter shows.
func inTime(t testing.TB, m reference.Moving) check {
	t.Helper()
	c, err := circuit.New(m.Ground, m.Parts...)
	require.NoError(t, err, m.Name)
	w, err := c.Follow(m.Run)
	require.NoError(t, err, m.Name)
	d, err := spice.Write(m.Says, m.Ground, nil, nil, m.Parts...)
	require.NoError(t, err, m.Name)
	one, asks := check{name: m.Name}, []spice.Ask{}
	add := func(says, expression string, wave circuit.Wave) {
		name := "q" + string(rune('a'+len(asks)))
		asks = append(asks, spice.Ask{Name: name, Expression: expression})
		for _, measure := range spice.Measures {
			one.quantities = append(one.quantities, quantity{
				says: says + " " + measure, ask: name + "_" + measure,
				ours: reflect.ValueOf(wave).FieldByName(measure).Float(), part: waving, scale: scale(wave, measure),
			})
		}
	}
	for _, v := range m.Volts {
		add("V "+v[0]+"-"+v[1], d.Volts(v[0], v[1]), w.Between(v[0], v[1]))
	}
	for _, a := range m.Amps {
		add("A "+a, d.Amps(a), w.Through(a))
	}
	one.deck = d.Waves(m.Run, asks...)
	return one
}

// scale is what a measure's difference is counted against when it is itself
// near nothing: peaks and means against the larger peak, since a mean of nearly
// nothing is the rest of two halves.
func scale(w circuit.Wave, measure string) float64 {
	switch measure {
	case "Least", "Most", "Mean", "Cheap":
		return math.Max(math.Abs(w.Least), math.Abs(w.Most))
	}
	return 1e-6
}
