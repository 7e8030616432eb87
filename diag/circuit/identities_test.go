package circuit_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/circuit"
)

// network is a random circuit of resistors that hangs together, with nodes n0 (the
// reference) to n(nodes-1), and two sources.
type network struct {
	nodes     int
	resistors []circuit.Part
	sources   [2]circuit.EMF
}

func node(k int) string { return fmt.Sprintf("n%d", k) }

func networks(t *rapid.T) network {
	n := network{nodes: rapid.IntRange(3, 10).Draw(t, "nodes")}
	ohms := rapid.Custom(func(t *rapid.T) float64 { return math.Pow(10, rapid.Float64Range(-2, 5).Draw(t, "decade")) })
	add := func(a, b int) {
		name := fmt.Sprintf("r%d", len(n.resistors))
		n.resistors = append(n.resistors, joint(name, node(a), node(b), ohms.Draw(t, name)))
	}
	for k := 1; k < n.nodes; k++ {
		add(k, rapid.IntRange(0, k-1).Draw(t, "towards"))
	}
	for range rapid.IntRange(0, 6).Draw(t, "more") {
		add(rapid.IntRange(0, n.nodes-1).Draw(t, "from"), rapid.IntRange(0, n.nodes-1).Draw(t, "to"))
	}
	for i := range n.sources {
		plus := rapid.IntRange(1, n.nodes-1).Draw(t, "plus")
		minus := rapid.IntRange(0, plus-1).Draw(t, "minus")
		n.sources[i] = circuit.EMF{
			Name: fmt.Sprintf("e%d", i), Plus: node(plus), Minus: node(minus),
			Volts: rapid.Float64Range(-24, 24).Draw(t, "volts"), Ohms: ohms.Draw(t, "inner"),
		}
	}
	return n
}

// at solves the network with its sources at these volts.
func (n network) at(t *rapid.T, volts [2]float64) (*circuit.Phase, []circuit.Part) {
	parts := append([]circuit.Part(nil), n.resistors...)
	for i, e := range n.sources {
		e.Volts = volts[i]
		parts = append(parts, e)
	}
	c, err := circuit.New(node(0), parts...)
	require.NoError(t, err)
	s, err := c.Solve()
	require.NoError(t, err)
	return s.Phases[0], parts
}

// Kirchhoff's current law, and Tellegen's theorem: what the sources give is what
// the resistances take.
func TestCurrentsAndPowerSumToNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := networks(t)
		phase, parts := n.at(t, [2]float64{n.sources[0].Volts, n.sources[1].Volts})
		requireKirchhoff(t, phase, parts)
		power, most := 0.0, 0.0
		for _, part := range parts {
			from, to, name := endsOf(part)
			watts := phase.Across(from, to) * phase.Amps(name)
			power, most = power+watts, max(most, math.Abs(watts))
		}
		require.LessOrEqual(t, math.Abs(power), 1e-6*most+1e-9)
	})
}

// What two sources do together is what each does alone, summed.
func TestSourcesSuperpose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := networks(t)
		one, two := n.sources[0].Volts, n.sources[1].Volts
		both, _ := n.at(t, [2]float64{one, two})
		first, _ := n.at(t, [2]float64{one, 0})
		second, _ := n.at(t, [2]float64{0, two})
		for k := range n.nodes {
			require.InDelta(t, first.Volts(node(k))+second.Volts(node(k)), both.Volts(node(k)), 1e-6)
		}
	})
}

// One volt in one branch drives as much through another as the other way round.
func TestBranchesAreReciprocal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := networks(t)
		first, _ := n.at(t, [2]float64{1, 0})
		second, _ := n.at(t, [2]float64{0, 1})
		there, back := first.Amps("e1"), second.Amps("e0")
		require.InDelta(t, there, back, 1e-6*math.Abs(there)+1e-9)
	})
}
