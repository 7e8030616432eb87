package screen

import (
	"fmt"
	"strings"

	"benchlead/ui"
)

// intakePage is one question of the intake. It holds no intake: the root asks.
type intakePage struct {
	question ui.Question
	given    []string
	done     bool // every question is answered, and the job could not be begun
}

func (p *intakePage) press(k key, in *input) action {
	b := find(intakeKeys(), k.name)
	_, asks := p.question.Explain(in.text())
	switch {
	case k.name == "enter" && (asks || strings.TrimSpace(in.text()) == "?"):
		return action{deed: explain, text: in.text()}
	case k.name == "enter" && ui.GoesBack(in.text()) && !p.done:
		in.offer(p.question.Before)
		return action{deed: back}
	case k.name == "enter":
		return action{deed: answer, text: in.text()}
	case k.char == '?' && in.empty():
		return b.act
	case k.name == "esc" && !in.empty() && !in.offered:
		return action{deed: shut}
	case (k.name != "ctrl+b" || b == nil) && in.press(k):
		return action{}
	case b != nil:
		return b.act
	}
	return action{}
}

// explain says how the question is answered, or what was asked of its choices. It says
// on a page of its own what is more than a line.
func (p *intakePage) explain(asked string) (said []string, page *over) {
	if p.done {
		return []string{"Enter begins the job."}, nil
	}
	says, ok := p.question.Explain(asked)
	if ok && len(says) == 1 {
		return says, nil
	}
	if !ok {
		says = p.question.Help()
	}
	return nil, &over{title: p.question.Title + "?", lines: says, asks: true}
}

// hint says what Enter will do. offered is set while the answer given before stands
// there.
func (p *intakePage) hint(typed string, offered bool) string {
	typed = strings.TrimSpace(typed)
	switch {
	case p.done:
		return "Enter begins the job"
	case isNumber(typed) && len(p.question.Choices) > 0:
		return chosen(p.question.Choices, typed)
	case offered:
		return "Enter keeps it; typing replaces it"
	case typed != "":
		return ""
	case p.question.Default == "" && len(p.question.Tells) > 0:
		return "needed; 1? says how 1 is recognised"
	case p.question.Default == "":
		return "this one is needed"
	}
	return "Enter alone: " + p.question.Default
}

// body draws the question, and beside or below it what was answered so far.
func (p *intakePage) body(sty styles, l layout) []string {
	width := l.width
	if l.side > 0 {
		width -= l.side + 3
	}
	var out []string
	if p.done {
		out = []string{sty.title.Render("Every question is answered.")}
	} else {
		for _, line := range wrap(p.question.Title+"?", width) {
			out = append(out, sty.title.Render(line))
		}
	}
	out = append(out, "")
	for _, c := range p.question.Choices {
		out = append(out, choice(c, sty, width)...)
	}
	given := p.answers(sty, max(l.side, 0), width)
	if l.side > 0 {
		return beside(out, given, width+3)
	}
	if len(p.question.Choices) > 0 {
		out = append(out, "")
	}
	// Below the question, and the latest of them when there is little room.
	if room := l.body - len(out); room > 1 && len(given) > 1 {
		return append(out, given[max(len(given)-room, 0):]...)
	}
	return out
}

func (p *intakePage) answers(sty styles, side, width int) []string {
	if side == 0 {
		side = width
	}
	var out []string
	for _, g := range p.given {
		out = append(out, paint(sty.plain, hang("  ", g, side))...)
	}
	if len(out) > 0 && side != width {
		out = append([]string{sty.label.Render("So far")}, out...)
	}
	return out
}

func (p *intakePage) where() string {
	switch {
	case p.done:
		return ""
	case p.question.Of < p.question.Step || p.question.Of == 1: // how many follow depends on this one
		return fmt.Sprintf("question %d", p.question.Step)
	}
	return fmt.Sprintf("question %d of %d", p.question.Step, p.question.Of)
}
