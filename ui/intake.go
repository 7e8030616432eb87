package ui

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// Intake asks what is known of a machine before the first reading, one question
// at a time. Every question but the system and the complaint may be passed over
// with an empty line.
type Intake struct {
	lib   *tree.Library
	of    func(system string) *tree.Library // the trees of a system
	owned []string                          // ids of the shop's meters, the usual one first
	money string                            // the currency of the prices; empty when there are none
	in    job.Intake
	at    int
	start start
	typed []string          // the answers so far, as they were typed
	given []string          // the same in words, for showing
	aloud []string          // the same for whoever hears it
	kept  map[string]string // by question: the answer that was typed last, also of questions gone back from
}

// Question is one thing asked at intake.
type Question struct {
	Title   string
	Choices []string // numbered; empty when a value or words are wanted
	Tells   []string // how each choice is recognised; empty when that needs no words
	Unsure  string   // the number of the choice that answers nothing: it shows how to tell them apart
	Nearest string   // what to do when none of the choices is recognised
	Mistake string   // the mistake people make with it
	Default string   // what an empty line stands for, in words; empty: an answer is needed
	Ask     string   // what is typed, in words
	About   string   // what it is asked for, and where the answer is found
	Before  string   // what was typed when it was asked before; empty when it was not, or the usual was taken
	Said    string   // Before in words
	Step    int      // from 1
	Of      int      // 0 while the system, and with it the number of questions, is not known

	titles []string // of choices that say more than a title
	twice  bool     // what stands in brackets in Title, Ask or About say too
}

// NewIntake begins an intake on these trees. owned are the ids of the meters that the
// shop has, the usual one first.
func NewIntake(lib *tree.Library, owned ...string) *Intake {
	return Bench{Library: lib, Meters: owned}.Intake()
}

// Intake begins an intake at this bench.
func (b Bench) Intake() *Intake {
	return &Intake{lib: b.Library, of: b.Of, owned: b.Meters, money: b.currency(), kept: map[string]string{}, in: unasked()}
}

// currency is that of the prices; empty when there are none.
func (b Bench) currency() string {
	if b.Prices == nil {
		return ""
	}
	return b.Prices.Shop.Currency
}

// unasked is an intake before the first answer.
func unasked() job.Intake {
	return job.Intake{Label: map[string]float64{}, LabelText: map[string]string{}, Celsius: 20}
}

// item is one question with what an answer does.
type item struct {
	Question
	set   func(in *job.Intake, text string) error
	unset func(in *job.Intake) // takes the answer away; nil where one is needed
	words []string             // what is chosen from by its word
}

// Question is what is asked now; ok is false when nothing is left to ask.
func (i *Intake) Question() (q Question, ok bool) {
	items := i.items()
	if i.at >= len(items) {
		return Question{}, false
	}
	q = items[i.at].Question
	q.Step, q.Before = i.at+1, i.kept[items[i.at].key()]
	q.Said = q.spoken(q.Before)
	switch {
	case q.Ask != "":
	case len(q.Choices) > 0:
		q.Ask = "a number of the list"
	default:
		q.Ask = "the answer"
	}
	if i.in.Complaint != "" && i.lib.Systems[i.in.System] != nil || len(i.lib.Troubles) == 0 && len(items) > 1 {
		q.Of = len(items)
	}
	return q, true
}

// Answer takes an answer to the current question; an empty one is what is usual. On
// an error the question stands as it was.
func (i *Intake) Answer(text string) error {
	items := i.items()
	if i.at >= len(items) {
		return nil
	}
	text = strings.TrimSpace(source.CleanLine(text))
	if err := i.again(append(slices.Clone(i.typed), text)); err != nil {
		return err
	}
	i.kept[items[i.at-1].key()] = text
	return nil
}

// again answers all from the first question on, so that nothing is left of an answer
// that was gone back from.
func (i *Intake) again(typed []string) error {
	out := &Intake{lib: i.lib, of: i.of, owned: i.owned, money: i.money, kept: i.kept, in: unasked()}
	for _, text := range typed {
		if err := out.take(text); err != nil {
			return err
		}
	}
	*i = *out
	return nil
}

// take takes one answer.
func (i *Intake) take(text string) error {
	it, said := i.items()[i.at], text
	switch {
	case text == "" && it.Default == "":
		return fmt.Errorf("this one is needed")
	case text == "":
		said = it.Default
	default:
		if err := it.set(&i.in, text); err != nil {
			return err
		}
	}
	i.typed = append(i.typed, text)
	i.given = append(i.given, it.Title+": "+it.spoken(said))
	i.aloud = append(i.aloud, it.Aloud()+": "+it.spoken(said))
	i.at++
	return nil
}

