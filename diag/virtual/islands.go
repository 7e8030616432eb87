package virtual

import (
	"math"

	"benchlead/diag/circuit"
	"benchlead/diag/tree"
)

// split says which parts are solved together: those that are joined, and a
// relay's coil with its contact. It depends only on which parts are there.
type split struct {
	island []int     // by node: the number of its island, -1 for none
	parts  [][]int   // by island, in the order of the file
	wired  []*wiring // by island, once one has been solved
}

// islandKey is a fingerprint of the parts of an island and of their exact
// quantities.
type islandKey struct{ a, b uint64 }

// with mixes another number in.
func (k islandKey) with(x uint64) islandKey {
	return islandKey{mix(k.a ^ x), mix(k.b+x) + k.a<<1}
}

// taking says whether a part is in the circuit at all. An open contact without a
// leak is not: what lies behind it is an island of its own.
func (p *part) taking(row []float64) bool {
	if row[p.present()] == 0 {
		return false
	}
	const leak, closed = 1, 2 // in the row of a switch
	return p.Kind != tree.IsSwitch || row[p.at+closed] != 0 || row[p.at+leak] != 0
}

// splitOf finds the islands.
func (m *Maker) splitOf(row []float64) *split {
	key := append(m.name[:0], make([]byte, len(m.parts))...)
	m.name = key
	for i := range m.parts {
		if m.parts[i].taking(row) {
			key[i] = 1
		}
	}
	if s, ok := m.splits[string(key)]; ok {
		return s
	}
	g := newGroups(len(m.nodes))
	for i, p := range m.parts {
		if key[i] == 1 {
			for _, n := range p.nodes[1:] {
				g.join(p.nodes[0], n)
			}
		}
	}
	s := &split{island: make([]int, len(m.nodes))}
	for i := range s.island {
		s.island[i] = -1
	}
	for i, p := range m.parts {
		if key[i] == 1 {
			s.take(g, i, p)
		}
	}
	s.wired = make([]*wiring, len(s.parts))
	m.splits[string(key)] = s
	return s
}

// take puts a part in the island of its nodes.
func (s *split) take(g groups, i int, p part) {
	root := g.root(p.nodes[0])
	n := s.island[root]
	if n < 0 {
		n = len(s.parts)
		s.parts = append(s.parts, nil)
		s.island[root] = n
	}
	s.parts[n] = append(s.parts[n], i)
	for _, node := range p.nodes {
		s.island[node] = n
	}
}

// groups are nodes that are joined (union-find).
type groups []int

func newGroups(n int) groups {
	g := make(groups, n)
	for i := range g {
		g[i] = i
	}
	return g
}

func (g groups) root(i int) int {
	for g[i] != i {
		g[i] = g[g[i]]
		i = g[i]
	}
	return i
}

func (g groups) join(i, j int) { g[g.root(i)] = g.root(j) }

// island is a set of parts that are solved together.
type island struct {
	key   islandKey
	net   net
	hertz float64 // of its slowest live winding; 0 without one

	split  *split // in which it was found first, and its number there
	number int

	circuit  *circuit.Circuit
	solution *circuit.Solution
	err      error
}

// island is the island of that number; the same one for the same quantities.
func (m *Machine) island(s *situation, number int) *island {
	var key islandKey
	hertz := 0.0
	for _, i := range s.split.parts[number] {
		p, print := &m.maker.parts[i], m.prints[i]
		if print == (islandKey{}) {
			print = m.maker.printOf(i, s.row)
		}
		key = key.with(print.a).with(print.b)
		if f := p.liveHertz(s.row); f > 0 && (hertz == 0 || f < hertz) {
			hertz = f
		}
	}
	for _, known := range m.islands {
		if known.key == key {
			return known
		}
	}
	isle := &island{key: key, hertz: hertz, net: net{maker: m.maker, row: s.row, parts: s.split.parts[number]}, split: s.split, number: number}
	m.islands = append(m.islands, isle)
	return isle
}

// printOf is a fingerprint of a part and its quantities.
func (m *Maker) printOf(part int, row []float64) islandKey {
	p := &m.parts[part]
	key := islandKey{}.with(uint64(part))
	for _, q := range row[p.at:p.present()] {
		key = key.with(math.Float64bits(q))
	}
	return key
}

// printParts takes the fingerprints of all parts whose quantities are the same
// however positions stand.
func (m *Machine) printParts() {
	m.prints = make([]islandKey, len(m.maker.parts))
	for i := range m.prints {
		m.prints[i] = m.maker.printOf(i, m.row)
	}
	for _, slot := range m.posedSlots {
		m.prints[m.maker.slots[slot].of] = islandKey{}
	}
}

