package screen

import (
	"io"

	"github.com/charmbracelet/lipgloss"
)

// styles are the looks of the few kinds of text there are. Where something stands, a
// word or a sign says what it is; the looks only help the eye to it. Bold and reverse
// are there with sixteen colours, with two and on paper-white as on black, and for
// every eye. The one colour is that of the red lead, beside its mark and its word: of
// the sixteen it can be read on white and on black.
type styles struct {
	plain  lipgloss.Style
	title  lipgloss.Style // what this page is about
	label  lipgloss.Style // the word before a value
	red    lipgloss.Style // the red lead
	black  lipgloss.Style // the black lead
	care   lipgloss.Style // cautions
	danger lipgloss.Style // the heading of a danger
	stop   lipgloss.Style // errors
	good   lipgloss.Style // called
	key    lipgloss.Style // a key in the key line
	cursor lipgloss.Style // the chosen line of a list
	dim    lipgloss.Style // rules, which words stand in
}

// newStyles makes the styles for a terminal; for anything else, and with
// NO_COLOR, they change nothing.
func newStyles(out io.Writer) styles {
	if out == nil {
		out = io.Discard
	}
	return stylesOf(lipgloss.NewRenderer(out))
}

func stylesOf(r *lipgloss.Renderer) styles {
	// Said here, so that the terminal is never asked: the answer isn't used.
	r.SetHasDarkBackground(true)
	plain := r.NewStyle()
	bold := plain.Bold(true)
	return styles{
		plain:  plain,
		title:  bold,
		label:  plain,
		red:    bold.Foreground(lipgloss.Color("1")),
		black:  bold.Reverse(true),
		care:   bold,
		danger: bold.Reverse(true),
		stop:   bold,
		good:   bold,
		key:    bold,
		cursor: bold,
		dim:    plain,
	}
}
