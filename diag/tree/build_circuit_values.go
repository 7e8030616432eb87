package tree

import "fmt"

// values builds the values in order; each may name those before it.
func (b *builder) values(c *circuitNotes) {
	built := set{}
	for _, s := range c.file.Values {
		if !c.values.has(s.Value.Text) || built[s.Value.Text] || c.values.at[s.Value.Text] != s.Value.Place {
			continue
		}
		built[s.Value.Text] = true
		v := Value{ID: s.Value.Text, Says: s.Says.Text, Firm: s.Firm.Value, Unit: s.Unit.Text, Place: s.Value.Place}
		v.Basis, _ = b.basis(s.Basis)
		b.fits(s.Says.Text, s.Says.Place, longestTell)
		if len(s.Words) > 0 {
			b.wordValue(c, &v, s)
		} else {
			b.numberValue(c, &v, s)
		}
		c.out.Values = append(c.out.Values, v)
	}
}

func (b *builder) wordValue(c *circuitNotes, v *Value, s valueShape) {
	if s.Usual.Given() || s.From.Given() || s.To.Given() || s.Unit.Given() {
		b.report(CodeNotBoth, s.Value.Place, fmt.Sprintf("%q is drawn from words, so it has no usual, from, to or unit", v.ID), "take them away, or take words: away")
	}
	known := newRegister("word", "", "words")
	for _, w := range s.Words {
		weight := b.weight(w.Weight)
		if b.add(known, w.Word, words) {
			v.Words, v.Weights = append(v.Words, w.Word.Text), append(v.Weights, weight)
		}
	}
	c.names.Words[v.ID] = v.Words
}

func (b *builder) numberValue(c *circuitNotes, v *Value, s valueShape) {
	u := b.unit(s.Unit)
	v.PerUnit = u.per
	switch {
	case !s.Usual.Given() && s.Usual.Place.Line == 0:
		b.report(CodeMissing, s.Value.Place, fmt.Sprintf("nothing says what %q is", v.ID), "add usual: with from: and to:, or words: {WORD: WEIGHT}")
	case s.From.Given() != s.To.Given():
		b.report(CodeMissing, s.Value.Place, fmt.Sprintf("%q has only one end", v.ID), "add from: and to:, or neither if it never differs")
	}
	v.Usual = b.figure(s.Usual, c.names, u.dim)
	v.From = b.figure(s.From, c.names, u.dim)
	v.To = b.figure(s.To, c.names, u.dim)
	c.names.Numbers[v.ID] = u.dim
}

// weight is how often something is, compared with others of its kind: 1 if it
// isn't said. Nothing is never.
func (b *builder) weight(n number) float64 {
	if !n.Given {
		return 1
	}
	if n.Value <= 0 || n.Value > 1e9 {
		b.report(CodeBadNumber, n.Place, fmt.Sprintf("%g can't be right here", n.Value), "write a number above 0, and below 1e9: how often, compared with the others")
		return 1
	}
	return n.Value
}
