package screen

import (
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// over is what lies over a page: a text to read, or the list of tests.
type over struct {
	title  string
	opener string // the letter that opened it
	lines  []string
	from   int // the first line to be seen, or the test under >
	seen   int // the first line that is
	view   ui.Verb
	tests  []pick // the list of tests, in place of lines
	search input
	prices *prices // the price book, in place of lines
}

// pick is one test that can be taken.
type pick struct {
	id, title, state string
}

// picks are the tests of the system that can be taken, with what they read.
func picks(pos walk.Position) []pick {
	if pos.System == nil {
		return nil
	}
	var out []pick
	for _, t := range pos.System.Tests {
		if t.Kind == tree.Worked {
			continue
		}
		out = append(out, pick{id: t.ID, title: t.Title, state: stateOf(pos.Results[t.ID])})
	}
	return out
}

func stateOf(r walk.Result) string {
	switch r.Mark {
	case walk.Read:
		return ui.WithUncertainty(r)
	case walk.Seen:
		return r.Choice
	case walk.Passed:
		return "passed"
	}
	return "not taken"
}

// press is what a key asks for while s, when there is one, lies below.
func (o *over) press(k key, s *step, in *input) action {
	switch {
	case o.tests != nil:
		return o.pressPick(k)
	case o.prices != nil:
		return o.prices.press(k)
	}
	b := find(overKeys(s), k.name)
	switch {
	case s != nil && k.letter() && o.opener != "" && s.begins(o.opener+k.name):
		// It was the beginning of a word.
		in.set(o.opener + k.name)
		in.opened = o.opener
		return action{deed: shut}
	case b != nil && b.act.deed == show && b.act.view == o.view:
		return action{deed: shut} // its own key closes a view again
	case b != nil:
		return b.act
	case s != nil && k.char >= '0' && k.char <= '9' && in.empty() && counts[o.view] != "":
		// A number on a numbered page is of that page, and no answer to what lies below.
		in.set(string(counts[o.view]) + " " + k.name)
		return action{deed: shut}
	case s != nil && k.typed() && (!k.letter() || o.view == ui.Suspected): // which offers words to type
		in.press(k)
		return action{deed: shut}
	}
	return action{}
}

// counts are the words that a number on a numbered page stands behind.
var counts = map[ui.Verb]ui.Verb{ui.Paths: ui.Choose, ui.Suspected: ui.Suspected, ui.Machine: ui.Machine}

// pressPick is press for the list of tests.
func (o *over) pressPick(k key) action {
	b := find(pickKeys(), k.name)
	back := k.name == "up" && o.search.lost != ""
	o.search.begin(k)
	switch {
	case k.name == "enter":
		return o.take()
	case k.name == "esc" && !o.search.empty():
		o.search.clear()
		return action{}
	case back:
		o.search.press(k)
		return action{}
	case k.typed():
		o.search.press(k)
		o.from = 0
		return action{}
	case b != nil:
		return b.act
	}
	o.search.press(k)
	return action{}
}

// take takes the test under the cursor. What fits no test was the rest of a
// typed line that began with the letter that opened the list.
func (o *over) take() action {
	list := o.found()
	typed := o.opener + o.search.text()
	if verb, _, ok := strings.Cut(typed, " "); len(list) == 0 || ok && (verb == string(ui.Tell) || verb == string(ui.Tick)) || typed == string(ui.Tick) || typed == string(ui.Time) {
		return action{deed: send, text: typed}
	}
	return action{deed: send, text: string(ui.Take) + " " + list[min(o.from, len(list)-1)].id}
}

func (o *over) found() []pick {
	var out []pick
	for _, t := range o.tests {
		if matches(t.id+" "+t.title+" "+t.state, o.search.text()) {
			out = append(out, t)
		}
	}
	return out
}

// move scrolls the text, or moves the cursor of the list.
func (o *over) move(by int) {
	if o.prices != nil {
		o.prices.move(by)
		return
	}
	if o.tests != nil {
		o.from = max(min(o.from+by, len(o.found())-1), 0)
		return
	}
	o.from = max(o.seen+by, 0)
	o.seen = o.from
}

func (o *over) keys(s *step) []binding {
	switch {
	case o.tests != nil:
		return pickKeys()
	case o.prices != nil:
		return pricesKeys()
	}
	return overKeys(s)
}

// overHead is the lines of a view above its text.
const overHead = 2

func (o *over) body(sty styles, width, height int) []string {
	if o.prices != nil {
		head := []string{sty.title.Render(short(o.prices.title(), width)), short(o.prices.note, width)}
		return append(head, o.prices.body(sty, width, height-len(head))...)
	}
	out := []string{sty.title.Render(short(o.title, width)), ""}
	if o.tests != nil {
		return append(out, o.list(sty, width, height-len(out))...)
	}
	var text []string
	for _, l := range o.lines {
		text = append(text, hangLine(l, width)...)
	}
	seen, at := window(text, o.from, height-len(out))
	o.seen = at
	return append(out, seen...)
}

// hangLine wraps a line of a view so that what follows its first words stands
// below them.
func hangLine(l string, width int) []string {
	if text, ok := strings.CutPrefix(l, "! "); ok {
		return hang("! ", text, width)
	}
	body := strings.TrimLeft(l, " ")
	indent := len(l) - len(body)
	return hang(strings.Repeat(" ", min(indent, width/3)), body, width)
}

func (o *over) list(sty styles, width, height int) []string {
	list := o.found()
	if len(list) == 0 {
		return []string{"No test has these words. Esc shows all of them."}
	}
	at := min(o.from, len(list)-1)
	ids := 0
	for _, t := range o.tests {
		ids = min(max(ids, len(t.id)), width/4)
	}
	var rows []string
	for i, t := range list {
		mark, look := "  ", sty.plain
		if i == at {
			mark, look = "> ", sty.cursor
		}
		rows = append(rows, look.Render(ends(mark+pad(short(t.id, ids), ids)+"  "+t.title, t.state, width)))
	}
	return around(rows, at, 1, height)
}
