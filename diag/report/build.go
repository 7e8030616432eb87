package report

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/repair"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Build makes the document of a job from its whole log. id is the job's number;
// offers are what could be done, shown while no path is chosen. What a closed
// job concluded is taken from its record, so that other trees don't rewrite it.
// The error says that the log is damaged, has no intake, or is for a system
// that the library doesn't have.
func Build(lib *tree.Library, id int64, events []job.Event, offers repair.Offers) (Document, error) {
	s, err := newStory(lib, events)
	if err != nil {
		return Document{}, fmt.Errorf("no report of job %d: %w", id, err)
	}
	d := Document{Job: id, Begun: day(events[0])}
	for _, e := range events {
		if e.Kind == job.KindClosed {
			d.Ended = day(e)
		}
	}
	s.intake(&d)
	s.verdict(&d)
	s.readings(&d)
	s.proof(&d)
	s.work(&d, offers)
	s.safety(&d)
	s.cautions(&d)
	s.close(&d)
	d.Phone = phone(d)
	d.Defer = deferrals()
	d.fill()
	return d, nil
}

// day is when an event was recorded, as the log has it.
func day(e job.Event) string { return time.UnixMicro(e.At).UTC().Format("2006-01-02") }

// story is a job as it went: chapters are the spans between things that were
// done to the machine.
type story struct {
	lib      *tree.Library
	system   *tree.System
	facts    job.Facts
	now      walk.Position // at the end
	before   walk.Position // at the end of the last chapter before a repair
	recorded []string      // found, as the log last showed before a repair; nil: not logged
	chapters []chapter
	repaired bool
}

type chapter struct {
	after   string // what was done before it; empty for the first
	results map[string]walk.Result
}

func newStory(lib *tree.Library, events []job.Event) (*story, error) {
	facts, err := job.Fold(events)
	if err != nil {
		return nil, err
	}
	if facts.Intake == nil {
		return nil, errors.New("it has no intake")
	}
	s := &story{lib: lib, system: lib.Systems[facts.Intake.System], facts: facts}
	if s.system == nil {
		return nil, fmt.Errorf("the trees have no system %q", source.CleanLine(facts.Intake.System))
	}
	s.now = walk.Where(lib, facts)
	s.before = s.now
	return s, s.tell(events)
}

// tell cuts the log into chapters where something was done to the machine.
func (s *story) tell(events []job.Event) error {
	gone := undone(events)
	after := ""
	for i, e := range events {
		if gone[e.Seq] || e.Kind != job.KindDone && e.Kind != job.KindTicked {
			continue
		}
		facts, err := job.Fold(upTo(events, i))
		if err != nil {
			return err
		}
		position := walk.Where(s.lib, facts)
		s.chapters = append(s.chapters, chapter{after, position.Results})
		if e.Kind == job.KindTicked && !s.repaired {
			s.repaired, s.before, s.recorded = true, position, lastShown(events[:i])
		}
		after = s.doneTitle(e)
	}
	s.chapters = append(s.chapters, chapter{after, s.now.Results})
	return nil
}

func undone(events []job.Event) map[int64]bool {
	gone := map[int64]bool{}
	for _, e := range events {
		if e.Undone != nil {
			gone[e.Undone.Seq] = true
		}
	}
	return gone
}

// upTo is the log before event i, with whatever was taken back later taken
// back.
func upTo(events []job.Event, i int) []job.Event {
	log := slices.Clone(events[:i])
	for _, e := range events[i:] {
		if e.Undone != nil && e.Undone.Seq <= int64(i) {
			seq := int64(len(log)) + 1
			log = append(log, job.Event{Seq: seq, At: e.At, Kind: job.KindUndone, Undone: &job.Undone{Seq: e.Undone.Seq}})
		}
	}
	return log
}

func lastShown(events []job.Event) []string {
	for _, e := range slices.Backward(events) {
		if e.Shown != nil {
			return *e.Shown
		}
	}
	return nil
}

func (s *story) doneTitle(e job.Event) string {
	if e.Done != nil {
		if w := s.system.FindWork(e.Done.Work); w != nil {
			return w.Title
		}
		return source.CleanLine(e.Done.Work)
	}
	return s.repairTitle(e.Ticked.Repair)
}

func (s *story) repairTitle(id string) string {
	if r := s.lib.Repairs[id]; r != nil {
		return r.Title
	}
	return source.CleanLine(id)
}

