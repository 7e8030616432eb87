package job

import (
	"errors"
	"fmt"
	"strings"

	"benchlead/diag/measure"
)

// BadEvent says which event of a log is wrong, and how. Seq is 0 when the event
// has no number yet.
type BadEvent struct {
	Seq  int64
	Kind Kind
	Err  error
}

// Error names the event and what is wrong with it.
func (b *BadEvent) Error() string {
	if b.Seq == 0 {
		return fmt.Sprintf("event %q: %v", string(b.Kind), b.Err)
	}
	return fmt.Sprintf("event %d, %q: %v", b.Seq, string(b.Kind), b.Err)
}

// Unwrap gives the reason.
func (b *BadEvent) Unwrap() error { return b.Err }

// Check says whether the event is whole: a known kind, exactly the field that
// the kind names, no empty id, no text that is not UTF-8 and no number that is
// not finite. Every Store refuses an event that fails. The error is a *BadEvent;
// it wraps ErrNewer when the kind is unknown.
func (e Event) Check() error {
	if err := e.fault(); err != nil {
		return &BadEvent{Seq: e.Seq, Kind: e.Kind, Err: err}
	}
	return nil
}

func (e Event) fault() error {
	if err := e.field(); err != nil {
		return err
	}
	if err := e.ids(); err != nil {
		return err
	}
	return storable(e)
}

// field says whether the event holds what its kind asks for, and nothing else.
func (e *Event) field() error {
	own, others := e.Kind == KindOpened, false
	for _, f := range e.all() {
		own = own || f.set && f.kind == e.Kind
		others = others || f.set && f.kind != e.Kind
	}
	if own && !others {
		return nil
	}
	want, known := e.fields()
	if !known {
		return fmt.Errorf("its kind is not known here: %w", ErrNewer)
	}
	return fmt.Errorf("it holds %s where it should hold %s", fieldList(e.set()), fieldList(want))
}

// fields are the fields that the kind asks for; opened has none.
func (e *Event) fields() (want []Kind, known bool) {
	if e.Kind == KindOpened {
		return nil, true
	}
	for _, f := range e.all() {
		if f.kind == e.Kind {
			return []Kind{e.Kind}, true
		}
	}
	return nil, false
}

// field is one payload of an event: its kind, and whether it is set.
type field struct {
	kind Kind
	set  bool
}

func (e *Event) all() [20]field {
	return [...]field{
		{KindIntake, e.Intake != nil},
		{KindCorrected, e.Corrected != nil},
		{KindSafe, e.Safe != nil},
		{KindHeeded, e.Heeded != nil},
		{KindRead, e.Read != nil},
		{KindSeen, e.Seen != nil},
		{KindDone, e.Done != nil},
		{KindCant, e.Cant != nil},
		{KindNoted, e.Noted != nil},
		{KindTrees, e.Trees != nil},
		{KindChosen, e.Chosen != nil},
		{KindAgreed, e.Agreed != nil},
		{KindTicked, e.Ticked != nil},
		{KindLined, e.Lined != nil},
		{KindAsked, e.Asked != nil},
		{KindServed, e.Served != nil},
		{KindBinned, e.Binned != nil},
		{KindDrawn, e.Drawn != nil},
		{KindUndone, e.Undone != nil},
		{KindClosed, e.Closed != nil},
	}
}

func (e *Event) set() []Kind {
	var out []Kind
	for _, f := range e.all() {
		if f.set {
			out = append(out, f.kind)
		}
	}
	return out
}

func fieldList(kinds []Kind) string {
	if len(kinds) == 0 {
		return "nothing"
	}
	words := make([]string, len(kinds))
	for i, k := range kinds {
		words[i] = string(k)
	}
	return strings.Join(words, " and ")
}

