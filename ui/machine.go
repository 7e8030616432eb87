package ui

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/report"
)

// What was said of a machine when it was taken in can be put right while the job is open:
// a label that is read late, or was read wrongly, a name. Every reading is then judged by
// what holds now. What kind of machine it is can't be: its tests are others.

// again is an intake that knows what was said, with the questions that may be asked once
// more.
func (s *Session) again() (*Intake, []item) {
	i := s.bench.Intake()
	i.in = *s.facts.Intake
	i.in.Label, i.in.LabelText = maps.Clone(i.in.Label), maps.Clone(i.in.LabelText)
	if i.in.Label == nil {
		i.in.Label = map[string]float64{}
	}
	if i.in.LabelText == nil {
		i.in.LabelText = map[string]string{}
	}
	return i, append([]item{askComplaint(s.pos.System.Complaints)}, i.ofMachine(s.pos.System)...)
}

// machineLines are what was said of the machine, numbered as the questions are.
func (s *Session) machineLines() []string {
	_, items := s.again()
	var out []string
	for n, said := range report.Described(s.pos.System, *s.facts.Intake) {
		line := fmt.Sprintf("%d %s: %s", n+1, items[n].Title, said)
		if said == report.NotRead {
			line += "; taken for " + items[n].Default
		}
		out = append(out, line)
	}
	return out
}

// machineHint says how one of them is put right, by what is typed.
func (s *Session) machineHint(typed string) []string {
	if s.facts.Closed != nil {
		return nil
	}
	return []string{"", fmt.Sprintf("To put one right, type %s; %q takes what was said away. Every reading is judged by it then, those already taken too. Another kind of machine is a new job.", typed, nothing)}
}

// nothing is the word for what was said and is not known after all.
const nothing = "unknown"

// correct puts one thing right that was said of the machine.
func (s *Session) correct(ctx context.Context, text string) (Reply, error) {
	number, said, _ := strings.Cut(strings.TrimSpace(text), " ")
	if number == "" {
		return Reply{Show: Machine}, nil
	}
	if err := s.ended(); err != nil {
		return Reply{}, err
	}
	i, items := s.again()
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > len(items) {
		return Reply{}, fmt.Errorf("%q is no number of what was said of the machine, which go from 1 to %d; %q lists them", number, len(items), Machine)
	}
	it := items[n-1]
	if said = strings.TrimSpace(said); said == "" {
		return Reply{Said: howToCorrect(n, it)}, nil
	}
	if says, ok := it.Explain(said); ok {
		return Reply{Said: says}, nil
	}
	if err := it.put(&i.in, said); err != nil {
		return Reply{}, err
	}
	differ := report.Differences(s.pos.System, *s.facts.Intake, i.in)
	if len(differ) == 0 {
		return Reply{Said: []string{"It was said like that; nothing was recorded."}}, nil
	}
	before := foundIDs(s.pos.Verdict)
	in := i.Result()
	if err := s.record(ctx, job.Event{Kind: job.KindCorrected, Corrected: &in}); err != nil {
		return Reply{}, err
	}
	return Reply{Said: append(differ, s.differences(before, foundIDs(s.pos.Verdict))...)}, nil
}

// put sets what a question asks for, or takes it away.
func (it item) put(in *job.Intake, text string) error {
	if !strings.EqualFold(text, nothing) || slices.Contains(it.words, nothing) {
		return it.set(in, text)
	}
	if it.unset == nil {
		return errors.New("this one is needed; nothing was recorded")
	}
	it.unset(in)
	return nil
}

// howToCorrect says what may stand behind the number of a question.
func howToCorrect(n int, it item) []string {
	out := []string{strings.TrimSuffix(it.Title, "?") + "?"}
	for _, c := range it.Choices {
		number, title, _ := strings.Cut(c, " ")
		out = append(out, number+". "+title)
	}
	ask := it.Ask
	if ask == "" {
		ask = "the answer"
		if len(it.Choices) > 0 {
			ask = "a number of the list"
		}
	}
	return append(out, fmt.Sprintf("Type %s %d and %s.", Machine, n, ask))
}

// differences say how findings differ from those of before, a line each; none when they
// don't.
func (s *Session) differences(before, now []string) []string {
	var out []string
	for _, id := range now {
		if !slices.Contains(before, id) {
			out = append(out, "Now also found: "+s.faultTitle(id)+".")
		}
	}
	for _, id := range before {
		if !slices.Contains(now, id) {
			out = append(out, "No longer found: "+s.faultTitle(id)+".")
		}
	}
	return out
}
