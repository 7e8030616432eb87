package screen

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// do does what a page asked for. It is the only place that calls the session,
// the intake and the store. A call is one durable append at most, some
// milliseconds, so it is made here and not in a command: nothing can come
// between an answer and the page that follows from it.
func (m *Model) do(a action) tea.Cmd {
	switch a.deed {
	case send:
		m.send(a.text)
	case prefill:
		m.input.set(a.text)
		m.wrong = ""
	case holdBack:
		m.wrong = capital(m.unseen()) + "."
	case show:
		m.show(a.view)
	case pickTest:
		m.over = &over{title: "Take a test", opener: "t", tests: picks(m.step.pos)}
	case lookUp:
		m.over = newPrices(m.bench)
	case unfold:
		m.over.prices.unfold()
	case openJob:
		m.open(a.job)
	case noJob:
		m.said, m.wrong = nil, fmt.Sprintf("%q is no job's number. Type the number of a job, n for a new one, or / and words to look for.", source.CleanLine(a.text))
		m.input.refuse(a.text)
	case newJob:
		m.begin()
	case answer:
		m.answer(a.text)
	case explain:
		m.said, m.over = m.intake.explain(a.text)
		m.wrong = ""
		m.input.offer(m.intake.question.Before)
	case back:
		m.back()
	case aside:
		m.said = []string{fmt.Sprintf("Job %d is kept as it stands.", m.session.ID())}
		m.leave()
	case shut:
		m.shut()
	case scroll:
		m.scroll(a)
	case timing:
		return m.timing()
	case counting:
		return m.startCount()
	case ringing:
		m.switchBell()
	case enlarge:
		m.switchBig()
	case quit:
		return tea.Quit
	}
	return nil
}

// send hands a typed line to the session. When it can't be done the line stays
// as it was typed, but for answers on it that are recorded already.
func (m *Model) send(text string) {
	before := len(m.session.Events())
	typed, stood := m.input.text(), m.step.prompt
	reply, err := m.session.Enter(m.ctx, text)
	m.over, m.from, m.follows = nil, 0, true
	m.said, m.wrong = reply.Said, ""
	m.input.set("")
	m.refresh()
	if err != nil {
		m.refuse(err, cmp.Or(reply.Rest, text), cmp.Or(reply.Rest, typed), stood)
	}
	m.showAnswer(before)
	switch {
	case reply.Left:
		m.leave()
	case reply.Show != "":
		m.show(reply.Show)
	case err == nil && asksMore(text):
		m.input.set(strings.TrimSpace(text) + " ") // a number alone would answer the step
	}
}

// asksMore says whether a line names one thing said of the machine, and not yet what is
// right.
func asksMore(text string) bool {
	words := strings.Fields(text)
	return len(words) == 2 && strings.EqualFold(words[0], string(ui.Machine))
}

// refuse says why a line could not be done, and leaves what of it is not recorded
// standing; not where another bench has brought the job to another step meanwhile: there
// it would be an answer to what was never looked at.
func (m *Model) refuse(err error, line, typed string, stood ui.Prompt) {
	m.wrong = sentence(err)
	now := m.step.prompt
	if errors.Is(err, ui.ErrOthers) && (now.Stage != stood.Stage || now.Title != stood.Title) {
		m.wrong += fmt.Sprintf(" Not recorded: %q.", line)
		typed = ""
	}
	if m.step.begun(typed) != "" {
		m.input.set(m.step.begun(typed))
		return
	}
	m.input.refuse(typed)
}

// refresh takes up what the session shows now. A caution counts as shown once
// the step it stood on is passed.
func (m *Model) refresh() {
	now := snapshot(m.session)
	if m.step != nil && m.step.prompt.Title != now.prompt.Title {
		for _, c := range m.step.prompt.Caution {
			m.cared[c] = true
		}
	}
	if now.watch.Runs && m.step != nil {
		now.ran = m.step.ran
	}
	now.cared = m.cared
	if m.step == nil || m.step.stepName() != now.stepName() {
		m.read = 0
	}
	m.step = now
	m.keepCount()
}

func (m *Model) show(view ui.Verb) {
	o := &over{view: view}
	for _, b := range append(viewKeys(true), jobsKeys()...) {
		if b.act.view == view {
			o.opener, o.title = b.keys[0], capital(b.says)
		}
	}
	switch {
	case view == ui.List:
		o.title, o.lines = "The checklist", m.step.view(view)
	case view == ui.Help:
		o.title = "Keys and words"
		o.lines = m.help()
	case m.step != nil:
		o.lines = m.step.view(view)
	}
	if view == ui.Paths && m.session != nil && m.session.CanChoose() {
		o.lines = append([]string{"Type a way's number, then Enter: it is chosen.", ""}, o.lines...)
	}
	if view == ui.Why && m.step != nil {
		o.lines = m.explained(o.lines)
	}
	m.over = o
}

// explained is what is said of the step; of a view that lies over it, what that is for.
func (m *Model) explained(lines []string) []string {
	if m.over != nil {
		if about := ui.AboutView(m.over.view); len(about) > 0 {
			return about
		}
	}
	if m.step.prompt.Stage == walk.AtSafe {
		return lines // which say the cautions in full
	}
	return append(m.step.cautions(), lines...)
}

