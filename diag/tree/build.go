package tree

import (
	"fmt"
	"math"

	"benchlead/diag/source"
)

// builder turns shapes into the Library: ids looked up, formulas compiled,
// routes checked.
type builder struct {
	lib    *Library
	issues source.Issues
	// quiet is set when a file could not be read: what it holds would then be
	// reported as unknown wherever it is named, one cause in many messages.
	quiet    bool
	badFiles map[string]bool // files in which something has the wrong shape
	trusting bool            // the files are known to be good
	wanted   string          // the one system that is built; empty: all of them

	systemShapes []*systemShape
	sharedShapes []*sharedShape
	treeShapes   []*treeShape
	stockShapes  []*stockShape

	circuitShapes  []*circuitShape
	fragmentShapes []*fragmentShape

	cautions, safe, parts, meters, sources *register
	systemIDs, treeIDs, repairIDs          *register
	sharedIDs, troubles, services          *register

	cites map[string]string       // source id to citation
	notes map[string]*systemNotes // by system
	flows map[string]*flow        // by tree
	found found                   // by the search that is under way
}

func (b *builder) report(code source.Code, place source.Place, message, hint string) {
	if place.Line == 0 {
		return // what stands there could not be read as a word, and was reported so
	}
	b.issues = append(b.issues, source.Issue{Code: code, Place: place, Message: message, Hint: hint})
}

// The longest texts that the narrowest screen shows whole.
const (
	longestTitle = 60
	longestTell  = 300
)

// title checks a title and returns it.
func (b *builder) title(w word) string {
	b.fits(w.Text, w.Place, longestTitle)
	return w.Text
}

// tell checks a paragraph and returns it.
func (b *builder) tell(p prose) string {
	b.fits(p.Text, p.Place, longestTell)
	return p.Text
}

func (b *builder) fits(text string, place source.Place, longest int) {
	if n := len([]rune(text)); n > longest {
		b.report(CodeTooLong, place, fmt.Sprintf("the text has %d letters; %d fit on the screen", n, longest), "say it shorter")
	}
}

func (b *builder) tellAll(list []prose) []string {
	var out []string
	for _, p := range list {
		if t := b.tell(p); t != "" {
			out = append(out, t)
		}
	}
	return out
}

func texts(list []word) []string {
	var out []string
	for _, w := range list {
		if w.Given() {
			out = append(out, w.Text)
		}
	}
	return out
}

// amount is a number that can't be less than least; otherwise if it isn't there.
func (b *builder) amount(n number, least, otherwise float64) float64 {
	if !n.Given {
		return otherwise
	}
	if n.Value < least || n.Value > 1e9 {
		b.report(CodeBadNumber, n.Place, fmt.Sprintf("%g can't be right here", n.Value), fmt.Sprintf("write %g or more", least))
		return otherwise
	}
	return n.Value
}

// whole is amount for what is counted.
func (b *builder) whole(n number, least, otherwise int) int {
	v := b.amount(n, float64(least), float64(otherwise))
	if v != math.Trunc(v) {
		b.report(CodeBadNumber, n.Place, fmt.Sprintf("%g must be a whole number", v), fmt.Sprintf("write %g", math.Ceil(v)))
	}
	return int(v)
}

// needs are make-safe items with the setting each must have.
func (b *builder) needs(pairs []pair) map[string]string {
	out := map[string]string{}
	for _, p := range pairs {
		if !b.refer(b.safe, p.Key) {
			continue
		}
		var settings []string
		for _, s := range b.lib.Safe[p.Key.Text].Settings {
			settings = append(settings, s.ID)
		}
		if b.only(p.Value, fmt.Sprintf("a setting of %q", p.Key.Text), settings) {
			out[p.Key.Text] = p.Value.Text
		}
	}
	return out
}
