package circuit

import "math"

// blow is the multiple of its rating from which a fuse opens. Blade fuses carry
// 110 % for ever and open at 135 % within minutes (SAE J1284, ISO 8820-3).
const blow = 1.35

// latch decides the next state of a contact.
type latch struct {
	kind   latchKind
	coil   int32 // link of a relay's coil
	sense  int32 // node that electronics look at
	closes float64
	opens  float64 // A: drop-out, or most amps; 0 for electronics: no limit
	volts  float64 // least volts; 0: no limit
}

type latchKind uint8

const (
	relayLatch latchKind = iota
	weldedLatch
	stuckLatch
	fuseLatch
	electronicsLatch
)

func (c *Circuit) addContact(n [4]int32, ohms, leak float64, by latch) {
	k := contact{
		a: n[0], b: n[1], branch: -1,
		ohms: max(ohms, shortest), leak: leakage(leak),
	}
	if k.ohms < direct || k.leak < direct {
		k.branch = c.newBranch()
	}
	c.contacts = append(c.contacts, k)
	c.latches = append(c.latches, by)
}

func (c *Circuit) addFuse(p Fuse, n [4]int32) {
	by := latch{kind: fuseLatch, opens: blow * p.Rating}
	if p.Blown {
		by.kind = stuckLatch
	}
	c.refs = append(c.refs, ref{kind: isContact, at: int32(len(c.contacts))})
	c.addContact(n, p.Ohms, 0, by)
}

func (c *Circuit) addRelay(p Relay, n [4]int32) {
	by := latch{kind: relayLatch, coil: int32(len(c.links)), closes: p.PullIn, opens: p.DropOut}
	switch {
	case p.Welded:
		by.kind = weldedLatch
	case p.Stuck:
		by.kind = stuckLatch
	}
	c.refs = append(c.refs, ref{kind: isRelay, at: int32(len(c.contacts)), coil: by.coil})
	c.links = append(c.links, c.newLink(n[2], n[3], max(p.CoilOhms, shortest), 0))
	c.addContact(n, p.Ohms, p.Leak, by)
}

func (c *Circuit) addElectronics(p Electronics, n [4]int32) {
	by := latch{kind: electronicsLatch, opens: p.MostAmps, volts: p.LeastVolts}
	if p.LeastVolts > 0 {
		by.sense = n[2]
	}
	if p.Off {
		by.kind = stuckLatch
	}
	c.refs = append(c.refs, ref{kind: isContact, at: int32(len(c.contacts))})
	c.addContact(n, p.Ohms, p.Leak, by)
}

// start is the state before anything has happened: relays released, fuses and
// electronics as they were given, supplies that need waking asleep. It is added to
// an empty state.
func (c *Circuit) start(state []bool) []bool {
	for i := range c.latches {
		kind := c.latches[i].kind
		state = append(state, kind == weldedLatch || kind == fuseLatch || kind == electronicsLatch)
	}
	for range c.supplies {
		state = append(state, false)
	}
	return state
}

// next is the state that follows from a phase, added to an empty one.
func (c *Circuit) next(after []bool, p *Phase) []bool {
	for i := range c.latches {
		after = append(after, c.holds(i, p.state[i], p.x))
	}
	for i, d := range c.supplies {
		s := &c.devices[d]
		after = append(after, p.state[len(c.contacts)+i] || at(p.x, s.a)-at(p.x, s.b) >= s.wakes)
	}
	return after
}

// holds says whether a contact is closed after a solution in which it was or not.
func (c *Circuit) holds(i int, closed bool, x []float64) bool {
	by := &c.latches[i]
	switch by.kind {
	case weldedLatch:
		return true
	case relayLatch:
		amps := math.Abs(c.links[by.coil].amps(x))
		return amps >= by.closes || closed && amps >= by.opens
	case fuseLatch:
		return closed && math.Abs(c.through(i, closed, x)) <= by.opens
	case electronicsLatch:
		return closed &&
			!(by.opens > 0 && c.through(i, closed, x) > by.opens) &&
			!(by.volts > 0 && at(x, c.contacts[i].a)-at(x, by.sense) < by.volts)
	}
	return false
}

// through is the current through a contact.
func (c *Circuit) through(i int, closed bool, x []float64) float64 {
	l := c.contacts[i].now(closed)
	return l.amps(x)
}
