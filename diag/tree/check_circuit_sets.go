package tree

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/formula"
)

// idleChanges reports what a fault sets to just what a sound machine has: with the label at
// its defaults and its ends, in every state, at both ends of the severity. Such a machine is
// not broken, and no test would ever tell.
func (b *builder) idleChanges(c *circuitNotes) {
	for _, fault := range c.out.Faults {
		for _, way := range fault.Ways {
			for _, change := range way.Set {
				if c.idle(way, change) {
					b.report(CodeUnused, change.Place, fmt.Sprintf("%q of the fault %s changes nothing: a sound machine has just that", change.What, fault.Fault),
						"write what the broken part has, as was * 3, was + severity, open; or take it away")
				}
			}
		}
	}
}

// idle says whether a change changes nothing, wherever it is tried.
func (c *circuitNotes) idle(way Way, change Change) bool {
	if change.To == nil {
		return false // a word: the machines differ in it
	}
	for _, s := range c.usual {
		k := formula.NewKnown(s.values)
		usual, ok := c.usually(k)
		if !ok {
			return false
		}
		for _, state := range c.system.States {
			c.put(k, state.ID)
			for _, severity := range []float64{way.From, way.To} {
				k.Set("severity", severity)
				if !c.same(k, change, usual) {
					return false
				}
			}
		}
	}
	return len(c.usual) > 0
}

// usually makes every value known as it usually is, and is the numbers among them; not ok
// when one can't be worked out. Of words the first is taken.
func (c *circuitNotes) usually(k *formula.Known) (map[string]float64, bool) {
	out := map[string]float64{}
	for _, v := range c.out.Values {
		if len(v.Words) > 0 {
			k.SetWord(v.ID, v.Words[0])
			continue
		}
		usual, _, _, err := v.Span(k)
		if err != nil {
			return nil, false
		}
		k.Set(v.ID, usual)
		out[v.ID] = usual
	}
	return out, true
}

// same says whether a change leaves what it sets as it is. What can't be worked out, and
// what the part's own line leaves out, is not the same.
func (c *circuitNotes) same(k *formula.Known, change Change, usual map[string]float64) bool {
	id, name, dotted := strings.Cut(change.What, ".")
	if !dotted {
		was, known := usual[id]
		return known && comesTo(k, change.To, was)
	}
	p := c.piece(id)
	if change.To.Condition() {
		was, err := false, error(nil)
		if own := p.Conditions[name]; own != nil {
			was, err = own.HoldsIn(k)
		}
		to, err2 := change.To.HoldsIn(k)
		return err == nil && err2 == nil && to == was
	}
	own := p.Numbers[name]
	if own == nil {
		return false
	}
	was, err := own.EvalIn(k)
	return err == nil && comesTo(k, change.To, was)
}

// comesTo says whether a formula comes to what was there before, and would on a machine of
// which that is half or twice as much: max(was, 5) changes some of them.
func comesTo(k *formula.Known, to *formula.Formula, was float64) bool {
	tries := []float64{was}
	if slices.Contains(to.Needs(), "was") {
		tries = append(tries, was/2, 2*was)
	}
	defer k.Forget("was")
	for _, was := range tries {
		k.Set("was", was)
		if v, err := to.EvalIn(k); err != nil || v != was {
			return false
		}
	}
	return true
}
