// Package spice writes a circuit as a deck for ngspice, so that an independent
// program can check the solver. It only writes text; what ngspice answers is
// read by tests.
//
// Source of the deck's elements and options: the ngspice user's manual, chapters
// on elements and models, analyses and control language.
package spice

import (
	"fmt"
	"strconv"
	"strings"

	"benchlead/diag/circuit"
)

// States say how the parts with a memory stand. A *circuit.Phase is one.
type States interface {
	Closed(relay string) bool
	Blown(fuse string) bool
	Tripped(electronics string) bool
	// Amps tell a supply that sleeps, with 0, from one that gives.
	Amps(part string) float64
	// Volts are where ngspice begins its search beside a supply; it keeps to
	// them only if they are right.
	Volts(node string) float64
}

// Deck is a circuit in ngspice's words. The zero value is an empty deck.
type Deck struct {
	title string
	lines []string
	node  map[string]string // ours to ngspice's
	taken map[string]bool   // ngspice's names of nodes, which know no capitals
	amps  map[string]string // expression by part
	used  int               // numbers of elements given away
}

// Ask is a quantity of a deck under a name of letters and digits.
type Ask struct{ Name, Expression string }

// Write turns parts into a deck. Volts are counted from reference. Relays with
// henries in coils move by themselves in a transient; all else stands as states
// say. The error names a part of a kind that is not known.
func Write(title, reference string, states States, coils map[string]float64, parts ...circuit.Part) (*Deck, error) {
	d := &Deck{
		title: plain(title),
		node:  map[string]string{reference: "0"},
		taken: map[string]bool{"0": true},
		amps:  map[string]string{},
	}
	for _, p := range parts {
		if err := d.part(p, states, coils); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// Volts is the expression for the volts of one node against another, and 0 for
// a node that no part touches.
func (d *Deck) Volts(from, to string) string {
	return difference(d.node[from], d.node[to])
}

// Amps is the expression for the current of a part, in the direction of
// Phase.Amps; "0" for a part that is not there or is open without a leak.
func (d *Deck) Amps(part string) string {
	if e, ok := d.amps[part]; ok {
		return e
	}
	return "0"
}

// Nodes are ngspice's names of nodes by ours.
func (d *Deck) Nodes() map[string]string {
	out := make(map[string]string, len(d.node))
	for k, v := range d.node {
		out[k] = v
	}
	return out
}

// at is ngspice's name of a node: our letters and digits in lower case, told
// apart where that makes two alike.
func (d *Deck) at(node string) string {
	if n, ok := d.node[node]; ok {
		return n
	}
	base := "n_" + strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, strings.ToLower(node))
	name := base
	for i := 2; d.taken[name]; i++ {
		name = fmt.Sprintf("%s_%d", base, i)
	}
	d.node[node], d.taken[name] = name, true
	return name
}

// inner is a new node inside a part.
func (d *Deck) inner() string {
	d.used++
	return fmt.Sprintf("x%d", d.used)
}

// add writes an element and gives its name: a letter and a number.
func (d *Deck) add(letter, format string, a ...any) string {
	d.used++
	name := letter + strconv.Itoa(d.used)
	d.lines = append(d.lines, name+" "+fmt.Sprintf(format, a...))
	return name
}

// note writes a comment: which part the next lines are.
func (d *Deck) note(kind, name string) {
	d.lines = append(d.lines, "* "+kind+" "+plain(name))
}

func difference(a, b string) string {
	switch {
	case a == b || a == "" || b == "":
		return "0"
	case a == "0":
		return "(-v(" + b + "))"
	case b == "0":
		return "v(" + a + ")"
	}
	return "(v(" + a + ")-v(" + b + "))"
}

// number keeps every digit.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// plain keeps a name from outside on its line.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' {
			return '_'
		}
		return r
	}, s)
}
