package screen

import (
	"io"

	"github.com/charmbracelet/lipgloss"
)

// styles are the looks of the few kinds of text there are. The sixteen colours
// of the terminal are used, which its owner chose to be readable, and none
// carries meaning alone: a word or a sign says the same.
type styles struct {
	plain  lipgloss.Style
	title  lipgloss.Style // what this page is about
	label  lipgloss.Style // the word before a value
	red    lipgloss.Style // the red lead
	black  lipgloss.Style // the black lead
	care   lipgloss.Style // cautions
	stop   lipgloss.Style // dangers and errors
	good   lipgloss.Style // called
	key    lipgloss.Style // a key in the key line
	cursor lipgloss.Style // the chosen line of a list
	dim    lipgloss.Style // rules
}

// newStyles makes the styles for a terminal; for anything else, and with
// NO_COLOR, they change nothing.
func newStyles(out io.Writer) styles {
	if out == nil {
		out = io.Discard
	}
	r := lipgloss.NewRenderer(out)
	// Said here, so that the terminal is never asked: the answer isn't used.
	r.SetHasDarkBackground(true)
	plain := r.NewStyle()
	return styles{
		plain:  plain,
		title:  plain.Bold(true),
		label:  plain.Foreground(lipgloss.Color("6")),
		red:    plain.Foreground(lipgloss.Color("1")).Bold(true),
		black:  plain.Bold(true).Reverse(true),
		care:   plain.Foreground(lipgloss.Color("3")),
		stop:   plain.Foreground(lipgloss.Color("1")).Bold(true),
		good:   plain.Foreground(lipgloss.Color("2")).Bold(true),
		key:    plain.Bold(true),
		cursor: plain.Bold(true),
		dim:    plain.Foreground(lipgloss.Color("8")),
	}
}
