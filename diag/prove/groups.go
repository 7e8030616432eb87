package prove

import (
	"math"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Two faults can't be told apart when, over many machines, every test that the
// tree may ask comes out in each of its bands equally often: within apart, in
// total variation. The machines have the same numbers, so whatever the fault
// doesn't touch is the same in both. A few machines are enough to see that two
// faults differ widely, which most do. A group has at most groupSize faults.
const (
	samples    = 240
	apart      = 0.05
	fewSamples = 24
	farApart   = 0.4
	groupSize  = 3
)

// alike says whether no test of the tree tells two faults apart.
func (b *batch) alike(f, g string) bool {
	pair := [2]string{f, g}
	if same, known := b.pairs[pair]; known {
		return same
	}
	same := false
	if len(b.result.Alike) < groupSize-1 {
		x, y := b.habitsOf(f), b.habitsOf(g)
		same = x.like(y, fewSamples, farApart) && x.like(y, samples, apart)
	}
	b.pairs[pair] = same
	if same {
		b.result.Alike = append(b.result.Alike, g)
	}
	return same
}

// habits are how the tests of a tree come out on machines with one fault.
type habits struct {
	batch    *batch
	fault    string
	tried    int
	machines []Machine
	called   [][]string // by test of the reach, by machine
}

func (b *batch) habitsOf(fault string) *habits {
	if h := b.habits[fault]; h != nil {
		return h
	}
	h := &habits{batch: b, fault: fault, called: make([][]string, len(b.reach.tests))}
	b.habits[fault] = h
	return h
}

// like says whether n machines of each come out alike in every test, within
// some total variation. Too few machines that come in for this tree are no
// proof.
func (h *habits) like(other *habits, n int, within float64) bool {
	if !h.grow(n) || !other.grow(n) {
		return false
	}
	for i := range h.called {
		x, okX := h.shares(i, n)
		y, okY := other.shares(i, n)
		if !okX || !okY || variation(x, y) >= within {
			return false
		}
	}
	return true
}

// grow builds machines until there are n that come in for this tree.
func (h *habits) grow(n int) bool {
	for ; len(h.machines) < n && h.tried < samples*mostTries; h.tried++ {
		if len(h.machines) == 0 && h.tried >= hopeless {
			return false
		}
		d := h.batch.draw(h.tried)
		d.Faults = []string{h.fault}
		m, err := h.batch.maker.Build(d)
		if err != nil {
			return false
		}
		complaint, err := m.Complaint()
		if err != nil {
			return false
		}
		if h.batch.reach.complaints[complaint] {
			h.machines = append(h.machines, m)
		}
	}
	return len(h.machines) >= n
}

// shares is how often each outcome of a test comes on the first n machines.
func (h *habits) shares(test, n int) (map[string]float64, bool) {
	out := map[string]float64{}
	for i, m := range h.machines[:n] {
		if i >= len(h.called[test]) {
			t := h.batch.reach.tests[test]
			results, err := h.batch.tech.plan.everything(h.batch.reach, m, t)
			if err != nil {
				return nil, false
			}
			h.called[test] = append(h.called[test], called(results[t.ID]))
		}
		out[h.called[test][i]] += 1 / float64(n)
	}
	return out, true
}

// variation is the total variation between two distributions.
func variation(x, y map[string]float64) float64 {
	var sum float64
	for k, v := range x {
		sum += math.Abs(v - y[k])
	}
	for k, v := range y {
		if _, both := x[k]; !both {
			sum += v
		}
	}
	return sum / 2
}

// everything asks a machine tests, with what they are worked out from, as it
// stands.
func (p *Plan) everything(r *reach, m Machine, tests ...*tree.Test) (map[string]walk.Result, error) {
	in := job.Intake{
		System: r.system.ID, Complaint: complaintOf(r.tree.ID), Celsius: Celsius, Meter: p.meter,
		Label: r.system.UsualLabel(Celsius),
	}
	events := []job.Event{{Seq: 1, Kind: job.KindIntake, Intake: &in}}
	for _, test := range answerable(r.system, tests) {
		a, err := m.Take(test, Hand{Meter: p.meter})
		if err != nil {
			return nil, err
		}
		e := a.event(test)
		e.Seq = int64(len(events)) + 1
		events = append(events, e)
	}
	facts, err := job.Fold(events)
	if err != nil {
		return nil, err
	}
	return walk.Results(r.system, facts), nil
}

// answerable are the tests that a machine answers, for those that are worked out
// what they are worked out from.
func answerable(sys *tree.System, tests []*tree.Test) []*tree.Test {
	var out []*tree.Test
	had := map[string]bool{}
	var add func(test *tree.Test)
	add = func(test *tree.Test) {
		if test == nil || had[test.ID] {
			return
		}
		had[test.ID] = true
		if test.Kind != tree.Worked {
			out = append(out, test)
			return
		}
		for _, id := range test.Inputs() {
			add(sys.Test(id))
		}
	}
	for _, test := range tests {
		add(test)
	}
	return out
}

// called is the band or choice of a result, or why there is none.
func called(r walk.Result) string {
	switch r.Mark {
	case walk.Seen:
		return r.Choice
	case walk.Read:
		if call := r.Call(); call.Answer == measure.Called {
			return r.Test.Bands[call.Band].Name
		}
		return tree.Unsure
	}
	return "no answer"
}
