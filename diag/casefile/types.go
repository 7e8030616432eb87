// Package casefile reads a case: readings already taken on a machine, written
// down in a file, to be judged without a walk. It turns them into the events of
// a job, so that a case is judged by just what judges the bench.
//
// Nothing is guessed. A reading whose point, state or unit is missing, that
// fits no test of the system, or that can't be right, is set aside with the
// question that would settle it. The package is pure.
package casefile

import (
	"fmt"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// Case is a case file, read and turned into events.
type Case struct {
	System *tree.System
	Events []job.Event
	Aside  []Aside // what could not be taken, with what to ask
	Expect *Expect // what an expert concludes; nil when the file doesn't say
	// Complaint is the one that the file names; empty when it names none. The walk then
	// begins at the first of the system, and the suspects look at all of them.
	Complaint string
}

// Aside is a reading or observation that was not taken.
type Aside struct {
	Place source.Place // where in the file the trouble is
	What  string       // as written
	Test  string       // the test it seems to be meant for, if any
	Why   string       // the question that would settle it
	// Reading is the value that can't be right; nil when it is not the value.
	Reading *measure.Reading
	Lacks   bool // its points, state or function are not all said: nothing in it is wrong
}

// Expect is what an expert concludes from the case, written before it is
// judged.
type Expect struct {
	Found    []string // faults the readings show
	Suspects []string // faults he leans to, not shown yet
	Cleared  []string
	Good     []string // faults that must not be found: the part is good
	Asks     []string // tests of which one should be asked for
	Why      string
}

// CodeNotTaken is the code of a reading that was set aside.
const CodeNotTaken source.Code = "case-not-taken"

// Issues is what was set aside though all of it is said, each with its place: what a
// writer of a case file mends before the case is judged. What isn't known can't be.
func (c *Case) Issues() source.Issues {
	var out source.Issues
	for _, a := range c.Aside {
		if a.Lacks {
			continue
		}
		out = append(out, source.Issue{
			Code: CodeNotTaken, Place: a.Place, Message: fmt.Sprintf("this can't be taken (%s)", a.What), Hint: a.Why,
		})
	}
	return out
}
