package rerun

import (
	"fmt"
	"maps"
	"slices"
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
	Untaken By = "tests that can't be taken"
	Slips   By = "answers that slip"
	Pairs   By = "two faults at a time"
)

// Finding is what came of a change.
type Finding struct {
	By     By
	Says   string // the first figure that is worse; empty when none is
	Near   int    // machines that come near the change, pairs left out
	Walked int    // walks that it took to find out
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
	var out Finding
	near := b.near(changed, touch)
	for _, w := range b.worlds {
		if err := b.open(w); err != nil {
			return out, err
		}
		plan, err := prove.NewPlan(changed, w.options)
		if err != nil {
			return out, err
		}
		c := &comparison{trier: prove.NewTrier(plan, w.makers), near: near, finding: &out}
		units := c.again(w.units)
		if w.by != Pairs {
			for _, u := range units {
				out.Near += len(u.near)
			}
		}
		judge := c.rounds
		if w.summed {
			judge = c.whole
		}
		caught, err := judge(units, w.options.Draws)
		if caught {
			out.By = w.by
		}
		if caught || err != nil {
			return out, err
		}
	}
	return out, nil
}

// comparison is one change being tried in one world.
type comparison struct {
	trier   *prove.Trier
	near    near
	finding *Finding
}

// again is a unit with the machines that come near the change.
type again struct {
	*batch
	near []int // places in batch.trials
	now  []prove.Trial
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

// rounds tries the machines of each unit, more each time, until one comes out
// worse; then it looks whether a unit takes longer, or leaves more.
func (c *comparison) rounds(units []*again, most int) (caught bool, err error) {
	for n := min(few, most); ; n = min(n*more, most) {
		for _, u := range units {
			if err := c.try(u, n); err != nil {
				return false, err
			}
			if u.worse(c.finding, n >= most) {
				return true, nil
			}
		}
		if n >= most {
			return false, nil
		}
	}
}

// whole tries all machines, and counts what is wrong for each tree.
func (c *comparison) whole(units []*again, most int) (caught bool, err error) {
	was, now := map[string]int{}, map[string]int{}
	for _, u := range units {
		if err := c.try(u, most); err != nil {
			return false, err
		}
		for i, t := range u.now {
			was[u.Tree] += wrong(u.trials[u.near[i]].Trial)
			now[u.Tree] += wrong(t)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(now)) {
		if now[name] > was[name] {
			c.finding.Says = fmt.Sprintf("%s: wrong: %d, was %d; with slips, of the machines that come near", name, now[name], was[name])
			return true, nil
		}
	}
	return false, nil
}

func wrong(t prove.Trial) int {
	if t.Class == prove.Wrong {
		return 1
	}
	return 0
}

// try takes the first n near machines of a unit through the changed tree; what
// was tried before is not tried again.
func (c *comparison) try(u *again, n int) error {
	for i := len(u.now); i < min(n, len(u.near)); i++ {
		t, err := c.trier.Try(u.Unit, u.numbers[u.near[i]], false)
		if err != nil {
			return fmt.Errorf("%s with %v, machine %d: %w", u.Tree, u.Faults, u.numbers[u.near[i]], err)
		}
		c.finding.Walked++
		u.now = append(u.now, t)
	}
	return nil
}

// worse says whether a figure of the unit is worse than before, and notes which:
// all of them when every machine that comes near was tried, else only how many
// come out in which way.
func (u *again) worse(note *Finding, all bool) bool {
	was, now := make([]prove.Trial, len(u.trials)), make([]prove.Trial, len(u.trials))
	for i, t := range u.trials {
		was[i] = t.Trial
	}
	copy(now, was)
	for i, t := range u.now {
		if !all {
			before := was[u.near[i]]
			t.Minutes, t.Left = before.Minutes, before.Left
		}
		now[u.near[i]] = t
	}
	says := prove.Worse(was, now)
	if len(says) > 0 {
		note.Says = fmt.Sprintf("%s, %s: %s; of %d machines", u.Tree, u.faults(), strings.Join(says, ", "), len(u.trials))
	}
	return len(says) > 0
}

func (u *again) faults() string {
	if len(u.Faults) == 0 {
		return "no fault"
	}
	return strings.Join(u.Faults, " + ")
}
