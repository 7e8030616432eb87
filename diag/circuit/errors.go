package circuit

import "fmt"

// Floating is a node with no way to the reference.
type Floating struct{ Node string }

func (e *Floating) Error() string {
	return fmt.Sprintf("node %q has no way to the reference: join it by a part, or correct its name", e.Node)
}

// Contradiction is a node that ideal sources pull to different volts.
type Contradiction struct{ Node string }

func (e *Contradiction) Error() string {
	return fmt.Sprintf("sources without resistance fight over node %q: give one of them a resistance", e.Node)
}

// NoAnswer is a circuit for which Newton's method, or the search for a resting
// state of the relays, found no end.
type NoAnswer struct {
	Node string  // that moved most
	Off  float64 // V, by how much it moved in the last step
}

func (e *NoAnswer) Error() string {
	return fmt.Sprintf("no operating point found: node %q still moves by %.3g V; look for a value at its parts that no real part has", e.Node, e.Off)
}

// BadPart is a part with a value or name that makes no sense.
type BadPart struct{ Part, Why string }

func (e *BadPart) Error() string { return fmt.Sprintf("part %q: %s", e.Part, e.Why) }
