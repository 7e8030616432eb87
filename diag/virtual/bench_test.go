package virtual

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// BenchmarkMachine builds a machine and asks all that can be asked of it: four
// states of 27 nodes, and three chargers that are followed in time once for each
// number.
func BenchmarkMachine(b *testing.B) {
	for _, system := range []string{"start", "charger"} {
		b.Run(system, func(b *testing.B) {
			maker := makerOf(b, system)
			const numbers = 100
			for i := range b.N {
				machine := build(b, maker, Draw{Number: i % numbers})
				answers(b, machine)
				_, err := machine.Complaint()
				if err != nil {
					b.Fatal(err)
				}
				if _, err := machine.Present(); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(maker.Counts().Solved)/float64(b.N), "solved/op")
			b.ReportMetric(float64(maker.Counts().Followed)/float64(b.N), "followed/op")
		})
	}
}

// BenchmarkShipped goes through the faults of a system that the program comes with,
// one machine of one fault each time, as clouds of suspects are made: built, asked
// what it comes in with, asked all tests.
func BenchmarkShipped(b *testing.B) {
	for _, system := range []string{"key-start-12v", "button-start-pack"} {
		for upTo, what := range []string{"build", "complaint", "tests"} {
			b.Run(system+"/"+what, func(b *testing.B) {
				maker, meter := shipped(b, system)
				faults := maker.circuit.Faults
				b.ReportAllocs()
				for i := 0; b.Loop(); i++ {
					d := Draw{Seed: 1, Number: i / len(faults), Faults: []string{faults[i%len(faults)].Fault}}
					machine := build(b, maker, d)
					if upTo > 0 {
						_, err := machine.Complaint()
						require.NoError(b, err)
					}
					if upTo > 1 {
						askAll(b, machine, meter)
					}
					machine.Done()
				}
				b.ReportMetric(float64(maker.Counts().Solved)/float64(maker.Counts().Built), "solved/op")
			})
		}
	}
}

func askAll(b *testing.B, m *Machine, meter measure.Meter) {
	b.Helper()
	for _, test := range m.maker.sys.Tests {
		if test.Kind == tree.Worked {
			continue
		}
		_, err := m.Shows(test, Bench{Meter: meter})
		var none *Unanswered
		var scale *measure.ScaleError
		if err != nil && !errors.As(err, &none) && !errors.As(err, &scale) {
			b.Fatal(test.ID, err)
		}
	}
}