func (s *story) faultTitle(id string) string {
	if f := s.system.Fault(id); f != nil {
		return f.Title
	}
	return source.CleanLine(id)
}

func (s *story) intake(d *Document) {
	in := s.facts.Intake
	d.Machine, d.Owner, d.Words = source.CleanLine(in.Machine), source.CleanLine(in.Owner), source.CleanLine(in.Words)
	d.Kind, d.System = s.system.Machine, s.system.Title
	d.Complaint = source.CleanLine(in.Complaint)
	if c := s.system.Complaint(in.Complaint); c != nil {
		d.Complaint = c.Title
	}
	for _, name := range in.History {
		d.History = append(d.History, s.historyTitle(name))
	}
	d.Bench = measure.Format(in.Celsius, "°C", 1, 0)
	d.Meter = source.CleanLine(in.Meter.Title)
	if d.Meter == "" {
		d.Meter = source.CleanLine(in.Meter.ID)
	}
	s.label(d)
}

func (s *story) historyTitle(name string) string {
	for _, h := range s.system.History {
		if h.Name == name && h.Title != "" {
			return h.Title
		}
	}
	return source.CleanLine(name)
}

func (s *story) label(d *Document) {
	values, defaulted := walk.Values(s.system, *s.facts.Intake)
	for _, f := range s.system.Label {
		line := LabelLine{Field: f.ID, Title: f.Ask, Default: slices.Contains(defaulted, f.ID)}
		if number, ok := values.Numbers["label."+f.ID]; ok {
			line.Value = measure.Format(number, f.Unit, f.PerUnit, 0)
		} else {
			line.Value = source.CleanLine(values.Words["label."+f.ID])
		}
		if line.Value == "" {
			line.Value = "not known"
		}
		d.Label = append(d.Label, line)
	}
}

// proof sets the tests that the repairs are checked by side by side.
func (s *story) proof(d *Document) {
	if !s.repaired {
		return
	}
	values, _ := walk.Values(s.system, *s.facts.Intake)
	var checks []string
	for _, id := range s.facts.Repaired {
		if r := s.lib.Repairs[id]; r != nil {
			checks = append(checks, r.Checks...)
		}
	}
	for i, id := range checks {
		test := s.system.Test(id)
		if test == nil || slices.Contains(checks[:i], id) {
			continue
		}
		line := Proof{Test: id, Title: test.Title}
		line.Healthy, _, _ = healthy(test, values)
		was, is := s.before.Results[id], s.now.Results[id]
		line.Before = inWords(was)
		if is.Seq != was.Seq {
			line.After = inWords(is)
		}
		d.Proof = append(d.Proof, line)
	}
}

// inWords is an answer with its band; empty when there is none.
func inWords(r walk.Result) string {
	value, _, _ := shown(r)
	name, answer, _ := band(r)
	switch {
	case value == "":
		return ""
	case r.Mark == walk.Seen:
		return value
	case answer != string(measure.Called):
		return value + ", " + answer
	}
	return value + ", " + name
}

func (s *story) safety(d *Document) {
	for _, id := range s.system.HandBack {
		test, r := s.system.Test(id), s.now.Results[id]
		if test == nil {
			continue
		}
		line := SafetyLine{Test: id, Title: test.Title, Result: inWords(r), State: SafetyOpen}
		switch {
		case line.Result == "" || r.Mute():
		case walk.Dangerous(r):
			line.State = SafetyFailed
		case r.Mark == walk.Seen || r.Call().Answer == measure.Called:
			line.State = SafetyProved
		}
		d.Safety = append(d.Safety, line)
	}
}

func (s *story) close(d *Document) {
	if c := s.facts.Closed; c != nil {
		d.Outcome, d.Why = string(c.Outcome), source.CleanLine(c.Why)
	}
	for _, n := range s.facts.Notes {
		d.Notes = append(d.Notes, source.CleanLine(n.Text))
	}
	if s.facts.Digest != s.lib.Digest {
		d.Notes = append(d.Notes, "The trees were changed after this job was last worked on. What it concluded is shown as recorded; "+
			"bands and healthy values are those of today's trees.")
	}
}

