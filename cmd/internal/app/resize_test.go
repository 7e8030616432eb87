//go:build !windows

package app

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// turned gives the terminal other sizes and the first one again, and waits each time
// until the page is drawn anew. It must then be what it was.
func (s onScreen) turned() {
	s.t.Helper()
	before := s.Shows()
	for _, size := range []struct {
		width, height int
		drawn         func(rows []string) bool
	}{
		{120, 40, filled}, {60, 20, filled}, {40, 10, tooSmall}, {1, 1, tooSmall}, {50, 14, filled}, {80, 24, filled},
	} {
		require.NoError(s.t, s.Resize(size.width, size.height))
		require.NoError(s.t, s.Until("the page in the new size", func(shown string) bool {
			rows := strings.Split(shown, "\n")
			return len(rows) == size.height && size.drawn(rows)
		}))
	}
	require.NoError(s.t, s.Until("the page as it was:\n"+before, func(shown string) bool { return shown == before }))
}

// filled is a page whose last two rows are the line that is typed and the keys, none of
// which has lost its last letter.
func filled(rows []string) bool {
	n := len(rows)
	return strings.HasPrefix(rows[n-2], "> ") && (strings.Contains(rows[n-1], " help") || strings.Contains(rows[n-1], "Esc back"))
}

// tooSmall is all that is shown where nothing fits.
func tooSmall(rows []string) bool {
	return strings.HasPrefix("Make the window larger", strings.TrimRight(rows[0], " ")) || strings.HasPrefix(rows[0], "Make the window larger")
}

// Every page of the program, from an empty record to a closed job: whatever the window
// becomes meanwhile, the page is the same again in the size it had, typed text too.
func TestEveryPageOutlivesItsWindow(t *testing.T) {
	if raced {
		t.Skip("the program is another process, which the race detector doesn't see")
	}
	s := pumpOn(t, filepath.Join(t.TempDir(), "record.db"))
	visit := func(keys, shows, back string) {
		s.takes(step{keys, shows})
		s.turned()
		s.press(back)
	}
	s.wait("takes in the first machine")
	s.turned()
	visit("h", "take in a machine", "\x1b")
	s.wait("takes in the first machine")
	visit("p", "Prices: ", "\x1b")
	s.takes(takeIn[:6]...)
	s.turned()
	s.takes(takeIn[6:]...)
	visit("12.", "> 12._", "\x15") // a test, with a reading half typed
	visit("0.3\r", "STOP: Battery gas", "")
	s.takes(step{"yes\r", "Charger output"}, step{"z\r", "Taken back"})
	s.takes(toVerdict[0])
	s.turned() // make safe
	s.takes(toVerdict[1])
	for _, view := range []step{
		{"?", "What this page is for"},
		{"h", "Keys and words"},
		{"l", "What is not tested yet"},
		{"e", "Findings and readings so far"},
		{"p", "Ways to repair, with prices"},
		{"t", "Take a test"},
	} {
		s.takes(view)
		s.turned()
		s.takes(step{"\x1b", "[B] black"})
	}
	s.takes(toVerdict[2:]...)
	s.turned() // verdict
	s.press("\x1b[6~")
	s.wait("more above")
	s.turned() // and its second page
	s.takes(toRepair[0])
	s.turned()
	s.takes(toRepair[1:]...)
	s.turned() // checklist
	for i, one := range toHandBack {
		s.takes(one)
		if i != 3 && i != 4 { // tests like others
			s.turned()
		}
	}
	s.press("q\r")
	require.NoError(t, s.Ends())
}
