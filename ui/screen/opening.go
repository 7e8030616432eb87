package screen

import (
	"context"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"benchlead/ui"
)

// opening is the screen while the trees are read: the frame stands at once, and
// what is typed meanwhile counts as soon as they are there.
type opening struct {
	ctx     context.Context
	options Options
	load    func() (ui.Bench, error)

	size  *tea.WindowSizeMsg
	typed []tea.KeyMsg
	err   error // of load
}

// opened says that the bench is there, or why not.
type opened struct {
	bench ui.Bench
	err   error
}

func (o *opening) Init() tea.Cmd {
	return func() tea.Msg {
		b, err := o.load()
		return opened{b, err}
	}
}

// Update waits for the bench. It then hands over to the screen, with the size of
// the window and the keys of the meantime.
func (o *opening) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		o.size = &msg
	case tea.KeyMsg:
		if msg.Type == tea.KeyCtrlC {
			return o, tea.Quit
		}
		o.typed = append(o.typed, msg)
	case opened:
		if msg.err != nil {
			o.err = msg.err
			return o, tea.Quit
		}
		return o.begin(msg.bench)
	}
	return o, nil
}

func (o *opening) begin(b ui.Bench) (tea.Model, tea.Cmd) {
	options := o.options
	options.Bench = b
	m := NewModel(o.ctx, options)
	cmds := []tea.Cmd{m.Init()}
	if o.size != nil {
		m.Update(*o.size)
	}
	for _, k := range o.typed {
		if _, cmd := m.Update(k); cmd != nil {
			cmds = append(cmds, cmd)
		}
	}
	return m, tea.Batch(cmds...)
}

func (o *opening) View() string {
	m := Model{sty: newStyles(o.options.Out), width: usualWidth, height: usualHeight}
	if o.size != nil {
		m.width, m.height = max(o.size.Width, 1), max(o.size.Height, 1)
	}
	if tooSmall(m.width, m.height) {
		return strings.Join(m.small(), "\n")
	}
	m.jobs = jobsPage{record: o.options.Record, demo: o.options.Demo}
	out := append(m.head(m.layout()), "", "  Getting the bench ready ...")
	for len(out) < m.height-2 {
		out = append(out, "")
	}
	out = append(out, m.sty.dim.Render(strings.Repeat("-", m.width)))
	return strings.Join(out, "\n")
}
