package record

import (
	"regexp"
	"slices"
	"strconv"
	"time"

	"benchlead/diag/measure"
)

func jobRows(l Log, c Card, _ Names) [][]string {
	why, ended := "", ""
	for _, e := range l.Events {
		if e.Closed != nil {
			why, ended = e.Closed.Why, stamp(e.At)
		}
	}
	return [][]string{{
		whole(c.ID), stamp(c.OpenedAt), stamp(c.LastAt), ended, text(c.Machine), text(c.Owner), text(c.System), text(c.Complaint), text(c.Words),
		text(c.outcome()), text(why), known(int64(c.Quoted)), known(c.minutes()),
	}}
}

// readingRows are the answers to tests: what was read, what was seen, what was
// passed over.
func readingRows(l Log, _ Card, _ Names) [][]string {
	gone := takenBack(l.Events)
	var out [][]string
	for _, e := range l.Events {
		head := []string{whole(l.Job), whole(e.Seq), stamp(e.At)}
		var row []string
		switch {
		case e.Read != nil:
			r := e.Read.Reading
			row = []string{text(e.Read.Test), text(string(r.Kind)), text(string(r.Function)), "", "", "", nonzero(r.Range), text(r.Text), "", ""}
			switch r.Kind {
			case measure.Number:
				row[3] = number(r.Value)
			case measure.Wanders:
				row[3], row[4], row[5] = number(r.Value), number(r.Low), number(r.High)
			}
		case e.Seen != nil:
			row = []string{text(e.Seen.Test), "seen", "", "", "", "", "", text(e.Seen.Text), text(e.Seen.Choice), ""}
		case e.Cant != nil && e.Cant.Test != "":
			row = []string{text(e.Cant.Test), "passed", "", "", "", "", "", "", "", text(e.Cant.Why)}
		default:
			continue
		}
		out = append(out, slices.Concat(head, row, []string{yes(gone[e.Seq])}))
	}
	return out
}

func findingRows(l Log, c Card, n Names) [][]string {
	var out [][]string
	for _, fault := range c.Faults {
		at, seq := "", ""
		for _, e := range l.Events {
			if e.Shown != nil && slices.Contains(*e.Shown, fault) {
				at, seq = stamp(e.At), whole(e.Seq)
				break
			}
		}
		out = append(out, []string{
			whole(l.Job), text(fault), text(n.Fault(c.System, fault)), at, seq, yes(slices.Contains(c.Came, fault)), atClosing(l, fault),
		})
	}
	return out
}

// atClosing is how a fault stood when the job was closed; empty while it is open.
func atClosing(l Log, fault string) string {
	for _, e := range l.Events {
		switch {
		case e.Closed == nil:
		case slices.Contains(e.Closed.Found, fault):
			return "found"
		case slices.Contains(e.Closed.Cleared, fault):
			return "cleared"
		case slices.Contains(e.Closed.Masked, fault):
			return "masked"
		case slices.Contains(e.Closed.Untested, fault):
			return "untested"
		}
	}
	return ""
}

func repairRows(l Log, _ Card, n Names) [][]string {
	gone := takenBack(l.Events)
	var out [][]string
	for _, e := range l.Events {
		if t := e.Ticked; t != nil {
			out = append(out, []string{whole(l.Job), whole(e.Seq), stamp(e.At), text(t.Repair), text(n.Repair(t.Repair)), yes(gone[e.Seq])})
		}
	}
	return out
}

// moneyRows are the quotes that were chosen and what the owner said to them.
func moneyRows(l Log, _ Card, _ Names) [][]string {
	gone := takenBack(l.Events)
	var out [][]string
	for _, e := range l.Events {
		head := []string{whole(l.Job), whole(e.Seq), stamp(e.At)}
		var row []string
		switch {
		case e.Chosen != nil:
			q := e.Chosen.Quote
			row = []string{
				"quote", text(q.Currency), amount(q.Parts), amount(q.Labour), amount(q.Other), amount(q.Tax), amount(q.Total), amount(q.Deposit), "",
				known(int64(q.Minutes)), "", "",
			}
		case e.Asked != nil:
			a := e.Asked
			row = []string{
				"owner's answer", text(a.Currency), "", "", "", "", amount(a.Total), "", amount(a.Ceiling), "",
				map[bool]string{true: "yes", false: "no"}[a.Approved], text(a.Who),
			}
		default:
			continue
		}
		out = append(out, slices.Concat(head, row, []string{yes(gone[e.Seq])}))
	}
	return out
}

func whole(n int64) string { return strconv.FormatInt(n, 10) }

// known is a number of minutes; empty when it is not known.
func known(n int64) string {
	if n == 0 {
		return ""
	}
	return whole(n)
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func nonzero(v float64) string {
	if v == 0 {
		return ""
	}
	return number(v)
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

func stamp(at int64) string { return time.UnixMicro(at).UTC().Format(time.RFC3339) }

var exact = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)

// amount is an exact decimal as it is; anything else is a cell of text.
func amount(s string) string {
	if exact.MatchString(s) {
		return s
	}
	return text(s)
}