// fill makes every list that has nothing in it empty instead of nil.
func (d *Document) fill() {
	empty(&d.History)
	empty(&d.Label)
	empty(&d.Phone)
	empty(&d.Dangers)
	empty(&d.Findings)
	empty(&d.Still)
	empty(&d.Cleared)
	empty(&d.Masked)
	empty(&d.Untested)
	empty(&d.Unclear)
	empty(&d.Doubts)
	empty(&d.Again)
	empty(&d.NotYet)
	empty(&d.Readings)
	empty(&d.Proof)
	empty(&d.Offers)
	empty(&d.Law)
	empty(&d.Safety)
	empty(&d.Cautions)
	empty(&d.Notes)
	for i := range d.Findings {
		empty(&d.Findings[i].Evidence)
	}
	for i := range d.Offers {
		empty(&d.Offers[i].Notes)
	}
	for i := range d.Law {
		empty(&d.Law[i].Ways)
	}
	if d.Work != nil {
		empty(&d.Work.Repairs)
		empty(&d.Work.Grades)
		for i := range d.Work.Repairs {
			empty(&d.Work.Repairs[i].Off)
			empty(&d.Work.Repairs[i].Kept)
		}
	}
}

func empty[T any](list *[]T) {
	if *list == nil {
		*list = []T{}
	}
}

// phone is two lines to read to the owner.
func phone(d Document) []string {
	what := "the machine"
	if d.Machine != "" {
		what = d.Machine
	}
	first := fmt.Sprintf("About %s: nothing is shown to be wrong so far%s.", what, untested(d))
	var titles, doubted []string
	for _, f := range d.Findings {
		if f.Doubt != "" {
			doubted = append(doubted, tree.InSentence(f.Title))
			continue
		}
		titles = append(titles, tree.InSentence(f.Title))
	}
	if len(titles) > 0 {
		first = fmt.Sprintf("About %s: we found: %s.", what, strings.Join(titles, "; "))
	}
	if len(doubted) > 0 && len(titles) == 0 {
		first = fmt.Sprintf("About %s: nothing is certain yet.", what)
	}
	if len(doubted) > 0 {
		first += " We still doubt this and measure again: " + strings.Join(doubted, "; ") + "."
	}
	return []string{first, phoneNext(d)}
}

func phoneNext(d Document) string {
	switch {
	case d.Outcome != "":
		return "It is finished: " + d.Outcome + "." + converted(d)
	case d.Work != nil && d.Work.Path == repair.ChooseRepair && d.Work.Quote.Currency != "":
		return fmt.Sprintf("The repair comes to %s %s with tax, %s of work.", d.Work.Quote.Total, d.Work.Quote.Currency, minutes(d.Work.Quote.Minutes))
	case d.Work != nil:
		return "Agreed: " + d.Work.Path + "."
	case len(d.Doubts) == 0 && len(d.Offers) > 0 && d.Offers[0].Total != "":
		return fmt.Sprintf("The cheapest way to repair it comes to %s with tax, %s of work. Shall we?%s", d.Offers[0].Total, minutes(d.Offers[0].Minutes), more(d))
	}
	return "We have to measure more before we can name a price."
}

// untested says that not all was looked at; empty when it was.
func untested(d Document) string {
	if open := left(d); open != "" {
		return ", and " + open
	}
	return ""
}

// more says that a price may not be all.
func more(d Document) string {
	if open := left(d); open != "" {
		return " More may come: " + open + "."
	}
	return ""
}

// left is how much is not tested, in words.
func left(d Document) string {
	switch n := len(d.Untested) + len(d.Masked); n {
	case 0:
		return ""
	case 1:
		return "one thing is not tested yet"
	default:
		return fmt.Sprintf("%d things are not tested yet", n)
	}
}

// converted says what was changed for good, which the owner has to know.
func converted(d Document) string {
	if d.Work == nil {
		return ""
	}
	for _, r := range d.Work.Repairs {
		if r.Done && r.Converts {
			return " It is not as it was: " + tree.InSentence(r.Title) + "."
		}
	}
	return ""
}

func minutes(n int) string {
	switch {
	case n == 1:
		return "1 minute"
	case n < 60:
		return fmt.Sprintf("%d minutes", n)
	case n%60 == 0:
		return fmt.Sprintf("%d h", n/60)
	}
	return fmt.Sprintf("%d h %d min", n/60, n%60)
}

// deferrals are what the report does not replace.
func deferrals() []string {
	return []string{
		"The readings tell how the machine was on the bench that day, with the meter named here. They promise nothing for later.",
		"Local codes, the maker's instructions and licensed practice come before anything in this report. Mains wiring, " +
			"transfer equipment and the bonding of a generator are work for a licensed electrician.",
		"A machine with a safety function that failed, was not tested or is bypassed must not be used.",
		"What was not tested may still be wrong.",
	}
}
