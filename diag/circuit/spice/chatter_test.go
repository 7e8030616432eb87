package spice_test

import (
	"math"
	"path/filepath"
	"slices"
	"testing"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
	"benchlead/diag/circuit/spice"

	"github.com/stretchr/testify/require"
)

// henries of the solenoid's coil; common practice, no source. They set the pace
// of the chatter and nothing else.
const henries = 20e-3

// moment is a row of the trace.
type moment struct{ seconds, post, starter, coil float64 }

// The chatter that the solver tells as two phases is followed in time with an
// inductive coil and a contact that moves by its current: it goes round for
// ever, its volts turn where the two phases say they must at the coil's pull-in
// and drop-out, and its pace is that of the two phases' currents.
func TestChatterGoesRoundInTimeAsTheTwoPhasesSay(t *testing.T) {
	needNgspice(t)
	p := reference.Chatter()
	trace := follow(t, p)
	closings := closings(trace)
	require.Greater(t, len(closings), 5, "the contact closes again and again")

	relay := solenoid(t, p.Parts)
	last := trace[closings[1]:closings[len(closings)-1]]
	post := span(last, func(m moment) float64 { return m.post })
	coil := span(last, func(m moment) float64 { return m.coil })
	require.InEpsilon(t, relay.DropOut, coil[0], 0.005)
	require.InEpsilon(t, relay.PullIn, coil[1], 0.005)

	// Just closed, the coil still has its pull-in current; just open, its drop-out.
	least := forced(t, p, relay.PullIn, true).Volts("BP")
	most := forced(t, p, relay.DropOut, false).Volts("BP")
	require.InEpsilon(t, least, post[0], 0.005, "volts at the posts, contact just closed")
	require.InEpsilon(t, most, post[1], 0.001, "volts at the posts, contact just open")

	begin, end := closings[1], closings[len(closings)-1]
	period := (trace[end].seconds - trace[begin].seconds) / float64(len(closings)-2)
	require.InEpsilon(t, pace(t, p, relay), period, 0.01, "one round, s")
	t.Logf("one round %.3f ms here, %.3f ms in ngspice; posts %.3f to %.3f V, ngspice %.3f to %.3f V; coil %.3f to %.3f A",
		1e3*pace(t, p, relay), 1e3*period, least, most, post[0], post[1], coil[0], coil[1])
}

// follow is the trace of ngspice over 80 ms.
func follow(t *testing.T, p reference.Point) []moment {
	t.Helper()
	d, err := spice.Write(p.Says, p.Ground, nil, map[string]float64{"solenoid": henries}, p.Parts...)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "trace")
	run(t, d.Trace(2e-6, 80e-3, file,
		spice.Ask{Name: "post", Expression: d.Volts("BP", "BN")},
		spice.Ask{Name: "starter", Expression: d.Amps("starter")},
		spice.Ask{Name: "coil", Expression: d.Amps(spice.Coil("solenoid"))}))
	var trace []moment
	for _, row := range columns(t, file) {
		trace = append(trace, moment{row[0], row[1], row[2], row[3]})
	}
	return trace
}

// closings are the moments at which the starter begins to get current.
func closings(trace []moment) []int {
	var at []int
	for i := 1; i < len(trace); i++ {
		if trace[i-1].starter < 1 && trace[i].starter >= 1 {
			at = append(at, i)
		}
	}
	return at
}

func span(trace []moment, of func(moment) float64) [2]float64 {
	s := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, m := range trace {
		s = [2]float64{min(s[0], of(m)), max(s[1], of(m))}
	}
	return s
}

func solenoid(t *testing.T, parts []circuit.Part) circuit.Relay {
	t.Helper()
	i := slices.IndexFunc(parts, func(p circuit.Part) bool { _, is := p.(circuit.Relay); return is })
	require.GreaterOrEqual(t, i, 0)
	return parts[i].(circuit.Relay)
}

// forced is the circuit with its contact held and its coil drawing amps: the
// coil's resistance is searched until it does.
func forced(t *testing.T, p reference.Point, amps float64, closed bool) *circuit.Phase {
	t.Helper()
	var phase *circuit.Phase
	low, high := 0.001, 1000.0
	for range 60 {
		ohms := math.Sqrt(low * high)
		phase = held(t, p, ohms, closed)
		if phase.CoilAmps("solenoid") > amps {
			low = ohms
		} else {
			high = ohms
		}
	}
	require.InEpsilon(t, amps, phase.CoilAmps("solenoid"), 1e-9)
	return phase
}

func held(t *testing.T, p reference.Point, coil float64, closed bool) *circuit.Phase {
	t.Helper()
	parts := slices.Clone(p.Parts)
	for i, part := range parts {
		if r, is := part.(circuit.Relay); is {
			r.CoilOhms, r.Welded, r.Stuck = coil, closed, !closed
			parts[i] = r
		}
	}
	c, err := circuit.New(p.Ground, parts...)
	require.NoError(t, err)
	s, err := c.Solve()
	require.NoError(t, err)
	return s.Phases[0]
}

// pace is how long one round takes by the two phases: in each the coil's current
// goes towards that phase's own, with the time constant of the coil and of what
// feeds it.
func pace(t *testing.T, p reference.Point, r circuit.Relay) float64 {
	t.Helper()
	c, err := circuit.New(p.Ground, p.Parts...)
	require.NoError(t, err)
	s, err := c.Solve()
	require.NoError(t, err)
	require.Len(t, s.Phases, 2)
	round := 0.0
	for _, phase := range s.Phases {
		from, to := r.DropOut, r.PullIn
		if phase.Closed("solenoid") {
			from, to = to, from
		}
		_, ohms := phase.Thevenin("SC", "SG")
		feed := 1 / (1/ohms - 1/r.CoilOhms)
		end := phase.CoilAmps("solenoid")
		round += henries / (r.CoilOhms + feed) * math.Log((end-from)/(end-to))
	}
	return round
}
