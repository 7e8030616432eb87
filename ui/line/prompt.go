package line

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// prompt writes what the job asks for, and last what may be typed. What was said just
// before is not said again: a listener hears every word of it.
func (f *Face) prompt(s *ui.Session) {
	p := s.Prompt()
	switch {
	case same(p, f.last):
	case p.Title == f.last.Title && p.Stage == f.last.Stage && len(p.List) > 0:
		f.next(p)
	default:
		f.whole(p)
	}
	f.last = p
	if p.Ask == "" {
		return
	}
	unit := ""
	if t := s.Position().Test; ui.Asked(p.Stage) && t != nil && t.Unit != "" {
		unit = ", in " + t.Unit
	}
	ask := strings.Replace(p.Ask, "the reading", "the reading"+unit, 1)
	if f.short {
		ask += ", or again to hear all of it"
		f.short = false
	}
	if f.wrong && p.Stage != walk.AtVerdict { // what is asked may be far up
		ask += ", for: " + tree.InSentence(strings.TrimRight(p.Title, ".?"))
	}
	f.wrong = false
	f.Say("Type " + ask + ".")
}

// same says whether two prompts differ in nothing but what may be typed.
func same(a, b ui.Prompt) bool {
	a.Ask, b.Ask = "", ""
	return reflect.DeepEqual(a, b)
}

func (f *Face) whole(p ui.Prompt) {
	f.Say("")
	head := sentenceEnd(p.Title)
	if p.Cost != "" {
		head += " " + p.Cost + "."
	}
	f.Say(head)
	f.cautions(p)
	f.tell(p)
	for _, it := range p.List {
		if p.Stage == walk.AtService {
			it.Tell = "" // "list" says it
		}
		f.Say(it.Line())
	}
	if len(p.Phone) > 0 {
		f.Say("Read to the owner:")
		f.all(p.Phone)
	}
	f.leads(p)
	for _, l := range p.SoFar {
		f.Say("Taken " + l + ".")
	}
	f.choices(p.Choices)
	f.remember(p)
	f.full = false
}

// cautions are said in full, but for those that were heard: of them the title. At a test
// those count that the test before it had too, at a make-safe card and before work and a
// repair all that were said since the job was opened. A danger is always said in full.
func (f *Face) cautions(p ui.Prompt) {
	var again []string
	for _, l := range p.Caution {
		title, _, _ := strings.Cut(l, ". ")
		switch {
		case f.was(p, l):
			again = append(again, sentenceEnd(title))
			f.short = f.short || p.Care || p.Stage == walk.AtSafe || p.Stage == walk.AtWork
		case sentenceEnd(p.Title) == "STOP: "+title+".": // which was said as the head
			f.Say("Caution: " + strings.TrimPrefix(l, title+". "))
			f.hear(l)
		default:
			f.Say("Caution: " + l)
			f.hear(l)
		}
	}
	if len(again) > 0 {
		f.Say("Caution, as before: " + strings.Join(again, " "))
	}
}

// was says whether a caution was heard in full.
func (f *Face) was(p ui.Prompt, caution string) bool {
	switch {
	case f.full:
		return false
	case ui.Asked(p.Stage):
		return f.told[caution]
	case p.Stage == walk.AtRepair && !p.Care: // confirmed
		return true
	case p.Stage == walk.AtRepair || p.Stage == walk.AtWork:
		return f.heard[caution]
	}
	title, _, _ := strings.Cut(caution, ". ")
	return p.Stage == walk.AtSafe && f.heard[title]
}

// hear keeps what was said in full. A card has of a caution only its beginning, which is
// also known to whoever heard the whole.
func (f *Face) hear(caution string) {
	title, _, _ := strings.Cut(caution, ". ")
	if f.heard == nil {
		f.heard = map[string]bool{}
	}
	f.heard[caution], f.heard[title] = true, true
}

// long is how many letters of a card's line are said each time: all that is to be done. A
// longer one, which says how and why too, begins with what is to be done.
const long = 160

// line says one line of what to do. Of a make-safe card's long ones the first sentence
// is enough once the rest was heard.
func (f *Face) line(p ui.Prompt, l string) {
	first, _, more := strings.Cut(l, ". ")
	if p.Stage != walk.AtSafe || len(l) <= long || !more {
		f.Say(l)
		return
	}
	if f.heard[l] && !f.full {
		f.Say(first + ". The rest as before.")
		f.short = true
		return
	}
	f.hear(l)
	f.Say(l)
}

// tell says what to do, but for what the test before it said already of the same
// state of the machine; its own words, the last, are always said.
func (f *Face) tell(p ui.Prompt) {
	list := p.Tell
	if p.Aloud != nil {
		list = p.Aloud
	}
	for i, l := range list {
		if ui.Asked(p.Stage) && f.told[l] && i < len(list)-1 || slices.Contains(f.just, l) {
			continue
		}
		f.line(p, l)
	}
}

// remember keeps what a test has said.
func (f *Face) remember(p ui.Prompt) {
	if !ui.Asked(p.Stage) {
		return
	}
	f.told = map[string]bool{}
	for _, l := range append(append([]string{p.Machine}, p.Caution...), p.Tell...) {
		f.told[l] = true
	}
}

// next says of a list that is being ticked how far it is and what comes next.
func (f *Face) next(p ui.Prompt) {
	var open []ui.Item
	next := ui.Item{}
	for _, it := range p.List {
		if it.Open() {
			open = append(open, it)
		}
		if it.Next {
			next = it
		}
	}
	switch {
	case p.Stage == walk.AtService:
		f.Say("Open yet:")
		for _, it := range open {
			it.Tell = ""
			f.Say(it.Line())
		}
	case next.Number == 0:
		f.Say("All lines are done.")
	default:
		if done := len(p.List) - len(open); done > 0 {
			f.Say(fmt.Sprintf("%d of %d lines are done. Next:", done, len(p.List)))
		}
		f.Say(next.Line())
	}
}

func (f *Face) leads(p ui.Prompt) {
	machine := "Machine: "
	if f.told[p.Machine] {
		machine = "Machine, as before: "
	}
	for _, l := range []struct{ head, text string }{
		{"Red lead: ", p.Red},
		{"Black lead: ", p.Black},
		{"Meter: ", p.Meter},
		{machine, p.Machine},
		{"A healthy machine reads ", tree.InSentence(p.Healthy)},
		{"Alone: ", p.Alone},
	} {
		if l.text != "" {
			f.Say(l.head + l.text)
		}
	}
}
