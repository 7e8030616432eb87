package suspect

import (
	"errors"
	"fmt"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Options say how clouds are made.
type Options struct {
	Seed     uint64 // the same seed makes the same clouds
	Machines int    // of each hypothesis, as far as so many come in with the complaint
	Meter    measure.Meter
	// Stop is asked before each machine; when it says yes, the work ends with
	// ErrStopped. nil never stops.
	Stop func() bool
}

// ErrStopped says that clouds were not finished because nobody waits for them.
var ErrStopped = errors.New("stopped")

// Key is a test, of the machine as it came in or at a stage of work.
type Key struct{ Stage, Test string }

// Cloud is the simulated machines that come in with one complaint, by hypothesis; where few
// come in just so, also some that come in with another of the same trouble.
// It is read-only once made.
type Cloud struct {
	system     *tree.System
	complaint  string
	hypotheses []Hypothesis
	prior      []float64 // by hypothesis; they sum to 1
	of         []int     // by machine: its hypothesis
	number     []int     // by machine: its number in the draw
	part       []float64 // by machine: its part of its hypothesis
	weight     []float64 // by machine, before any answer; they sum to 1
	columns    map[Key]*column
	tests      []*tree.Test  // that can be asked at some stage, in the order of the system
	stages     []*tree.Stage // that have columns
}

// draw makes one machine.
func draw(maker *virtual.Maker, h Hypothesis, o Options, number int) (*virtual.Machine, error) {
	if o.Stop != nil && o.Stop() {
		return nil, ErrStopped
	}
	m, err := maker.Build(virtual.Draw{Seed: o.Seed, Number: number, Faults: h.Faults})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", h.Name(), err)
	}
	return m, nil
}

// share turns the priors into shares, and gives each machine its part of them.
func (c *Cloud) share() {
	sum := c.sum()
	for i := range c.prior {
		c.prior[i] /= sum
	}
	c.weight = make([]float64, len(c.of))
	for i, h := range c.of {
		c.weight[i] = c.prior[h] * c.part[i]
	}
}

// Hypotheses are those of which machines come in with the complaint.
func (c *Cloud) Hypotheses() []Hypothesis { return c.hypotheses }

// Machines is how many there are in all.
func (c *Cloud) Machines() int { return len(c.of) }

// Prior is how likely each hypothesis is before any answer but the complaint.
func (c *Cloud) Prior() []float64 { return c.prior }
