package line

import (
	"errors"
	"fmt"
	"strings"

	"benchlead/diag/job"
	"benchlead/ui"
)

// ErrLeft says that an intake was left before its last question.
var ErrLeft = errors.New("the intake was left")

// Intake asks the questions of an intake. It returns ErrEnd when the input ends
// before the last one, and ErrLeft when it is left: nothing was recorded then.
func (f *Face) Intake(b ui.Bench) (job.Intake, error) {
	in := b.Intake()
	said, wrong := 0, false
	for {
		q, ok := in.Question()
		if !ok {
			return in.Result(), f.err
		}
		if said != q.Step {
			f.question(q)
			said = q.Step
		}
		if wrong { // the list is not said again, what is asked is
			f.Say(asked(q) + " " + asks(q))
		} else {
			f.Say(asks(q))
		}
		text, err := f.read()
		if err != nil {
			return job.Intake{}, err
		}
		wrong = false
		switch word := strings.ToLower(strings.TrimSpace(text)); {
		case word == "leave":
			return job.Intake{}, ErrLeft
		case ui.GoesBack(word):
			if !in.Back() {
				f.Say("This is the first question.")
			}
			said = 0
		case word == "again":
			said = 0
		case word == "?" || word == "help" || word == "h":
			f.explain(in, q)
			said = 0
		default:
			wrong = !f.answer(in, q, text)
		}
	}
}

// answer takes an answer; false when the question stays.
func (f *Face) answer(in *ui.Intake, q ui.Question, text string) bool {
	if says, ok := q.Explain(text); ok {
		f.all(says)
		return false
	}
	switch typed := strings.TrimSpace(text); {
	case q.Before != "" && typed == "":
		text = q.Before
	case q.Before != "" && strings.EqualFold(typed, usual):
		text = ""
	}
	if err := in.Answer(text); err != nil {
		f.Say(sentence(err))
		return false
	}
	return true
}

// asked is what is asked, as a question.
func asked(q ui.Question) string { return q.Aloud() + "?" }

// usual is the word for what is usual at a question that was answered otherwise before.
const usual = "usual"

// question writes a question with its choices; how it is answered comes behind them.
func (f *Face) question(q ui.Question) {
	f.Say("")
	head := fmt.Sprintf("Question %d. ", q.Step)
	if q.Of > 0 {
		head = fmt.Sprintf("Question %d of %d. ", q.Step, q.Of)
	}
	f.Say(head + asked(q))
	f.choices(q.Choices)
}

// asks is what may be typed, said last.
func asks(q ui.Question) string {
	out := "Type " + q.Ask
	switch {
	case q.Before != "" && q.Default != "":
		out += fmt.Sprintf(". Enter alone keeps: %s. %q means: %s", q.Said, usual, q.Default)
	case q.Before != "":
		out += ". Enter alone keeps: " + q.Said
	case q.Default != "":
		out += ". Enter alone means: " + q.Default
	}
	if len(q.Tells) > 0 {
		out += ". \"1?\" says how 1 is recognised"
	}
	if q.Step == 1 {
		out += ". \"?\" says more"
	}
	return out + "."
}

// explain says how an intake goes, and what was answered so far.
func (f *Face) explain(in *ui.Intake, q ui.Question) {
	f.all(q.Help())
	if given := in.GivenAloud(); len(given) > 0 {
		f.Say("So far:")
		f.all(given)
	}
	f.Say(`"back" goes to the question before, "again" says this one again. "leave" drops the intake; nothing is recorded before its last question.`)
}
