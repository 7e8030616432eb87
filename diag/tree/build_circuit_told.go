package tree

import (
	"fmt"
	"slices"
)

// told builds what lines of the history make likely.
func (b *builder) told(c *circuitNotes) {
	known := newRegister("line of the history", " in the circuit", "told")
	for _, s := range c.file.Told {
		var names []string
		for _, line := range c.system.History {
			names = append(names, line.Name)
		}
		if !b.only(s.Told, "a line of the system's history", names) || !b.add(known, s.Told, words) {
			continue
		}
		out := Told{History: s.Told.Text, Place: s.Told.Place}
		out.Basis, _ = b.basis(s.Basis)
		for _, t := range s.Times {
			at := slices.ContainsFunc(c.out.Faults, func(f Breakage) bool { return f.Fault == t.Word.Text })
			switch {
			case at:
				out.Times = append(out.Times, Times{t.Word.Text, b.weight(t.Weight)})
			case b.refer(c.faults, t.Word):
				b.report(CodeUnused, t.Word.Place, fmt.Sprintf("the circuit does not say what %s changes", t.Word.Text), "add it under faults:, or take it away here")
			}
		}
		c.out.Told = append(c.out.Told, out)
	}
}
