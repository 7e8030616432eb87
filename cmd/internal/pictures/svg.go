//go:build !windows

package main

import (
	"bytes"
	"cmp"
	"fmt"
	"html"
	"image/color"
	"strings"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/vt"
)

// The size of a character in the picture, and its colours where the program sets
// none, in the units and words of SVG.
const (
	wide, high  = 9, 19
	edge        = 12
	ink, ground = "#d8d8d0", "#181a1c"
)

// hard is a space that is never drawn as less: SVG runs plain ones together.
const hard = "\u00a0"

// svg draws the screen as text, so that the picture is small and can be read aloud.
func svg(screen *vt.Emulator, words string) []byte {
	var out bytes.Buffer
	w, h := screen.Width()*wide+2*edge, screen.Height()*high+2*edge
	fmt.Fprintf(&out, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" role="img">`+"\n", w, h, w, h)
	fmt.Fprintf(&out, "<title>%s</title>\n<rect width=\"100%%\" height=\"100%%\" rx=\"8\" fill=\"%s\"/>\n", html.EscapeString(words), ground)
	out.WriteString(`<g font-family="ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace" font-size="15">` + "\n")
	for y := range screen.Height() {
		for x := 0; x < screen.Width(); {
			x = drawRun(screen, &out, x, y)
		}
	}
	out.WriteString("</g>\n</svg>\n")
	return out.Bytes()
}

// drawRun draws the characters from x on that look the same, and returns where the
// next run begins.
func drawRun(screen *vt.Emulator, out *bytes.Buffer, x, y int) int {
	first, from := style(screen, x, y), x
	var text strings.Builder
	for x < screen.Width() && style(screen, x, y) == first {
		cell := screen.CellAt(x, y)
		if cell == nil || cell.Content == "" {
			text.WriteByte(' ')
			x++
			continue
		}
		text.WriteString(cell.Content)
		x += max(cell.Width, 1)
	}
	if first.ground != "" {
		fmt.Fprintf(out, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>`+"\n", edge+from*wide, edge+y*high, (x-from)*wide, high, first.ground)
	}
	said := strings.TrimRight(text.String(), " ")
	lead := len(said) - len(strings.TrimLeft(said, " "))
	if said = said[lead:]; said == "" {
		return x
	}
	weight := ""
	if first.bold {
		weight = ` font-weight="bold"`
	}
	width := len([]rune(said)) * wide
	fmt.Fprintf(out, `<text x="%d" y="%d" textLength="%d" fill="%s"%s>%s</text>`+"\n",
		edge+(from+lead)*wide, edge+y*high+high-5, width, first.ink, weight, strings.ReplaceAll(html.EscapeString(said), " ", hard))
	return x
}

// look is how a character looks; ground is empty where nothing is drawn behind it.
type look struct {
	ink, ground string
	bold        bool
}

func style(screen *vt.Emulator, x, y int) look {
	cell := screen.CellAt(x, y)
	if cell == nil {
		return look{ink: ink}
	}
	l := look{ink: shade(cell.Style.Fg, ink), ground: shade(cell.Style.Bg, ""), bold: cell.Style.Attrs&uv.AttrBold != 0}
	if cell.Style.Attrs&uv.AttrReverse != 0 {
		behind := l.ground
		if behind == "" {
			behind = ground
		}
		l.ink, l.ground = behind, l.ink
	}
	return l
}

// lighter are the dark ones of a terminal's first eight colours as they are drawn: on
// this ground they could not be read. What a terminal shows is its owner's choice.
var lighter = map[string]string{
	"#000000": "#8a8f94", "#800000": "#f0837a", "#008000": "#7fc97a", "#808000": "#d6b94f",
	"#000080": "#8fb3f5", "#800080": "#d79be0", "#008080": "#5fc4c4", "#808080": "#969a9e",
}

// shade is a colour in the words of SVG; usual where none is set.
func shade(c color.Color, usual string) string {
	if c == nil {
		return usual
	}
	r, g, b, _ := c.RGBA()
	out := fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
	return cmp.Or(lighter[out], out)
}
