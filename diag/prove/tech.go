package prove

import (
	"fmt"
	"slices"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Tech takes machines through trees. A Tech is for one goroutine; several give
// the same results. Units with the same faults, one after the other, share their
// machines.
type Tech struct {
	plan   *Plan
	makers map[string]Maker // by system
	make   func(sys *tree.System) (Maker, error)
	yard   yard
	sound  map[draft]bool // whether a machine is well without its faults
}

// NewTech is a tech with makers of their own.
func NewTech(p *Plan, makers func(sys *tree.System) (Maker, error)) *Tech {
	return &Tech{plan: p, makers: map[string]Maker{}, make: makers, sound: map[draft]bool{}}
}

// For one machine that comes to the tree at most mostTries are built, and at most
// mostAstray whose complaint could lead there and whose walk does not, each of
// which costs a walk. When the first hopeless or hopelessAstray bring none, the
// fault is taken not to show.
const (
	mostTries      = 20
	mostAstray     = 3
	hopeless       = 240
	hopelessAstray = 80
)

func (t *Tech) maker(system string) (Maker, error) {
	if m := t.makers[system]; m != nil {
		return m, nil
	}
	m, err := t.make(t.plan.lib.Systems[system])
	if err == nil {
		t.makers[system] = m
	}
	return m, err
}

// Run proves one unit.
func (t *Tech) Run(u Unit) Result {
	r := Result{Unit: u, Reached: map[string]bool{}}
	maker, err := t.maker(u.System)
	if err != nil {
		r.Failed = err.Error()
		return r
	}
	t.yard.open(u)
	b := t.batch(u, maker, &r)
	for number := 0; r.Counts.Draws < u.Draws && !b.enough(); number++ {
		if err := b.one(b.draw(number)); err != nil {
			r.Failed = fmt.Sprintf("machine %d: %s", number, err)
			return r
		}
	}
	b.show()
	return r
}

func (t *Tech) batch(u Unit, maker Maker, r *Result) *batch {
	return &batch{
		tech: t, unit: u, maker: maker, yard: &t.yard, reach: t.plan.reaches[key(u.Tree, u.System)], result: r,
		kinds: map[string]*kindOfMiss{}, pairs: map[[2]string]bool{}, habits: map[string]*habits{},
	}
}

// enough says whether trying on is not worth it.
func (b *batch) enough() bool {
	r := b.result
	if r.Counts.Draws == 0 && (r.Tried >= hopeless || b.astray >= hopelessAstray) {
		return true
	}
	return r.Tried >= b.unit.Draws*mostTries || b.astray >= b.unit.Draws*mostAstray
}

// batch is the machines of one unit.
type batch struct {
	tech   *Tech
	unit   Unit
	maker  Maker
	yard   *yard
	reach  *reach
	result *Result
	astray int // machines that might have come to the tree, and did not
	kinds  map[string]*kindOfMiss
	pairs  map[[2]string]bool // whether two faults are alike
	habits map[string]*habits // by fault
}

func (b *batch) draw(number int) Draw {
	return Draw{Seed: b.tech.plan.options.Seed, Number: number, Faults: b.unit.Faults, Shift: b.tech.plan.options.Shift}
}

// one fetches a machine and, if it comes to the tree, walks it.
func (b *batch) one(d Draw) error {
	b.result.Tried++
	comes, err := b.comes(d)
	if !comes {
		return err
	}
	w, err := b.walk(b.reach, d, func(pos walk.Position, _ string) {
		for _, v := range pos.Trail {
			b.result.Reached[key(v.Tree, v.Step)] = true
		}
	})
	if err != nil {
		return err
	}
	o := outcomeOf(w, b.unit.Faults)
	b.count(o, d)
	return nil
}

func (b *batch) count(o *outcome, d Draw) {
	class := o.worst(b.unit, b.alike)
	b.result.Counts.add(class)
	b.result.Minutes = append(b.result.Minutes, o.run.clock.minutes)
	b.result.Left = append(b.result.Left, o.left())
	if class == Found && !b.unit.double() && slices.ContainsFunc(b.unit.Faults, o.mended) {
		b.result.Mended++
	}
	if class == Found && o.once {
		b.result.AtOnce++
	}
	if class == Wrong || class == Missed || class == Close || class == Masked && b.unit.Kind == Judged {
		b.note(class, o, d)
	}
}
