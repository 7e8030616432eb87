package report

import (
	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// The states of a job, as they stand on its tag.
const (
	StateUnsafe     = "UNSAFE - NOT TO BE USED"
	StateTests      = "being tested"
	StateApproval   = "waiting for approval"
	StateRefused    = "estimate not approved"
	StateParts      = "waiting for parts"
	StateRepair     = "to be repaired"
	StateProof      = "waiting for proof"
	StateReady      = "ready"
	StateNotProved  = "ready, repair not proved"
	StateUnrepaired = "ready, not repaired"
	StateSold       = "sold as it is"
	StateForSale    = "to be sold as it is"
	StateForParts   = "to be taken apart"
	StateParted     = "taken apart"
)

// stand says in which state the job is, why nobody may use the machine if that is
// so, and what comes next.
func (s *story) stand(d *Document) {
	d.NotToUse = s.notToUse(*d)
	if d.Work != nil {
		d.Work.Above = aboveApproval(s.facts, *d)
	}
	d.State = s.state(*d)
	d.Next = s.next(*d)
	switch p := s.now; {
	case p.Test != nil:
		d.step = p.Test.Title
	case p.Work != nil:
		d.step = p.Work.Title
	}
}

// notToUse are the reasons why nobody may use the machine: it was closed as unsafe,
// a safety function failed, or one is out of use. A job that was closed as proved
// has none, whatever other trees make of its readings.
func (s *story) notToUse(d Document) []string {
	outcome := job.Outcome(d.Outcome)
	if outcome == job.Proved || outcome == job.PartedOut {
		return nil
	}
	var out []string
	for _, id := range s.standing(d) {
		f := s.system.Fault(id)
		if f == nil {
			f = &tree.Fault{ID: id, Title: source.CleanLine(id)}
		}
		if repair.Bypassed(f) || outcome == job.Unsafe && f.Danger != "" {
			out = append(out, f.Title+".")
		}
	}
	for _, l := range d.Safety {
		if l.State == SafetyFailed {
			out = append(out, l.plain.sentence())
		}
	}
	if outcome != job.Unsafe {
		return out
	}
	for _, l := range d.Safety {
		if l.State == SafetyOpen {
			out = append(out, "Not tested: "+tree.InSentence(l.Title)+".")
		}
	}
	if d.Why != "" {
		out = append(out, full(d.Why))
	}
	if len(out) == 0 {
		out = append(out, "The shop found it unsafe.")
	}
	return out
}

// standing are the faults that are on the machine as far as is known.
func (s *story) standing(d Document) []string {
	var out []string
	if s.repaired {
		for _, f := range d.Still {
			out = append(out, f.Fault)
		}
		return out
	}
	for _, f := range d.Findings {
		out = append(out, f.Fault)
	}
	return out
}

func (s *story) state(d Document) string {
	switch {
	case len(d.NotToUse) > 0:
		return StateUnsafe
	case d.Outcome != "":
		return closedState(job.Outcome(d.Outcome))
	case d.Work == nil && s.now.Verdict.Finished && len(d.Findings) > 0:
		return StateApproval
	case d.Work == nil:
		return StateTests
	}
	switch d.Work.Path {
	case repair.ChooseAsIs:
		return StateForSale
	case repair.ChoosePartOut:
		return StateForParts
	case repair.ChooseReturn:
		return StateUnrepaired
	}
	return s.repairState(d)
}

func closedState(o job.Outcome) string {
	switch o {
	case job.Proved:
		return StateReady
	case job.NotProved:
		return StateNotProved
	case job.SoldAsIs:
		return StateSold
	case job.PartedOut:
		return StateParted
	}
	return StateUnrepaired
}

// repairState is where the path that was chosen has got to.
func (s *story) repairState(d Document) string {
	current := s.paths[len(s.paths)-1]
	open := 0
	for _, r := range d.Work.Repairs {
		if !r.Done {
			open++
		}
	}
	switch {
	case open == 0 && s.now.Stage == walk.AtClose && len(d.Still) == 0:
		return StateReady
	case open == 0:
		return StateProof
	case current.begun():
		return StateRepair
	}
	switch last := lastAsked(d); {
	case last == nil || last.Approved && d.Work.Above:
		return StateApproval
	case !last.Approved:
		return StateRefused
	}
	for _, l := range d.Work.Parts {
		if !l.InHand {
			return StateParts
		}
	}
	return StateRepair
}

func lastAsked(d Document) *Asked {
	if len(d.Asked) == 0 {
		return nil
	}
	return &d.Asked[len(d.Asked)-1]
}

// aboveApproval says whether what the repairs come to is more than the owner
// approved: all paths of the job that were begun, and the one that is chosen.
// Amounts that can't be compared are not above.
func aboveApproval(facts job.Facts, d Document) bool {
	if len(facts.Asked) == 0 || d.Work == nil {
		return false
	}
	last := facts.Asked[len(facts.Asked)-1]
	ceiling, err := decimal.NewFromString(last.Ceiling)
	total, currency, ok := totalOf(d)
	return ok && err == nil && last.Approved && last.Currency == currency && total.GreaterThan(ceiling)
}

// totalOf adds up the quotes of all paths of the job; ok is false when they can't
// be added.
func totalOf(d Document) (total decimal.Decimal, currency string, ok bool) {
	if d.Work == nil {
		return total, "", false
	}
	currency = d.Work.Quote.Currency
	for _, w := range append(d.Earlier[:len(d.Earlier):len(d.Earlier)], *d.Work) {
		sum, err := decimal.NewFromString(w.Quote.Total)
		if err != nil || w.Quote.Currency != currency || currency == "" {
			return total, "", false
		}
		total = total.Add(sum)
	}
	return total, currency, true
}
