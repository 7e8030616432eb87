package line

import (
	"fmt"
	"reflect"
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// prompt writes what the job asks for, and last what may be typed. What was said just
// before is not said again: a listener hears every word of it.
func (f *Face) prompt(s *ui.Session) {
	p := s.Prompt()
	stands := reflect.DeepEqual(p, f.last)
	switch {
	case same(p, f.last):
	case p.Title == f.last.Title && p.Stage == f.last.Stage && len(p.List) > 0:
		f.next(p)
	default:
		f.whole(p)
	}
	f.last = p
	named := (f.named || stands) && p.Stage != walk.AtVerdict
	silent := p.Ask == "" || stands && f.asks
	f.named, f.asks = false, false
	if silent {
		return
	}
	unit := ""
	if t := s.Position().Test; ui.Asked(p.Stage) && t != nil && t.Unit != "" {
		unit = ", in " + t.Unit
	}
	ask := strings.Replace(p.Ask, "the reading", "the reading"+unit, 1)
	if rest, again := strings.CutPrefix(p.Ask, "the reading again"); again {
		ask = "the reading again" + unit + rest
	}
	if f.short {
		ask += ", or again to hear all of it"
		f.short = false
	}
	if named {
		ask += ", for: " + tree.InSentence(strings.TrimRight(p.Title, ".?"))
	}
	f.Say("Type " + ask + ".")
}

// same says whether two prompts differ in nothing but what may be typed.
func same(a, b ui.Prompt) bool {
	a.Ask, b.Ask = "", ""
	a.Meant, b.Meant, a.CantKeep, b.CantKeep = "", "", false, false
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
