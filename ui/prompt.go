package ui

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/measure"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Prompt is what the job asks for now, in words. A face shows it in its own
// way and leaves nothing out.
type Prompt struct {
	Stage   walk.Stage
	Title   string
	Tell    []string // what to do, in order
	Aloud   []string // Tell for whoever hears it, where that is otherwise
	Red     string   // point in words; empty when no lead goes anywhere
	Black   string
	RedAt   string // point ids, for the sketch
	BlackAt string
	Meter   string // function and range
	Machine string // state and setups
	Healthy string
	Choices []string
	Hold    []int    // seconds to be held or waited for, one after another
	List    []Item   // a checklist, or the services
	Care    bool     // Caution has to be confirmed before anything is ticked
	Rows    []Row    // an estimate
	Ways    []Row    // the ways to go on with their numbers, in short; Tell has them in full
	Total   string   // what it comes to, as it is typed to approve it
	Phone   []string // to be read to the owner
	Cost    string   // minutes and people
	Alone   string
	Why     string
	Mistake string
	Caution []string
	Whole   []string // Caution with all that there is to say, where that is more
	Ask     string   // the words that answer, one line
	SoFar   []string // what the same test read before this epoch

	Meant    string // what yes takes a questioned value for; empty without a guess
	CantKeep bool   // the meter can't have shown a questioned value
}

// Prompt is what the session asks for now.
func (s *Session) Prompt() Prompt {
	p := s.Position()
	if s.pending != nil {
		return s.pendingPrompt(p)
	}
	if s.sure != nil {
		return s.surePrompt()
	}
	switch p.Stage {
	case walk.AtDanger:
		return dangerPrompt(p)
	case walk.AtSafe:
		return s.safePrompt(p)
	case walk.AtTest, walk.AtCheck, walk.AtHandBack:
		return s.testPrompt(p)
	case walk.AtWork:
		return s.workPrompt(p)
	case walk.AtEstimate:
		return s.estimatePrompt(p)
	case walk.AtTerms:
		return termsPrompt(p)
	case walk.AtRepair:
		return s.repairPrompt(p)
	case walk.AtService:
		return s.servicesPrompt(p)
	case walk.AtVerdict:
		return s.verdictPrompt(p)
	case walk.AtClose:
		return s.closePrompt(p)
	case walk.AtClosed:
		return s.closedPrompt(p)
	}
	return Prompt{
		Stage: p.Stage, Title: "The fault trees in use have no such system as this job's", Ask: "leave",
		Tell: []string{"Its readings are kept. Open it with the trees that it was begun with."},
	}
}

func (s *Session) pendingPrompt(p walk.Position) Prompt {
	out := s.testPrompt(p)
	d := s.pending.doubt
	out.Ask, out.CantKeep = d.words(), d.cantShow
	if m := d.byYes(); m != nil {
		out.Meant = m.says
	}
	return out
}

func dangerPrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: "STOP: " + p.Danger[0].Caution.Title, Ask: "yes when it is understood"}
	for _, d := range p.Danger {
		out.Caution = append(out.Caution, d.Caution.Title+". "+d.Caution.Tell)
	}
	return out
}

func (s *Session) safePrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: beforeWhat(nextTitle(p)), Ask: "yes when all of it is so"}
	if p.StillTurns {
		// Common practice, no source.
		out.Tell = append(out.Tell, "Engine: Key or switch off, lever let go. Wait until all stands still.")
	}
	for _, ask := range p.Safe {
		out.Tell = append(out.Tell, ask.Item.Title+": "+ask.Setting.Tell)
	}
	out.Caution, out.Whole = s.shortCautions(p), s.cautionWords(cautionIDs(p))
	return out
}

// beforeWhat is the title of a make-safe card. One whose step is a question must not
// look like that question.
func beforeWhat(title string) string {
	if strings.HasSuffix(title, "?") {
		return "Make safe first. After that the question \"" + title + "\""
	}
	return "Make safe before: " + title
}

// nextTitle names what comes once the way is clear.
func nextTitle(p walk.Position) string {
	switch {
	case p.Test != nil:
		return p.Test.Title
	case p.Work != nil:
		return p.Work.Title
	case p.Repair != nil:
		return p.Repair.Title
	case p.Serving != nil:
		return p.Serving.Title
	}
	return "closing the job"
}

func (s *Session) testPrompt(p walk.Position) Prompt {
	t := p.Test
	out := Prompt{
		Stage: p.Stage, Title: t.Title, Why: t.Why, Mistake: t.Mistake, Alone: t.Alone,
		Cost: cost(t), Meter: meterWords(t), Machine: machineWords(p.System, t),
		Healthy: s.healthy(t), RedAt: t.Red, BlackAt: t.Black,
		Red: pointTitle(p.System, t.Red), Black: pointTitle(p.System, t.Black),
		Caution: s.cautions(p, t), Hold: holds(p),
	}
	if t.Function == measure.ClampAmps {
		// A clamp goes round a cable; there is no lead to place.
		out.Meter, out.Red = out.Meter+", round the cable at: "+out.Red, ""
	}
	out.Tell = append(s.notMade(), tells(p.System, t)...)
	if says := s.noClamp(t); says != "" {
		out.Tell = append([]string{says}, out.Tell...)
	}
	if p.Disputed {
		out.Tell = append([]string{s.disputeWords(t)}, out.Tell...)
	}
	if p.Again != nil {
		out.Tell = append([]string{againWords(p.Again)}, out.Tell...)
	}
	for i, c := range t.Choices {
		out.Choices = append(out.Choices, fmt.Sprintf("%d %s", i+1, ChoiceTitle(c)))
	}
	out.Ask = "the reading, or pass"
	if t.Kind == tree.Observed {
		out.Ask = "a number of the list, or pass"
	}
	if timedTest(t) {
		out.Ask = "time to start the watch, or " + out.Ask
	}
	if s.mustAnswer(t) {
		out.Ask = strings.TrimSuffix(out.Ask, ", or pass") + "; it can't be passed over"
	}
	if s.Watch().Runs {
		out.Ask = "stop, or Enter alone"
	}
	if was := s.beforeWords(t); was != "" {
		out.SoFar = append(out.SoFar, "before: "+was)
	}
	return out
}

