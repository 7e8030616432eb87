package screen

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/source"
)

// longestInput is the most characters the input line holds: some fifty readings.
const longestInput = 1000

// input is the line that is typed.
type input struct {
	chars []rune
	at    int // where the cursor stands
	// refused is set when the text came back with an error. What is typed next
	// replaces it; Backspace or an arrow mends it.
	refused bool
	// offered is set while the text is an answer given before: Enter keeps it, and
	// what is typed replaces it.
	offered bool
	// lost is the text that was emptied with the last key. Up brings it back.
	lost string
	// opened is the key that opened the page on which the line was begun, while it
	// stands as the line's first letter.
	opened string
}

func (in *input) text() string { return string(in.chars) }

func (in *input) empty() bool { return len(in.chars) == 0 }

func (in *input) set(text string) {
	in.chars = []rune(text)
	in.at, in.refused, in.offered, in.opened = len(in.chars), false, false, ""
}

// offer lets an answer that was given before stand to be kept.
func (in *input) offer(text string) {
	in.set(text)
	in.offered = text != ""
}

// clear empties the line, so that Up brings it back.
func (in *input) clear() {
	text := in.text()
	in.set("")
	in.lost = text
}

// refuse leaves a text standing that could not be taken.
func (in *input) refuse(text string) {
	in.set(text)
	in.refused = text != ""
}

// begin makes room for a key: a refused text, or one that is only offered, goes when
// something is typed.
func (in *input) begin(k key) {
	if (in.refused || in.offered) && k.typed() {
		in.set("")
	}
	if k.name != "up" {
		in.lost = ""
	}
}

// insert adds text at the cursor, made harmless; what doesn't fit is left out.
func (in *input) insert(text string) {
	add := []rune(source.CleanLine(text))
	if room := longestInput - len(in.chars); len(add) > room {
		add = add[:max(room, 0)]
	}
	rest := append(add, in.chars[in.at:]...)
	in.chars = append(in.chars[:in.at:in.at], rest...)
	in.at += len(add)
}

// press edits the line; false when the key is none of its own.
func (in *input) press(k key) bool {
	switch {
	case k.paste != "":
		in.insert(k.paste)
		return true
	case k.char != 0:
		in.insert(string(k.char))
		return true
	case k.name == "up" && in.lost != "":
		in.set(in.lost)
		in.lost = ""
		return true
	case in.empty():
		return false
	}
	edits := in.edit(k.name)
	if edits { // an arrow or Backspace mends the text
		in.refused, in.offered = false, false
	}
	return edits
}

func (in *input) edit(name string) bool {
	switch name {
	case "backspace", "ctrl+h":
		if in.at > 0 {
			in.chars = append(in.chars[:in.at-1:in.at-1], in.chars[in.at:]...)
			in.at--
		}
	case "delete":
		if in.at < len(in.chars) {
			in.chars = append(in.chars[:in.at:in.at], in.chars[in.at+1:]...)
		}
	case "left":
		in.at = max(in.at-1, 0)
	case "right":
		in.at = min(in.at+1, len(in.chars))
	case "home", "ctrl+a":
		in.at = 0
	case "end", "ctrl+e":
		in.at = len(in.chars)
	case "ctrl+u":
		in.clear()
	case "ctrl+w":
		in.set(strings.TrimRightFunc(in.text(), notSpace))
	default:
		return false
	}
	return true
}

// bringsBack says how a text is had again that was emptied.
const bringsBack = "Up brings back what was typed"

// searching draws the line of a list that is searched, and what it wants.
func (in *input) searching(wants string, width int) string {
	if in.lost != "" {
		wants = bringsBack
	}
	return ends(in.view(width*2/3), wants, width)
}

func notSpace(r rune) bool { return r != ' ' }

// view draws the line with its cursor; the part around the cursor when it is
// too long. The cursor is a character, not a colour.
func (in *input) view(width int) string {
	left, right := string(in.chars[:in.at]), string(in.chars[in.at:])
	cursor := "_"
	if right != "" {
		cursor = "|"
	}
	room := width - 2 - ansi.StringWidth(cursor)
	if over := ansi.StringWidth(left) - room; over > 0 {
		left = ansi.TruncateLeft(left, over+1, "<")
	}
	return ansi.Truncate("> "+left+cursor+right, width, "")
}
