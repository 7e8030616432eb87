package report

import (
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// work is what was done to the machine, and what of the agreed is not.
func work(d Document) section {
	s := section{Head: "What was done"}
	if d.Outcome == "" && len(d.repairs()) > 0 && !d.mended() {
		s.Head = "What is to be done"
	}
	for _, r := range d.repairs() {
		if r.Done {
			s.Items = append(s.Items, done(r))
		}
	}
	for _, title := range d.Worked {
		s.Items = append(s.Items, item{Mark: markDone, Text: "To be able to test it: " + tree.InSentence(title) + "."})
	}
	for _, v := range d.Served {
		if !v.Left {
			s.Items = append(s.Items, item{Mark: markDone, Text: full(v.Title)})
		}
	}
	for _, r := range d.repairs() {
		if !r.Done {
			s.Items = append(s.Items, item{Mark: markOpen, Text: "Not done" + yet(d) + ": " + tree.InSentence(r.Title) + "."})
		}
	}
	s.Items = append(s.Items, fittedParts(d)...)
	for _, b := range d.Binned {
		s.Items = append(s.Items, item{Mark: "-", Text: "Taken off and kept by the shop: " + tree.InSentence(b.Title) + "."})
	}
	if len(s.Items) == 0 {
		s.Says = []string{"Nothing was changed on the machine."}
	}
	return s
}

func yet(d Document) string {
	if d.Outcome == "" {
		return " yet"
	}
	return ""
}

// done is a repair with what the owner does not get back. What came off for the
// work only matters where it stays off.
func done(r RepairLine) item {
	i := item{Mark: markDone, Text: full(r.Title)}
	add := func(what string, list []string) {
		for _, text := range list {
			if r.ticked(text) {
				i.More = append(i.More, what+full(text))
			}
		}
	}
	if r.Converts {
		add("Taken off: ", r.Off)
		add("Left as it was: ", r.Kept)
	}
	add("Thrown away: ", r.Scrap)
	return i
}

// ticked says whether a line of the checklist was ticked. Of a repair whose
// checklist nobody kept, all lines are taken for done.
func (r RepairLine) ticked(text string) bool {
	ends := func(line string) bool { return strings.HasSuffix(line, text) }
	return len(r.Lines) == 0 || slices.ContainsFunc(r.Lines, ends)
}

func fittedParts(d Document) []item {
	var out []item
	for _, w := range d.paths() {
		for _, l := range w.Parts {
			if l.fitted {
				out = append(out, item{Mark: "-", Text: "Part fitted: " + partWords(l) + "."})
			}
		}
	}
	return out
}

// partWords is how many of which part, and where it is from.
func partWords(l PartLine) string {
	text := l.Title
	if l.Qty > 1 {
		text = counted(float64(l.Qty), "piece") + " of " + tree.InSentence(l.Title)
	}
	return text + " (" + plainGrade(l.Grade) + ")"
}

// changed is a machine that is not as it was built, with how the rules for it are
// met. Whoever has it after this owner has to be told.
func changed(d Document) section {
	s := section{Head: "Changed for good"}
	for _, r := range d.repairs() {
		if r.Done && r.Converts {
			s.Says = append(s.Says, "This machine is not as it was built. What was done to it: "+tree.InSentence(r.Title)+".")
		}
	}
	if len(s.Says) > 0 {
		s.Says = append(s.Says, "Whoever gets it after you has to be told. Hand this report on with it.")
	}
	if len(s.Says) == 0 && len(d.Law) == 0 {
		return section{}
	}
	if len(s.Says) == 0 {
		s.Head = "Rules that were checked"
	}
	for _, l := range d.Law {
		s.Items = append(s.Items, ruled(l))
	}
	return s
}

// ruled is a rule with the way in which it was confirmed to be met.
func ruled(l Law) item {
	i := item{Mark: markDone, Text: l.Cite + ": " + l.Says}
	if l.Says == "" {
		i.Text = "Checked before the work was begun." // what has to be true first is no rule
	}
	switch {
	case l.Met == "":
		i.Mark = markOpen
		i.More = []string{"It was NOT confirmed that this is met."}
	case l.Met == allConfirmed:
		for _, way := range l.Ways {
			i.More = append(i.More, "Confirmed: "+full(way))
		}
	default:
		i.More = []string{"Confirmed: " + full(l.Met)}
	}
	return i
}

// sale says that the machine goes to somebody else as it is.
func (d Document) sale() bool {
	return job.Outcome(d.Outcome) == job.SoldAsIs || d.State == StateForSale
}

// disclosed is what a buyer has to know. The tests that were made stand there with
// what they showed last.
func disclosed(d Document) section {
	if !d.sale() {
		return section{}
	}
	s := section{Head: "What the buyer has to know"}
	s.Says = []string{"It is sold as it is, with these faults:"}
	if len(d.known()) == 0 {
		s.Says = []string{"It is sold as it is. No fault is known of it, and not everything was tested."}
	}
	for _, f := range d.known() {
		s.Items = append(s.Items, item{Mark: markFail, Text: "Known fault: " + tree.InSentence(f) + "."})
	}
	for _, text := range d.NotToUse {
		s.Items = append(s.Items, item{Mark: markFail, Text: "For parts only, not to be used: " + text})
	}
	for _, r := range d.Readings {
		if len(r.Taken) == 0 {
			continue
		}
		p := r.Taken[len(r.Taken)-1].plain
		if p.title == "" {
			p.title = r.Title
		}
		if text := p.sentence(); text != "" {
			s.Items = append(s.Items, item{Mark: "-", Text: "Tested: " + strings.TrimSuffix(text, ".") + "."})
		}
	}
	s.Items = append(s.Items, item{Mark: "-", Text: "Whether it was recalled is for the buyer to look up before it is used, with the authority for product safety."})
	return s
}

// known are the titles of the faults that are on the machine as far as is known.
func (d Document) known() []string {
	var out []string
	if d.Now != "" {
		for _, f := range d.Still {
			out = append(out, f.Title)
		}
		return out
	}
	for _, f := range d.Findings {
		out = append(out, f.Title)
	}
	return out
}

// watch is what to look out for once it is home.
func watch(d Document) section {
	s := section{Head: "What to watch for"}
	add := func(text string) { s.Items = append(s.Items, item{Mark: "-", Text: text}) }
	for _, f := range d.Still {
		add("Still wrong: " + tree.InSentence(f.Title) + ".")
	}
	for _, w := range d.Wears {
		add(w.Title + ": " + w.Says + ".")
	}
	for _, w := range d.paths() {
		for _, l := range w.Parts {
			if l.fitted && l.Grade == "bin" {
				add(l.Title + ": a used part. It was tested, and its age is not known.")
			}
		}
	}
	for _, v := range d.Served {
		if v.Left {
			add("Usual before hand-back, and not done: " + tree.InSentence(v.Title) + ".")
		}
	}
	switch job.Outcome(d.Outcome) {
	case job.Proved, job.NotProved:
		add("If it does the same again (" + tree.InSentence(d.Complaint) + "), stop using it and bring it back. Tell us what came just before.")
	}
	return s
}
