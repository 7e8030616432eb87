package suspect

import (
	"fmt"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Options say how clouds are made.
type Options struct {
	Seed     uint64 // the same seed makes the same clouds
	Machines int    // of each hypothesis; with BuildAll, whatever they come in with
	Meter    measure.Meter
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

// Build makes the clouds of a complaint. complaint "" takes machines whatever
// they come in with. The error names what the circuit can't work out.
func Build(maker *virtual.Maker, complaint string, o Options) (*Cloud, error) {
	c := newCloud(maker.System(), complaint)
	for _, h := range Hypotheses(c.system) {
		came, tried := 0, 0
		for ; came < o.Machines && tried < o.Machines*mostTries && (came > 0 || tried < 2*mostTries); tried++ {
			m, says, err := draw(maker, h, o.Seed, tried)
			if err != nil {
				return nil, err
			}
			if complaint != "" && says != complaint {
				continue
			}
			if err := c.add(m, o.Meter); err != nil {
				return nil, fmt.Errorf("%s: %w", h.Name(), err)
			}
			came++
		}
		c.close(h, came, tried)
	}
	if len(c.hypotheses) == 0 {
		return nil, fmt.Errorf("no simulated machine of %s comes in with %q", c.system.ID, complaint)
	}
	c.finish()
	return c, nil
}

// BuildAll makes the clouds of every complaint in one go: of each hypothesis
// o.Machines are drawn, and each goes to the clouds of what it comes in with. A
// hypothesis that seldom brings a complaint has few machines there.
func BuildAll(maker *virtual.Maker, o Options) (map[string]*Cloud, error) {
	sys, out := maker.System(), map[string]*Cloud{}
	for _, h := range Hypotheses(sys) {
		came := map[string]int{}
		for number := range o.Machines {
			m, says, err := draw(maker, h, o.Seed, number)
			if err != nil {
				return nil, err
			}
			if out[says] == nil {
				out[says] = newCloud(sys, says)
			}
			if err := out[says].add(m, o.Meter); err != nil {
				return nil, fmt.Errorf("%s: %w", h.Name(), err)
			}
			came[says]++
		}
		for says, n := range came {
			out[says].close(h, n, o.Machines)
		}
	}
	for _, c := range out {
		c.finish()
	}
	return out, nil
}

func newCloud(sys *tree.System, complaint string) *Cloud {
	c := &Cloud{system: sys, complaint: complaint, columns: map[string]*column{}}
	for _, test := range sys.Tests {
		if test.Kind != tree.Worked {
			c.columns[test.ID] = &column{test: test}
			c.tests = append(c.tests, test)
		}
	}
	return c
}

// draw makes one machine, and says what it comes in with.
func draw(maker *virtual.Maker, h Hypothesis, seed uint64, number int) (*virtual.Machine, string, error) {
	m, err := maker.Build(virtual.Draw{Seed: seed, Number: number, Faults: h.Faults})
	if err != nil {
		return nil, "", fmt.Errorf("%s: %w", h.Name(), err)
	}
	says, err := m.Complaint()
	if err != nil {
		return nil, "", fmt.Errorf("%s: %w", h.Name(), err)
	}
	return m, says, nil
}

// add keeps what a machine shows. It is of the hypothesis that is closed next.
func (c *Cloud) add(m *virtual.Machine, meter measure.Meter) error {
	c.of = append(c.of, len(c.hypotheses))
	for _, test := range c.tests {
		s, err := show(m, test, meter)
		if err != nil {
			return err
		}
		column := c.columns[test.ID]
		column.shown = append(column.shown, s)
	}
	return nil
}

// close ends a hypothesis of which so many machines came, of those tried.
func (c *Cloud) close(h Hypothesis, came, tried int) {
	if came > 0 {
		c.hypotheses = append(c.hypotheses, h)
		c.prior = append(c.prior, h.Common*float64(came)/float64(tried))
	}
}

// finish works out what all machines have in common.
func (c *Cloud) finish() {
	c.share()
	for _, test := range c.tests {
		c.columns[test.ID].finish(c.system)
	}
}

// share turns the priors into shares, and gives each machine its part of them.
func (c *Cloud) share() {
	sum := 0.0
	for _, p := range c.prior {
		sum += p
	}
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
