package virtual

import (
	"fmt"
	"math"
	"strings"

	"benchlead/diag/circuit"
	"benchlead/diag/formula"
	"benchlead/diag/tree"
)

// figure is a name like "starter.rpm" in a formula: what the solved circuit
// gives of a part.
type figure struct {
	name  string
	part  int
	what  string
	place int // in what formulas know
}

// figuresIn are the figures that a formula mentions.
func (m *Maker) figuresIn(f *formula.Formula) ([]figure, error) {
	if known, ok := m.figures[f]; ok {
		return known, nil
	}
	var out []figure
	for _, name := range f.Needs() {
		id, what, dotted := strings.Cut(name, ".")
		if !dotted || id == "label" || id == "bench" {
			continue
		}
		at, ok := m.partAt[id]
		if !ok {
			return nil, fmt.Errorf("%s: there is no part %s", f.Text(), id)
		}
		out = append(out, figure{name, at, what, m.known.Place(name)})
	}
	m.figures[f] = out
	return out, nil
}

// look tells formulas how the machine stands, and the figures that f mentions.
func (m *Machine) look(f *formula.Formula, state string, with []string) error {
	figures, err := m.maker.figuresIn(f)
	if err != nil {
		return err
	}
	s, err := m.in(state, with)
	if err != nil {
		return err
	}
	m.pose(s.scene)
	for _, fig := range figures {
		v, err := m.figure(s, fig)
		if err != nil {
			return fmt.Errorf("%s in state %s: %w", fig.name, state, err)
		}
		m.known.SetAt(fig.place, v)
	}
	return nil
}

// holds says whether a condition does, in its own state or else the test's.
func (m *Machine) holds(c *tree.Condition, state string, with []string) (bool, error) {
	if c.State != "" {
		state, with = c.State, c.With
	} else if len(c.With) > 0 {
		with = append(append([]string{}, with...), c.With...)
	}
	if err := m.look(c.When, state, with); err != nil {
		return false, err
	}
	return c.When.HoldsIn(m.known)
}

func (m *Machine) allHold(all []tree.Condition, state string, with []string) (bool, error) {
	for i := range all {
		if ok, err := m.holds(&all[i], state, with); !ok || err != nil {
			return false, err
		}
	}
	return true, nil
}

// figure is one figure of a part. A part that isn't there has volts, and nothing
// else.
func (m *Machine) figure(s *situation, f figure) (float64, error) {
	p := &m.maker.parts[f.part]
	number := s.split.island[p.nodes[0]]
	if number < 0 {
		return 0, nil
	}
	i := s.islands[number]
	if s.followed(i) && (f.what == "volts" || f.what == "amps") {
		return m.meanFigure(s, i, p, f.what)
	}
	solution, err := m.rest(i)
	if err != nil {
		return 0, err
	}
	out := atRest(i.net.phase(solution, p.ID), solution, s, p, f.what)
	if math.IsNaN(out) {
		return 0, nil
	}
	return out, nil
}

func atRest(phase *circuit.Phase, all *circuit.Solution, s *situation, p *part, what string) float64 {
	switch what {
	case "volts":
		return phase.Across(p.From, p.To)
	case "amps":
		return phase.Amps(p.ID)
	case "rpm":
		return phase.Speed(p.ID) * 60 / (2 * math.Pi)
	case "coil_amps":
		return phase.CoilAmps(p.ID)
	case "pulled":
		return one(phase.Closed(p.ID))
	case "chatters":
		return one(chatters(all, p.ID))
	case "blown":
		return one(phase.Blown(p.ID) || p.is(s, "blown"))
	case "tripped":
		return one(phase.Tripped(p.ID) || p.is(s, "shut"))
	}
	return math.NaN()
}

// is asks for a yes-or-no quantity of a part that is there.
func (p *part) is(s *situation, what string) bool {
	i := p.kind.index(what)
	return i >= 0 && s.row[p.present()] != 0 && s.row[p.at+i] != 0
}

// chatters says whether a relay is closed in some phases and open in others.
func chatters(s *circuit.Solution, relay string) bool {
	for _, p := range s.Phases {
		if p.Closed(relay) != s.Phases[0].Closed(relay) {
			return true
		}
	}
	return false
}

func one(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// meanFigure is the mean of a part's volts or amps over a cycle.
func (m *Machine) meanFigure(s *situation, i *island, p *part, what string) (float64, error) {
	if what == "amps" && !p.taking(s.row) {
		return 0, nil
	}
	w, err := m.wave(i.net, i.hertz, waveKey{i.key, what + " " + p.ID}, func(w *circuit.Waves) circuit.Wave {
		if what == "amps" {
			return w.Through(p.ID)
		}
		return w.Between(p.From, p.To)
	})
	return w.Mean, err
}
