package prove

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
)

// MaxDraws is the most machines for a fault.
const MaxDraws = 100000

// Table is what came of every fault in every tree, to be kept in a file and
// compared with later.
type Table struct {
	Draws int    // machines for each fault that a tree judges
	Seed  uint64 // the same seed builds the same machines
	Rows  []Row  // by tree, system and fault
}

// Row is what came of one fault in one tree.
type Row struct {
	Tree, System string
	Fault        string // "no fault" for a healthy machine
	Counts       Counts
	Minutes      float64 // on the bench, to the verdict; on average
	Left         float64 // faults that the tree judges, neither found nor cleared; on average
	Failed       string  // why it could not be run, else ""; never in a file
}

// Table is the report as it is kept: also of faults that never show, and of
// those that a tree doesn't judge and says nothing wrong of, so that it is seen
// when one is no longer proved.
func (r Report) Table() Table {
	out := Table{Draws: r.Options.Draws, Seed: r.Options.Seed}
	for _, t := range r.Trees {
		row := Row{Tree: t.Tree, System: t.System}
		for _, f := range slices.Concat(t.Faults, t.Quiet) {
			row.Fault, row.Counts, row.Failed = f.Fault, f.Counts, f.Failed
			row.Minutes, row.Left = f.Minutes, f.Left
			out.Rows = append(out.Rows, row)
		}
		for _, fault := range t.Hidden {
			out.Rows = append(out.Rows, Row{Tree: t.Tree, System: t.System, Fault: fault})
		}
	}
	slices.SortFunc(out.Rows, Row.compare)
	return out
}

func (r Row) compare(o Row) int {
	return cmp.Or(cmp.Compare(r.Tree, o.Tree), cmp.Compare(r.System, o.System), cmp.Compare(r.Fault, o.Fault))
}

// Of is the part of the table that is about some trees; none: all of it.
func (t Table) Of(trees []string) Table {
	if len(trees) > 0 {
		t.Rows = slices.DeleteFunc(slices.Clone(t.Rows), func(r Row) bool { return !slices.Contains(trees, r.Tree) })
	}
	return t
}

// tableHead is what stands above the figures.
const tableHead = `# What the trees find on simulated machines with one fault. "make prove" fails
# when a figure becomes worse; "make update" writes this file.
#
# draws:  machines that came in with a complaint that leads to the tree
# found:  the fault was found
# group:  found as another that no test tells from it
# close:  left untested because a reading was too close to a limit
# masked: left untested, and said to be, behind another real fault
# missed: left untested, and nothing says why
# wrong:  a whole part condemned, or a faulty one cleared
# min:    minutes on the bench to the verdict, on average
# left:   faults that the tree judges, neither found nor cleared, on average
#
# Of a fault that the tree does not judge only "wrong", "min" and "left" count:
# the other draws are machines of which it says nothing wrong.

`

// columns are the words over the figures, the first three over names and the last
// two over means.
var columns = []string{"tree", "system", "fault", "draws", "found", "group", "close", "masked", "missed", "wrong", "min", "left"}

// How many places a file has of the two averages.
const (
	minutePlaces = 1
	leftPlaces   = 2
)

func rounded(v float64, places int) float64 {
	const ten = 10
	whole := math.Pow(ten, float64(places))
	return math.Round(v*whole) / whole
}

// figures are the counts in the order of the columns, to be read and written.
func (c *Counts) figures() []*int {
	return []*int{&c.Draws, &c.Found, &c.Group, &c.Close, &c.Masked, &c.Missed, &c.Wrong}
}

// WriteTable writes a table as ReadTable reads it. The columns have fixed widths,
// so that a new long name moves no other line. A fault that could not be run has
// no figures, and nothing is written.
func WriteTable(w io.Writer, t Table) error {
	for _, r := range t.Rows {
		if r.Failed != "" {
			return fmt.Errorf("%s in %s could not be run, so it has no figures: %s", r.Fault, r.Tree, r.Failed)
		}
	}
	p := &page{w: w}
	for line := range strings.Lines(tableHead) {
		p.line("%s", strings.TrimSuffix(line, "\n"))
	}
	p.line("draws %d", t.Draws)
	p.line("seed %d", t.Seed)
	p.line("")
	p.row(columns[:3], columns[3:])
	for _, r := range t.Rows {
		var figures []string
		for _, n := range r.Counts.figures() {
			figures = append(figures, fmt.Sprint(*n))
		}
		figures = append(figures, fmt.Sprintf("%.*f", minutePlaces, r.Minutes), fmt.Sprintf("%.*f", leftPlaces, r.Left))
		p.row([]string{r.Tree, r.System, r.Fault}, figures)
	}
	return p.err
}

// row writes names to the left and figures to the right of their columns.
func (p *page) row(names, figures []string) {
	text := fmt.Sprintf("%-18s %-18s %-26s", names[0], names[1], names[2])
	for _, f := range figures {
		text += fmt.Sprintf(" %6s", f)
	}
	p.line("%s", text)
}
