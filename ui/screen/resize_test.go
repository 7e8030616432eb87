package screen

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// In whatever window a page is looked at meanwhile, it fits, and it is the same again in
// the size it had; scrolled down, too.
func TestEveryPageIsTheSameAfterAResize(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	for _, scene := range scenes {
		for _, pages := range []int{0, 1, 9} {
			t.Run(fmt.Sprint(scene.name, " ", pages), func(t *testing.T) {
				d := drive(t, bench(t, small))
				scene.play(d)
				sameAfterResize(t, d, pages)
			})
		}
	}
	for _, scene := range suspectScenes {
		t.Run(scene.name, func(t *testing.T) {
			b, _ := suspecting(t)
			d := drive(t, b)
			d.begin("1", "1", "Green pump")
			scene.play(d)
			sameAfterResize(t, d, 0)
		})
	}
}

func sameAfterResize(t *testing.T, d driver, pages int) {
	t.Helper()
	d.size(80, 24)
	_ = d.View()
	for range pages {
		d.keys("<pgdown>")
		_ = d.View()
	}
	before := d.View()
	for _, s := range [][2]int{{120, 40}, {60, 20}, {40, 10}, {1, 1}, {leastWidth, leastHeight}, {200, 60}, {80, 24}} {
		d.size(s[0], s[1])
		fits(t, d.View(), s[0], s[1])
		uncut(t, d.Model)
	}
	require.Equal(t, before, d.View())
	// From there the keys go on.
	if pages == 9 && strings.Contains(before, "more above") {
		d.keys("<pgup>")
		require.NotEqual(t, before, d.View())
	}
}
