package ui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/walk"
)

// servicesPrompt offers what is usual before a machine is handed back.
func (s *Session) servicesPrompt(p walk.Position) Prompt {
	out := Prompt{
		Stage: p.Stage, Title: "Usual work before it is handed back",
		Tell: []string{"The repair is done. None of this is needed for it."},
		Ask:  "the number of what is done, pass and a number for one left out, or pass for the rest; list says how",
	}
	minutes := 0
	var care []string
	for i, l := range p.Services {
		it := Item{Number: i + 1, Text: serviceText(l), Tell: l.Service.Tell, Mark: MarkOpen}
		switch {
		case l.Left:
			it.Mark = MarkLeft
		case l.Done:
			it.Mark = MarkDone
		default:
			minutes += l.Service.Minutes
			care = append(care, l.Service.Cautions...)
			it.Next, it.Begin = l.Service.ID == s.serving, s.needsSafe(l.Service.ID)
		}
		out.List = append(out.List, it)
	}
	if slices.ContainsFunc(out.List, func(it Item) bool { return it.Begin }) {
		out.Ask = "the number of one before you begin it and when it is done, pass N to leave it out, or pass for the rest; list says how"
	}
	out.Cost, out.Caution = Minutes(float64(minutes)), s.cautionWords(care)
	return out
}

func serviceText(l walk.ServiceLine) string {
	text := l.Service.Title
	if took := Minutes(float64(l.Service.Minutes)); took != "" {
		text += " (" + took + ")"
	}
	return text
}

// serve records services as done, or as left out. One that needs the machine made safe
// is begun first: its number asks for that, and says that it is done the next time.
func (s *Session) serve(ctx context.Context, left bool, list ...Item) (Reply, error) {
	if !left {
		if wait := s.notSafe(list); len(wait) > 1 {
			return Reply{}, fmt.Errorf("the machine is not made safe for these: %s. Type the number of one before you begin it. Nothing was recorded", strings.Join(wait, ", "))
		}
		for _, it := range list {
			if id := s.pos.Services[it.Number-1].Service.ID; s.needsSafe(id) {
				s.serving = id
				return Reply{Said: []string{"First make it safe. Type the number again when it is done."}}, nil
			}
		}
	}
	events, said := s.served(left, list)
	s.serving = ""
	return Reply{Said: said}, s.record(ctx, events...)
}

// needsSafe says whether a service needs something that is not confirmed.
func (s *Session) needsSafe(id string) bool {
	return len(walk.BeforeService(s.bench.Library, s.facts, s.pos, id).Safe) > 0
}

// notSafe are the numbers and titles of those of some services that the machine is
// not made safe for.
func (s *Session) notSafe(list []Item) []string {
	var out []string
	for _, it := range list {
		if v := s.pos.Services[it.Number-1].Service; s.needsSafe(v.ID) {
			out = append(out, fmt.Sprintf("%d %s", it.Number, v.Title))
		}
	}
	return out
}

// served are services done, or left out, as events and in words.
func (s *Session) served(left bool, list []Item) (events []job.Event, said []string) {
	word := ": done."
	if left {
		word = ": left out."
	}
	for i, it := range list {
		service := s.pos.Services[it.Number-1].Service
		if leaves := walk.LeftBy(s.bench.Library, s.pos.System, service); !left && len(leaves) > 0 {
			events = append(events, job.Event{Kind: job.KindSafe, Safe: &job.Safe{Confirmed: leaves}})
		}
		events = append(events, job.Event{Kind: job.KindServed, Served: &job.Served{Service: service.ID, Left: left, With: i > 0}})
		said = append(said, service.Title+word)
	}
	return events, said
}

// leaveOut leaves one service out, by its number, or all that are open. Why, if it
// is said, is noted.
func (s *Session) leaveOut(ctx context.Context, p walk.Position, text string) (Reply, error) {
	list := s.servicesPrompt(p).List
	if isDigits(text) {
		it, err := itemOf(list, text)
		if err != nil {
			return Reply{}, err
		}
		return s.serve(ctx, true, it)
	}
	open := slices.DeleteFunc(list, func(it Item) bool { return !it.Open() })
	events, said := s.served(true, open)
	if text != "" {
		note := fmt.Sprintf("Services left out: %s.", trimStop(text))
		events[0].Served.With = true
		events = append([]job.Event{{Kind: job.KindNoted, Noted: &job.Noted{Text: note}}}, events...)
	}
	if len(said) > 1 { // one line: what is asked next must not lose its place to them
		said = []string{fmt.Sprintf("%d services left out. \"undo\" asks for all of them again.", len(said))}
	}
	return Reply{Said: said}, s.record(ctx, events...)
}

// serviceTitle is the title of a service; its id when the trees have it no longer.
func (s *Session) serviceTitle(id string) string {
	if v := s.bench.Library.Services[id]; v != nil {
		return v.Title
	}
	return id
}