// ids says whether the payload names what it speaks of.
func (e Event) ids() error {
	switch e.Kind {
	case KindIntake:
		return errors.Join(named("system", e.Intake.System), named("complaint", e.Intake.Complaint))
	case KindCorrected:
		return errors.Join(named("system", e.Corrected.System), named("complaint", e.Corrected.Complaint))
	case KindSafe:
		return e.Safe.ids()
	case KindHeeded:
		return errors.Join(named("caution", e.Heeded.Caution), named("test", e.Heeded.Test))
	case KindRead:
		return errors.Join(named("test", e.Read.Test), display(e.Read.Reading))
	case KindSeen:
		return errors.Join(named("test", e.Seen.Test), named("choice", e.Seen.Choice))
	case KindDone:
		return errors.Join(named("work", e.Done.Work), namedAll("stales", e.Done.Stales))
	case KindCant:
		return e.Cant.ids()
	case KindNoted:
		return named("text", e.Noted.Text)
	case KindTrees:
		return named("digest", e.Trees.Digest)
	case KindChosen:
		return errors.Join(named("path", e.Chosen.Path), namedAll("repairs", e.Chosen.Repairs))
	case KindAgreed:
		return errors.Join(named("repair", e.Agreed.Repair), named("term", e.Agreed.Term))
	case KindTicked:
		return errors.Join(named("repair", e.Ticked.Repair), namedAll("stales", e.Ticked.Stales))
	case KindLined:
		return errors.Join(named("repair", e.Lined.Repair), named("line", e.Lined.Line))
	case KindAsked:
		return errors.Join(named("who", e.Asked.Who), named("total", e.Asked.Total), e.Asked.ceiling())
	case KindServed:
		return named("service", e.Served.Service)
	case KindBinned:
		return errors.Join(named("part", e.Binned.Part), namedAll("shown", e.Binned.Shown), e.Binned.shown())
	case KindDrawn:
		return errors.Join(named("piece", e.Drawn.Piece), named("part", e.Drawn.Part))
	case KindUndone:
		return e.Undone.ids()
	case KindClosed:
		return e.Closed.ids()
	}
	return nil
}

func (s *Safe) ids() error {
	if len(s.Confirmed) == 0 {
		return errors.New("it confirms nothing; name at least one make-safe item")
	}
	for item, setting := range s.Confirmed {
		if err := errors.Join(named("item", item), named("setting", setting)); err != nil {
			return err
		}
	}
	return nil
}

func (c *Cant) ids() error {
	if (c.Test == "") == (c.Work == "") {
		return errors.New("name either the test or the work that was passed over, not both and not neither")
	}
	return namedAll("unmade", c.Unmade)
}

func (a *Asked) ceiling() error {
	if !a.Approved {
		return nil
	}
	return named("ceiling", a.Ceiling)
}

func (b *Binned) shown() error {
	if len(b.Shown) == 0 {
		return errors.New("nothing was read on it; a piece goes into the bin with what was shown of it")
	}
	return nil
}

func (u *Undone) ids() error {
	if u.Seq < 1 {
		return fmt.Errorf("it takes back event %d; events count from 1", u.Seq)
	}
	return nil
}

func (c *Closed) ids() error {
	switch c.Outcome {
	case Proved, NotProved, SoldAsIs, PartedOut, Unrepaired, Unsafe:
		return nil
	}
	return fmt.Errorf("the outcome %q is not one of those a job can have", string(c.Outcome))
}

// display says whether a reading has a function and a sort of display.
func display(r measure.Reading) error {
	switch r.Kind {
	case measure.Number, measure.Wanders, measure.OverRange, measure.Flicker:
		return named("function", string(r.Function))
	}
	return fmt.Errorf("the sort of display %q is not known", string(r.Kind))
}

func named(what, id string) error {
	if strings.TrimSpace(id) == "" {
		return fmt.Errorf("its %s is empty", what)
	}
	return nil
}

func namedAll(what string, ids []string) error {
	for _, id := range ids {
		if strings.TrimSpace(id) == "" {
			return fmt.Errorf("there is an empty id among its %s", what)
		}
	}
	return nil
}