// help is the help page, made from the keys of the page it was asked on.
func (m *Model) help() []string {
	if m.step == nil {
		return helpKeys(jobsKeys())
	}
	out := helpKeys(m.step.keys())
	out = append(out, "", "What is typed goes to the step with Enter:")
	return append(out, m.step.view(ui.Help)...)
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// newest is a store that lists its newest jobs without reading all of them: those
// that are open and most closed ones, with how many older ones it has.
type newest interface {
	Newest(ctx context.Context, most int) (jobs []job.Summary, older int, err error)
}

// mostListed is how many closed jobs stand in the list; who looks for an older one
// knows its number, or looks for words.
const mostListed = 500

// list reads the list of jobs.
func (m *Model) list() {
	var jobs []job.Summary
	var older int
	var err error
	if store, ok := m.bench.Store.(newest); ok {
		jobs, older, err = store.Newest(m.ctx, mostListed)
	} else {
		jobs, err = m.bench.Store.Jobs(m.ctx)
	}
	if err != nil {
		m.wrong = sentence(fmt.Errorf("the jobs can't be listed: %w", err))
		return
	}
	m.jobs.take(jobs, older)
}

// open goes on with a job.
func (m *Model) open(id int64) {
	s, said, err := ui.Resume(m.ctx, m.bench, id)
	if err != nil {
		m.said, m.wrong = nil, sentence(err)
		m.input.refuse(m.input.text())
		return
	}
	m.enter(s, said)
}

func (m *Model) enter(s *ui.Session, said []string) {
	m.session, m.asking, m.intake, m.over = s, nil, nil, nil
	m.step, m.cared, m.count, m.answered = nil, map[string]bool{}, countdown{}, nil
	m.said, m.wrong, m.from, m.follows = said, "", 0, true
	m.input.set("")
	m.refresh()
}

// leave goes back to the list. The job is kept: every step of it is.
func (m *Model) leave() {
	m.session, m.step, m.over, m.asking, m.intake = nil, nil, nil, nil, nil
	m.count, m.answered = countdown{}, nil
	m.wrong, m.from, m.jobs.at = "", 0, 0
	m.input.set("")
	m.list()
}

// begin begins an intake. Nothing is recorded before its last answer.
func (m *Model) begin() {
	m.asking = m.bench.Intake()
	m.said, m.wrong = nil, ""
	m.ask()
}

func (m *Model) ask() {
	q, ok := m.asking.Question()
	m.said = nil
	m.intake = &intakePage{question: q, given: m.asking.Given(), done: !ok}
	m.input.offer(q.Before)
	m.from, m.leaving = 0, false
}

func (m *Model) answer(text string) {
	if !m.intake.done {
		if err := m.asking.Answer(text); err != nil {
			m.wrong = sentence(err)
			m.input.refuse(text)
			return
		}
		m.wrong = ""
		m.ask()
	}
	if !m.intake.done {
		return
	}
	s, err := ui.Begin(m.ctx, m.bench, m.asking.Result())
	if err != nil {
		m.wrong = sentence(err)
		return
	}
	m.enter(s, []string{fmt.Sprintf("This is job %d.", s.ID())})
}

// back goes to the question before. From the first one it leaves the intake; where
// answers would be lost by that, only when it is asked for twice.
func (m *Model) back() {
	m.wrong = ""
	switch {
	case m.asking.Back():
		m.ask()
	case m.leaving || !m.asking.Answered():
		m.said = nil
		m.leave()
	default:
		m.leaving = true
		m.said = []string{"Esc once more leaves the intake, and its answers are forgotten. Enter goes on with it."}
	}
}

// shut closes what lies over the page, or empties the input line, or puts a countdown
// aside.
func (m *Model) shut() {
	switch {
	case m.over != nil:
		m.over = nil
	case m.input.empty() && m.count.runs:
		m.hideCount()
	default:
		m.input.clear()
		m.wrong = ""
	}
}

func (m *Model) scroll(a action) {
	by := a.by
	if a.page {
		by *= m.page()
	}
	switch {
	case m.over != nil:
		m.over.move(by)
	case m.intake == nil && m.step == nil:
		m.jobs.move(by, m.input.text())
	default:
		if strings.Contains(m.wrong, notSeen) {
			m.wrong = ""
		}
		m.from, m.follows = max(m.seen+by, 0), false
		m.seen = m.from
	}
}

// page is how far a page further is: a line of the page before stays, so that
// the eye finds on.
func (m *Model) page() int {
	l := m.layout()
	switch {
	case m.over != nil && m.over.tests != nil:
		return max(l.body-overHead-1, 1)
	case m.over != nil && m.over.prices != nil:
		return max((l.body-overHead)/priceHeight(l.width)-1, 1)
	case m.over != nil:
		return pageOf(l.body - overHead)
	case m.intake == nil && m.step == nil:
		return max(l.body/jobRows(l.width)-1, 1)
	}
	return pageOf(l.body)
}
