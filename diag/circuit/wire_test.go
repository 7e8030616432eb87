package circuit_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/circuit"
)

// Milliohm a metre at 20 C of public copper wire tables; 0.00393 a kelvin (IEC
// 60028).
func TestWiresHaveTheOhmsOfTheCopperTables(t *testing.T) {
	for gauge, milliohm := range map[float64]float64{6: 1.30, 16: 13.2} {
		w := circuit.Wire{Name: "w", From: "a", To: "0", AWG: gauge, Metres: 1, Celsius: 20}
		require.InEpsilon(t, milliohm, 1e3*w.Resistance(), 4e-3, "%v AWG", gauge)
		cold := w.Resistance()
		w.Celsius, w.Extra = 70, 0.001
		require.InEpsilon(t, cold*1.1965+0.001, w.Resistance(), 1e-9, "%v AWG", gauge)
	}
}
