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
		p.Test, p.Work, p.Again, p.Tree, p.Step = nil, nil, nil, "", ""
	}
}

// serving offers the usual services of a repaired machine, once.
func (w *where) serving(p *Position) bool {
	var out []ServiceLine
	for _, id := range w.system.Service {
		s := w.lib.Services[id]
		if s == nil {
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
