package counsel

import (
	"cmp"
	"slices"

	"benchlead/diag/benchtime"
	"benchlead/diag/job"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
)

// read takes the answers of the job as readings: each test once at each stage of work,
// the latest. After work that leaves nobody knowing what the machine shows, nothing
// counts, and neither does what is in dispute.
func (c *counsel) read() {
	sys := c.pos.System
	c.at = suspect.At{Access: benchtime.New(sys), Taken: map[suspect.Key]bool{}}
	c.at.Stage, c.known = suspect.StageOf(sys, done(c.facts, c.facts.Last+1))
	c.known = c.known && c.cloud.Knows(c.at.Stage)
	for _, test := range sys.Tests {
		if test.Kind == tree.Worked {
			continue
		}
		for _, a := range c.facts.Answers[test.ID] {
			stage, known := suspect.StageOf(sys, done(c.facts, a.Seq))
			if !known || !c.cloud.Knows(stage) {
				continue
			}
			key := suspect.Key{Stage: c.askedAt(test, stage), Test: test.ID}
			c.at.Access.Take(test)
			c.at.Taken[key] = true
			c.readings = slices.DeleteFunc(c.readings, func(r suspect.Reading) bool { return r.Key == key })
			if answer := c.answer(a); answer.Kind != suspect.None && c.disputed(a, test) {
				c.inDispute = true
			} else if answer.Kind != suspect.None {
				c.readings = append(c.readings, suspect.Reading{Key: key, Answer: answer})
			}
		}
	}
	slices.SortStableFunc(c.readings, func(a, b suspect.Reading) int { return cmp.Compare(a.Test, b.Test) })
}

// disputed says whether an answer is one of readings that are in dispute now.
func (c *counsel) disputed(a job.Answer, test *tree.Test) bool {
	all := c.facts.Answers[test.ID]
	return a.Epoch == all[len(all)-1].Epoch && c.pos.Results[test.ID].InDispute()
}

// askedAt is the stage that an answer is of. What is only asked after some work was
// answered after it, whoever did that: an owner who says that it took no charge has
// charged it.
func (c *counsel) askedAt(test *tree.Test, stage string) string {
	if test.After == "" || stage != "" {
		return stage
	}
	for _, s := range c.pos.System.Circuit.Stages {
		if slices.Contains(s.Work, test.After) {
			return s.ID
		}
	}
	return stage
}

// Stages are those that a job has gone through, but for the machine as it came in: a
// cloud that knows them can weigh all its answers.
func Stages(sys *tree.System, facts job.Facts) []string {
	if sys == nil || sys.Circuit == nil {
		return nil
	}
	var out []string
	for _, w := range facts.Worked {
		stage, ok := suspect.StageOf(sys, done(facts, w.Seq+1))
		if ok && stage != "" && !slices.Contains(out, stage) {
			out = append(out, stage)
		}
	}
	return out
}

// done is the work done before an event, in order.
func done(facts job.Facts, seq int64) []string {
	var out []string
	for _, w := range facts.Worked {
		if w.Seq < seq {
			out = append(out, w.Work)
		}
	}
	return out
}

// answer is what one answer says to the suspects; none for a test that was passed over.
func (c *counsel) answer(a job.Answer) suspect.Answer {
	switch {
	case a.Seen != nil:
		return suspect.Answer{Kind: suspect.Seen, Choice: a.Seen.Choice}
	case a.Read != nil:
		return suspect.Of(a.Read.Reading, c.facts.Intake.Meter)
	}
	return suspect.Answer{}
}

// heed holds back what the answers forbid, those of a meter by their bands.
func (c *counsel) heed() {
	c.at.Heed(c.pos.System, c.readings)
	for _, r := range c.pos.Results {
		for i, band := range r.Test.Bands {
			c.at.Still = c.at.Still || band.Danger != "" && band.Stops && r.Raises(i)
		}
	}
}
