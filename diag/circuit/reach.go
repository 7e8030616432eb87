package circuit

import "math"

// forest joins nodes into groups and keeps by how many volts each stands above
// the one that it hangs on. Number 0 is the reference, node k is k+1.
type forest struct {
	up    []int32
	above []float64
}

func newForest(nodes int) forest {
	f := forest{up: make([]int32, nodes+1), above: make([]float64, nodes+1)}
	for i := range f.up {
		f.up[i] = int32(i)
	}
	return f
}

// root is the root of a node's group, and the node's volts above it.
func (f *forest) root(node int32) (int32, float64) {
	i, v := node+1, 0.0
	for f.up[i] != i {
		v += f.above[i]
		i = f.up[i]
	}
	return i, v
}

// join puts a at volts above b. It returns false if they were together already,
// with the difference that they have.
func (f *forest) join(a, b int32, volts float64) (bool, float64) {
	ra, va := f.root(a)
	rb, vb := f.root(b)
	if ra == rb {
		return false, va - vb
	}
	if ra < rb {
		f.up[rb], f.above[rb] = ra, va-vb-volts
	} else {
		f.up[ra], f.above[ra] = rb, vb-va+volts
	}
	return true, volts
}

// reach looks for a node that no part leads to from the reference.
func (c *Circuit) reach() error {
	f := newForest(len(c.nodes))
	for i, p := range c.parts {
		for k := 0; k < p.ends().ways; k += 2 {
			f.join(c.touches[i][k], c.touches[i][k+1], 0)
		}
	}
	for i, node := range c.nodes {
		if r, _ := f.root(int32(i)); r != 0 {
			return &Floating{Node: node}
		}
	}
	return nil
}

// unloop gives sources without resistance that close a loop of such the least
// resistance, or their current would be anything.
func (c *Circuit) unloop() {
	if !c.ideal {
		return
	}
	f := newForest(len(c.nodes))
	for i := range c.links {
		if l := &c.links[i]; l.ohms == 0 {
			if fresh, _ := f.join(l.a, l.b, 0); !fresh {
				l.ohms = shortest
			}
		}
	}
}

// agree looks for a loop of parts without resistance whose sources do not sum to
// zero.
func (c *Circuit) agree(state []bool) error {
	if !c.ideal {
		return nil
	}
	f := newForest(len(c.nodes))
	for i := range c.links {
		l := &c.links[i]
		if l.branch < 0 || l.ohms > shortest {
			continue
		}
		if fresh, have := f.join(l.a, l.b, l.volts); !fresh && math.Abs(have-l.volts) > 1e-9*(1+math.Abs(have)) {
			return &Contradiction{Node: c.nodeName(l.a, l.b)}
		}
	}
	for i := range c.contacts {
		k := &c.contacts[i]
		if !state[i] || k.ohms > shortest {
			continue
		}
		if fresh, have := f.join(k.a, k.b, 0); !fresh && math.Abs(have) > 1e-9 {
			return &Contradiction{Node: c.nodeName(k.a, k.b)}
		}
	}
	return nil
}

// nodeName is the name of a, or of b if a is the reference.
func (c *Circuit) nodeName(a, b int32) string {
	if a == ground {
		a = b
	}
	if a == ground {
		return c.reference
	}
	return c.nodes[a]
}
