package prove

import (
	"slices"

	"benchlead/diag/walk"
)

// yard holds the machines of one set of faults, untouched, so that several trees
// are proved on them: solving a machine costs more than walking it.
type yard struct {
	load     string
	machines map[int]Machine
	complain map[int]string
	ways     map[way]map[string]bool // the trees that a walk came through
}

// way is one machine walked through one tree.
type way struct {
	number int
	tree   string
}

// mostParked bounds the memory for machines.
const mostParked = 400

// open makes room for a unit's machines, if those in the yard are others.
func (y *yard) open(u Unit) {
	if load := u.load(); y.machines == nil || load != y.load {
		*y = yard{load: load, machines: map[int]Machine{}, complain: map[int]string{}, ways: map[way]map[string]bool{}}
	}
}

// fetch gives a machine that nobody has worked on.
func (b *batch) fetch(d Draw) (Machine, error) {
	if m := b.yard.machines[d.Number]; m != nil {
		return m, nil
	}
	m, err := b.maker.Build(d)
	if err == nil && len(b.yard.machines) < mostParked {
		b.yard.machines[d.Number] = m
	}
	return m, err
}

// complaint is what a machine comes in with.
func (b *batch) complaint(d Draw) (string, error) {
	if c, known := b.yard.complain[d.Number]; known {
		return c, nil
	}
	m, err := b.fetch(d)
	if err != nil {
		return "", err
	}
	c, err := m.Complaint()
	b.yard.complain[d.Number] = c
	return c, err
}

// walk takes a machine through a tree, and remembers which trees it came
// through. A machine that was worked on is no longer what it was.
func (b *batch) walk(r *reach, d Draw, gone func(walk.Position, string)) (*run, error) {
	m, err := b.fetch(d)
	if err != nil {
		return nil, err
	}
	through := map[string]bool{}
	w, err := take(b.tech.plan, r, m, manner{repairs: b.unit.double()}, func(pos walk.Position, work string) {
		for _, v := range pos.Trail {
			through[v.Tree] = true
		}
		gone(pos, work)
	})
	b.yard.ways[way{d.Number, r.tree.ID}] = through
	if err != nil || w.worked {
		delete(b.yard.machines, d.Number)
	}
	return w, err
}

// comes says whether a machine comes to the tree, and because of its faults.
func (b *batch) comes(d Draw) (bool, error) {
	leads, err := b.leads(d)
	if !leads || err != nil {
		return false, err
	}
	return b.sound(d)
}

// leads says whether a machine's complaint leads to the tree: it names the tree,
// or a walk of a tree that it names comes there.
func (b *batch) leads(d Draw) (bool, error) {
	id, err := b.complaint(d)
	if err != nil || !b.reach.complaints[id] {
		return false, err
	}
	first := b.reach.system.Complaint(id).Trees
	if slices.Contains(first, b.unit.Tree) {
		return true, nil
	}
	for _, t := range first {
		r := b.tech.plan.reaches[key(t, b.unit.System)]
		if r == nil || !slices.Contains(r.trees, b.reach.tree) {
			continue
		}
		if b.yard.ways[way{d.Number, t}] == nil {
			if _, err := b.walk(r, d, func(walk.Position, string) {}); err != nil {
				return false, err
			}
		}
		if b.yard.ways[way{d.Number, t}][b.unit.Tree] {
			return true, nil
		}
	}
	b.astray++
	return false, nil
}
