package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/walk"
)

// Item is one line of a list that is ticked.
type Item struct {
	Number int
	Text   string
	Tell   string // how it is done, where that is not the text
	Mark   string // as it is shown
	Next   bool   // the one that is ticked next
	Begin  bool   // its number asks first for what makes it safe, and ticks it after that
}

// The marks of an item.
const (
	MarkOpen = "[ ]"
	MarkDone = "[x]"
	MarkLeft = "[-]" // left out
)

// Open says whether nobody has said yet what became of the item.
func (i Item) Open() bool { return i.Mark == MarkOpen }

// repairPrompt is a repair as a checklist. Its cautions are confirmed first, in a
// whole word.
func (s *Session) repairPrompt(p walk.Position) Prompt {
	r := p.Repair
	out := Prompt{
		Stage: p.Stage, Title: r.Title, Cost: Minutes(float64(r.Minutes)), Caution: s.cautionWords(r.Cautions),
		List: items(p.Lines), Care: careOpen(p.Lines), Ask: "done",
	}
	needed := slices.ContainsFunc(p.Lines, func(l walk.Line) bool { return l.Needed() && !l.Done })
	switch {
	case out.Care:
		out.Ask = "yes when the cautions are understood"
	case needed:
		out.Ask = "tick for the next line, tick and a number, or all"
	case slices.ContainsFunc(out.List, Item.Open):
		out.Ask = "tick for the next line, or done"
	}
	return out
}

// careOpen says whether the cautions are not confirmed yet.
func careOpen(lines []walk.Line) bool {
	return slices.ContainsFunc(lines, func(l walk.Line) bool { return l.Kind == walk.LineCare && !l.Done })
}

// items are the lines to be ticked, the cautions apart. None is next before those
// are confirmed.
func items(lines []walk.Line) []Item {
	var out []Item
	next := !careOpen(lines)
	for _, l := range lines {
		if l.Kind == walk.LineCare {
			continue
		}
		it := Item{Number: len(out) + 1, Text: l.Text, Mark: MarkDone}
		if !l.Done {
			it.Mark, it.Next, next = MarkOpen, next, false
		}
		out = append(out, it)
	}
	return out
}

// tick says of the next line, or of one by its number, that it is done.
func (s *Session) tick(ctx context.Context, text string) (Reply, error) {
	if err := s.listed(); err != nil {
		return Reply{}, err
	}
	p := s.Prompt()
	if p.Care {
		return Reply{}, errCare
	}
	it, err := itemOf(p.List, text)
	if err != nil {
		return Reply{}, err
	}
	return s.tickItems(ctx, p.Stage, it)
}

// errCare says that the cautions of a repair come first.
var errCare = errors.New("first the cautions: type \"yes\" when they are understood. Nothing was recorded")

// listed says why there is nothing to be ticked; nil when there is a list.
func (s *Session) listed() error {
	if stage := s.Position().Stage; stage != walk.AtRepair && stage != walk.AtService {
		return errors.New("there is no list to be ticked here; nothing was recorded")
	}
	return nil
}

// tickAll says that all open lines are done. The cautions are confirmed before that,
// by a word of their own.
func (s *Session) tickAll(ctx context.Context) (Reply, error) {
	if err := s.listed(); err != nil {
		return Reply{}, err
	}
	p := s.Prompt()
	if p.Care {
		return Reply{}, errCare
	}
	open := slices.DeleteFunc(slices.Clone(p.List), func(it Item) bool { return !it.Open() })
	if len(open) == 0 {
		return Reply{}, errors.New("all lines are ticked already; type \"done\" when the repair is done")
	}
	return s.tickItems(ctx, p.Stage, open...)
}

// itemOf is the item that a typed number names, or the next.
func itemOf(list []Item, text string) (Item, error) {
	if text == "" {
		if i := slices.IndexFunc(list, func(it Item) bool { return it.Next }); i >= 0 {
			return list[i], nil
		}
		return Item{}, errors.New("nothing is next here; type the number of a line. Nothing was recorded")
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > len(list) {
		return Item{}, fmt.Errorf("%q is no number of the list; \"list\" shows it. Nothing was recorded", text)
	}
	if !list[n-1].Open() {
		return Item{}, fmt.Errorf("line %d is settled already; \"undo\" takes the last one back", n)
	}
	return list[n-1], nil
}

// tickItems records items as done, all of them or none.
func (s *Session) tickItems(ctx context.Context, stage walk.Stage, list ...Item) (Reply, error) {
	if stage == walk.AtService {
		return s.serve(ctx, false, list...)
	}
	var events []job.Event
	var said []string
	lined := func(text string) {
		events = append(events, job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: s.pos.Repair.ID, Line: text}})
	}
	for _, l := range s.pos.Lines {
		if l.Kind == walk.LineCare && !l.Done {
			lined(l.Text)
			said = append(said, "The cautions are understood.")
		}
	}
	for _, it := range list {
		lined(it.Text)
	}
	switch {
	case len(list) == 1:
		said = append(said, trimStop(list[0].Text)+": done.")
	case len(list) > 1:
		said = append(said, fmt.Sprintf("%d lines: done.", len(list)))
	}
	return Reply{Said: said}, s.record(ctx, events...)
}

// understood confirms the cautions of a repair.
func (s *Session) understood(ctx context.Context, p walk.Position) (Reply, error) {
	if !careOpen(p.Lines) {
		return Reply{}, errors.New("type \"tick\" for the next line, and \"done\" when the repair is done; nothing was recorded")
	}
	return s.tickItems(ctx, p.Stage)
}

// openSteps says why a repair can't be called done: cautions or steps are open.
func openSteps(lines []walk.Line) error {
	if careOpen(lines) {
		return errCare
	}
	var open []string
	for i, it := range items(lines) {
		if it.Open() && neededAt(lines, i) {
			open = append(open, strconv.Itoa(it.Number))
		}
	}
	switch len(open) {
	case 0:
		return nil
	case 1:
		return fmt.Errorf("step %s is open yet: tick it, or \"all\". Nothing was recorded", open[0])
	}
	last := len(open) - 1
	return fmt.Errorf("steps %s and %s are open yet: tick them, or \"all\". Nothing was recorded", strings.Join(open[:last], ", "), open[last])
}

// neededAt says whether the item at a place of the list is needed.
func neededAt(lines []walk.Line, at int) bool {
	for _, l := range lines {
		if l.Kind == walk.LineCare {
			continue
		}
		if at == 0 {
			return l.Needed()
		}
		at--
	}
	return false
}

// listLines is the whole list, a line each.
func (s *Session) listLines() []string {
	list := s.Prompt().List
	if len(list) == 0 {
		return []string{"There is no list here."}
	}
	var out []string
	for _, it := range list {
		out = append(out, it.Line())
	}
	return out
}

// Line is the item in words, without a sign.
func (i Item) Line() string {
	word := ""
	switch i.Mark {
	case MarkDone:
		word = "Done: "
	case MarkLeft:
		word = "Left out: "
	}
	line := fmt.Sprintf("%d. %s%s", i.Number, word, i.Text)
	if i.Tell != "" && i.Open() {
		line += ": " + i.Tell
	}
	return line
}

func trimStop(text string) string { return strings.TrimSuffix(text, ".") }
