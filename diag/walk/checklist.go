package walk

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// LineKind sorts the lines of a repair's checklist.
type LineKind string

// The kinds of line, in the order in which they stand; the first steps of some repairs
// stand before what comes off.
const (
	LineCare     LineKind = "cautions" // that they are understood
	LineOff      LineKind = "comes off"
	LineKept     LineKind = "kept" // laid by, and goes on again
	LineStep     LineKind = "step"
	LineLaw      LineKind = "rule" // that it is met in the way that was confirmed before
	LineTight    LineKind = "how tight"
	LineFastener LineKind = "new fastener"
	LineBin      LineKind = "to the parts bin"
	LineScrap    LineKind = "thrown away"
)

// Line is one line of a repair's checklist. Its text is its identity in the log.
type Line struct {
	Kind LineKind
	Text string
	Done bool
}

// Needed says whether the repair can't be called done without the line: cautions,
// steps and rules. The others are for the hand to keep count.
func (l Line) Needed() bool { return l.Kind == LineCare || l.Kind == LineStep || l.Kind == LineLaw }

// Checklist is a repair as lines to be ticked: its cautions first. agreed are the
// terms confirmed before it: what was promised then is looked at when it is done.
func Checklist(lib *tree.Library, r *tree.Repair, agreed []job.Agreed) []Line {
	var out []Line
	add := func(kind LineKind, head string, texts ...string) {
		for _, text := range texts {
			l := Line{Kind: kind, Text: head + text}
			if !slices.Contains(out, l) {
				out = append(out, l)
			}
		}
	}
	if care := cautionTitles(lib, r.Cautions); care != "" {
		add(LineCare, "Understood: ", care)
	}
	add(LineStep, "", r.Steps[:r.First]...)
	// What comes off, and what of it is laid by, stands before what it is taken off
	// for.
	add(LineOff, "Comes off: ", r.Off...)
	add(LineKept, "Kept: ", r.Kept...)
	for _, f := range r.Fasteners {
		if !f.New {
			add(LineKept, "Used again: ", f.What)
		}
	}
	add(LineStep, "", r.Steps[r.First:]...)
	for _, a := range agreed {
		if a.Repair == r.ID && a.Way != "" {
			add(LineLaw, a.Term+": ", a.Way)
		}
	}
	for _, t := range r.Torque {
		add(LineTight, "How tight: ", tightness(t))
	}
	for _, f := range r.Fasteners {
		if f.New {
			add(LineFastener, "New: ", f.What)
		}
	}
	for _, id := range r.Bin {
		if part := lib.Parts[id]; part != nil {
			add(LineBin, "To the parts bin, once tested: ", part.Title)
		}
	}
	add(LineScrap, "Thrown away: ", r.Scrap...)
	return out
}

func cautionTitles(lib *tree.Library, ids []string) string {
	var out []string
	for _, id := range ids {
		if c := lib.Cautions[id]; c != nil && !slices.Contains(out, c.Title) {
			out = append(out, c.Title)
		}
	}
	return strings.Join(out, "; ")
}

// tightness is a torque in words with where it is from.
func tightness(t tree.Torque) string {
	nm := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	span := nm(t.Low) + " to " + nm(t.High)
	if t.Low == t.High {
		span = nm(t.Low)
	}
	return fmt.Sprintf("%s, %s Nm (%s)", t.What, span, t.Source)
}

// lines are the checklist with what is ticked.
func (w *where) lines(r *tree.Repair) []Line {
	out := Checklist(w.lib, r, w.facts.Agreed)
	for i := range out {
		out[i].Done = slices.Contains(w.facts.Lined, job.Lined{Repair: r.ID, Line: out[i].Text})
	}
	return out
}
