package circuit

import "slices"

// Circuit is a set of parts, checked and numbered. It is read-only after New and
// may be solved any number of times, by several callers at once.
type Circuit struct {
	*plan
	refs []ref // what each part became, in the order of the parts
	size int32 // unknowns: nodes without the reference, then branches

	links    []link    // straight lines that never change
	contacts []contact // straight lines that a state opens and closes
	latches  []latch   // what moves the contacts, one for each of them
	devices  []device  // bent lines
	supplies []int32   // places in devices of the supplies that sleep at first
	windings []winding
	caps     []capacitor
	ideal    bool // some source has no resistance
	again    bool // made by Again after another, and none is made after it
}

// plan is what circuits that differ only by values have in common.
type plan struct {
	reference string
	parts     []Part     // their values are those of the first circuit
	touches   [][4]int32 // by part: the numbers of its nodes, in the order of ends
	nodes     []string
	numbers   map[string]int32 // node name to number
	named     map[string]int32 // part name to its place in parts
}

// ground is the number of the reference node, which is no unknown.
const ground = -1

// least is the conductance in siemens from every node to the reference, which
// keeps islands behind open contacts solvable (Nagel, SPICE2, ERL-M520, 1975).
const least = 1e-12

// kind says in which list of the circuit a part is found.
type kind uint8

const (
	isLink kind = iota
	isContact
	isRelay // a contact, and the next link is its coil
	isDevice
	isWinding
	isCapacitor
)

type ref struct {
	kind kind
	at   int32
	coil int32 // link of a relay's coil
}

// New numbers the nodes of the parts; volts are counted from reference. Errors
// are *BadPart (a value or name that makes no sense) or *Floating (a node with
// no way at all to the reference, open switches counted as ways).
func New(reference string, parts ...Part) (*Circuit, error) {
	c := &Circuit{plan: &plan{
		reference: reference,
		parts:     parts,
		touches:   make([][4]int32, len(parts)),
		nodes:     make([]string, 0, len(parts)+1),
		numbers:   make(map[string]int32, len(parts)+1),
		named:     make(map[string]int32, len(parts)),
	}}
	if err := c.number(); err != nil {
		return nil, err
	}
	if err := c.reach(); err != nil {
		return nil, err
	}
	c.links = make([]link, 0, len(parts)+1)
	c.compile(parts)
	return c, nil
}

// Again is New for the parts of a circuit with other values: what has been
// numbered is shared. Parts of other kinds, names or nodes, or in another order,
// are numbered anew. The slice stays the caller's.
func (c *Circuit) Again(parts ...Part) (*Circuit, error) { return c.AgainIn(&Room{}, parts...) }

// AgainIn is Again with memory for the circuit; see Room.ReuseCircuit.
func (c *Circuit) AgainIn(room *Room, parts ...Part) (*Circuit, error) {
	if !c.same(parts) {
		return New(c.reference, slices.Clone(parts)...)
	}
	for _, p := range parts {
		if why := p.check(); why != "" {
			return nil, &BadPart{Part: p.name(), Why: why}
		}
	}
	again := room.circuit(c)
	again.compile(parts)
	return again, nil
}

// Shares says whether what has been numbered is shared with another circuit.
func (c *Circuit) Shares(with *Circuit) bool { return c.plan == with.plan }

// same says whether parts are those of the circuit but for their values.
func (c *Circuit) same(parts []Part) bool {
	if len(parts) != len(c.parts) {
		return false
	}
	for i, p := range parts {
		q := c.parts[i]
		if typeOf(p) != typeOf(q) || p.name() != q.name() || p.ends() != q.ends() {
			return false
		}
	}
	return true
}

// compile turns the parts, whose nodes are numbered, into what is solved.
func (c *Circuit) compile(parts []Part) {
	c.size = int32(len(c.nodes))
	for i, p := range parts {
		c.add(p, c.touches[i])
	}
	c.unloop()
}

// number checks the parts and gives every node its number.
func (c *Circuit) number() error {
	if c.reference == "" {
		return &BadPart{Why: "the reference node has no name; name the node that volts are counted from"}
	}
	if len(c.parts) == 0 {
		return &BadPart{Why: "there are no parts; give at least one"}
	}
	c.numbers[c.reference] = ground
	for i, p := range c.parts {
		if why := c.accept(i, p); why != "" {
			name := ""
			if typeOf(p) != unknown {
				name = p.name()
			}
			return &BadPart{Part: name, Why: why}
		}
	}
	return nil
}

// accept says what is wrong with a part, or numbers its nodes.
func (c *Circuit) accept(i int, p Part) string {
	if typeOf(p) == unknown {
		return "is no kind of part; give one of the structs of this package by value"
	}
	if p.name() == "" {
		return "has no name; name it, so that it can be asked for"
	}
	if _, taken := c.named[p.name()]; taken {
		return "is named twice; every part needs a name of its own"
	}
	if why := p.check(); why != "" {
		return why
	}
	c.named[p.name()] = int32(i)
	e := p.ends()
	for k, node := range e.node[:e.count] {
		if node == "" {
			return "has an end without a node; name the node"
		}
		number, have := c.numbers[node]
		if !have {
			number = int32(len(c.nodes))
			c.numbers[node] = number
			c.nodes = append(c.nodes, node)
		}
		c.touches[i][k] = number
	}
	return ""
}
