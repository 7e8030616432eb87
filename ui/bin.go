package ui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// binForm is how a piece is put into the parts bin by a typed line.
const binForm = "bin PART; PRICE; PLACE; WHAT WAS READ; WHAT ELSE WAS READ"

// typedBin puts a piece into the parts bin, or says how. Fields stand between
// semicolons.
func (s *Session) typedBin(ctx context.Context, text string) (Reply, error) {
	fields := strings.Split(text, ";")
	for i := range fields {
		fields[i] = strings.TrimSpace(fields[i])
	}
	switch {
	case fields[0] == "":
		return Reply{Said: s.binnable()}, nil
	case len(fields) == 1:
		return s.howToBin(fields[0])
	case len(fields) == 2:
		fields = append(fields, "")
	}
	return s.Bin(ctx, fields[0], fields[3:], fields[1], fields[2])
}

// Bin puts a part that came off this machine into the parts bin, with what cleared
// it in this job and what else was shown on it. The error says why it may not go
// there: its class never does, it is not proved good, nothing took it off, or
// something has to be shown on it first.
func (s *Session) Bin(ctx context.Context, part string, shown []string, asking, place string) (Reply, error) {
	if s.facts.Closed != nil {
		return Reply{}, fmt.Errorf("job %d is closed; \"benchlead bin add\" puts a piece in without a job", s.id)
	}
	piece := repair.Used{Part: part, Asking: asking, Place: place}
	read, err := s.readOn(part)
	if err != nil {
		return Reply{}, err
	}
	piece.Shown = slices.Concat(shown, read)
	binned, err := s.bench.Prices.ToBin(s.bench.Library, piece)
	if err != nil {
		return Reply{}, fmt.Errorf("%w. Nothing was recorded", err)
	}
	if err := s.record(ctx, job.Event{Kind: job.KindBinned, Binned: &binned}); err != nil {
		return Reply{}, err
	}
	name := job.PieceOf(s.id, s.lastSeq())
	return Reply{Said: []string{
		fmt.Sprintf("In the parts bin: piece %s, %s, %s. Write %s on it.", name, s.partTitle(part), strings.TrimSpace(binned.Asking+" "+binned.Currency), name),
		"Shown on it: " + strings.Join(binned.Shown, "; ") + ".",
	}}, nil
}

// readOn is what this job read that proves a part good. The error says why it may
// not go to the bin from here.
func (s *Session) readOn(id string) ([]string, error) {
	part := s.bench.Library.Parts[id]
	if part == nil || part.NoBin != "" {
		_, err := s.bench.Prices.ToBin(s.bench.Library, repair.Used{Part: id})
		return nil, err
	}
	p, err := s.whenOff(part)
	if err != nil {
		return nil, err
	}
	evidence, err := repair.ProvedGood(p.System, p.Verdict, part)
	if err != nil {
		return nil, fmt.Errorf("%w. Test it first; a piece tested on the bench goes in with \"benchlead bin add\"", err)
	}
	var out []string
	for _, e := range evidence {
		out = append(out, readWords(p.Results[e.Test.ID]))
	}
	return out, nil
}

// readWords is a result as it is kept with a piece: test, value and what it is
// called.
func readWords(r walk.Result) string {
	if r.Mark != walk.Read {
		for _, c := range r.Test.Choices {
			if c.Name == r.Choice {
				return titled(r.Test) + ChoiceTitle(c)
			}
		}
	}
	text := r.Test.Title + ": " + WithUncertainty(r)
	if call := r.Call(); call.Band < len(r.Test.Bands) && r.Mark == walk.Read {
		text += ", " + r.Test.Bands[call.Band].Name
	}
	return text
}

// whenOff is where the job stood as the part came off: what a repair takes off was
// judged before that repair. A machine that is parted out stands as it is.
func (s *Session) whenOff(part *tree.Part) (walk.Position, error) {
	if s.partedOut() {
		return s.pos, nil
	}
	for i, e := range slices.Backward(s.events) {
		if e.Kind != job.KindTicked || s.gone(e.Seq) {
			continue
		}
		if r := s.bench.Library.Repairs[e.Ticked.Repair]; r != nil && slices.Contains(r.Bin, part.ID) {
			facts, err := job.Fold(s.events[:i])
			return walk.Where(s.bench.Library, facts), err
		}
	}
	return walk.Position{}, fmt.Errorf("nothing that was done here takes %s off for the bin: do the repair first, or choose to take the machine apart", tree.InSentence(part.Title))
}

func (s *Session) partedOut() bool {
	return s.facts.Chosen != nil && s.facts.Chosen.Path == job.PathPartOut
}

// howToBin says what a piece of a part has to be typed with.
func (s *Session) howToBin(id string) (Reply, error) {
	read, err := s.readOn(id)
	if err != nil {
		return Reply{}, err
	}
	part := s.bench.Library.Parts[id]
	said := []string{part.Title + " may go in the parts bin. Type: " + strings.Replace(binForm, "PART", id, 1)}
	for _, r := range read {
		said = append(said, "Kept with it, from this job: "+r+".")
	}
	for _, need := range repair.NotShown(part, read) {
		said = append(said, "To be shown on it first: "+need)
	}
	return Reply{Said: said}, nil
}

// binnable lists what may go in the bin from here, and why the rest may not.
func (s *Session) binnable() []string {
	out := []string{"To put a part that came off into the parts bin: " + binForm}
	for _, id := range s.cameOff() {
		_, err := s.readOn(id)
		says := "may go in"
		if err != nil {
			says = err.Error()
		}
		out = append(out, fmt.Sprintf("  %s  %s: %s", id, s.partTitle(id), says))
	}
	if len(out) == 1 {
		out = append(out, "Nothing is off the machine that goes in the bin: do a repair that takes it off, or choose to take the machine apart.")
	}
	return out
}

// cameOff are the parts that came off for the bin, in the order they did.
func (s *Session) cameOff() []string {
	var out []string
	add := func(id string) {
		if id != "" && !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	for _, id := range s.facts.Repaired {
		if r := s.bench.Library.Repairs[id]; r != nil {
			for _, part := range r.Bin {
				add(part)
			}
		}
	}
	if s.partedOut() {
		for _, f := range s.pos.System.Faults {
			add(f.Part)
		}
	}
	return out
}
