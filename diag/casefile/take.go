package casefile

import (
	"fmt"
	"slices"

	"benchlead/diag/formula"
	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// take turns an entry into an event, or sets it aside.
func (c *Case) take(e entry, meter measure.Meter, values formula.Values) {
	test, flip, question := match(c.System, e)
	if question != "" {
		c.aside(e, e.asked, test, question)
		return
	}
	r, err := measure.Parse(e.value, test.Function)
	if err != nil {
		c.aside(e, e.read, test, err.Error())
		return
	}
	if flip {
		var why string
		if r, why = turned(r); why != "" {
			c.aside(e, e.read, test, why)
			return
		}
	}
	if _, err := meter.Estimate(r, 20); err != nil && r.Kind != measure.Flicker {
		c.aside(e, e.read, test, err.Error())
		return
	}
	if why := impossible(test, r, values); why != "" {
		c.aside(e, e.read, test, why)
		c.Aside[len(c.Aside)-1].Reading = &r
		return
	}
	c.add(job.Event{Kind: job.KindRead, Read: &job.Read{Test: test.ID, Reading: r}})
}

// turned is what a reading with the leads the other way round says of the test;
// or why it says nothing.
func turned(r measure.Reading) (measure.Reading, string) {
	switch r.Function {
	case measure.DCVolts, measure.DCAmps:
		if r.Kind == measure.OverRange {
			return r, "it went over range with the leads the other way round; swap them and read again"
		}
		r.Value, r.Low, r.High = 0-r.Value, 0-r.High, 0-r.Low
	case measure.DiodeTest:
		return r, "a diode reads otherwise the other way round; swap the leads and read again"
	}
	return r, "" // AC and resistance have no direction
}

// impossible says why a value can't be right; it then does not count.
func impossible(test *tree.Test, r measure.Reading, values formula.Values) string {
	if test.Possible == nil || r.Kind == measure.OverRange || r.Kind == measure.Flicker {
		return ""
	}
	low, high, err := test.Possible.Limits(values)
	if err != nil || r.Value >= low && r.Value <= high {
		return ""
	}
	if v := 0 - r.Value; r.Value < low && v >= low && v <= high && directed(r.Function) {
		return fmt.Sprintf("%g with the leads this way round can't be (%g to %g is possible): were they swapped? Then it is %g", r.Value, low, high, v)
	}
	return fmt.Sprintf("%g is outside what this system can produce here (%g to %g): check the point, the unit and the decimal point", r.Value, low, high)
}

// directed says whether swapped leads turn the sign of what a function shows.
func directed(f measure.Function) bool { return f == measure.DCVolts || f == measure.DCAmps }

// observe turns an observation into an event. The choice was checked before.
func (c *Case) observe(test, choice string) {
	c.add(job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test, Choice: choice}})
}

func (c *Case) aside(e entry, at source.Place, test *tree.Test, why string) {
	a := Aside{Place: at, What: e.said(), Why: why, Lacks: e.function == "" || e.red == "" || e.black == "" && e.function != measure.ClampAmps || e.state == ""}
	if test != nil {
		a.Test = test.ID
	}
	c.Aside = append(c.Aside, a)
}

func (c *Case) add(e job.Event) {
	e.Seq = int64(len(c.Events)) + 1
	c.Events = append(c.Events, e)
}

// hasChoice says whether a test offers that choice.
func hasChoice(t *tree.Test, name string) bool {
	return slices.ContainsFunc(t.Choices, func(c tree.Choice) bool { return c.Name == name })
}
