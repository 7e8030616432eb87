package tree

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strings"

	"benchlead/diag/source"
)

// register holds the ids of one sort ("point", "test") and where each stands.
type register struct {
	sort  string
	where string // " in system x", for messages
	keys  string // the key under which to add one
	at    map[string]source.Place
	bad   set // ids that can't be one; no hint leads to them
}

func newRegister(sort, where, keys string) *register {
	return &register{sort: sort, where: where, keys: keys, at: map[string]source.Place{}, bad: set{}}
}

func (g *register) has(id string) bool { _, ok := g.at[id]; return ok }

func (g *register) ids() []string {
	ids := make([]string, 0, len(g.at))
	for id := range g.at {
		if !g.bad[id] {
			ids = append(ids, id)
		}
	}
	sort.Strings(ids)
	return ids
}

// The forms of ids. Whatever a formula may name has no "-".
var (
	plainID  = regexp.MustCompile(`^[a-z0-9][a-z0-9_.-]*$`)
	nameID   = regexp.MustCompile(`^[a-z][a-z0-9_]*$`)
	faultID  = regexp.MustCompile(`^[a-z][a-z0-9_-]*\.[a-z0-9][a-z0-9_.-]*$`)
	sourceID = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_.-]*$`)
	words    = regexp.MustCompile(`^[^\[\]{}:,"]+$`) // of bands and choices
)

// longestID bounds ids, which are shown in narrow columns.
const longestID = 40

// add notes an id, and reports one that is there twice or badly formed. It says
// whether the id is new.
func (b *builder) add(g *register, id word, form *regexp.Regexp) bool {
	if !id.Given() {
		return false
	}
	if first, ok := g.at[id.Text]; ok {
		b.report(CodeDuplicateID, id.Place, fmt.Sprintf("%s %q is there twice; the first is at %s", g.sort, id.Text, first), "rename one of them, or take it away")
		return false
	}
	g.at[id.Text] = id.Place
	if !form.MatchString(id.Text) || len([]rune(id.Text)) > longestID {
		g.bad[id.Text] = true
		b.report(CodeBadID, id.Place, fmt.Sprintf("%q can't be the id of a %s", id.Text, g.sort), formHint(form))
	}
	return true
}

func formHint(form *regexp.Regexp) string {
	switch form {
	case nameID:
		return "use lower case, digits and _ , so that formulas can name it; at most 40 letters"
	case faultID:
		return "write the part, a dot, and what is wrong with it: fuse.open"
	case words:
		return "leave out brackets, colons, commas and double quotes; at most 40 letters"
	}
	return "use lower case, digits, - and _ ; at most 40 letters"
}

// refer reports a word that names nothing of that sort.
func (b *builder) refer(g *register, id word) bool {
	if !id.Given() {
		return false
	}
	if g.has(id.Text) {
		return true
	}
	if b.quiet {
		return false
	}
	b.report(source.Code("unknown-"+strings.ReplaceAll(g.sort, " ", "-")), id.Place,
		fmt.Sprintf("there is no %s %q%s", g.sort, id.Text, g.where), unknownHint(g, id.Text))
	return false
}

func unknownHint(g *register, id string) string {
	if near := source.Nearest(id, g.ids()); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	if ids := g.ids(); len(ids) > 0 && len(ids) <= 6 {
		return "known: " + strings.Join(ids, ", ")
	}
	return "add it under " + g.keys + ":"
}

// referAll is refer for a list, which must not name a thing twice. It returns
// the ids that are known.
func (b *builder) referAll(g *register, ids []word) []string {
	var out []string
	for _, id := range ids {
		if id.Given() && slices.Contains(out, id.Text) {
			b.report(CodeTwice, id.Place, fmt.Sprintf("%q is in this list twice", id.Text), "take one away")
			continue
		}
		if b.refer(g, id) {
			out = append(out, id.Text)
		}
	}
	return out
}

// only reports a word that isn't one of a few.
func (b *builder) only(w word, what string, allowed []string) bool {
	if !w.Given() || slices.Contains(allowed, w.Text) {
		return w.Given()
	}
	hint := "write one of: " + strings.Join(allowed, ", ")
	if near := source.Nearest(w.Text, allowed); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	b.report(CodeUnknownWord, w.Place, fmt.Sprintf("%q is not %s", w.Text, what), hint)
	return false
}
