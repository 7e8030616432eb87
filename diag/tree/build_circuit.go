package tree

import (
	"fmt"
	"maps"
	"slices"

	"benchlead/diag/formula"
)

// circuitNotes is what is known of a circuit while it is built.
type circuitNotes struct {
	*systemNotes
	file  *circuitShape
	out   *Circuit
	names formula.Names // what formulas of parts and values may mention
	asked formula.Names // these, and what the solved circuit gives

	ids    *register // of parts, values and positions: all different
	nodes  *register // points and joints
	values *register
	moves  *register // positions
	pieces *register // parts
}

// openOhms is what formulas call open: more than the insulation of anything, and
// few enough to work with.
const openOhms = 1e9

// circuits builds the circuit of every system that has one.
func (b *builder) circuits() {
	known := newRegister("circuit", "", "circuit")
	for _, s := range b.circuitShapes {
		if !b.refer(b.systemIDs, s.Circuit) || !b.add(known, s.Circuit, plainID) {
			continue
		}
		before := len(b.issues)
		c := b.newCircuit(b.notes[s.Circuit.Text], s)
		b.circuitIDs(c)
		b.values(c)
		b.movables(c)
		b.pieces(c)
		b.asked(c)
		b.breakages(c)
		b.shows(c)
		b.doings(c)
		b.checkCircuit(c, before)
		c.system.Circuit = c.out
	}
}

func (b *builder) newCircuit(n *systemNotes, s *circuitShape) *circuitNotes {
	where := " in the circuit of system " + n.system.ID
	c := &circuitNotes{
		systemNotes: n, file: s,
		out: &Circuit{
			System: n.system.ID, Place: s.Circuit.Place,
			States: map[string]map[string]string{}, Setups: map[string]map[string]string{},
		},
		names: formula.Names{
			Numbers: maps.Clone(n.names.Numbers), Words: maps.Clone(n.names.Words),
			Fixed: map[string]formula.Constant{"open": {Value: openOhms, Dimension: formula.Ohms}},
		},
		ids:    newRegister("part, value or position", where, "parts"),
		nodes:  newRegister("point or joint", where, "joints"),
		values: newRegister("value", where, "values"),
		moves:  newRegister("position", where, "positions"),
		pieces: newRegister("part", where, "parts"),
	}
	maps.Copy(c.nodes.at, n.points.at)
	return c
}

// circuitIDs notes the ids first, so that things may name what stands below.
func (b *builder) circuitIDs(c *circuitNotes) {
	for _, s := range c.file.Joints {
		if b.add(c.nodes, s.Joint, plainID) {
			c.out.Joints = append(c.out.Joints, Joint{ID: s.Joint.Text, Title: b.title(s.Title), Place: s.Joint.Place})
		}
	}
	for _, s := range c.file.Values {
		b.name(c, c.values, s.Value, s.Value.Text)
	}
	for _, s := range c.file.Positions {
		b.name(c, c.moves, s.Position, s.Position.Text)
	}
	for _, s := range c.file.Parts {
		b.name(c, c.pieces, s.Part, s.Part.Text+".amps")
	}
	if b.refer(c.nodes, c.file.Ground) {
		c.out.Ground = c.file.Ground.Text
	}
}

// taken are names that formulas of a circuit have for themselves.
var taken = []string{"open", "was", "severity", "label", "bench"}

// name notes the id of a part, value or position, which formulas name as used.
// One that clashes with another sort is noted all the same, so that what names
// it isn't told that it doesn't exist.
func (b *builder) name(c *circuitNotes, g *register, id word, used string) {
	fresh := b.add(c.ids, id, nameID)
	switch {
	case g.has(id.Text) || !id.Given():
	case fresh && nameID.MatchString(id.Text) && hasMeaning(word{Text: used, Place: id.Place}, id.Text):
		b.report(CodeBadID, id.Place, fmt.Sprintf("%q has a meaning of its own in formulas", id.Text), "choose another id")
	default:
		g.at[id.Text] = id.Place
	}
}

func hasMeaning(used word, id string) bool {
	return slices.Contains(taken, id) || !canName([]word{used})
}

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
		b.positive(w.Weight)
		if b.add(known, w.Word, words) {
			v.Words = append(v.Words, w.Word.Text)
			v.Weights = append(v.Weights, w.Weight.Value)
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
	v.Usual = b.figure(c, s.Usual, c.names, u.dim)
	v.From = b.figure(c, s.From, c.names, u.dim)
	v.To = b.figure(c, s.To, c.names, u.dim)
	c.names.Numbers[v.ID] = u.dim
}

// positive reports a weight or share that is nothing.
func (b *builder) positive(n number) {
	if n.Given && (n.Value <= 0 || n.Value > 1e9) {
		b.report(CodeBadNumber, n.Place, fmt.Sprintf("%g can't be right here", n.Value), "write a number above 0: how often, compared with the others")
	}
}

// movables builds the positions, and what states and setups set.
func (b *builder) movables(c *circuitNotes) {
	for _, s := range c.file.Positions {
		if c.moves.at[s.Position.Text] != s.Position.Place || !s.Position.Given() {
			continue
		}
		known := newRegister("setting", "", "settings")
		m := Movable{ID: s.Position.Text, Place: s.Position.Place}
		for _, w := range s.Settings {
			if b.add(known, w, words) {
				m.Settings = append(m.Settings, w.Text)
			}
		}
		c.out.Positions = append(c.out.Positions, m)
		c.names.Words[m.ID] = m.Settings
	}
	states, setups := newRegister("state", "", "states"), newRegister("setup", "", "setups")
	for _, s := range c.file.States {
		if b.add(states, s.State, plainID) && b.refer(c.states, s.State) {
			c.out.States[s.State.Text] = b.moved(c, s.Set)
		}
	}
	for _, s := range c.file.Setups {
		if b.add(setups, s.Setup, plainID) && b.refer(c.setups, s.Setup) {
			c.out.Setups[s.Setup.Text] = b.moved(c, s.Set)
		}
	}
	c.out.Waves = b.referAll(c.states, c.file.Waves)
}

// moved are positions with the setting each is put to.
func (b *builder) moved(c *circuitNotes, pairs []pair) map[string]string {
	out := map[string]string{}
	for _, p := range pairs {
		if !b.refer(c.moves, p.Key) {
			continue
		}
		settings := c.names.Words[p.Key.Text]
		if b.only(p.Value, fmt.Sprintf("a setting of %q", p.Key.Text), settings) {
			out[p.Key.Text] = p.Value.Text
		}
	}
	return out
}
