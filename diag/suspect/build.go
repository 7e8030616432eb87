package suspect

import (
	"fmt"
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Of each hypothesis at most so many times the machines that are wanted are built;
// one that brings none in so many is none.
const (
	mostTries  = 4
	fewestCome = 1.0 / 40
)

// Build makes the clouds of a complaint. complaint "", and one that the circuit can't
// show, such as that something comes and goes, takes machines whatever they come in
// with. The error names what the circuit can't work out. What the machines show after
// work is added by Extend.
func Build(maker *virtual.Maker, complaint string, o Options) (*Cloud, error) {
	all, err := BuildPart(maker, complaint, o, 0, 1)
	if err != nil {
		return nil, err
	}
	return Join(all)
}

// Part is a share of the machines of a cloud, for work that is shared out. A hypothesis
// is whole in one of them.
type Part struct {
	*Cloud
	places []int // by hypothesis: among all that are tried
}

// BuildPart is the share-th of so many shares of Build, counted from 0; each has a Maker
// of its own.
func BuildPart(maker *virtual.Maker, complaint string, o Options, share, shares int) (*Part, error) {
	p := &Part{Cloud: &Cloud{system: maker.System(), complaint: complaint, columns: map[Key]*column{}}}
	for _, test := range p.system.Tests {
		if test.Kind == tree.Worked {
			continue
		}
		p.tests = append(p.tests, test)
		if test.After == "" {
			p.columns[Key{"", test.ID}] = &column{test: test}
		}
	}
	for place, h := range p.tried() {
		if place%shares != share {
			continue
		}
		if err := p.fill(maker, h, place, o); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// tried are the hypotheses that may be, in order. Something that is gone on the bench
// is the last; where nobody complains there is no such thing.
func (c *Cloud) tried() []Hypothesis {
	out := Hypotheses(c.system)
	if c.complaint != "" && c.complaint != c.system.Circuit.Unasked() {
		out = append(out, Hypothesis{Gone: true})
	}
	return out
}

// fill adds the machines of a hypothesis that come in with the complaint. One that is
// gone shows what sound machines do, whatever the owner came in with.
func (p *Part) fill(maker *virtual.Maker, h Hypothesis, place int, o Options) error {
	came, tried := 0, 0
	any, most := h.Gone || !p.shown(), o.Machines
	if !p.shown() { // of every complaint: there are many more of them, and little is told apart yet
		most = (most + 1) / 2
	}
	for ; came < most && tried < mostTries*o.Machines && (came > 0 || float64(tried)*fewestCome < 1); tried++ {
		m, err := draw(maker, h, o, tried)
		if err != nil {
			return err
		}
		says, err := m.Complaint()
		if err != nil {
			return fmt.Errorf("%s: %w", h.Name(), err)
		}
		if !any && says != p.complaint {
			m.Done()
			continue
		}
		if err := p.add(m, tried, o.Meter); err != nil {
			return fmt.Errorf("%s: %w", h.Name(), err)
		}
		came++
	}
	if came > 0 {
		p.hypotheses, p.places = append(p.hypotheses, h), append(p.places, place)
		p.prior = append(p.prior, h.Common*float64(came)/float64(tried))
	}
	return nil
}

// add keeps what a machine shows. It is of the hypothesis that comes next.
func (p *Part) add(m *virtual.Machine, number int, meter measure.Meter) error {
	p.of, p.number = append(p.of, len(p.hypotheses)), append(p.number, number)
	for _, test := range p.tests {
		column := p.columns[Key{"", test.ID}]
		if column == nil {
			continue
		}
		s, err := show(m, test, meter)
		if err != nil {
			return err
		}
		column.shown = append(column.shown, s)
	}
	m.Done()
	return nil
}

// Join makes the cloud of its parts. It is the same whatever they were.
func Join(parts ...*Part) (*Cloud, error) {
	first := parts[0]
	c := &Cloud{system: first.system, complaint: first.complaint, columns: map[Key]*column{}, tests: first.tests}
	for key, of := range first.columns {
		c.columns[key] = &column{test: of.test}
	}
	for place := range c.tried() {
		for _, p := range parts {
			if h := slices.Index(p.places, place); h >= 0 {
				c.adopt(p, h)
			}
		}
	}
	if len(c.hypotheses) == 0 || len(c.hypotheses) == 1 && c.hypotheses[0].Gone {
		return nil, fmt.Errorf("no simulated machine of %s comes in with %q", c.system.ID, c.complaint)
	}
	c.gone()
	c.wellness()
	c.share()
	for _, column := range c.columns {
		column.finish(c.system)
	}
	return c, nil
}

// adopt puts a hypothesis of a part in.
func (c *Cloud) adopt(p *Part, hypothesis int) {
	from := slices.Index(p.of, hypothesis)
	to := from
	for to < len(p.of) && p.of[to] == hypothesis {
		to++
	}
	for i := from; i < to; i++ {
		c.of, c.number = append(c.of, len(c.hypotheses)), append(c.number, p.number[i])
	}
	for key, column := range c.columns {
		column.shown = append(column.shown, p.columns[key].shown[from:to]...)
	}
	c.hypotheses, c.prior = append(c.hypotheses, p.hypotheses[hypothesis]), append(c.prior, p.prior[hypothesis])
}

// gone makes it as likely as it is that something is gone on the bench.
func (c *Cloud) gone() {
	last := len(c.hypotheses) - 1
	if !c.hypotheses[last].Gone {
		return
	}
	share := gone
	if !c.shown() {
		share = goneIfSaid
	}
	c.prior[last] = 0
	c.prior[last] = c.sum() * share / (1 - share)
}

// shown says whether the circuit can show the complaint.
func (c *Cloud) shown() bool {
	return slices.ContainsFunc(c.system.Circuit.Complaints, func(k tree.Complains) bool { return k.Complaint == c.complaint })
}

// wellness makes it as likely as not that nothing is wrong with what nobody complains of.
func (c *Cloud) wellness() {
	if c.complaint == c.system.Circuit.Unasked() && len(c.hypotheses[0].Faults) == 0 {
		c.prior[0] = c.sum() - c.prior[0]
	}
}

// sum is that of the priors.
func (c *Cloud) sum() float64 {
	sum := 0.0
	for _, p := range c.prior {
		sum += p
	}
	return sum
}
