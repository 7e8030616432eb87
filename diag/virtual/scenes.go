package virtual

import "slices"

// scene is how every position stands, with what follows from that alone. The
// machines of a Maker meet the same few.
type scene struct {
	number   int
	settings []int // by position: the place among its settings
	waves    bool  // what alternates is followed in time
	// By slot: what depends on positions only, once it has been worked out.
	worked []bool
	value  []float64
}

// standing is a state with setups, as tests and conditions name it.
type standing struct {
	number int
	state  string
	with   []string
	waves  bool
	scene  *scene // of a machine that no work has moved
}

// standing finds a state with setups by their names.
func (m *Maker) standing(state string, with []string) *standing {
	m.name = append(m.name[:0], state...)
	for _, setup := range with {
		m.name = append(append(m.name, 0), setup...)
	}
	if s, ok := m.standings[string(m.name)]; ok {
		return s
	}
	s := &standing{number: len(m.standings), state: state, with: slices.Clone(with), waves: slices.Contains(m.circuit.Waves, state)}
	m.standings[string(m.name)] = s
	s.scene = m.scene(m.settings(s, nil), s.waves)
	return s
}

// scene finds how positions stand.
func (m *Maker) scene(settings []int, waves bool) *scene {
	m.name = append(m.name[:0], byte(one(waves)))
	for _, s := range settings {
		m.name = append(m.name, byte(s), byte(s>>8))
	}
	s, ok := m.scenes[string(m.name)]
	if !ok {
		s = &scene{
			number: len(m.scenes), settings: settings, waves: waves,
			worked: make([]bool, len(m.slots)), value: make([]float64, len(m.slots)),
		}
		m.scenes[string(m.name)] = s
	}
	return s
}

// settings is how every position stands: at its first setting, unless work,
// then the state, then the setups have moved it.
func (m *Maker) settings(s *standing, moved map[string]string) []int {
	out := make([]int, len(m.circuit.Positions))
	m.move(out, moved)
	m.move(out, m.circuit.States[s.state])
	for _, setup := range s.with {
		m.move(out, m.circuit.Setups[setup])
	}
	return out
}

func (m *Maker) move(settings []int, to map[string]string) {
	for position, setting := range to {
		if i, ok := m.positions[position]; ok {
			settings[i] = slices.Index(m.circuit.Positions[i].Settings, setting)
		}
	}
}

// testNumber is the place that answers to a test are kept at.
func (m *Maker) testNumber(test string) int {
	n, ok := m.tests[test]
	if !ok {
		n = len(m.tests)
		m.tests[test] = n
	}
	return n
}
