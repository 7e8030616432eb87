package suspect

import (
	"errors"
	"fmt"
	"slices"

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

// Of each hypothesis at most so many times the machines that are wanted are built;
// one that brings none in so many is none.
const (
	mostTries  = 4
	fewestCome = 1.0 / 40
)

// Key is a test, of the machine as it came in or at a stage of work.
type Key struct{ Stage, Test string }

// Cloud is the simulated machines that come in with one complaint, by hypothesis.
// It is read-only once made.
type Cloud struct {
	system     *tree.System
	complaint  string
	hypotheses []Hypothesis
	prior      []float64 // by hypothesis; they sum to 1
	of         []int     // by machine: its hypothesis
	number     []int     // by machine: its number in the draw
	weight     []float64 // by machine, before any answer; they sum to 1
	columns    map[Key]*column
	tests      []*tree.Test  // that can be asked at some stage, in the order of the system
	stages     []*tree.Stage // that have columns
}

// Build makes the clouds of a complaint. complaint "", and one that the circuit can't
// show, such as that something comes and goes, takes machines whatever they come in
// with. The error names what the circuit can't work out. What the
// machines show after work is added by Extend.
func Build(maker *virtual.Maker, complaint string, o Options) (*Cloud, error) {
	c := &Cloud{system: maker.System(), complaint: complaint, columns: map[Key]*column{}}
	if !c.shown() {
		complaint = ""
	}
	for _, test := range c.system.Tests {
		if test.Kind == tree.Worked {
			continue
		}
		c.tests = append(c.tests, test)
		if test.After == "" {
			c.columns[Key{"", test.ID}] = &column{test: test}
		}
	}
	for _, h := range Hypotheses(c.system) {
		if err := c.fill(maker, h, complaint, o); err != nil {
			return nil, err
		}
	}
	if len(c.hypotheses) == 0 {
		return nil, fmt.Errorf("no simulated machine of %s comes in with %q", c.system.ID, complaint)
	}
	if err := c.gone(maker, o); err != nil {
		return nil, err
	}
	c.wellness()
	c.share()
	for _, test := range c.tests {
		if column := c.columns[Key{"", test.ID}]; column != nil {
			column.finish(c.system)
		}
	}
	return c, nil
}

// fill adds the machines of a hypothesis that come in with a complaint.
func (c *Cloud) fill(maker *virtual.Maker, h Hypothesis, complaint string, o Options) error {
	came, tried := 0, 0
	for ; came < o.Machines && tried < mostTries*o.Machines && (came > 0 || float64(tried)*fewestCome < 1); tried++ {
		m, err := c.draw(maker, h, o, tried)
		if err != nil {
			return err
		}
		says, err := m.Complaint()
		if err != nil {
			return fmt.Errorf("%s: %w", h.Name(), err)
		}
		if complaint != "" && says != complaint {
			continue
		}
		if err := c.add(m, tried, o.Meter); err != nil {
			return fmt.Errorf("%s: %w", h.Name(), err)
		}
		came++
	}
	if came > 0 {
		c.hypotheses = append(c.hypotheses, h)
		c.prior = append(c.prior, h.Common*float64(came)/float64(tried))
	}
	return nil
}

// gone adds machines whose fault is gone on the bench: they show what sound ones
// do, whatever the owner came in with. Where nobody complains there is no such
// thing.
func (c *Cloud) gone(maker *virtual.Maker, o Options) error {
	if c.complaint == "" || c.complaint == c.system.Circuit.Unasked() {
		return nil
	}
	h, sum := Hypothesis{Gone: true}, c.sum()
	if err := c.fill(maker, h, "", o); err != nil {
		return err
	}
	share := gone
	if !c.shown() {
		share = goneIfSaid
	}
	c.prior[len(c.prior)-1] = sum * share / (1 - share)
	return nil
}

// shown says whether the circuit can show the complaint.
func (c *Cloud) shown() bool {
	return slices.ContainsFunc(c.system.Circuit.Complaints, func(k tree.Complains) bool { return k.Complaint == c.complaint })
}

// sum is that of the priors so far.
func (c *Cloud) sum() float64 {
	sum := 0.0
	for _, p := range c.prior {
		sum += p
	}
	return sum
}

// wellness makes it as likely as not that nothing is wrong with what nobody complains of.
func (c *Cloud) wellness() {
	if c.complaint == c.system.Circuit.Unasked() && len(c.hypotheses[0].Faults) == 0 {
		c.prior[0] = c.sum() - c.prior[0]
	}
}

// draw makes one machine.
func (c *Cloud) draw(maker *virtual.Maker, h Hypothesis, o Options, number int) (*virtual.Machine, error) {
	if o.Stop != nil && o.Stop() {
		return nil, ErrStopped
	}
	m, err := maker.Build(virtual.Draw{Seed: o.Seed, Number: number, Faults: h.Faults})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", h.Name(), err)
	}
	return m, nil
}

// add keeps what a machine shows. It is of the hypothesis that comes next.
func (c *Cloud) add(m *virtual.Machine, number int, meter measure.Meter) error {
	c.of, c.number = append(c.of, len(c.hypotheses)), append(c.number, number)
	for _, test := range c.tests {
		column := c.columns[Key{"", test.ID}]
		if column == nil {
			continue
		}
		s, err := show(m, test, meter)
		if err != nil {
			return err
		}
		column.shown = append(column.shown, s)
	}
	return nil
}

// share turns the priors into shares, and gives each machine its part of them.
func (c *Cloud) share() {
	sum := c.sum()
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
