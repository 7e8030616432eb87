package report

import (
	"fmt"
	"io"
	"strings"
)

// notToUse is the lead of every form of a machine that nobody may use.
const notToUse = "NOT TO BE USED"

// OwnerText writes the report for the owner in plain lines of at most 80 columns,
// harmless to a terminal. It says what Owner says.
func OwnerText(w io.Writer, d Document) error {
	p := &page{}
	p.stop(d)
	p.line("", about(d))
	p.line("", fmt.Sprintf("Report of job %d", d.Job))
	for _, r := range head(d) {
		p.line(r.Name+": ", r.Figure)
	}
	for _, s := range sections(d) {
		p.section(s)
	}
	if _, err := io.WriteString(w, p.b.String()); err != nil {
		return fmt.Errorf("writing the owner's report: %w", err)
	}
	return nil
}

// head are the few facts at the top.
func head(d Document) []row {
	var out []row
	add := func(name, figure string) {
		if figure != "" {
			out = append(out, row{Name: name, Figure: figure})
		}
	}
	add("Owner", d.Owner)
	add("Brought in", plainDay(d.Begun))
	add("Finished", plainDay(d.Ended))
	if d.Ended == "" {
		add("As of", plainDay(d.Last))
	}
	add("What it did", d.Complaint)
	add("Measured with", d.Meter)
	return out
}

// untestedStop is the lead of a machine that goes back with its safety functions
// untested: nobody knows that it is safe.
const untestedStop = "DO NOT USE IT"

// warning is what a form has to lead with, and why; empty when it needs none.
func warning(d Document) (lead string, why []string) {
	switch {
	case len(d.NotToUse) > 0:
		return notToUse, d.NotToUse
	case backUntested(d):
		return untestedStop, []string{"Its safety functions are not tested."}
	}
	return "", nil
}

// stop leads with why nobody may use the machine.
func (p *page) stop(d Document) {
	lead, whys := warning(d)
	if lead == "" {
		return
	}
	rule := strings.Repeat("!", columns)
	p.b.WriteString(rule + "\n!!  " + lead + "\n")
	for _, why := range whys {
		p.line("!!  ", why)
	}
	p.b.WriteString(rule + "\n\n")
}

func (p *page) section(s section) {
	p.head(s.Head)
	for _, text := range s.Says {
		p.line("", text)
	}
	for _, i := range s.Items {
		p.item(i)
	}
	for _, r := range s.Rows {
		name := r.Name + ": "
		if r.Sum {
			name = "= " + name
		}
		p.line(name, r.Figure)
	}
}

// item writes an entry. Its picture is for the page alone: what it shows is said in More,
// and a row of letters can't be read aloud.
func (p *page) item(i item) {
	mark := i.Mark
	if mark == "" {
		mark = "-"
	}
	p.line(mark+" ", i.Text)
	for _, text := range i.More {
		p.line("    ", text)
	}
}
