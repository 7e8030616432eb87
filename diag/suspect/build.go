package suspect

import (
	"fmt"
	"slices"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
)

// Of each hypothesis at most so many times the machines that are wanted are built;
// one that brings none in so many is none. One whose machines come in with a neighbour
// of the complaint is tried longer.
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
	var came, near []int
	any, most, tried := h.Gone || !p.shown(), o.Machines, 0
	if !p.shown() { // of every complaint: there are many more of them, and little is told apart yet
		most = (most + 1) / 2
	}
	enough := func() bool {
		none := len(came) == 0 && float64(tried)*fewestCome >= 1 && (len(near) == 0 || tried >= o.Machines)
		return len(came) == most || tried == mostTries*o.Machines || none
	}
	for ; !enough(); tried++ {
		m, err := draw(maker, h, o, tried)
		if err != nil {
			return err
		}
		says, err := m.Complaint()
		m.Done()
		switch {
		case err != nil:
			return fmt.Errorf("%s: %w", h.Name(), err)
		case any || says == p.complaint:
			came = append(came, tried)
		case p.near(says):
			near = append(near, tried)
		}
	}
	mistaken := near[:min(len(near), max(most/2-len(came), most/5))]
	if len(came)+len(mistaken) == 0 {
		return nil
	}
	mass := float64(len(came))
	if len(mistaken) > 0 {
		mass += mistold * float64(len(near))
	}
	if err := p.keep(maker, h, o, came, 1/mass); err != nil {
		return err
	}
	if err := p.keep(maker, h, o, mistaken, mistold*float64(len(near))/float64(max(1, len(mistaken)))/mass); err != nil {
		return err
	}
	p.hypotheses, p.places = append(p.hypotheses, h), append(p.places, place)
	p.prior = append(p.prior, h.Common*mass/float64(tried))
	return nil
}

// mistold is how often a complaint is told, or heard, for another of the same trouble: one
// click for a few, slow for hardly at all. Judgement; it keeps a fault alive whose machines
// seldom sound just as the owner says, and whose readings speak for it.
const mistold = 0.03

// near says whether a complaint may be told for that of the cloud: both are of one trouble.
func (c *Cloud) near(says string) bool {
	trouble := func(id string) string {
		for _, k := range c.system.Complaints {
			if k.ID == id {
				return k.Trouble
			}
		}
		return ""
	}
	return trouble(says) != "" && trouble(says) == trouble(c.complaint)
}

// keep adds machines of the hypothesis that comes next, each with its part of it.
func (p *Part) keep(maker *virtual.Maker, h Hypothesis, o Options, numbers []int, part float64) error {
	for _, number := range numbers {
		m, err := draw(maker, h, o, number)
		if err != nil {
			return err
		}
		if err := p.add(m, number, o.Meter); err != nil {
			return fmt.Errorf("%s: %w", h.Name(), err)
		}
		p.part = append(p.part, part)
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
		c.of, c.number, c.part = append(c.of, len(c.hypotheses)), append(c.number, p.number[i]), append(c.part, p.part[i])
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
