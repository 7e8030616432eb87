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
	fragments := b.fragments()
	for _, s := range b.circuitFiles() {
		if !b.refer(b.systemIDs, s.Circuit) || !b.add(known, s.Circuit, plainID) || !b.builds(s.Circuit.Text) {
			continue
		}
		if s.base == nil {
			b.wholeCircuit(s)
		}
		before := len(b.issues)
		c := b.newCircuit(b.notes[s.Circuit.Text], fragments.into(b, s))
		b.circuitIDs(c)
		b.values(c)
		b.movables(c)
		b.pieces(c)
		b.asked(c)
		b.breakages(c)
		b.together(c)
		b.told(c)
		b.shows(c)
		b.effects(c)
		b.stages(c)
		b.complains(c)
		b.leftOut(c)
		b.checkCircuit(c, before)
		c.system.Circuit = c.out
	}
	fragments.unused(b)
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
	c.names.Elsewhere = c.notHere
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
