package repair

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
	"benchlead/diag/money"
	"benchlead/diag/tree"
)

// What a job's path may be, in the record.
const (
	ChooseRepair  = "repair"
	ChooseAsIs    = "sell as is"
	ChoosePartOut = job.PathPartOut
	ChooseReturn  = "return unrepaired"
)

// Leave is a way to end without a repair.
type Leave struct {
	Kind     string // ChooseAsIs, ChoosePartOut or ChooseReturn
	Title    string
	Refused  string // why it may not be done; empty when it may
	Currency string
	Fetches  decimal.Decimal // what the machine or its parts bring
	Costs    decimal.Decimal // work to get there, or the fee for the diagnosis with its tax
	Tax      decimal.Decimal // on that fee, within Costs
	Minutes  int
	Known    bool         // Fetches rests on a known worth
	Good     []*tree.Part // every fault of them cleared: may go in the parts bin
	Never    []Never      // must not be used again
	Disclose []string     // what a buyer or the owner has to be told
	// Margin is Net less what the machine cost as it is, for a shop that owns it.
	Margin decimal.Decimal
	Aim    Aim // what the list was ranked by

	price    func(decimal.Decimal) string
	settings map[string]string // as they were used
}

// Never is a part that must not be used again, and why.
type Never struct {
	Part *tree.Part
	Why  string
}

// Net is what is left of Fetches after Costs.
func (l Leave) Net() decimal.Decimal { return l.Fetches.Sub(l.Costs) }

// Money writes an amount with its currency.
func (l Leave) Money(d decimal.Decimal) string {
	if l.price == nil {
		return d.StringFixed(2)
	}
	return strings.TrimSpace(l.price(d) + " " + l.Currency)
}

func (l Leave) amount(d decimal.Decimal) string {
	if l.price == nil {
		return d.StringFixed(2)
	}
	return l.price(d)
}

// bypassCaution is the caution of a safety switch that is out of use.
const bypassCaution = "interlock-bypassed"

// Bypassed says whether the fault is a safety switch that no longer stops
// anything: by its danger, or by its id (*.bypassed; switch.* that is stuck,
// unless it is stuck open). Such a machine is never sold runnable.
func Bypassed(f *tree.Fault) bool {
	part, wrong, _ := strings.Cut(f.ID, ".")
	stuck := part == "switch" && strings.Contains(wrong, "stuck") && !strings.Contains(wrong, "stuck-open")
	return f.Danger == bypassCaution || strings.Contains(wrong, "bypass") || stuck
}

// unsafe says whether the fault takes a safety function away: it is a bypass,
// or a test that proves the safety functions at hand-back shows it.
func (a *ask) unsafe(f *tree.Fault) bool {
	if Bypassed(f) {
		return true
	}
	for _, t := range a.lib.TreesFor(a.system.ID) {
		for _, step := range t.Steps {
			proves := func(by tree.Evidence) bool { return slices.Contains(a.system.HandBack, by.Test) }
			if step.Kind == tree.Find && step.Fault == f.ID && slices.ContainsFunc(step.By, proves) {
				return true
			}
		}
	}
	return false
}

// leave lists the ways to end without a repair. With no finding the machine
// can only go back: what is wrong with it isn't known.
func (a *ask) leave() []Leave {
	back := a.handBack()
	if len(a.found) == 0 {
		return []Leave{back}
	}
	out := []Leave{a.asIs(), a.partOut(), back}
	for i := range out[:2] {
		out[i].Margin = out[i].Net().Sub(a.asIsWorth())
	}
	return out
}

func (a *ask) bare(kind, title string) Leave {
	return Leave{
		Kind: kind, Title: title, Currency: a.book.Shop.Currency, Known: a.worth.IsPositive(),
		price: a.book.Shop.Format, settings: a.settings, Disclose: a.disclose(),
	}
}

func (a *ask) asIs() Leave {
	l := a.bare(ChooseAsIs, "Sell it as it is, with its faults told")
	l.Fetches = a.asIsWorth()
	if f := a.firstUnsafe(); f != nil {
		l.Refused = fmt.Sprintf("%s: it may go for parts only, never as a machine that runs", f.Title)
		l.Fetches = decimal.Zero
	}
	l.Disclose = append(l.Disclose,
		"Look up recalls first: recalled goods must not be sold (from memory; ask the authority).")
	return l
}

func (a *ask) partOut() Leave {
	l := a.bare(ChoosePartOut, "Take it apart for its good parts")
	l.Fetches = a.book.Shop.Round(a.worth.Mul(a.book.Leaving.PartOutPercent), money.Hundred)
	l.Minutes = a.book.Leaving.PartOutMinutes
	l.Costs = a.book.Shop.Work(l.Minutes)
	l.Good, l.Never = a.partsLeft()
	if len(l.Good) == 0 {
		l.Disclose = append(l.Disclose, "No part is proved good by the tests so far: test each before it goes in the bin.")
	}
	return l
}

func (a *ask) handBack() Leave {
	l := a.bare(ChooseReturn, "Hand it back unrepaired")
	fee, tax := owed(a.book.Shop)
	l.Costs, l.Tax = fee.Add(tax), tax
	if f := a.firstUnsafe(); f != nil {
		l.Disclose = append(l.Disclose, fmt.Sprintf("Not to be used: %s. Tell the owner in writing.", tree.InSentence(f.Title)))
	}
	return l
}

// firstUnsafe is the first finding that takes a safety function away.
func (a *ask) firstUnsafe() *tree.Fault {
	i := slices.IndexFunc(a.found, a.unsafe)
	if i < 0 {
		return nil
	}
	return a.found[i]
}

// disclose is what has to be told with the machine, whoever gets it.
func (a *ask) disclose() []string {
	var out []string
	for _, f := range a.found {
		out = append(out, "Known fault: "+f.Title+".")
	}
	if n := len(a.open); n > 0 {
		out = append(out, fmt.Sprintf("Not judged: %s.", listed(a.open)))
	}
	return out
}

func listed(faults []*tree.Fault) string {
	var titles []string
	for _, f := range faults {
		titles = append(titles, tree.InSentence(f.Title))
	}
	return strings.Join(titles, "; ")
}

// partsLeft sorts the machine's parts: those with every fault cleared, which
// may be kept, and those that must not be used again whatever the readings say.
// The others have to be tested first.
func (a *ask) partsLeft() (good []*tree.Part, never []Never) {
	judged := map[string]bool{} // part id: every fault cleared
	var order []string
	for _, f := range a.system.Faults {
		if _, seen := judged[f.Part]; !seen && f.Part != "" {
			judged[f.Part] = true
			order = append(order, f.Part)
		}
		judged[f.Part] = judged[f.Part] && a.cleared(f)
	}
	for _, id := range order {
		part := a.lib.Parts[id]
		switch {
		case part == nil:
		case part.NoBin != "":
			never = append(never, Never{Part: part, Why: part.NoBin})
		case judged[id]:
			good = append(good, part)
		}
	}
	return good, never
}

func (a *ask) cleared(f *tree.Fault) bool {
	for _, c := range a.verdict.Cleared {
		if c.Fault == f && !c.Removed { // what a conversion took off was not proved by that
			return true
		}
	}
	return false
}
