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
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// Face reads typed lines and writes plain ones.
type Face struct {
	in  *bufio.Reader
	out io.Writer
	// The first write error; the face stops at it.
	err error
}

// New makes a face on two streams.
func New(in io.Reader, out io.Writer) *Face {
	return &Face{in: bufio.NewReader(in), out: out}
}

// longest is how many bytes of one typed line are read; more is refused.
const longest = 4096

// ErrEnd says that the input ended. The job is kept as it stands: an end of
// input is never taken for an answer.
var ErrEnd = errors.New("end of input")

// Intake asks the questions of an intake. It returns ErrEnd when the input ends
// before the last one: nothing was recorded then.
func (f *Face) Intake(b ui.Bench) (job.Intake, error) {
	in := b.Intake()
	for {
		q, ok := in.Question()
		if !ok {
			return in.Result(), f.err
		}
		f.question(q)
		text, err := f.read()
		if err != nil {
			return job.Intake{}, err
		}
		if strings.EqualFold(text, "back") {
			in.Back()
			continue
		}
		if says, ok := q.Explain(text); ok {
			f.say(says)
			continue
		}
		switch {
		case q.Before != "" && strings.TrimSpace(text) == "":
			text = q.Before
		case q.Before != "" && strings.EqualFold(strings.TrimSpace(text), usual):
			text = ""
		}
		if err := in.Answer(text); err != nil {
			f.say(sentence(err))
		}
	}
}

// usual is the word for what is usual at a question that was answered otherwise before.
const usual = "usual"

func (f *Face) question(q ui.Question) {
	f.say("")
	head := fmt.Sprintf("Question %d. %s?", q.Step, q.Title)
	if q.Of > 0 {
		head = fmt.Sprintf("Question %d of %d. %s?", q.Step, q.Of, q.Title)
	}
	switch {
	case q.Before != "" && q.Default != "":
		head += fmt.Sprintf(" An empty line keeps: %s. %q means: %s.", q.Said, usual, q.Default)
	case q.Before != "":
		head += fmt.Sprintf(" An empty line keeps: %s.", q.Said)
	case q.Default != "":
		head += fmt.Sprintf(" An empty line means: %s.", q.Default)
	}
	f.say(head)
	for _, c := range q.Choices {
		f.say("  " + c)
	}
	if len(q.Tells) > 0 {
		f.say("\"1?\" says how the first is recognised.")
	}
}

// Walk goes on with a job until it is put aside, closed, or the input ends.
// ErrEnd means that the input ended with the job still open.
func (f *Face) Walk(ctx context.Context, s *ui.Session) error {
	for heard := ""; ; {
		f.prompt(s)
		if s.Position().Stage == walk.AtClosed || f.err != nil {
			return f.err
		}
		text, err := f.read()
		if err != nil {
			return err
		}
		last := s.Facts().Last
		reply, err := s.Enter(ctx, text)
		for _, l := range reply.Said {
			f.say(l)
		}
		if err != nil {
			f.say(sentence(err))
		}
		if s.Facts().Last != last {
			heard = f.suspects(s, heard)
		}
		f.show(s, reply.Show)
		if reply.Left {
			return f.err
		}
	}
}

// suspects says who leads among the suspects, when that is not what was heard last.
// It returns what has been heard now.
func (f *Face) suspects(s *ui.Session, heard string) string {
	now := strings.Join(s.Leaders(), ", ")
	switch {
	case now == heard || s.Unweighed() != "":
		return heard
	case now == "":
		f.say("Suspects: none stands out.")
	default:
		f.say("Suspects: " + now + ".")
	}
	return now
}

