package report

import (
	"fmt"
	"io"

	"benchlead/diag/source"
)

// tag is what stands on the tag, cut to what a small label holds.
type tag struct {
	Job       int64
	Stop      string // NOT TO BE USED, or as strong; empty when nothing stands against it
	Machine   string
	Complaint string
	State     string
	Why       string // of Stop
	Next      string
	Days      string
}

// How many characters of each the label holds.
const (
	tagMachine   = 56
	tagComplaint = 80
	tagNext      = 80
	tagWhy       = 90
)

func tagOf(d Document) tag {
	t := tag{
		Job: d.Job, Machine: shorten(about(d), tagMachine), Complaint: shorten(d.Complaint, tagComplaint),
		State: source.CleanLine(d.State), Next: shorten(d.Next, tagNext),
		Days: "in " + plainDay(d.Begun) + ", as of " + plainDay(d.Last),
	}
	lead, why := warning(d)
	switch lead {
	case "":
		return t
	case notToUse:
		t.State = "UNSAFE"
	case untestedStop:
		t.State = "NOT TESTED"
	}
	t.Stop, t.Why = lead, shorten(why[0], tagWhy)
	return t
}

// Tag writes the tag that hangs on the machine: one HTML page the size of a label,
// 100 by 62 mm, with its style inside and no script.
func Tag(w io.Writer, d Document) error { return execute(w, "tag", tagSheet, tagOf(d)) }

// TagText writes the tag in plain lines.
func TagText(w io.Writer, d Document) error {
	t := tagOf(d)
	p := &page{}
	if t.Stop != "" {
		p.line("", t.State+" - "+t.Stop)
		p.line("Why:       ", t.Why)
	}
	p.line("Job:       ", fmt.Sprint(t.Job))
	p.line("Machine:   ", t.Machine)
	p.line("Complaint: ", t.Complaint)
	if t.Stop == "" {
		p.line("State:     ", t.State)
	}
	p.line("Next:      ", t.Next)
	p.line("Dates:     ", t.Days)
	if _, err := io.WriteString(w, p.b.String()); err != nil {
		return fmt.Errorf("writing the tag: %w", err)
	}
	return nil
}
