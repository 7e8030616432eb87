package counsel

import (
	"benchlead/diag/job"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Counsel is what the suspects say of a job. All lists are empty once something was
// repaired: the clouds are of machines as they come in.
type Counsel struct {
	Suspects []Suspect         // the likeliest first; those that are worth a line
	Others   float64           // how likely all others are together
	All      []suspect.Suspect // every one of them, the likeliest first, also what is not worth a line
	Faults   []Fault           // how likely each fault is, alone or with others; the likeliest first
	Alike    []string          // titles of those that no test left tells apart, the first among them; empty when one does
	Unlike   string            // that no simulated machine fits the answers: then nobody is suspected and no finding doubted
	NoneFits string            // that what is likely is ruled out by some answer: the suspects are those that fit least badly
	Named    bool              // the first is sure enough to be named
	Tests    []Test            // that would tell most, the best first; three at most
	Foretold []Foretelling     // tests with what their answers would make of the suspects
	Again    []Again           // readings that fit little else
	Doubts   []Doubt           // findings that the suspects contradict
	NotYet   []NotYet          // parts not to buy yet
	Moved    []string          // what shifted the odds before any reading, a sentence each
	Plan     []string          // how to catch a fault that comes and goes; empty unless it is called for
	Readings int               // how many readings were weighed
	Lost     bool              // work was done after which nobody knows what a machine shows: no test is offered
	Held     bool              // a danger stops the work: nothing that needs power is offered
}

// most bounds the lists that a page shows.
const (
	mostSuspects = 5
	mostTests    = 3
	worthALine   = 0.03
)

// Of weighs a job. The cloud is that of its system, label and complaint; shop is the
// shop's own record, empty for none. facts must have an intake.
func Of(lib *tree.Library, facts job.Facts, pos walk.Position, cloud *suspect.Cloud, shop Shop) Counsel {
	if cloud == nil || pos.System == nil || facts.MendedAt > 0 || facts.Closed != nil {
		return Counsel{}
	}
	c := counsel{lib: lib, facts: facts, pos: pos, cloud: cloud}
	var out Counsel
	c.cloud, out.Moved = moved(cloud, facts.Intake.History, shop)
	c.read()
	c.weighing = c.cloud.Weigh(c.readings)
	c.heed()
	if c.known { // otherwise no answer would count
		c.offers = c.weighing.Next(c.at)
	}
	out.Readings, out.Lost, out.Held = len(c.readings), !c.known, c.at.Still
	if out.Unlike = c.unlike(); out.Unlike != "" { // shares of what does not fit say nothing
		out.Again, out.Plan = c.again(), c.plan()
		return out
	}
	if len(c.pos.Verdict.Found) == 0 && c.nothingFits() {
		out.NoneFits = noneFits
	}
	out.Suspects, out.Others = c.suspects()
	out.All, out.Faults = c.weighing.Ranked(), c.faults()
	_, out.Named = c.weighing.Named()
	if !out.Named {
		out.Tests, out.Foretold = c.tests(), c.foretell()
		if c.known {
			out.Alike = alike(out)
		}
	}
	out.Again = c.again()
	out.Doubts = c.doubts()
	out.NotYet = c.notYet()
	out.Plan = c.plan()
	return out
}

// counsel is one job while it is weighed.
type counsel struct {
	lib      *tree.Library
	facts    job.Facts
	pos      walk.Position
	cloud    *suspect.Cloud
	readings []suspect.Reading
	at       suspect.At
	known    bool // what the machine shows after the work that was done
	// inDispute says that some readings don't count, because they disagree.
	inDispute bool
	weighing  suspect.Weighing
	offers    []suspect.Offer
}
