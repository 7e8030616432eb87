package report

import (
	"fmt"
	"io"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"benchlead/diag/source"
)

// columns is the width that plain text keeps to.
const columns = 80

// Text writes the document in plain lines of at most 80 columns, harmless to a
// terminal. It fits a printer, a screen reader and an e-mail.
func Text(w io.Writer, d Document) error {
	p := &page{}
	p.stop(d)
	p.top(d)
	p.verdict(d)
	p.readings(d)
	p.work(d)
	p.end(d)
	if _, err := io.WriteString(w, p.b.String()); err != nil {
		return fmt.Errorf("writing the report: %w", err)
	}
	return nil
}

// page collects wrapped lines.
type page struct{ b strings.Builder }

// line writes text behind a lead, wrapped; later lines hang under the text.
func (p *page) line(lead, text string) {
	lead, text = source.CleanLine(lead), strings.TrimSpace(source.CleanLine(text))
	if text == "" {
		return
	}
	indent := ansi.StringWidth(lead)
	if indent > columns/2 {
		lead, text, indent = "  ", strings.TrimSpace(lead)+" "+text, 2
	}
	for i, l := range strings.Split(ansi.Wrap(text, columns-indent, " "), "\n") {
		if i > 0 {
			lead = strings.Repeat(" ", indent)
		}
		p.b.WriteString(lead + strings.TrimSpace(l) + "\n")
	}
}

func (p *page) head(title string) {
	p.b.WriteString("\n" + strings.ToUpper(source.CleanLine(title)) + "\n")
}

func (p *page) list(title string, items []string) {
	if len(items) == 0 {
		return
	}
	p.head(title)
	for _, i := range items {
		p.line("- ", i)
	}
}

func (p *page) faults(title string, faults []FaultLine) {
	var items []string
	for _, f := range faults {
		items = append(items, join(f.Title, ": ", f.Because))
	}
	p.list(title, items)
}

// join puts two texts together; either may be missing.
func join(a, between, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + between + b
}

func (p *page) top(d Document) {
	p.line("", fmt.Sprintf("Report of job %d", d.Job))
	p.line("State:     ", join(d.State, ". Next: ", d.Next))
	if d.Outcome != "" {
		p.line("Outcome:   ", join(d.Outcome, ", ", d.Why))
	}
	p.line("Taken in:  ", d.Begun)
	p.line("Closed:    ", d.Ended)
	p.line("Machine:   ", join(d.Machine, ", ", join(d.Kind, ": ", d.System)))
	p.line("Owner:     ", d.Owner)
	p.line("Complaint: ", d.Complaint)
	if d.Words != "" {
		p.line("In words:  ", `"`+d.Words+`"`)
	}
	p.line("Before it: ", strings.Join(d.History, ", "))
	for _, l := range d.Label {
		p.line("Label:     ", l.Title+": "+l.Value+defaulted(l))
	}
	p.line("Meter:     ", d.Meter)
	p.line("Bench:     ", d.Bench)
	for _, c := range d.Corrected {
		p.line("Put right: ", c)
	}
	for _, c := range d.Dangers {
		p.line("DANGER:    ", join(c.Title, ". ", c.Tell))
	}
}

func defaulted(l LabelLine) string {
	if l.Default {
		return " (usual for the type, not read)"
	}
	return ""
}

func (p *page) verdict(d Document) {
	p.list("For the owner, by phone", d.Phone)
	p.head("Verdict")
	p.line("", d.Verdict)
	if d.Now != "" {
		p.line("After the repair: ", d.Now)
	}
	if len(d.Findings) > 0 {
		p.head("Found")
	}
	for _, f := range d.Findings {
		p.line("- ", join(f.Title, ". ", f.Says))
		for _, e := range f.Evidence {
			p.line("  by ", e)
		}
		p.line("  ", f.Doubt)
	}
	p.faults("Still found after the repair", d.Still)
	p.faults(clearedHead(d), d.Cleared)
	p.faults("Can't be tested yet", d.Masked)
	p.faults("Not tested", d.Untested)
	var unclear []string
	for _, u := range d.Unclear {
		line := join(u.Test, ": ", u.Why)
		if u.Take != "" {
			line += "; this would tell: " + u.Take
		}
		unclear = append(unclear, line)
	}
	p.list("Decides nothing", unclear)
	p.weighed(d)
}

// weighed is what the suspects say before anything is bought.
func (p *page) weighed(d Document) {
	var again, notYet []string
	for _, a := range d.Again {
		again = append(again, join(a.Title, ". ", a.Why))
	}
	for _, n := range d.NotYet {
		notYet = append(notYet, n.words())
	}
	p.list("Fits nothing else", again)
	p.list("Don't buy yet", notYet)
}

// clearedHead is the head of the faults that are cleared.
func clearedHead(d Document) string {
	if d.Now != "" {
		return "Ruled out or repaired"
	}
	return "Ruled out"
}

func (p *page) readings(d Document) {
	if len(d.Readings) > 0 {
		p.head("Readings")
	}
	for _, r := range d.Readings {
		p.line("- ", r.Title)
		p.line("  where:   ", where(r))
		p.line("  healthy: ", r.Healthy)
		for _, t := range r.Taken {
			lead := "  reads:   "
			if t.After != "" {
				lead = "  after " + t.After + ": "
			}
			p.line(lead, takenWords(t))
			p.line("  bands:   ", bandWords(t.line))
		}
	}
	if len(d.Proof) > 0 {
		p.head("Before and after the repair")
	}
	for _, l := range d.Proof {
		p.line("- ", l.Title)
		p.line("  before:  ", orNone(l.Before))
		p.line("  after:   ", orNone(l.After))
		p.line("  healthy: ", l.Healthy)
	}
}

func orNone(s string) string {
	if s == "" {
		return "not taken"
	}
	return s
}

// where says how a reading is taken: function, leads, state and setups.
func where(r Reading) string {
	text := r.Function
	if r.Red != "" {
		text = join(text, ", ", "red on "+r.Red)
	}
	if r.Black != "" {
		text = join(text, ", ", "black on "+r.Black)
	}
	return join(join(text, "; ", r.State), "; ", r.With)
}

func takenWords(t Taken) string {
	text := t.Value
	if len(t.Others) > 0 {
		text += ", before that " + strings.Join(t.Others, ", ")
	}
	switch {
	case t.seen:
	case t.Called:
		text = join(text, ", ", t.Band)
	default:
		text = join(text, ", ", t.Answer)
		if t.Band != "" {
			text += ", most likely " + t.Band
		}
	}
	return join(text, ". ", t.Says)
}

// bandWords is the line of bands in words, low to high.
func bandWords(l *bandLine) string {
	if l == nil {
		return ""
	}
	text := ""
	for i, n := range l.names {
		text += n
		if i < len(l.cuts) {
			text += " | " + l.cuts[i] + " | "
		}
	}
	return text
}

func (p *page) end(d Document) {
	if len(d.Law) > 0 {
		p.head("Rules that must be met")
	}
	for _, l := range d.Law {
		p.line("- ", join(l.Cite, ": ", l.Says))
		for _, way := range l.Ways {
			p.line("    "+l.Mark(way)+" ", way)
		}
	}
	var safety []string
	for _, s := range d.Safety {
		safety = append(safety, join(s.Title+": "+s.State, " - ", s.Result))
	}
	p.list("Safety functions at hand-back", safety)
	var cautions []string
	for _, c := range d.Cautions {
		cautions = append(cautions, join(c.Title, ". ", c.Tell))
	}
	p.list("Cautions", cautions)
	p.list("Notes", d.Notes)
	p.list("Please note", d.Defer)
}
