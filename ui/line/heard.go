package line

import (
	"slices"
	"strings"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// cautions are said in full, but for those that were heard: of them the title. At a test
// those count that the test before it had too, at a make-safe card and before work and a
// repair all that were said since the job was opened. A danger is always said in full.
func (f *Face) cautions(p ui.Prompt) {
	var again []string
	list := p.Caution
	if p.Stage == walk.AtSafe && f.fresh {
		f.full, f.fresh = true, false
	}
	if f.full && len(p.Whole) > 0 {
		list = p.Whole
	}
	for _, l := range list {
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
