package rerun

import (
	"fmt"
	"strings"

	"benchlead/diag/prove"
	"benchlead/diag/prove/mutant"
	"benchlead/diag/tree"
)

// By is how a change was caught.
type By string

// The ways.
const (
	Nothing By = ""
	Singles By = "one fault at a time, or none"
	Pairs   By = "two faults at a time"
)

// Finding is what came of a change.
type Finding struct {
	By     By
	Says   string   // the first figure that is worse; empty when none is
	Slower []string // faults of which the mean minutes rise by more than a tenth; when not caught
	Near   int      // machines that come near the change, pairs left out
	Walked int      // walks that it took to find out
}

// few is how many machines of each fault are tried first; each time nothing is
// found, it is so many times more.
const (
	few  = 4
	more = 5
)

// Compare tries a changed library on the machines that come near the change. It
// must have loaded without issues, and differ in cuts and routes only.
func (b *Bench) Compare(changed *tree.Library, touch mutant.Touch) (Finding, error) {
	plan, err := prove.NewPlan(changed, prove.Options{Draws: b.options.Draws, Seed: b.options.Seed})
	if err != nil {
		return Finding{}, err
	}
	c := &comparison{trier: prove.NewTrier(plan, b.makers), near: b.near(changed, touch)}
	singles := c.again(b.singles)
	for _, r := range singles {
		c.finding.Near += len(r.near)
	}
	if caught, err := c.rounds(singles, b.options.Draws); caught || err != nil {
		c.finding.By = Singles
		return c.finding, err
	}
	c.slower(singles)
	pairs, err := b.pairUnits()
	if err != nil {
		return c.finding, err
	}
	caught, err := c.rounds(c.again(pairs), b.options.PairDraws)
	if caught {
		c.finding.By = Pairs
	}
	return c.finding, err
}

// comparison is one change being tried.
type comparison struct {
	trier   *prove.Trier
	near    near
	finding Finding
}

// again is a unit with the machines that come near the change.
type again struct {
	*batch
	near    []int // places in batch.trials
	classes []prove.Class
	minutes []float64
}

// again are the units of which some machine comes near the change.
func (c *comparison) again(units []*batch) []*again {
	var out []*again
	for _, u := range units {
		r := &again{batch: u}
		for i := range u.trials {
			if c.near.comes(&u.trials[i]) {
				r.near = append(r.near, i)
			}
		}
		if len(r.near) > 0 {
			out = append(out, r)
		}
	}
	return out
}

// rounds tries the machines of each unit, more each time, until a figure is worse.
func (c *comparison) rounds(units []*again, most int) (caught bool, err error) {
	for n := min(few, most); ; n = min(n*more, most) {
		for _, u := range units {
			if err := c.try(u, n); err != nil {
				return false, err
			}
			if says := u.worse(); says != "" {
				c.finding.Says = says
				return true, nil
			}
		}
		if n >= most {
			return false, nil
		}
	}
}

// try takes the first n near machines of a unit through the changed tree; what
// was tried before is not tried again.
func (c *comparison) try(u *again, n int) error {
	for i := len(u.classes); i < min(n, len(u.near)); i++ {
		t, err := c.trier.Try(u.Unit, u.numbers[u.near[i]], false)
		if err != nil {
			return fmt.Errorf("%s with %v, machine %d: %w", u.Tree, u.Faults, u.numbers[u.near[i]], err)
		}
		c.finding.Walked++
		u.classes, u.minutes = append(u.classes, t.Class), append(u.minutes, t.Minutes)
	}
	return nil
}

// worse says which figures of the machines tried so far are worse than before;
// empty when none is.
func (u *again) worse() string {
	was := make([]prove.Class, len(u.classes))
	for i := range u.classes {
		was[i] = u.trials[u.near[i]].class
	}
	says := prove.Worse(was, u.classes)
	if len(says) == 0 {
		return ""
	}
	return fmt.Sprintf("%s, %s: %s; of %d machines", u.Tree, u.faults(), strings.Join(says, ", "), len(u.classes))
}

func (u *again) faults() string {
	if len(u.Faults) == 0 {
		return "no fault"
	}
	return strings.Join(u.Faults, " + ")
}

// slower notes the units whose machines take more than a tenth longer than before.
func (c *comparison) slower(units []*again) {
	const tenth = 1.1
	for _, u := range units {
		var was, now float64
		for _, t := range u.trials {
			was += t.minutes
		}
		now = was
		for i := range u.minutes {
			now += u.minutes[i] - u.trials[u.near[i]].minutes
		}
		if now > was*tenth && u.Kind == prove.Judged {
			c.finding.Slower = append(c.finding.Slower, fmt.Sprintf("%s, %s: %.0f min on average, %.0f before",
				u.Tree, u.faults(), now/float64(len(u.trials)), was/float64(len(u.trials))))
		}
	}
}
