package circuit

// Circuit is a set of parts, checked and numbered. It is read-only after New and
// may be solved any number of times, by several callers at once.
type Circuit struct {
	reference string
	parts     []Part
	refs      []ref // what each part became, in the order of the parts
	nodes     []string
	numbers   map[string]int32 // node name to number
	named     map[string]int32 // part name to its place in parts
	size      int32            // unknowns: nodes without the reference, then branches

	links    []link    // straight lines that never change
	contacts []contact // straight lines that a state opens and closes
	latches  []latch   // what moves the contacts, one for each of them
	devices  []device  // bent lines
	supplies []int32   // places in devices of the supplies that sleep at first
	windings []winding
	caps     []capacitor
	ideal    bool // some source has no resistance
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
	c := &Circuit{
		reference: reference,
		parts:     parts,
		refs:      make([]ref, 0, len(parts)+1),
		nodes:     make([]string, 0, len(parts)+1),
		numbers:   make(map[string]int32, len(parts)+1),
		named:     make(map[string]int32, len(parts)),
		links:     make([]link, 0, len(parts)+1),
	}
	if err := c.number(); err != nil {
		return nil, err
	}
	if err := c.reach(); err != nil {
		return nil, err
	}
	for _, p := range parts {
		c.add(p)
	}
	c.unloop()
	return c, nil
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
			if known(p) {
				name = p.name()
			}
			return &BadPart{Part: name, Why: why}
		}
	}
	c.size = int32(len(c.nodes))
	return nil
}

// accept says what is wrong with a part, or numbers its nodes.
func (c *Circuit) accept(i int, p Part) string {
	if !known(p) {
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
	for _, node := range e.node[:e.count] {
		if node == "" {
			return "has an end without a node; name the node"
		}
		if _, have := c.numbers[node]; !have {
			c.numbers[node] = int32(len(c.nodes))
			c.nodes = append(c.nodes, node)
		}
	}
	return ""
}
