package report

import (
	"fmt"
	"html/template"
	"io"
	"strings"
	"unicode/utf8"

	"benchlead/diag/source"
)

// HTML writes the document as one page with its style inside and no script. It
// prints well and needs no colour.
func HTML(w io.Writer, d Document) error {
	var b strings.Builder
	if err := sheet().Execute(&b, d); err != nil {
		return fmt.Errorf("writing the report as HTML: %w", err)
	}
	if _, err := io.WriteString(w, b.String()); err != nil {
		return fmt.Errorf("writing the report: %w", err)
	}
	return nil
}

// sheet reads the page when it is wanted: every start of the program would pay
// for it otherwise.
func sheet() *template.Template {
	return template.Must(template.New("report").Funcs(template.FuncMap{
		"clean":    source.CleanLine,
		"where":    where,
		"taken":    takenWords,
		"orNone":   orNone,
		"cleared":  clearedHead,
		"minutes":  minutes,
		"quote":    quoteWords,
		"notYet":   NotYet.words,
		"ledger":   ledger,
		"paths":    Document.paths,
		"notes":    repairNotes,
		"stop":     func() string { return notToUse },
		"pathHead": func(i int, d Document, w Work) string { return pathHead(i < len(d.Earlier), w) },
		"join":     func(list []string) string { return strings.Join(list, "; ") },
		"drawn":    func(t Taken) *drawing { return draw(t.line, t.Value) },
	}).Parse(sheetText))
}

// drawnWide is the length of the drawn line, in units of the picture.
const drawnWide = 640

// drawing is a line of bands with a reading on it, ready for the page.
type drawing struct {
	Label string // for those who don't see it
	Cells []cell
	// At is the tip of the pointer, Left and Right its shoulders.
	At, Left, Right float64
	From, Wide      float64 // of the bar of uncertainty
}

type cell struct {
	X, Wide, Middle float64
	Name, Cut       string // Cut is the limit at its right end
	End             float64
}

// draw lays out the bands; nil when there are none.
func draw(l *bandLine, value string) *drawing {
	if l == nil {
		return nil
	}
	d := &drawing{Label: value + " on: " + bandWords(l), At: l.at * drawnWide, From: l.from * drawnWide}
	d.Left, d.Right = d.At-5, d.At+5
	d.Wide = max(2, (l.to-l.from)*drawnWide)
	share := float64(drawnWide) / float64(len(l.names))
	for i, n := range l.names {
		c := cell{X: share * float64(i), Wide: share, Name: fit(n, share)}
		c.Middle, c.End = c.X+share/2, c.X+share
		if i < len(l.cuts) {
			c.Cut = l.cuts[i]
		}
		d.Cells = append(d.Cells, c)
	}
	return d
}

// fit cuts a name to what a cell can hold at the size of the text.
func fit(name string, wide float64) string {
	const letter = 6.5
	room := int(wide / letter)
	if utf8.RuneCountInString(name) <= room || room < 4 {
		return name
	}
	return strings.TrimSpace(string([]rune(name)[:room-2])) + ".."
}
