package tree

import (
	"fmt"
	"maps"
	"slices"
)

// deadStates reports states with power on, or in which something moves, that say
// nothing of an item with which the machine may be dead: a battery lead that work or a
// repair takes off. It then reads 0 V, and nobody put it back. Items that are tested
// under power in that setting too, as a spark lead that is off while the engine is
// cranked, leave the rest alive.
func (b *builder) deadStates() {
	alive := b.asksUnderPower()
	for _, n := range b.builtInOrder() {
		has := b.lib.SafeOf(n.system)
		for _, s := range n.system.States {
			if place, ok := n.states.at[s.ID]; ok && s.Live() {
				for _, id := range slices.Sorted(maps.Keys(has)) {
					if away := awayFrom(b.lib.Safe[id], has[id]); away != "" && s.Needs[id] == "" && !alive[id] {
						b.report(CodeStateNeeds, place, fmt.Sprintf("the state %q is powered or moves, something in system %s asks for %s: %q, and nothing has it put back", s.ID, n.system.ID, id, away),
							"add "+id+": SETTING to needs")
					}
				}
			}
		}
	}
}

// builtInOrder is the systems in the order of their files.
func (b *builder) builtInOrder() []*systemNotes {
	var out []*systemNotes
	for _, s := range b.systemShapes {
		if n := b.notes[s.System.Text]; n != nil && n.shape == s {
			out = append(out, n)
		}
	}
	return out
}

// asksUnderPower are the items that something under power wants otherwise than they
// are left: with that the rest of the machine stays alive. Of what keeps a machine from
// being run only a state that is not late says so: a meter in the battery lead, or a
// starter that is fed directly, has power from elsewhere.
func (b *builder) asksUnderPower() set {
	out := set{}
	for _, sys := range b.lib.Systems {
		for _, t := range sys.Tests {
			state := sys.State(t.State)
			if !state.Live() || !state.Powered {
				continue
			}
			for id, setting := range sys.Needs(t) {
				item := b.lib.Safe[id]
				if awayFrom(item, []string{setting}) != "" && (!item.keepsOff() || state.Needs[id] == setting && !state.Late) {
					out[id] = true
				}
			}
		}
	}
	return out
}

// awayFrom is the first of some settings of an item in which it is not left; "" when
// there is none, or when it is left in no setting.
func awayFrom(item *SafeItem, asked []string) string {
	if item == nil || !slices.ContainsFunc(item.Settings, func(s Setting) bool { return s.Back }) {
		return ""
	}
	for _, s := range item.Settings {
		if !s.Back && slices.Contains(asked, s.ID) {
			return s.ID
		}
	}
	return ""
}

// keepsOff says whether the item is left in another setting when a machine is not to be
// run.
func (i *SafeItem) keepsOff() bool {
	return slices.ContainsFunc(i.Settings, func(s Setting) bool { return s.Unfit })
}
