package virtual

import "testing"

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
