package suspect

import (
	"fmt"

	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Options say how clouds are made.
type Options struct {
	Seed     uint64 // the same seed makes the same clouds
	Machines int    // of each hypothesis
}

// mostTries is how many machines are built at most for each that comes in with
// the complaint. A hypothesis that brings none in so many is none.
const mostTries = 20

// Cloud is the simulated machines that come in with one complaint, by hypothesis.
// It is read-only once made.
type Cloud struct {
	system     *tree.System
	complaint  string
	hypotheses []Hypothesis
	prior      []float64 // by hypothesis; they sum to 1
	of         []int     // by machine: its hypothesis
	weight     []float64 // by machine, before any answer; they sum to 1
	columns    map[string]*column
	tests      []*tree.Test // that have a column, in the order of the system
}

// column is what one test shows on every machine.
type column struct {
	test   *tree.Test
	shown  []shown // by machine
	kernel kernel
	flat   float64 // density of a reading that is chance, by base unit
	bins   []int16 // by machine: the same bin for what a reading can't tell apart; -1: no answer
	count  int     // of bins
}

// Build makes the clouds of a complaint. complaint "" takes machines whatever
// they come in with. The error names what the circuit can't work out.
func Build(maker *virtual.Maker, complaint string, o Options) (*Cloud, error) {
	sys := maker.System()
	c := &Cloud{system: sys, complaint: complaint, columns: map[string]*column{}}
	for _, test := range sys.Tests {
		if test.Kind != tree.Worked {
			c.columns[test.ID] = &column{test: test}
			c.tests = append(c.tests, test)
		}
	}
	sum := 0.0
	for _, h := range Hypotheses(sys) {
		came, tried, err := c.draw(maker, h, o)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", h.Name(), err)
		}
		if came > 0 {
			c.hypotheses = append(c.hypotheses, h)
			c.prior = append(c.prior, h.Common*float64(came)/float64(tried))
			sum += c.prior[len(c.prior)-1]
		}
	}
	if len(c.hypotheses) == 0 {
		return nil, fmt.Errorf("no simulated machine of %s comes in with %q", sys.ID, complaint)
	}
	c.share(sum)
	for _, test := range c.tests {
		c.columns[test.ID].finish(sys)
	}
	return c, nil
}

// draw adds the machines of one hypothesis.
func (c *Cloud) draw(maker *virtual.Maker, h Hypothesis, o Options) (came, tried int, err error) {
	for ; came < o.Machines && tried < o.Machines*mostTries; tried++ {
		if came == 0 && tried >= 2*mostTries {
			break
		}
		m, err := maker.Build(virtual.Draw{Seed: o.Seed, Number: tried, Faults: h.Faults})
		if err != nil {
			return 0, 0, err
		}
		complaint, err := m.Complaint()
		if err != nil {
			return 0, 0, err
		}
		if c.complaint != "" && complaint != c.complaint {
			continue
		}
		came++
		c.of = append(c.of, len(c.hypotheses))
		for _, test := range c.tests {
			s, err := show(m, test)
			if err != nil {
				return 0, 0, err
			}
			column := c.columns[test.ID]
			column.shown = append(column.shown, s)
		}
	}
	return came, max(tried, 1), nil
}

// share turns the priors into shares, and gives each machine its part of them.
func (c *Cloud) share(sum float64) {
	machines := make([]int, len(c.hypotheses))
	for _, h := range c.of {
		machines[h]++
	}
	for i := range c.prior {
		c.prior[i] /= sum
	}
	c.weight = make([]float64, len(c.of))
	for i, h := range c.of {
		c.weight[i] = c.prior[h] / float64(machines[h])
	}
}

// Hypotheses are those of which machines come in with the complaint.
func (c *Cloud) Hypotheses() []Hypothesis { return c.hypotheses }

// Machines is how many there are in all.
func (c *Cloud) Machines() int { return len(c.of) }

// Prior is how likely each hypothesis is before any answer but the complaint.
func (c *Cloud) Prior() []float64 { return c.prior }