// prompt writes what the job asks for. A prompt is repeated whole each time: a
// listener can't look back up.
func (f *Face) prompt(s *ui.Session) {
	p := s.Prompt()
	f.say("")
	head := sentenceEnd(p.Title)
	if p.Cost != "" {
		head += " " + p.Cost + "."
	}
	f.say(head)
	for _, l := range p.Caution {
		if p.Stage == walk.AtRepair && !p.Care { // it was said in full, and confirmed
			l, _, _ = strings.Cut(l, ". ")
			l = sentenceEnd(l)
		}
		f.say("Caution: " + l)
	}
	for _, l := range p.Tell {
		f.say(l)
	}
	f.list(p)
	for _, r := range p.Rows {
		f.say("  " + strings.TrimSuffix(r.Text+": "+r.Amount, ": "))
	}
	if len(p.Phone) > 0 {
		f.say("Read to the owner:")
	}
	for _, l := range p.Phone {
		f.say("  " + l)
	}
	f.leads(p)
	for _, l := range p.SoFar {
		f.say("Taken " + l + ".")
	}
	for _, l := range p.Choices {
		f.say("  " + l)
	}
	if p.Ask != "" {
		f.say("Type " + p.Ask + ".")
	}
}

// list writes a list to be ticked: whole as long as nothing is, then what comes
// next. A listener does not want to hear all of it after each line.
func (f *Face) list(p ui.Prompt) {
	done, next := 0, ui.Item{}
	for _, it := range p.List {
		if !it.Open() {
			done++
		}
		if it.Next {
			next = it
		}
	}
	switch {
	case done == 0 || p.Stage != walk.AtRepair:
		for _, it := range p.List {
			if p.Stage != walk.AtRepair {
				it.Tell = "" // the list says it
			}
			f.say(it.Line())
		}
	case next.Number == 0:
		f.say("All lines are done.")
	default:
		f.say(fmt.Sprintf("%d of %d lines are done; \"list\" says them. Next:", done, len(p.List)))
		f.say(fmt.Sprintf("%d. %s", next.Number, next.Text))
	}
}

func (f *Face) leads(p ui.Prompt) {
	for _, l := range []struct{ head, text string }{
		{"Red lead: ", p.Red},
		{"Black lead: ", p.Black},
		{"Meter: ", p.Meter},
		{"Machine: ", p.Machine},
		{"A healthy machine reads ", p.Healthy},
		{"Alone: ", p.Alone},
	} {
		if l.text != "" {
			f.say(l.head + strings.TrimSuffix(l.text, ".") + ".")
		}
	}
}

// show writes a view that was asked for.
func (f *Face) show(s *ui.Session, view ui.Verb) {
	if view == "" {
		return
	}
	if p := s.Prompt(); view == ui.Why && p.Stage == walk.AtRepair {
		for _, l := range p.Caution {
			f.say("Caution: " + l)
		}
	}
	for _, l := range s.View(view) {
		f.say(l)
	}
}

// say writes one line, made harmless and wrapped at 78 columns.
func (f *Face) say(text string) {
	if f.err != nil {
		return
	}
	// Signs are not read aloud; words are.
	text = strings.ReplaceAll(source.Clean(text), " +- ", " plus or minus ")
	for _, l := range wrap(text, 78) {
		if _, err := fmt.Fprintln(f.out, l); err != nil {
			f.err = err
			return
		}
	}
}

// read takes one line, without its end.
func (f *Face) read() (string, error) {
	var b strings.Builder
	for {
		chunk, err := f.in.ReadSlice('\n')
		if b.Len() <= longest {
			b.Write(chunk)
		}
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && b.Len() > 0:
			// A last line without its end is half an answer; it may have been
			// cut off, so it is not taken.
			return "", ErrEnd
		case errors.Is(err, io.EOF):
			return "", ErrEnd
		case err != nil:
			return "", err
		}
		break
	}
	if b.Len() > longest {
		f.say("That line is too long to be an answer; nothing was recorded.")
		return "", nil
	}
	return strings.TrimRight(b.String(), "\r\n"), nil
}

// sentence is an error with a capital and a full stop.
func sentence(err error) string {
	text := strings.TrimSuffix(err.Error(), ".")
	if text == "" {
		return ""
	}
	return sentenceEnd(strings.ToUpper(text[:1]) + text[1:])
}

// sentenceEnd closes a title with a full stop, unless it ends a sentence
// already.
func sentenceEnd(title string) string {
	if strings.HasSuffix(title, "?") || strings.HasSuffix(title, ".") {
		return title
	}
	return title + "."
}
