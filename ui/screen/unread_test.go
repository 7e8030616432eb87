package screen

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// readOn presses Enter until the page was shown to its end.
func (d driver) readOn() {
	d.t.Helper()
	for i := 0; d.readsFirst(); i++ {
		require.Less(d.t, i, 20, "%s", d.View())
		d.keys("<enter>")
	}
}

// toSafe goes on to a make-safe card of the shipped trees that a small window doesn't hold.
func toSafe(t *testing.T, width, height int) driver {
	d := drive(t, bench(t, shipped))
	d.begin(append(toTree(d.bench.Library.Systems["key-start-12v"]), "Machine")...)
	d.size(width, height)
	for _, test := range d.bench.Library.Systems["key-start-12v"].Tests {
		d.line("take " + test.ID)
		if d.step.prompt.Stage == walk.AtSafe && d.readsFirst() {
			return d
		}
		d.keys("<esc>")
	}
	require.FailNow(t, "no card is longer than the window")
	return d
}

// Nobody confirms lines that were never shown: yes waits until they were, says so, and
// then counts as it stands there.
func TestYesWaitsForLinesThatAreNotShown(t *testing.T) {
	for _, size := range [][2]int{{80, 14}, {60, 16}, {50, 14}} {
		d := toSafe(t, size[0], size[1])
		before := len(d.session.Events())
		require.Contains(t, d.View(), "not seen yet: PgDn", "it is said before anything is typed")
		d.keys("yes <enter> <enter>")
		require.Contains(t, d.wrong, "not seen yet: PgDn")
		require.Len(t, d.session.Events(), before, "nothing was recorded")
		for i := 0; d.readsFirst(); i++ {
			require.Less(t, i, 20)
			d.keys("<pgdown>")
		}
		require.Empty(t, d.wrong)
		require.Equal(t, "yes", d.input.text(), "it needs not be typed again")
		d.keys("<pgup> <enter>")
		require.Greater(t, len(d.session.Events()), before, "what was shown once is seen")
	}
}

// Enter alone turns a page that is not read to its end; on one that is it does nothing.
func TestEnterAloneReadsOn(t *testing.T) {
	d := toSafe(t, 80, 14)
	before := len(d.session.Events())
	d.readOn()
	require.NotContains(t, d.View(), "not seen yet")
	at := d.seen
	require.Positive(t, at)
	d.keys("<enter> <enter>")
	require.Len(t, d.session.Events(), before)
	d.View()
	require.Equal(t, at, d.seen)
}

// A key that was pressed for the page before closes no job: its number only asks.
func TestANumberOnTheLastPageAsks(t *testing.T) {
	d := drive(t, bench(t, small))
	closing(d)
	d.keys("1 <enter> 1 <enter>")
	require.Nil(t, d.session.Facts().Closed)
	closingAsks := func() {
		t.Helper()
		d.keys("<esc> 1 <enter>")
		require.Equal(t, ui.SureStage, d.step.prompt.Stage)
		require.Contains(t, d.View(), "yes, then Enter, closes it for good")
	}
	closingAsks()
	d.keys("<enter> y <enter>")
	require.Nil(t, d.session.Facts().Closed)
	closingAsks()
	d.keys("yes <enter>")
	require.NotNil(t, d.session.Facts().Closed)
}
