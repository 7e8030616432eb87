package spice_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The solver against ngspice, run now; and ngspice now against the figures that
// are stored of it, which may be of another version.
func TestTheSolverAgreesWithNgspice(t *testing.T) {
	needNgspice(t)
	if *update {
		t.Skip("the stored figures are being written")
	}
	all := checks(t)
	require.GreaterOrEqual(t, len(all), 14)
	kept := stored(t)
	for _, c := range all {
		t.Run(c.name, func(t *testing.T) {
			now := c.answer(t)
			c.compare(t, now)
			for i, then := range kept.of(t, c) {
				q := c.quantities[i]
				q.ours = then
				require.LessOrEqual(t, q.off(now[i]), q.part, "%s is stored as %.12g and is %.12g now", q.says, then, now[i])
			}
		})
	}
}
