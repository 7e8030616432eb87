package tree

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/formula"
)

// change builds one line of a set. names are what its formula may mention, but
// for was.
func (b *builder) change(c *circuitNotes, s changeShape, names formula.Names) (Change, bool) {
	out := Change{What: s.What.Text, Place: s.What.Place}
	id, name, dotted := strings.Cut(s.What.Text, ".")
	if !dotted {
		return out, b.refer(c.values, s.What) && b.changeValue(c, &out, s, names)
	}
	if !b.refer(c.pieces, word{Text: id, Place: s.What.Place}) {
		return out, false
	}
	p := c.piece(id)
	if _, known := kindsOfPart[p.Kind]; !known {
		return out, false // the kind was reported
	}
	q, known := quantityNamed(name)
	if !known || !slices.Contains(quantityNames(p.Kind), name) {
		b.only(word{Text: name, Place: s.What.Place}, fmt.Sprintf("a quantity of the %s %q", p.Kind, id), quantityNames(p.Kind))
		return out, false
	}
	if q.yesNo {
		out.To = b.yesNo(s.To, names)
		return out, true
	}
	if _, there := p.Numbers[name]; there {
		was := formula.Plain
		if len(q.want) > 0 {
			was = q.want[0]
		}
		names = names.With("was", was)
	}
	out.To = b.figure(s.To, names, q.want...)
	return out, true
}

func (b *builder) changeValue(c *circuitNotes, out *Change, s changeShape, names formula.Names) bool {
	v := c.value(s.What.Text)
	if v == nil {
		return false
	}
	if len(v.Words) > 0 {
		out.Word = s.To.Text
		return b.only(word{Text: s.To.Text, Place: s.To.Place}, fmt.Sprintf("one of the words of %q", v.ID), v.Words)
	}
	want := c.names.Numbers[v.ID]
	out.To = b.figure(s.To, names.With("was", want), want)
	return true
}

// effects builds what pieces of work do.
func (b *builder) effects(c *circuitNotes) {
	known := newRegister("work", " in the circuit", "work")
	for _, s := range c.file.Work {
		there := b.refer(c.work, s.Work) && b.add(known, s.Work, plainID)
		e := Effect{Work: s.Work.Text, Moves: b.moved(c, s.Move), Place: s.Work.Place}
		for _, change := range s.Set {
			if built, ok := b.change(c, change, c.names); ok {
				e.Set = append(e.Set, built)
			}
		}
		if there {
			c.out.Work = append(c.out.Work, e)
		}
	}
}
