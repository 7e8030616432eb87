package spice_test

import (
	"testing"
	"time"

	"benchlead/diag/circuit"
	"benchlead/diag/circuit/reference"
	"benchlead/diag/circuit/spice"

	"github.com/stretchr/testify/require"
)

// The key-start machine cranking: built and solved, solved again, by ngspice as a
// process, and by ngspice in a loop of its own with its start left out.
func BenchmarkCrank(b *testing.B) {
	p := reference.Points()[0]
	c, err := circuit.New(p.Ground, p.Parts...)
	require.NoError(b, err)
	s, err := c.Solve()
	require.NoError(b, err)
	b.Run("built", func(b *testing.B) {
		for b.Loop() {
			fresh, err := circuit.New(p.Ground, p.Parts...)
			require.NoError(b, err)
			_, err = fresh.Solve()
			require.NoError(b, err)
		}
	})
	b.Run("again", func(b *testing.B) {
		for b.Loop() {
			_, err := c.Solve()
			require.NoError(b, err)
		}
	})
	d, err := spice.Write(p.Says, p.Ground, s.Phases[0], nil, p.Parts...)
	require.NoError(b, err)
	b.Run("process", func(b *testing.B) { process(b, d.OperatingPoint()) })
	b.Run("loop", func(b *testing.B) { loop(b, 5000, d.Repeat) })
}

// Ten cycles of the half-wave charger on its battery, 2000 steps each.
func BenchmarkCharger(b *testing.B) {
	m := reference.HalfWave()
	m.Run.Settle, m.Run.Keep = 4, 6
	c, err := circuit.New(m.Ground, m.Parts...)
	require.NoError(b, err)
	b.Run("built", func(b *testing.B) {
		for b.Loop() {
			fresh, err := circuit.New(m.Ground, m.Parts...)
			require.NoError(b, err)
			_, err = fresh.Follow(m.Run)
			require.NoError(b, err)
		}
	})
	b.Run("again", func(b *testing.B) {
		for b.Loop() {
			_, err := c.Follow(m.Run)
			require.NoError(b, err)
		}
	})
	d, err := spice.Write(m.Says, m.Ground, nil, nil, m.Parts...)
	require.NoError(b, err)
	b.Run("process", func(b *testing.B) { process(b, d.RepeatRun(1, m.Run)) })
	b.Run("loop", func(b *testing.B) {
		loop(b, 5, func(n int) string { return d.RepeatRun(n, m.Run) })
	})
}

// process times one process after the other and counts the shortest.
func process(b *testing.B, deck string) {
	needNgspice(b)
	best := time.Hour
	for b.Loop() {
		best = min(best, took(b, deck))
	}
	b.ReportMetric(float64(best.Nanoseconds()), "ns/op")
}

// loop times n analyses in one process less the process with one, which are n-1;
// of each the shortest counts.
func loop(b *testing.B, n int, deck func(int) string) {
	needNgspice(b)
	one, many := time.Hour, time.Hour
	for b.Loop() {
		one = min(one, took(b, deck(1)))
		many = min(many, took(b, deck(n)))
	}
	b.ReportMetric(float64((many-one).Nanoseconds())/float64(n-1), "ns/op")
}

func took(b *testing.B, deck string) time.Duration {
	began := time.Now()
	run(b, deck)
	return time.Since(began)
}
