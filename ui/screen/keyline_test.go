package screen

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

// The key line never stands in the last column, shows whole keys alone, and help is
// among them, however wide the window.
func TestTheKeyLineLeavesTheLastColumnFree(t *testing.T) {
	for name, list := range map[string][]binding{"jobs": jobsKeys(), "intake": intakeKeys(), "danger": stepKeys(stepAt(walk.AtDanger, "", 0)), "close": stepKeys(stepAt(walk.AtClose, "", 0))} {
		for width := leastWidth; width < 200; width++ {
			line := ansi.Strip(keyLine(list, styles{}, width))
			require.Less(t, ansi.StringWidth(line), width, "%s %d", name, width)
			require.Equal(t, line, strings.TrimRight(line, " "))
			for _, shown := range strings.Split(line, "  ") {
				key, short, _ := strings.Cut(shown, " ")
				found := false
				for _, b := range list {
					found = found || b.name() == key && b.short == short
				}
				require.True(t, found, "%s %d: %q is cut", name, width, shown)
			}
			require.Contains(t, line, "help", "%s %d", name, width)
		}
	}
}
