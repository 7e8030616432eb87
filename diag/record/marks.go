package record

import (
	"slices"
	"strings"
	"unicode"

	"benchlead/diag/job"
)

// What a mark can be of. Plain words have no kind.
const (
	OfMachine   = "machine"   // a word of the machine
	OfOwner     = "owner"     // a word of the owner
	OfSystem    = "system"    // its id
	OfComplaint = "complaint" // its id
	OfFault     = "fault"     // the id of one that was found
	OfRepair    = "repair"    // the id of one that was done
	OfPart      = "part"      // the id of one that was used
	OfOutcome   = "outcome"   // how the job ended; StillOpen before that
)

// StillOpen is the outcome of a job that has none yet.
const StillOpen = "open"

// Bounds, so that a job whose notes are a book can still be written down. Judgement.
const (
	longestMark = 100  // characters
	mostWords   = 5000 // of one job; the first count
)

// Mark is what a job is found by other than plain words: a kind and an id. No
// word begins like it. The id is in small letters and without spaces.
func Mark(kind, id string) string {
	id = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return unicode.ToLower(r)
	}, id)
	return cut("/"+kind+"/"+strings.Join(strings.Fields(id), "-"), longestMark)
}

// marks are all marks of a job, sorted, each once. texts is what was said and
// written in it, in order.
func (c *Card) marks(texts []string) []string {
	var out []string
	had := map[string]bool{}
	for _, text := range append([]string{c.Machine, c.Owner, c.Words}, texts...) {
		for _, w := range Words(text) {
			if !had[w] && len(had) < mostWords {
				had[w] = true
				out = append(out, w)
			}
		}
	}
	add := func(kind string, ids ...string) {
		for _, id := range ids {
			out = append(out, Mark(kind, id))
		}
	}
	add(OfMachine, Words(c.Machine)...)
	add(OfOwner, Words(c.Owner)...)
	add(OfFault, c.Faults...)
	add(OfRepair, c.Repairs...)
	add(OfPart, c.Parts...)
	add(OfSystem, c.System)
	add(OfComplaint, c.Complaint)
	add(OfOutcome, c.outcome())
	slices.Sort(out)
	return slices.Compact(out)
}

func (c *Card) outcome() string {
	if c.Open {
		return StillOpen
	}
	return string(c.Outcome)
}

// said is the text of an event that a person may remember: notes, what was seen,
// why something was passed over, what the owner answered. Readings are numbers,
// and nobody looks for those by their beginnings.
func said(e job.Event) []string {
	switch {
	case e.Noted != nil:
		return []string{e.Noted.Text}
	case e.Seen != nil:
		return []string{e.Seen.Choice, e.Seen.Text}
	case e.Cant != nil:
		return []string{e.Cant.Why}
	case e.Asked != nil:
		return append([]string{e.Asked.Who, e.Asked.How}, e.Asked.Declined...)
	case e.Binned != nil:
		return []string{e.Binned.Words, e.Binned.Place}
	case e.Closed != nil:
		return []string{e.Closed.Why}
	case e.Chosen != nil:
		var out []string
		for _, l := range e.Chosen.Lines {
			out = append(out, l.Note)
		}
		return out
	}
	return nil
}
