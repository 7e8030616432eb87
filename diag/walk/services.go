package walk

import (
	"slices"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// ServiceLine is one usual service with what was done about it. Neither Done nor
// Left: nobody has said yet.
type ServiceLine struct {
	Service *tree.Service
	Done    bool
	Left    bool
}

// Open says whether the service is neither done nor left out yet.
func (s ServiceLine) Open() bool { return !s.Done && !s.Left }

// LeaveOut are the events that leave out what is open of the services: for whoever
// goes through a job without hands.
func LeaveOut(p Position) []job.Event {
	var out []job.Event
	for _, s := range p.Services {
		if s.Open() {
			out = append(out, job.Event{Kind: job.KindServed, Served: &job.Served{Service: s.Service.ID, Left: true}})
		}
	}
	return out
}

// AskedInVain says whether the test that is asked proves a safety function and had no
// answer that counts when it was asked before. A tech can try again; whoever answers
// always the same would go round.
func AskedInVain(p Position, facts job.Facts) bool {
	return p.Test != nil && facts.Chosen != nil && slices.Contains(p.System.HandBack, p.Test.ID) && facts.Times(p.Test.ID) > 0
}

// servingFirst puts the services before the first safety function that is asked
// for after a repair, as a check reading or on the way: nothing is turned or taken
// off after those. While something is found, there is more to repair first.
func (w *where) servingFirst(p *Position) {
	if !w.repaired() || p.Test == nil || len(p.Verdict.Found) > 0 || !slices.Contains(w.system.HandBack, p.Test.ID) {
		return
	}
	if w.serving(p) {
		p.Test, p.Work, p.Again, p.Tree, p.Step, p.Disputed = nil, nil, nil, "", "", false
	}
}

// serving offers the usual services of a repaired machine, once.
func (w *where) serving(p *Position) bool {
	var out []ServiceLine
	for _, id := range w.system.Service {
		s := w.lib.Services[id]
		if s == nil || w.hasNot(id) {
			continue
		}
		line := ServiceLine{Service: s}
		if at := slices.IndexFunc(w.facts.Served, func(v job.Served) bool { return v.Service == id }); at >= 0 {
			line.Left = w.facts.Served[at].Left
			line.Done = !line.Left
		}
		out = append(out, line)
	}
	if !slices.ContainsFunc(out, ServiceLine.Open) {
		return false
	}
	p.Stage, p.Services = AtService, out
	return true
}

// BeforeService is the position of somebody who begins a service: what it needs is
// asked for first. While all of that is confirmed, or there is no such service among
// those offered, it is p itself.
func BeforeService(lib *tree.Library, facts job.Facts, p Position, id string) Position {
	at := slices.IndexFunc(p.Services, func(l ServiceLine) bool { return l.Service.ID == id })
	if p.Stage != AtService || at < 0 {
		return p
	}
	w := &where{lib: lib, system: p.System, facts: facts, sheet: sheetOf(p.System, p.Results)}
	w.ev = weigh(lib, p.System, w.sheet)
	asks := p
	asks.Services, asks.Serving = nil, p.Services[at].Service
	if w.guard(&asks); asks.Stage == AtService {
		return p
	}
	return asks
}

// LeftBy are the make-safe items that a service changes by itself in this system, with
// how it leaves them: after fresh oil the engine has run, and its spark lead is on.
func LeftBy(lib *tree.Library, sys *tree.System, v *tree.Service) map[string]string {
	return lib.SafeOf(sys).Of(v.Leaves)
}
