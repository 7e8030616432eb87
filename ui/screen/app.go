package screen

import (
	"context"
	"errors"
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"benchlead/ui"
)

// Options are what the screen works with. Only Bench is needed.
type Options struct {
	Bench  ui.Bench
	Load   func() (ui.Bench, error) // of Run: makes the bench once the screen stands; nil: Bench is used
	In     io.Reader
	Out    io.Writer
	Record string         // where the record is kept, for showing
	Demo   bool           // the record is thrown away at the end
	Zone   *time.Location // for the times in the list of jobs; nil: the computer's
}

// Run shows the screen until the tech leaves or ctx ends. Whatever was acknowledged is
// in the store by then. It is one program for the whole session. Signals are left to
// the caller, who ends ctx.
func Run(ctx context.Context, o Options) error {
	outer := ctx
	ctx, done := context.WithCancel(ctx)
	defer done() // nothing waits for suspects any longer
	first := &opening{ctx: ctx, options: o, load: o.Load}
	if o.Load == nil {
		first.load = func() (ui.Bench, error) { return o.Bench, nil }
	}
	// Of two that hear one signal each waits for the other to end.
	opts := []tea.ProgramOption{tea.WithContext(ctx), tea.WithAltScreen(), tea.WithoutSignalHandler()}
	if o.In != nil {
		opts = append(opts, tea.WithInput(o.In))
	}
	if o.Out != nil {
		opts = append(opts, tea.WithOutput(o.Out))
	}
	_, err := tea.NewProgram(first, opts...).Run()
	if first.err != nil {
		return first.err
	}
	if outer.Err() != nil && errors.Is(err, tea.ErrProgramKilled) {
		return nil // it ends as by Ctrl-C: everything is kept
	}
	return err
}

// Model is the whole screen. It is a tea.Model; see the package comment for
// driving it without a terminal.
type Model struct {
	ctx   context.Context
	bench ui.Bench
	sty   styles

	width, height int

	jobs     jobsPage
	asking   *ui.Intake      // the intake that goes on, or nil
	intake   *intakePage     // what is shown of it
	session  *ui.Session     // the job that is open, or nil
	step     *step           // what is shown of it
	cared    map[string]bool // cautions shown on its earlier steps
	over     *over           // what lies over the page, or nil
	input    input
	ticks    int  // counts the runs of the watch, so that a tick of an earlier one is known
	from     int  // first line of the body to be seen
	seen     int  // the one that is: a larger window may show all of it, and give way again
	leaving  bool // the intake is left when Esc is pressed once more
	big      bool // readings are shown in big figures
	bell     bool // a countdown ends with the bell
	count    countdown
	answered *answered // the reading just given, in big figures until the next key
	read     int       // lines of the page that were shown
	unread   int       // and those that have to be before yes counts
	follows  bool      // the body moves with what is ticked next, until it is scrolled

	said  []string // what came of the last line
	wrong string   // why it could not be done
}

var _ tea.Model = (*Model)(nil)

// NewModel makes the screen with the list of jobs on it.
func NewModel(ctx context.Context, o Options) *Model {
	zone := o.Zone
	if zone == nil {
		zone = time.Local
	}
	m := &Model{ctx: ctx, bench: o.Bench, sty: newStyles(o.Out), width: usualWidth, height: usualHeight}
	m.jobs = jobsPage{lib: o.Bench.Library, zone: zone, record: o.Record, demo: o.Demo}
	m.list()
	return m
}

// Session is the job that is open; nil at the list of jobs and at the intake.
func (m *Model) Session() *ui.Session { return m.session }

// Init has nothing to load: the first screen is there already. It begins to wait
// for suspects.
func (m *Model) Init() tea.Cmd { return m.awaitSuspects() }

// Update takes a key, a new size, or that suspects are ready. What a key asks for is done before it
// returns.
func (m *Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = max(msg.Width, 1), max(msg.Height, 1)
	case suspectsReady:
		return m, m.takeSuspects()
	case watchTick:
		return m, m.tick(msg)
	case countTick:
		return m, m.countOn(msg)
	case tea.KeyMsg:
		for _, k := range keys(msg) {
			if cmd := m.do(m.press(k)); cmd != nil {
				return m, cmd
			}
		}
	}
	return m, nil
}

// press asks the page on top what a key means.
func (m *Model) press(k key) action {
	switch {
	case k.name == "ctrl+c":
		return action{deed: quit}
	case tooSmall(m.width, m.height):
		return action{} // nobody answers what can't be read
	}
	m.input.begin(k)
	if m.turned(k) {
		return action{}
	}
	switch {
	case m.step != nil && m.over == nil && k.name == "enter" && m.readsFirst():
		return m.readOn()
	case m.step != nil && m.step.watch.Runs && (k.char == ' ' || k.name == "enter" && m.input.empty()):
		return action{deed: timing} // whatever lies over the page
	case m.over != nil:
		return m.over.press(k, m.step, &m.input)
	case m.intake != nil:
		return m.intake.press(k, &m.input)
	case m.step != nil:
		return m.step.press(k, &m.input)
	}
	return m.jobs.press(k, &m.input)
}

// bindings are the keys that do something now.
func (m *Model) bindings() []binding {
	switch {
	case m.over != nil:
		return m.over.keys(m.step)
	case m.intake != nil:
		return intakeKeys()
	case m.step != nil:
		return m.step.keys()
	}
	return jobsKeys()
}
