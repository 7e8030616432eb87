package screen

import (
	"strings"
)

// figureRows is how high a figure is at its smallest.
const figureRows = 5

// largest is how many times that a figure is drawn in a large window.
const largestFigures = 3

// font is the figures and letters that are read from two metres, a row each. Letters
// are capitals: the units, where a small letter means another size, are not drawn.
var font = map[rune][figureRows]string{
	'0':  {" ### ", "#   #", "#   #", "#   #", " ### "},
	'1':  {"  #  ", " ##  ", "  #  ", "  #  ", " ### "},
	'2':  {" ### ", "#   #", "   # ", "  #  ", "#####"},
	'3':  {"#### ", "    #", " ### ", "    #", "#### "},
	'4':  {"#  # ", "#  # ", "#####", "   # ", "   # "},
	'5':  {"#####", "#    ", "#### ", "    #", "#### "},
	'6':  {" ### ", "#    ", "#### ", "#   #", " ### "},
	'7':  {"#####", "   # ", "  #  ", " #   ", " #   "},
	'8':  {" ### ", "#   #", " ### ", "#   #", " ### "},
	'9':  {" ### ", "#   #", " ####", "    #", " ### "},
	'.':  {"  ", "  ", "  ", "  ", "##"},
	',':  {"  ", "  ", "  ", " #", "# "},
	':':  {" ", "#", " ", "#", " "},
	'-':  {"    ", "    ", "####", "    ", "    "},
	'+':  {"     ", "  #  ", "#####", "  #  ", "     "},
	'?':  {" ## ", "#  #", "  # ", "    ", "  # "},
	'\'': {"#", "#", " ", " ", " "},
	' ':  {"  ", "  ", "  ", "  ", "  "},
	'A':  {" ## ", "#  #", "####", "#  #", "#  #"},
	'B':  {"### ", "#  #", "### ", "#  #", "### "},
	'C':  {" ###", "#   ", "#   ", "#   ", " ###"},
	'D':  {"### ", "#  #", "#  #", "#  #", "### "},
	'E':  {"####", "#   ", "### ", "#   ", "####"},
	'F':  {"####", "#   ", "### ", "#   ", "#   "},
	'G':  {" ###", "#   ", "# ##", "#  #", " ###"},
	'H':  {"#  #", "#  #", "####", "#  #", "#  #"},
	'I':  {"###", " # ", " # ", " # ", "###"},
	'J':  {"  ##", "   #", "   #", "#  #", " ## "},
	'K':  {"#  #", "# # ", "##  ", "# # ", "#  #"},
	'L':  {"#   ", "#   ", "#   ", "#   ", "####"},
	'M':  {"#   #", "## ##", "# # #", "#   #", "#   #"},
	'N':  {"#   #", "##  #", "# # #", "#  ##", "#   #"},
	'O':  {" ## ", "#  #", "#  #", "#  #", " ## "},
	'P':  {"### ", "#  #", "### ", "#   ", "#   "},
	'Q':  {" ## ", "#  #", "#  #", "# # ", " # #"},
	'R':  {"### ", "#  #", "### ", "# # ", "#  #"},
	'S':  {" ###", "#   ", " ## ", "   #", "### "},
	'T':  {"#####", "  #  ", "  #  ", "  #  ", "  #  "},
	'U':  {"#  #", "#  #", "#  #", "#  #", " ## "},
	'V':  {"#   #", "#   #", "#   #", " # # ", "  #  "},
	'W':  {"#   #", "#   #", "# # #", "## ##", "#   #"},
	'X':  {"#   #", " # # ", "  #  ", " # # ", "#   #"},
	'Y':  {"#   #", " # # ", "  #  ", "  #  ", "  #  "},
	'Z':  {"####", "  # ", " #  ", "#   ", "####"},
}

// figures writes a text in the largest figures that so many cells and rows hold, set
// in a little; the text itself where none do.
func figures(text string, width, height int) []string {
	for size := largestFigures; size > 0; size-- {
		if out := drawn(text, size, width-4); out != nil && len(out) <= height {
			return indented(out)
		}
	}
	return []string{clip("    "+text, width)}
}

// drawn is a text in figures of a size, with less room between them where that makes
// it fit; nil when it is too wide, or has a sign that there is no figure for.
func drawn(text string, size, width int) []string {
	for gap := 2; gap > 0; gap-- {
		if out := bigText(text, gap); out != nil && widest(out)*size <= width {
			return scaled(out, size)
		}
	}
	return nil
}

// bigText is a text in figures of the smallest size, so many cells between them; nil
// when there is a sign that has none.
func bigText(text string, gap int) []string {
	out := make([]string, figureRows)
	for _, r := range strings.ToUpper(text) {
		rows, ok := font[r]
		if !ok {
			return nil
		}
		for i, row := range rows {
			out[i] += row + strings.Repeat(" ", gap)
		}
	}
	for i := range out {
		out[i] = strings.TrimRight(out[i], " ")
	}
	return out
}

// scaled makes every cell so many cells wide and high.
func scaled(lines []string, size int) []string {
	var out []string
	for _, l := range lines {
		var row strings.Builder
		for _, r := range l {
			row.WriteString(strings.Repeat(string(r), size))
		}
		for range size {
			out = append(out, row.String())
		}
	}
	return out
}

func indented(lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = "    " + l
	}
	return out
}