// liveHertz is how often a winding with an EMF alternates; 0 for other parts.
func (p *part) liveHertz(row []float64) float64 {
	const volts, hertz, ohms = 0, 1, 2 // in the row of a winding
	if p.Kind != tree.IsWinding || row[p.at+volts] == 0 || row[p.at+ohms] >= openOhms {
		return 0
	}
	return row[p.at+hertz]
}

// net is parts that are to be solved, with what a meter adds.
type net struct {
	maker *Maker
	row   []float64
	parts []int
	added []added
}

// added is a part between two nodes that belongs to a meter.
type added struct {
	part       circuit.Part
	from, to   int  // nodes
	insulating bool // carries no direct current
}

// What a floating island is tied to ground by, so that it has a potential at
// all: the insulation of wires, and of a dry transformer or stator. The latter
// is far more than a meter's 10 Mohm, or it would show beside an open diode.
// Common practice, no source.
const (
	insulation        = 100e6 // ohm
	windingInsulation = 1e9   // ohm
)

// reference is the node that volts are counted from: ground if it is there, else
// a node that no winding moves up and down.
func (n net) reference(conducting groups) string {
	ground, moved := n.maker.circuit.Ground, map[int]bool{}
	for _, i := range n.parts {
		p := &n.maker.parts[i]
		if p.From == ground || p.To == ground {
			return ground
		}
		if p.Kind == tree.IsWinding {
			moved[conducting.root(p.nodes[0])] = true
		}
	}
	for _, i := range n.parts {
		p := &n.maker.parts[i]
		for k, name := range [...]string{p.From, p.To} {
			if !moved[conducting.root(p.nodes[k])] {
				return name
			}
		}
	}
	return n.maker.parts[n.parts[0]].From
}

// build makes the circuit.
func (n net) build(alternates bool) (*circuit.Circuit, error) {
	list, reference := n.wire(alternates)
	return circuit.New(reference, list...)
}

// wire lists the parts of the circuit, and says from which node volts are counted.
// What nothing at all joins to that node is tied to it, and where things alternate
// every winding that only diodes join to it.
func (n net) wire(alternates bool) (list []circuit.Part, reference string) {
	list = make([]circuit.Part, 0, len(n.parts)+len(n.added)+2)
	conducting, joined := newGroups(len(n.maker.nodes)), newGroups(len(n.maker.nodes))
	for _, i := range n.parts {
		p := &n.maker.parts[i]
		list = append(list, n.maker.partOf(i, n.row))
		joined.join(p.nodes[0], p.nodes[1])
		if p.Kind != tree.IsDiode && p.Kind != tree.IsCapacitor {
			conducting.join(p.nodes[0], p.nodes[1])
		}
		if p.Kind == tree.IsRelay {
			joined.join(p.nodes[2], p.nodes[3])
			conducting.join(p.nodes[2], p.nodes[3])
		}
	}
	for _, a := range n.added {
		list = append(list, a.part)
		joined.join(a.from, a.to)
		if !a.insulating {
			conducting.join(a.from, a.to)
		}
	}
	reference = n.reference(conducting)
	if alternates {
		list = n.tieWindings(list, conducting, reference)
	}
	return n.tie(list, joined, reference), reference
}

func (n net) tieWindings(list []circuit.Part, conducting groups, reference string) []circuit.Part {
	at := n.maker.nodes[reference]
	for _, i := range n.parts {
		p := &n.maker.parts[i]
		if p.Kind == tree.IsWinding && conducting.root(p.nodes[0]) != conducting.root(at) {
			list = append(list, circuit.Resistor{Name: "insulation of " + p.ID, From: p.From, To: reference, Ohms: windingInsulation})
			conducting.join(p.nodes[0], at)
		}
	}
	return list
}

func (n net) tie(list []circuit.Part, joined groups, reference string) []circuit.Part {
	at := n.maker.nodes[reference]
	for _, i := range n.parts {
		p := &n.maker.parts[i]
		for _, name := range [...]string{p.From, p.To, p.Coil[0], p.Coil[1]} {
			if name == "" || joined.root(n.maker.nodes[name]) == joined.root(at) {
				continue
			}
			list = append(list, circuit.Resistor{Name: "insulation at " + name, From: name, To: reference, Ohms: insulation})
			joined.join(n.maker.nodes[name], at)
		}
	}
	return list
}
