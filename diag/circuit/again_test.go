package circuit_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
)

// Again gives what New gives: for other values, for other parts, and for values
// that no part has. A Room that has solved other circuits, and has them back, changes
// nothing.
func TestAgainIsNew(t *testing.T) {
	like := circuitOf(t, reference.Ground, newMachine(reference.Off).parts())
	room := &circuit.Room{}
	for _, key := range []reference.Key{reference.Off, reference.Run, reference.Start} {
		m := newMachine(key)
		m.EMF, m.Internal, m.Bond = 11.5, 0.03, 0.2
		for _, parts := range [][]circuit.Part{m.parts(), append(m.parts(), circuit.Resistor{Name: "more", From: "SB", To: "CH", Ohms: 100})} {
			again, err := like.AgainIn(room, parts...)
			require.NoError(t, err)
			was, err := circuitOf(t, reference.Ground, parts).Solve()
			require.NoError(t, err)
			is, err := again.SolveIn(room)
			require.NoError(t, err)
			require.Len(t, is.Phases, len(was.Phases))
			for i := range is.Phases {
				for _, node := range []string{"SB", "KM", "CH"} {
					require.Equal(t, was.Phases[i].Volts(node), is.Phases[i].Volts(node), node)
				}
			}
			room.Reuse(is)
			room.ReuseCircuit(again)
		}
	}
	parts := newMachine(reference.Off).parts()
	for i, p := range parts {
		if r, ok := p.(circuit.Resistor); ok {
			r.Ohms = -1
			parts[i] = r
		}
	}
	_, err := like.Again(parts...)
	var bad *circuit.BadPart
	require.ErrorAs(t, err, &bad)
}
