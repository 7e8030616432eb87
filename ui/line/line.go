// Package line is the plain face: it writes what the job asks for in full
// sentences, reads one typed line, and goes round. It draws nothing, uses no
// colour and no cursor, so that it can be piped, spoken by a screen reader, or
// used over a slow line. It decides nothing: package ui does.
package line

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"benchlead/diag/walk"
	"benchlead/ui"
)

// Face reads typed lines and writes plain ones.
type Face struct {
	// Width is how many columns a line may have just now; with nil or 0 lines are not
	// broken.
	Width func() int

	in  *bufio.Reader
	out io.Writer
	// The first write error; the face stops at it.
	err error

	last  ui.Prompt       // as it was last said
	named bool            // the step is named behind what may be typed: what is asked may be far up
	asks  bool            // what may be typed was said already
	told  map[string]bool // what the last test said in full
	heard map[string]bool // what was said in full since the job was opened
	full  bool            // "again" was typed: nothing is shortened
	short bool            // something was, as it was heard before
	empty int             // empty lines in a row where a word is waited for
	just  []string        // what was said to the line before

	listed []ui.Numbers // what was listed just before

	fresh  bool    // the first make-safe card of a job that was put aside is yet to come
	viewed ui.Verb // the view that was said just before
}

// New makes a face on two streams.
func New(in io.Reader, out io.Writer) *Face {
	return &Face{in: bufio.NewReader(in), out: out}
}

// ErrEnd says that the input ended. The job is kept as it stands: an end of
// input is never taken for an answer.
var ErrEnd = errors.New("end of input")

// Walk goes on with a job until it is put aside, closed, or the input ends.
// ErrEnd means that the input ended with the job still open.
func (f *Face) Walk(ctx context.Context, s *ui.Session) error {
	if s.Position().Stage != walk.AtClosed {
		f.Say(`"?" explains a step, "again" says it again, "help" what can be typed, "leave" puts the job aside.`)
	}
	f.heard, f.fresh = map[string]bool{}, s.PutAside()
	for heard := ""; ; {
		f.prompt(s)
		if s.Position().Stage == walk.AtClosed || f.err != nil {
			return f.err
		}
		text, err := f.read()
		if err != nil {
			return err
		}
		if f.repeats(text) || f.waits(s, text) || f.mistakable(s, text) || f.aboutView(text) {
			continue
		}
		last := s.Facts().Last
		reply, err := s.Enter(ctx, text)
		f.just = reply.Said
		for _, l := range reply.Said {
			f.Say(l)
		}
		f.named, f.asks = err != nil || isUndo(text), reply.Asks
		if err != nil {
			f.Say(sentence(err))
		}
		if s.Facts().Last != last {
			heard = f.suspects(s, heard)
		}
		f.show(s, reply)
		f.listed = s.Numbered(reply)
		if reply.Left {
			return f.err
		}
	}
}

// repeats says whether a line asks to hear the step again; it is then forgotten that
// it was said.
func (f *Face) repeats(text string) bool {
	if !strings.EqualFold(strings.TrimSpace(text), "again") {
		return false
	}
	f.last, f.told, f.just, f.full = ui.Prompt{}, nil, nil, true
	return true
}

// waits takes an empty line where a whole word has to be typed. At every second one the
// step is said again: who hears it twice that a "yes" is wanted has lost what for.
func (f *Face) waits(s *ui.Session, text string) bool {
	p := s.Prompt()
	word := p.Care || p.Stage == walk.AtSafe || p.Stage == walk.AtDanger || p.Stage == walk.AtTerms
	if strings.TrimSpace(text) != "" || !word || s.Watch().Runs {
		f.empty = 0
		return false
	}
	if f.empty++; f.empty%2 == 0 {
		f.repeats("again")
	}
	return true
}

// aboutView says of "?" behind a view what that view is for.
func (f *Face) aboutView(text string) bool {
	view := f.viewed
	f.viewed = ""
	about := ui.AboutView(view)
	if strings.TrimSpace(text) != "?" || len(about) == 0 {
		return false
	}
	f.all(about)
	return true
}

func isUndo(text string) bool { return strings.EqualFold(strings.TrimSpace(text), string(ui.Undo)) }

// mistakable asks once what a number is meant for that answers the step and stands in
// a list that was said just before.
func (f *Face) mistakable(s *ui.Session, text string) bool {
	lists := f.listed
	f.listed = nil
	typed := strings.TrimSpace(text)
	n, err := strconv.ParseFloat(strings.Replace(typed, ",", ".", 1), 64)
	if err != nil || strings.Trim(typed, "-0123456789.,") != "" || !numbers(s.Position().Stage) {
		return false
	}
	var meant []string
	for _, l := range lists {
		if l.Words == string(ui.Close) && s.Position().Stage == walk.AtClose {
			return false // for both it means the same
		}
		if l.Any || n == math.Trunc(n) && n >= 1 && n <= float64(l.Most) {
			meant = append(meant, fmt.Sprintf("\"%s %s\"", l.Words, typed))
		}
	}
	if len(meant) == 0 {
		return false
	}
	what := "the list"
	if lists[0].Any {
		what = "the question"
	}
	f.Say(fmt.Sprintf("%s may be meant for %s just said or for the step. Type %s for %s, or %s once more for the step: %s. Nothing was recorded.",
		typed, what, strings.Join(meant, " or "), what, typed, s.Prompt().Title))
	f.asks = true
	return true
}

// numbers says whether a number alone is an answer at a stage.
func numbers(stage walk.Stage) bool {
	return ui.Asked(stage) || stage == walk.AtRepair || stage == walk.AtService || stage == walk.AtTerms || stage == walk.AtClose
}

// suspects says who leads among the suspects, when that is not what was heard last.
// It returns what has been heard now.
func (f *Face) suspects(s *ui.Session, heard string) string {
	now := strings.Join(s.Leaders(), ", ")
	switch {
	case now == heard || s.Unweighed() != "":
		return heard
	case now == "":
		f.Say("Suspects: none stands out.")
	default:
		f.Say("Suspects: " + now + ".")
	}
	return now
}

// show writes a view that was asked for.
func (f *Face) show(s *ui.Session, reply ui.Reply) {
	view := reply.Show
	f.viewed = view
	switch p := s.Prompt(); {
	case view == "":
		return
	case view == ui.Help:
		f.Say("\"again\": the step again, with all its cautions in full.")
		f.all(s.Words())
		return
	case view == ui.Why && p.Stage != walk.AtSafe: // which says them in full
		for _, l := range p.Caution {
			f.Say("Caution: " + l)
		}
	}
	f.all(s.ViewAloud(view, reply.More))
}
