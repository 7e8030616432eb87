package spice_test

import "testing"

// The solver against ngspice, run now.
func TestTheSolverAgreesWithNgspice(t *testing.T) {
	needNgspice(t)
	for _, c := range checks(t) {
		t.Run(c.name, func(t *testing.T) { c.compare(t, c.answer(t)) })
	}
}
