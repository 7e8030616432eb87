package tree

import (
	"fmt"
	"slices"
)

// checkCircuit checks what only shows when the whole circuit is built: that it
// answers for everything in its system, and hangs together. before is how many
// issues there were when its building began.
func (b *builder) checkCircuit(c *circuitNotes, before int) {
	if b.quiet || b.trusting || b.badFiles[c.out.Place.File] || c.broken {
		return
	}
	// What is named wrongly is then missing; it is told once.
	wrong := set{}
	for _, i := range b.issues[before:] {
		wrong[string(i.Code)] = true
	}
	sound := len(wrong) == 0
	nodesKnown := !wrong["unknown-point-or-joint"]
	if !wrong["unknown-state"] {
		b.everyState(c)
	}
	if !wrong["unknown-test"] {
		b.everyTest(c, nodesKnown)
	}
	if !wrong["unknown-fault"] {
		b.everyBreakage(c)
	}
	if !wrong["unknown-work"] {
		b.everyWork(c)
	}
	if nodesKnown && !wrong[string(CodeBadID)] {
		b.joined(c)
	}
	if sound {
		b.unusedNames(c)
		if b.checkNumbers(c) {
			b.idleChanges(c)
		}
	}
}

func (b *builder) everyState(c *circuitNotes) {
	for _, s := range c.system.States {
		if c.out.States[s.ID] == nil {
			b.report(CodeNotInCircuit, c.out.Place, fmt.Sprintf("the circuit of system %s doesn't know the state %q", c.system.ID, s.ID),
				"add it to states:, with what it sets")
		}
	}
}

// everyTest: each is answered by points, by reads, by shows, or called
// unmodelled.
func (b *builder) everyTest(c *circuitNotes, nodesKnown bool) {
	used := c.uses()
	for _, t := range c.system.Tests {
		shown := slices.ContainsFunc(c.out.Shows, func(s Show) bool { return s.Test == t.ID })
		read := slices.ContainsFunc(c.out.Reads, func(r Reads) bool { return r.Test == t.ID })
		entry, left := c.omitted(t.ID)
		switch {
		case left && (shown || read):
			b.report(CodeNotBoth, entry, fmt.Sprintf("%q is answered, and stands in unmodelled", t.ID), "take one away")
		case left || shown || read:
		case t.Kind == Observed:
			b.report(CodeNotInCircuit, c.out.Place, fmt.Sprintf("nothing says what %q shows (%s)", t.ID, t.Title), "add it to shows:, or to unmodelled: with why")
		case t.Kind != Metered || !nodesKnown:
		case leadless(t.Function):
			b.report(CodeNotInCircuit, c.out.Place, fmt.Sprintf("nothing says what %q reads (%s), and %s has no points", t.ID, t.Title, t.Function),
				"add it to reads:, or to unmodelled: with why")
		default:
			for _, point := range []string{t.Red, t.Black} {
				if point != "" && len(used[point]) == 0 {
					b.report(CodeNotInCircuit, c.out.Place, fmt.Sprintf("the test %q is read at %s, where the circuit has no part", t.ID, point),
						"add a part there, or add the test to reads: or to unmodelled: with why")
				}
			}
		}
	}
}

// everyBreakage: each fault of the system is in faults or in unmodelled.
func (b *builder) everyBreakage(c *circuitNotes) {
	for _, f := range c.system.Faults {
		there := slices.ContainsFunc(c.out.Faults, func(x Breakage) bool { return x.Fault == f.ID })
		entry, left := c.omitted(f.ID)
		switch {
		case there && left:
			b.report(CodeNotBoth, entry, fmt.Sprintf("%q is in faults and in unmodelled", f.ID), "take one away")
		case !there && !left:
			b.report(CodeNotInCircuit, c.out.Place, fmt.Sprintf("nothing says how %s comes about (%s)", f.ID, f.Title), "add it to faults:, or to unmodelled: with why")
		}
	}
}

// everyWork: each piece of work says what it does to the machine, if only
// nothing.
func (b *builder) everyWork(c *circuitNotes) {
	for _, w := range c.system.Work {
		if !slices.ContainsFunc(c.out.Work, func(e Effect) bool { return e.Work == w.ID }) {
			b.report(CodeNotInCircuit, c.out.Place, fmt.Sprintf("nothing says what the work %q does to the machine", w.ID),
				fmt.Sprintf("add %q to work:, with set: or move:, or alone if it does nothing", w.ID))
		}
	}
}
