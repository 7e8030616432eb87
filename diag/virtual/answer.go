package virtual

import (
	"math"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// Answer is the truth about a test: what an ideal meter shows, with its input
// resistance as part of the circuit, or what there is to see.
type Answer struct {
	Choice string // of an observation
	// Value is in base units; +Inf for over range. With relays that chatter it
	// lies between Low and High, and Flicker says that no display would settle.
	Value, Low, High float64
	Over             bool // above full scale, or open
	Live             bool // ohms where volts stand: the display means nothing
	Flicker          bool
}

// answered is an answer that was given before.
type answered struct {
	answer Answer
	err    error
	given  bool
}

// Answer answers a test. The error is an *Unanswered for a test that the circuit
// doesn't show, and for a test that is worked out from others, which the walk
// works out; any other error is a circuit that can't be solved.
func (m *Machine) Answer(test *tree.Test) (Answer, error) {
	number := m.maker.testNumber(test.ID)
	if a := of(m.answers, number); a.given {
		return a.answer, a.err
	}
	a := answered{given: true}
	a.answer, a.err = m.answer(test)
	if m.answers == nil {
		m.answers = make([]answered, 0, len(m.maker.tests))
	}
	m.answers = keep(m.answers, number, a)
	return a.answer, a.err
}

func (m *Machine) answer(test *tree.Test) (Answer, error) {
	if why, ok := m.maker.unmodelled[test.ID]; ok {
		return Answer{}, &Unanswered{test.ID, why}
	}
	if test.Kind == tree.Worked {
		return Answer{}, &Unanswered{test.ID, "it is worked out from other tests"}
	}
	if test.Kind == tree.Observed {
		choice, err := m.choice(test)
		return Answer{Choice: choice}, err
	}
	return m.metered(test, ideal(test.Function))
}

// choice is what is heard or seen.
func (m *Machine) choice(test *tree.Test) (string, error) {
	show := m.maker.shows[test.ID]
	if show == nil {
		return "", m.maker.cant(test.ID, "the circuit does not say what is seen or heard")
	}
	for i := range show.Choices {
		ok, err := m.allHold(show.Choices[i].When, test.State, test.With)
		if err != nil {
			return "", err
		}
		if ok {
			return show.Choices[i].Choice, nil
		}
	}
	return "", m.maker.cant(test.ID, "none of its choices holds; end the list with one without `when`")
}

// Complaint is what the owner would come in with; empty if nothing is wrong that
// an owner would notice.
func (m *Machine) Complaint() (string, error) {
	for _, c := range m.maker.circuit.Complaints {
		ok, err := m.allHold(c.When, "", nil)
		if err != nil {
			return "", err
		}
		if ok {
			return c.Complaint, nil
		}
	}
	return "", nil
}

// Present are the faults that the machine has now, in the order of the system: a
// fault that says when it holds is there when that holds, whoever caused it, and
// any other when it was put in.
func (m *Machine) Present() ([]string, error) {
	var out []string
	for _, fault := range m.maker.sys.Faults {
		there, err := m.has(fault.ID)
		if err != nil {
			return nil, err
		}
		if there {
			out = append(out, fault.ID)
		}
	}
	return out, nil
}

func (m *Machine) has(fault string) (bool, error) {
	if b := m.maker.faults[fault]; b != nil && b.Holds != nil {
		return m.holds(b.Holds, "", nil)
	}
	for _, f := range m.injected {
		if f == fault {
			return true, nil
		}
	}
	return false, nil
}

// read is a test whose value a formula gives.
func (m *Machine) read(r *tree.Reads, test *tree.Test) (Answer, error) {
	state, with := test.State, test.With
	if r.State != "" {
		state, with = r.State, r.With
	}
	if err := m.look(r.Value, state, with); err != nil {
		return Answer{}, err
	}
	v, err := r.Value.EvalIn(m.known)
	return steady(v), err
}

func steady(v float64) Answer { return Answer{Value: v, Low: v, High: v} }

// among is the answer for a display that goes from one value to another as
// relays do. What a display bridges is small: a fiftieth.
func among(values []float64) Answer {
	const bridged, least = 0.02, 1e-3
	a := steady(values[0])
	for _, v := range values[1:] {
		a.Low, a.High = math.Min(a.Low, v), math.Max(a.High, v)
	}
	a.Value = (a.Low + a.High) / 2
	a.Flicker = a.High-a.Low > bridged*math.Max(math.Abs(a.Low), math.Abs(a.High))+least
	return a
}

// touches says whether the circuit has all the points that a test touches.
func (m *Maker) touches(test *tree.Test) bool {
	_, red := m.nodes[test.Red]
	_, black := m.nodes[test.Black]
	return red && (black || test.Function == measure.ClampAmps)
}
