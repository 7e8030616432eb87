package screen

import (
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// answered is a reading that is shown in big figures: the one being typed, or the one
// just given.
type answered struct {
	title string
	typed string
	unit  string
	line  *ui.BandLine
	means []string // the words beneath
}

// switchBig shows readings in big figures from now on, or no longer.
func (m *Model) switchBig() {
	m.big = !m.big
	m.wrong = ""
	m.said = []string{"Readings are small again."}
	if m.big {
		m.said = []string{"Readings are shown big from now on. Tab: small again."}
	}
}

// reading is what is to be shown in big figures now; nil when nothing is.
func (m *Model) reading() *answered {
	switch {
	case m.over != nil || m.step == nil:
		return nil
	case m.answered != nil:
		return m.answered
	case !m.big:
		return nil
	}
	return m.step.reading(m.input.text())
}

// reading is the one being typed at a step; nil while it is none.
func (s *step) reading(typed string) *answered {
	typed = strings.TrimSpace(typed)
	test := s.pos.Test
	if test == nil || test.Kind != tree.Metered || !isAsked(s.prompt.Stage) || typed == "" || s.waiting(typed) != nil {
		return nil
	}
	line := s.line(typed)
	if !strings.ContainsRune("0123456789.,+-", rune(typed[0])) && (line == nil || line.Best < 0) {
		return nil
	}
	out := &answered{title: s.prompt.Title, typed: typed, unit: test.Unit, line: line}
	out.means = meaning(line)
	return out
}

// meaning is what a reading means in words; nothing for one that no band is known for.
func meaning(line *ui.BandLine) []string {
	if line == nil || line.Best < 0 {
		return nil
	}
	if line.Doubt {
		return []string{line.Means} // which says so
	}
	return []string{strings.TrimSpace(called(line) + " " + line.Means)}
}

// called is what a reading is called, as a sentence.
func called(line *ui.BandLine) string {
	if line.Sure {
		return capital(line.Band) + ", sure."
	}
	return capital(line.Band) + "."
}

// showAnswer shows the reading that was just recorded, if one was since so many
// events. A danger comes before it.
func (m *Model) showAnswer(events int) {
	m.answered = nil
	if !m.big || m.wrong != "" || m.step.prompt.Stage == walk.AtDanger {
		return
	}
	for _, e := range m.session.Events()[events:] {
		if e.Kind != job.KindRead {
			continue
		}
		test := m.step.pos.System.Test(e.Read.Test)
		if line := m.session.Line(test, ""); line != nil && line.Best >= 0 {
			m.answered = &answered{title: test.Title, typed: e.Read.Reading.Text, unit: test.Unit, line: line, means: meaning(line)}
			if len(m.said) > 1 { // what it shows comes behind what it is
				m.answered.means = append(m.answered.means, m.said[1:]...)
			}
		}
	}
}

// turned ends a page that stands until the next key, and says whether the key was
// only for that: nobody who waits for the next step answers it. Behind a reading every
// key only turns the page, but a figure where the next step is a reading too: without its
// first figure it would be another one. Behind a countdown Enter and Esc do, a reading may be typed at
// once, and Space counts once more.
func (m *Model) turned(k key) bool {
	reading := m.answered != nil
	page := reading || m.count.ended
	m.answered = nil
	if !page {
		return false
	}
	again := m.count.ended && k.char == ' '
	m.count.ended, m.count.ring = false, false
	if reading && m.over == nil && m.input.empty() && k.paste == "" && !m.step.figure(k) {
		return true
	}
	return m.over == nil && m.input.empty() && !again && (k.name == "enter" || k.name == "esc" || k.char == ' ')
}

// figure says whether a key begins a reading at a step that is answered by one.
func (s *step) figure(k key) bool {
	test := s.pos.Test
	return test != nil && test.Kind == tree.Metered && isAsked(s.prompt.Stage) && k.char != 0 && strings.ContainsRune("0123456789.,-+", k.char)
}

// bigReading is the page of a reading: what can be read from two metres, and below it
// what it means.
func (m *Model) bigReading(a *answered, l layout) []string {
	head := paint(m.sty.title, wrap(a.title, l.width))
	var below []string
	for _, t := range a.means {
		below = append(below, hang("    ", t, l.width)...)
	}
	band := ""
	if a.line != nil {
		band = a.line.Band
	}
	number, unit := a.number()
	digits, name := bigPair(number, fewLetters(band), l.width, l.body-len(head)-len(below))
	if len(name) == 1 { // in a small window what can't be read from afar gives way: the title, then words
		few := hang("    ", sentences(a.means, l.width-4), l.width)
		for _, b := range [][]string{below, few} {
			if d, n := bigPair(number, fewLetters(band), l.width, l.body-len(b)); len(n) > 1 {
				head, below, digits, name = nil, b, d, n
				break
			}
		}
	}
	digits[len(digits)-1] = clip(digits[len(digits)-1]+"  "+unit, l.width)
	out := airy([][]string{head, paint(m.sty.title, digits), paint(m.sty.title, name), below}, l.body)
	return out[:min(len(out), l.body)]
}

// sentences are the first sentences of a text, as many as one line holds.
func sentences(text []string, width int) string {
	out := ""
	for _, one := range strings.SplitAfter(strings.Join(text, " "), ". ") {
		if len(out)+len(strings.TrimSpace(one)) > width {
			break
		}
		out += one
	}
	return strings.TrimSpace(out)
}

// number is the reading as it was typed, and its unit. One that is written in a way
// for which there are no figures (4k7) is shown as it counts.
func (a *answered) number() (number, unit string) {
	text, _, _ := strings.Cut(a.typed, "@")
	text = strings.TrimSpace(text)
	rest := strings.TrimLeft(text, "0123456789.,+-")
	number, unit = text[:len(text)-len(rest)], strings.TrimSpace(rest)
	switch {
	case unit == "" && number != "" && !strings.Contains(number, ".."):
		return number, a.unit
	case number != "" && !strings.ContainsAny(unit, "0123456789") && !strings.Contains(number, ".."):
		return number, unit
	case a.line != nil && a.line.Value != "":
		number, _, _ = strings.Cut(a.line.Value, " ")
		if number == "OL" {
			return number, ""
		}
		return number, a.unit
	}
	return text, ""
}

// fewLetters is what a reading is called in a few letters.
func fewLetters(band string) string {
	switch band {
	case "too close to call":
		return "too close"
	case "this meter can't decide":
		return "can't decide"
	case "can't be right":
		return "not right?"
	}
	return band
}

// bigPair is a number and a word below it in figures as large as there is room for;
// the number larger than the word where only that fits, and small letters last.
func bigPair(number, word string, width, height int) (digits, name []string) {
	for size := largestFigures; size > 0; size-- {
		digits = drawn(number, size, width-10)
		for of := size; of > 0 && word != ""; of-- {
			if name = drawn(word, of, width-4); name != nil && digits != nil && len(digits)+len(name)+1 <= height {
				return indented(digits), indented(name)
			}
		}
	}
	plain := []string{}
	if word != "" {
		plain = indented([]string{short(strings.ToUpper(word), width-4)})
	}
	return figures(number, width-6, height-len(plain)-1), plain
}
