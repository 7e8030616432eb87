package screen

import (
	"math"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"benchlead/ui"
)

// drawBands draws a line of bands in rows: the limits, the bands, where the reading
// stood before a repair if there was one, and the reading with its uncertainty and
// what it amounts to.
//
//	          0.15     0.35      0.6 V
//	|--good---|--fair--|--lossy--|--bad---|
//	                                 o  before 0.8 V, bad
//	                      <^>  0.42 +- 0.01 V: lossy, sure
func drawBands(b *ui.BandLine, sty styles, width int) []string {
	if b == nil || len(b.Names) == 0 || width < 2*len(b.Names)+1 {
		return nil
	}
	starts := slots(b.Names, width)
	rows := []string{limits(b, starts, width), bandRow(b, sty, starts)}
	if was := earlier(b, starts, width); was != "" {
		rows = append(rows, was)
	}
	return append(rows, pointer(b, sty, starts, width))
}

// earlier marks where the reading stood before the repair, and says it beside the
// mark.
func earlier(b *ui.BandLine, starts []int, width int) string {
	if math.IsNaN(b.Was) || b.WasSays == "" {
		return ""
	}
	at, words := min(column(b.Was, starts), width-1), short(b.WasSays, width-4)
	if size := ansi.StringWidth(words); at+3+size > width {
		if left := at - 2 - size; left >= 0 {
			return pad("", left) + words + "  o"
		}
	}
	return short(pad("", at)+"o  "+words, width)
}

// slots are the columns at which bands begin, and the one at which the last
// ends. A band gets the room its name needs; what is left is shared evenly.
func slots(names []string, width int) []int {
	n := len(names)
	sizes := make([]int, n)
	total := 0
	for i, name := range names {
		sizes[i] = ansi.StringWidth(name) + 3 // a bar, and a dash at each side
		total += sizes[i]
	}
	room := min(width-1, max(total, 70))
	for total > room { // the widest gives way
		sizes[largest(sizes)]--
		total--
	}
	for i := 0; total < room; i = (i + 1) % n {
		sizes[i]++
		total++
	}
	starts := make([]int, n+1)
	for i, s := range sizes {
		starts[i+1] = starts[i] + s
	}
	return starts
}

func largest(sizes []int) int {
	at := 0
	for i, s := range sizes {
		if s > sizes[at] {
			at = i
		}
	}
	return at
}

func bandRow(b *ui.BandLine, sty styles, starts []int) string {
	var out strings.Builder
	for i, name := range b.Names {
		room := starts[i+1] - starts[i] - 1
		name = short(name, max(room-2, 0))
		fill := room - ansi.StringWidth(name)
		look := sty.plain
		if i == b.Best {
			look = sty.title
		}
		out.WriteString("|" + strings.Repeat("-", fill/2) + look.Render(name) + strings.Repeat("-", fill-fill/2))
	}
	return out.String() + "|"
}

// limits writes each limit over the bar it belongs to, the unit behind the last
// one only when it is the same for all. A limit for which there is no room over
// its bar is left to the view of limits.
func limits(b *ui.BandLine, starts []int, width int) string {
	row, same := "", oneUnit(b.Cuts)
	for i, cut := range b.Cuts {
		number, _, _ := strings.Cut(cut, " ")
		if same && i < len(b.Cuts)-1 {
			cut = number
		}
		bar, least, size := starts[i+1], 0, ansi.StringWidth(cut)
		if row != "" {
			least = ansi.StringWidth(row) + 1
		}
		// The number stands over the bar, or as near as the text covers it.
		at := max(min(bar-len(number)/2, width-size), least, 0)
		if at > bar || at+size <= bar || at+size > width {
			continue
		}
		row = pad(row, at) + cut
	}
	return row
}

// oneUnit says whether all limits are in the same unit.
func oneUnit(cuts []string) bool {
	units := map[string]bool{}
	for _, cut := range cuts {
		_, unit, _ := strings.Cut(cut, " ")
		units[unit] = true
	}
	return len(units) <= 1
}

// column is where a place of the line (0 to 1, bands sharing it evenly) is
// drawn.
func column(at float64, starts []int) int {
	n := len(starts) - 1
	if math.IsNaN(at) {
		return 0
	}
	at = math.Min(math.Max(at, 0), 1) * float64(n)
	band := min(int(at), n-1)
	size := starts[band+1] - starts[band]
	return starts[band] + int(math.Round((at-float64(band))*float64(size)))
}

// pointer marks where the reading stands and how far it may be off, and says it
// in words where there is room.
func pointer(b *ui.BandLine, sty styles, starts []int, width int) string {
	if math.IsNaN(b.At) || b.Best < 0 {
		return ""
	}
	from, at, to := column(b.From, starts), column(b.At, starts), column(b.To, starts)
	mark := "<" + strings.Repeat("-", max(at-from-1, 0)) + "^" + strings.Repeat("-", max(to-at-1, 0)) + ">"
	left := max(at-max(at-from-1, 0)-1, 0)
	left = min(left, max(width-len(mark), 0))
	words, look := b.Says, sty.good
	if !b.Sure {
		look = sty.care
	}
	room := width - left - len(mark) - 2
	brief, _, _ := strings.Cut(words, " (")
	for _, w := range []string{words, brief} {
		switch size := ansi.StringWidth(w); {
		case size <= room:
			return strings.Repeat(" ", left) + mark + "  " + look.Render(w)
		case size+2 <= left:
			return strings.Repeat(" ", left-2-size) + look.Render(w) + "  " + mark
		}
	}
	return short(words, width) // the band it lies in matters more than where
}
