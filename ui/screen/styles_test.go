package screen

import (
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
)

// The colours that a terminal may have, as lipgloss counts its profiles.
const (
	millions = iota
	colours256
	colours16
	none
)

// rendered are renderers for terminals with fewer and fewer colours; the last has
// none.
func rendered() []*lipgloss.Renderer {
	var out []*lipgloss.Renderer
	for range none + 1 {
		out = append(out, lipgloss.NewRenderer(io.Discard))
	}
	out[millions].SetColorProfile(millions)
	out[colours256].SetColorProfile(colours256)
	out[colours16].SetColorProfile(colours16)
	out[none].SetColorProfile(none)
	return out
}

// sameInColour checks that a page says the same with colours as without any, whatever
// the terminal has.
func sameInColour(t *testing.T, d driver, plain string) {
	t.Helper()
	before := d.sty
	defer func() { d.sty = before }()
	for colours, r := range rendered() {
		d.sty = stylesOf(r)
		page := d.View()
		require.Equal(t, plain, ansi.Strip(page))
		looks(t, page)
		if colours == none {
			require.Equal(t, plain, page)
		}
	}
}

var look = regexp.MustCompile(`\x1b\[([0-9;]*)m([^\x1b]*)`)

// looks checks that nothing but the mark of the red lead has a colour: for everything
// else only bold and reverse are used, which need none.
func looks(t *testing.T, page string) {
	t.Helper()
	for _, m := range look.FindAllStringSubmatch(page, -1) {
		for _, code := range strings.Split(m[1], ";") {
			switch code {
			case "", "0", "1", "7":
			case "31":
				require.Equal(t, redMark, m[2])
			default:
				t.Fatalf("code %s at %q", m[1], m[2])
			}
		}
	}
}

// A danger's heading, a lead and the key line are set off where the terminal can.
func TestLooksAreThere(t *testing.T) {
	d := drive(t, bench(t, small))
	d.sty = stylesOf(rendered()[colours16])
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter>")
	page := d.View()
	require.Contains(t, page, "\x1b[1;31m"+redMark)
	require.Contains(t, page, "\x1b[1;7m"+blackMark)
	d.keys("z <enter> 3 <enter>")
	require.Contains(t, d.View(), "\x1b[1;7mSTOP: ")
}