// againWords says why a test that has an answer is asked once more.
func againWords(c *walk.Contradiction) string {
	return "Take it once more. The answers contradict each other about \"" + c.Fault.Title + "\": " + evidenceWords(c.Evidence) + ". One of them is wrong."
}

// disputeWords says why a test that was read more than once is asked once more.
func (s *Session) disputeWords(t *tree.Test) string {
	if c := s.pos.Results[t.ID].Clash; c != nil && !s.pos.Results[t.ID].Lone {
		return "Take it once more. " + s.clashWords(c)
	}
	var read []string
	for _, a := range s.facts.Current(t.ID) {
		if a.Read != nil {
			read = append(read, displayed(t, a.Read.Reading))
		}
	}
	if s.pos.Results[t.ID].Lone {
		return "Take it once more: " + strings.Join(read, ", then ") + " is below nothing. Look that red and black are where they belong. It proves nothing until a second reading agrees with it."
	}
	return "Take it once more. Its readings disagree: " + strings.Join(read, ", then ") + ". They prove nothing until one more agrees with one of them."
}

// clashWords says which readings can't be together, and why.
func (s *Session) clashWords(c *tree.Agree) string {
	words := func(id string) string {
		r := s.pos.Results[id]
		return tree.InSentence(r.Test.Title) + ", " + Amount(r.Test, r.Estimate.Value)
	}
	var out []string
	for _, id := range c.Each {
		if s.pos.Results[id].Clash == c {
			out = append(out, words(id))
		}
	}
	return strings.Join(out, "; ") + " can't be beside " + words(c.Most) + ". " + c.Says + " One of them is wrong."
}

// displayed is what a meter showed, in the unit of the test where it is one number.
func displayed(t *tree.Test, r measure.Reading) string {
	if r.Kind == measure.Number {
		return Amount(t, r.Value)
	}
	return r.Text
}

func cost(t *tree.Test) string {
	out := Minutes(t.Minutes)
	if t.People > 1 {
		out += ", two people"
	}
	return strings.TrimPrefix(out, ", ")
}

func meterWords(t *tree.Test) string {
	if t.Kind != tree.Metered {
		return ""
	}
	out := dial[t.Function]
	if t.Scale != "" {
		scale := tree.InSentence(t.Scale)
		kind, _, _ := strings.Cut(out, " ") // "AC volts" has said so
		out += ", " + strings.TrimPrefix(scale, kind+", ")
	}
	return out
}

func machineWords(sys *tree.System, t *tree.Test) string {
	var out []string
	if st := sys.State(t.State); st != nil {
		out = append(out, st.Title)
	}
	for _, id := range t.With {
		if setup := sys.Setup(id); setup != nil {
			out = append(out, setup.Title)
		}
	}
	for i := 1; i < len(out); i++ {
		out[i] = tree.InSentence(out[i])
	}
	return strings.Join(out, ", ")
}

// tells are the setups' and the state's instructions, then the test's own. What makes a
// machine dead comes before anything is set up on it, what makes it live after that.
func tells(sys *tree.System, t *tree.Test) []string {
	var out []string
	state := sys.State(t.State)
	if state != nil && !state.Live() {
		out = append(out, state.Tell)
	}
	for _, id := range t.With {
		if setup := sys.Setup(id); setup != nil {
			out = append(out, setup.Tell)
		}
	}
	if state != nil && state.Live() {
		out = append(out, state.Tell)
	}
	return slices.DeleteFunc(append(out, t.Tell), func(tell string) bool { return tell == "" })
}

func pointTitle(sys *tree.System, id string) string {
	for _, p := range sys.Points {
		if p.ID == id {
			if p.Cover != "" {
				return p.Title + " (behind: " + p.Cover + ")"
			}
			return p.Title
		}
	}
	return id
}

func (s *Session) workPrompt(p walk.Position) Prompt {
	w := p.Work
	return Prompt{
		Stage: p.Stage, Title: w.Title, Tell: append(s.notMade(), w.Tell), Why: w.Why, Cost: Minutes(w.Minutes),
		Caution: s.cautionWords(w.Cautions), Hold: w.Hold, Ask: "done, or pass",
	}
}

// termsPrompt asks for one thing that must be settled before a repair.
func termsPrompt(p walk.Position) Prompt {
	out := Prompt{Stage: p.Stage, Title: p.Term.Title + ": " + p.Repair.Title, Ask: "yes when it is so, or undo"}
	if p.Term.Says != "" {
		out.Tell = append(out.Tell, p.Term.Says)
	}
	for _, item := range p.Term.Items {
		out.Tell = append(out.Tell, "[ ] "+item)
	}
	if len(p.Term.Ways) == 1 {
		out.Tell = append(out.Tell, "[ ] "+p.Term.Ways[0])
	}
	if len(p.Term.Ways) > 1 {
		out.Ask = "the number of the way that holds, or undo"
		for i, way := range p.Term.Ways {
			out.Choices = append(out.Choices, fmt.Sprintf("%d %s", i+1, way))
		}
	}
	return out
}
