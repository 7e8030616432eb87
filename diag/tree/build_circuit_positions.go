package tree

import "fmt"

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