// key is what a question is known by when it is asked once more: what an answer
// stands for must be the same.
func (it item) key() string { return it.Title + "\n" + strings.Join(it.Choices, "\n") }

// Aloud is the title for whoever hears it, without what is said twice.
func (q Question) Aloud() string {
	title := q.Title
	if q.twice {
		title, _, _ = strings.Cut(title, " (")
	}
	return strings.TrimSuffix(title, "?")
}

// spoken is an answer in words: numbers of the list become what they stand for.
func (q Question) spoken(text string) string {
	var out []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' }) {
		n, err := strconv.Atoi(word)
		switch {
		case err != nil || n < 1 || n > len(q.Choices):
			return text
		case n <= len(q.titles):
			out = append(out, q.titles[n-1])
		default:
			_, title, _ := strings.Cut(q.Choices[n-1], " ")
			out = append(out, title)
		}
	}
	return strings.Join(out, "; ")
}

// Back goes to the question before; false at the first. No answer is forgotten: it is
// Before of its question.
func (i *Intake) Back() bool {
	if i.at == 0 {
		return false
	}
	return i.again(slices.Clone(i.typed[:i.at-1])) == nil // each was taken before
}

// GoesBack says whether a typed line asks for the question before. Nothing that can be
// answered is called so.
func GoesBack(text string) bool {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "back", "go back", string(Undo):
		return true
	}
	return false
}

// Answered says whether anything was answered that would be lost with the intake.
func (i *Intake) Answered() bool { return len(i.kept) > 0 }

// Given are the answers so far, in words.
func (i *Intake) Given() []string { return slices.Clone(i.given) }

// GivenAloud is Given for whoever hears it.
func (i *Intake) GivenAloud() []string { return slices.Clone(i.aloud) }

// Result is the intake; call it when no question is left.
func (i *Intake) Result() job.Intake {
	out := i.in
	out.Label, out.LabelText = maps.Clone(out.Label), maps.Clone(out.LabelText)
	if out.Meter.ID == "" {
		if ids := i.meters(); len(ids) > 0 {
			out.Meter = i.lib.Instruments(ids[0])
		}
	}
	return out
}

// items are the questions, which depend on the system once it is known.
func (i *Intake) items() []item {
	items, sys := i.toTree()
	if sys == nil {
		return items
	}
	return append(items, i.ofMachine(i.of(sys.ID).Systems[sys.ID])...)
}

func (i *Intake) askSystem() item {
	ids := systemIDs(i.lib)
	var choices, titles []string
	for n, id := range ids {
		s := i.lib.Systems[id]
		titles = append(titles, s.Title)
		choices = append(choices, fmt.Sprintf("%d %s: %s", n+1, s.Title, s.About))
	}
	q := Question{Title: "How does it start", Choices: choices, titles: titles, Mistake: mistakeMachine, About: "It settles which faults and tests the machine has."}
	return item{
		Question: q.unsure(nearestMachine),
		set: func(in *job.Intake, text string) error {
			id, err := among(ids, text)
			if err != nil {
				return err
			}
			setSystem(in, id)
			return nil
		},
	}
}

// setSystem sets the system. What was said of another one is forgotten.
func setSystem(in *job.Intake, id string) {
	if in.System != id {
		in.Complaint, in.Label, in.LabelText, in.History = "", map[string]float64{}, map[string]string{}, nil
	}
	in.System = id
}

func askComplaint(complaints []tree.Complaint) item {
	var ids, choices []string
	for n, c := range complaints {
		ids = append(ids, c.ID)
		choices = append(choices, fmt.Sprintf("%d %s", n+1, c.Title))
	}
	q := Question{Title: "What does it do", Choices: choices, Mistake: mistakeTrouble, About: "What comes nearest to what the owner says. It settles which tests are asked, and in which order."}
	return item{
		Question: q.unsure(nearestComplaint),
		set: func(in *job.Intake, text string) (err error) {
			in.Complaint, err = among(ids, text)
			return err
		},
	}
}

// among finds an id by its number in the list, its name, or the beginning of
// just one name.
func among(ids []string, text string) (string, error) {
	choices := make([]tree.Choice, len(ids))
	for i, id := range ids {
		choices[i] = tree.Choice{Name: id}
	}
	return pick(choices, text)
}
