package prove

import (
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Trial is one machine taken through one tree, and what came of it.
type Trial struct {
	Class   Class
	Minutes float64 // on the bench, to the last verdict; repairs not counted
	Left    float64 // faults that the tree judges, neither found nor cleared
	Notes   *Notes  // if they were asked for
}

// Notes are what a walk went by.
type Notes struct {
	Ways map[Way]bool // every way that a step was left by
	// Figures are what tests with limits came to, and Judged what was found, cleared,
	// or both, each time that work was done and at the end.
	Figures []Figure
	Judged  []Judgement
}

// Judgement is a fault found or cleared, with the tests that speak for it.
type Judgement struct {
	Fault string
	Tests []string
}

// Way is a step left by one of its answers.
type Way struct{ Tree, Step, Answer string }

// Figure is a value in base units with its standard uncertainty.
type Figure struct {
	Test     string
	Value, U float64
}

// Trier takes single machines through trees, for who compares one library with
// another on the same machines. It is for one goroutine.
type Trier struct {
	tech    *Tech
	batches map[string]*batch // by unit
}

// NewTrier is a trier who gets machines from somewhere else: of another library
// with the same circuits, too.
func NewTrier(p *Plan, makers func(sys *tree.System) (Maker, error)) *Trier {
	return &Trier{tech: NewTech(p, makers), batches: map[string]*batch{}}
}

// batch is the one of a unit, which remembers what faults are alike.
func (t *Trier) batch(u Unit) (*batch, error) {
	name := key(u.Tree, u.load())
	if b := t.batches[name]; b != nil {
		return b, nil
	}
	maker, err := t.tech.maker(u.System)
	if err != nil {
		return nil, err
	}
	b := t.tech.batch(u, maker, &Result{Unit: u})
	t.batches[name] = b
	return b, nil
}

// Coming are the numbers of the machines that a proof of the unit takes through
// its tree, in order. Units with the same faults are best asked for one after the
// other, as Loads lists them.
func (t *Trier) Coming(u Unit) ([]int, error) {
	b, err := t.batch(u)
	if err != nil {
		return nil, err
	}
	t.tech.yard.open(u)
	var out []int
	for number := 0; len(out) < u.Draws && !b.enough(); number++ {
		b.result.Tried++
		comes, err := b.comes(b.draw(number))
		if err != nil {
			return nil, err
		}
		if comes {
			out = append(out, number)
			b.result.Counts.Draws++
		}
	}
	return out, nil
}

// Try takes the machine of a number through the unit's tree, whatever it comes in
// with.
func (t *Trier) Try(u Unit, number int, notes bool) (Trial, error) {
	b, err := t.batch(u)
	if err != nil {
		return Trial{}, err
	}
	m, err := b.maker.Build(b.draw(number))
	if err != nil {
		return Trial{}, err
	}
	var out Trial
	if notes {
		out.Notes = &Notes{Ways: map[Way]bool{}}
	}
	w, err := take(t.tech.plan, b.reach, m, manner{notes: notes, repairs: u.double()}, func(pos walk.Position, _ string) { out.Notes.add(pos) })
	if err != nil {
		return out, err
	}
	o := outcomeOf(w, u.Faults)
	out.Class, out.Minutes, out.Left = o.worst(u, b.alike), w.clock.minutes, o.left()
	return out, nil
}

func (n *Notes) add(pos walk.Position) {
	if n == nil {
		return
	}
	for _, v := range pos.Trail {
		n.Ways[Way{v.Tree, v.Step, v.Outcome}] = true
	}
	for id, r := range pos.Results {
		if r.Mark == walk.Read && !r.Mute() {
			n.Figures = append(n.Figures, Figure{id, r.Estimate.Value, r.Estimate.U()})
		}
	}
	for _, f := range pos.Verdict.Found {
		n.judge(f.Fault, f.Evidence)
	}
	for _, c := range pos.Verdict.Cleared {
		n.judge(c.Fault, c.Evidence)
	}
	for _, u := range pos.Verdict.Untested {
		n.judge(u.Fault, u.Doubt)
	}
}

func (n *Notes) judge(fault *tree.Fault, by []walk.Evidence) {
	if len(by) == 0 {
		return
	}
	j := Judgement{Fault: fault.ID}
	for _, e := range by {
		j.Tests = append(j.Tests, e.Test.ID)
	}
	n.Judged = append(n.Judged, j)
}

// Asks are the tests that a tree of the system may ask, those of the trees that
// it walks too, with what they are worked out from.
func (p *Plan) Asks(id, system string) []*tree.Test {
	if r := p.reaches[key(id, system)]; r != nil {
		return r.tests
	}
	return nil
}

// Worse says which figures are worse than they were, on the same machines.
func Worse(was, now []Trial) []string { return losses(rowOf(was), rowOf(now)) }

func rowOf(trials []Trial) Row {
	var out Row
	for _, t := range trials {
		out.Counts.add(t.Class)
		out.Minutes += t.Minutes / float64(len(trials))
		out.Left += t.Left / float64(len(trials))
	}
	return out
}
