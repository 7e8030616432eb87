package screen

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

func TestTheSpaceBarIsTheWatch(t *testing.T) {
	d := drive(t, bench(t, small))
	watch(d)
	require.True(t, d.step.timed)
	d.keys("1.2")
	d.press1(" ")
	require.False(t, d.session.Watch().Runs, "in a text it is a space")
	d.keys("<esc>")
	d.press1(" ")
	require.True(t, d.session.Watch().Runs)
	require.Contains(t, d.View(), "Space stop the watch")
	d.keys("h") // whatever lies over the page
	d.press1(" ")
	require.False(t, d.session.Watch().Runs)
	require.Nil(t, d.over)
	require.NotEmpty(t, d.input.text())
	before := d.session.Facts().Last
	d.press1(" ")
	require.True(t, d.session.Watch().Runs, "what it proposed gives way")
	d.keys("<enter>")
	require.False(t, d.session.Watch().Runs, "Enter stops it too")
	require.Equal(t, before, d.session.Facts().Last, "and records nothing")
	d.keys("<esc>")
	d.lap(1_250)
	d.keys("<esc> 1.25 <enter>")
	require.Equal(t, walk.AtClose, d.step.prompt.Stage)
}

// A look shows how long the watch has run and comes back while it does. One of an
// earlier run doesn't.
func TestALookAtTheWatch(t *testing.T) {
	d := drive(t, bench(t, small))
	watch(d)
	_, cmd := d.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(" ")})
	require.NotNil(t, cmd)
	first := d.ticks
	require.Equal(t, watchTick{first}, cmd())
	lapse = 0
	_, cmd = d.Update(watchTick{first})
	require.NotNil(t, cmd)
	require.Zero(t, d.step.ran)
	lapse = 1_730_000_000
	_, cmd = d.Update(watchTick{first})
	lapse = 60_000_000_000
	require.NotNil(t, cmd)
	require.EqualValues(t, 1_730_000, d.step.ran)
	require.Contains(t, d.View(), drawn("1.7", 2, 76)[9])
	_, cmd = d.Update(suspectsReady{})
	require.Nil(t, cmd)
	require.EqualValues(t, 1_730_000, d.step.ran)
	d.press1(" ")
	_, cmd = d.Update(watchTick{first})
	require.Nil(t, cmd, "it stands")
	d.press1(" ")
	require.Zero(t, d.step.ran)
	_, cmd = d.Update(watchTick{first})
	require.Nil(t, cmd, "that was another run")
	d.keys("q <enter>")
	_, cmd = d.Update(watchTick{d.ticks})
	require.Nil(t, cmd, "the job is put aside")
	d.keys("1 <enter>")
	require.Contains(t, d.View(), "No time was kept")
}
