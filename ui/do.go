package ui

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/job"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
)

// Reply is what came of a typed line. Said are lines for the tech; Left is set
// when the job is to be put aside; Show names a view that was asked for.
type Reply struct {
	Said []string
	Show Verb
	More bool // of the view, what it leaves out where it is heard
	Left bool
	// Lists are the numbers that Said lists, where no view does.
	Lists Numbers
	// Asks is set when Said ends with what may be typed next.
	Asks bool
	// Rest is, with an error, what of several answers on a line is not recorded; empty
	// when nothing is.
	Rest string
}

// Enter does what a typed line asks. On an error nothing of it was recorded
// that was not said before; the line can be typed again.
func (s *Session) Enter(ctx context.Context, line string) (Reply, error) {
	if strings.TrimSpace(line) == "" && s.Watch().Runs {
		return s.stopWatch()
	}
	actions, err := Parse(s.pos.System, line)
	if err != nil {
		return Reply{}, err
	}
	if err := s.checkAll(actions); err != nil {
		return Reply{}, err
	}
	var all Reply
	for i, a := range actions {
		if i > 0 && s.pending != nil {
			all.Rest = unrecorded(actions, i-1)
			return all, fmt.Errorf("settle that one first; what stands behind it on the line was not recorded")
		}
		r, err := s.Do(ctx, a)
		all.Said = append(all.Said, r.Said...)
		if err != nil {
			all.Rest = unrecorded(actions, i)
			return all, err
		}
		r.Said = all.Said
		all = r
	}
	return all, nil
}

// unrecorded are the answers from one on, as they are typed; empty from the first.
func unrecorded(actions []Action, from int) string {
	if from == 0 {
		return ""
	}
	var out []string
	for _, a := range actions[from:] {
		out = append(out, strings.TrimSpace(a.Test+" "+a.Text))
	}
	return strings.Join(out, "; ")
}

// Do does one action. On an error nothing is said of what would have been done.
func (s *Session) Do(ctx context.Context, a Action) (Reply, error) {
	r, err := s.do(ctx, a)
	if err != nil {
		return Reply{}, err
	}
	return r, nil
}

func (s *Session) do(ctx context.Context, a Action) (Reply, error) {
	switch a.Verb {
	case Leave:
		return Reply{Left: true, Said: []string{fmt.Sprintf("Job %d is kept as it stands.", s.id)}}, nil
	case Why, Left, Found, Paths, List, Help:
		return Reply{Show: a.Verb, More: a.Verb == Paths && a.Text != ""}, nil
	case Suspected:
		return s.suspected(a.Pick)
	}
	if s.pos.System == nil && a.Verb != Note {
		return Reply{}, fmt.Errorf("the fault trees in use have no system %q; open the job with those that it was begun with. Nothing was recorded", s.facts.Intake.System)
	}
	if a.Verb == Machine {
		return s.correct(ctx, a.Text)
	}
	a = s.asOutcome(s.asAnswer(a))
	sure := s.sure
	s.sure = nil // it holds for the next line alone
	if a.Verb != Yes {
		s.endings = nil
	}
	switch {
	case sure != nil && a.Verb == Yes:
		return s.close(ctx, *sure)
	case sure != nil && (a.Verb == Undo || saysNo(a)):
		return Reply{Said: []string{"The job goes on."}}, nil
	case a.Verb == Close:
		return s.askClose(ctx, a)
	}
	if a.Verb == Take || a.Verb == Tell || a.Verb == Choose || a.Test != "" {
		s.closing = "" // something else was begun
	}
	if a.Verb == Aim {
		return s.setAim(a.Text)
	}
	if a.Verb == Tell {
		return s.tell(ctx, a.Pick)
	}
	if a.Verb == Take {
		s.asked, s.pending = a.Test, nil
		return Reply{}, nil
	}
	if err := s.ended(); err != nil {
		return Reply{}, err
	}
	return s.change(ctx, a)
}

// asAnswer takes a verb for an answer where the test that is asked has such a
// choice.
func (s *Session) asAnswer(a Action) Action {
	p := s.Position()
	if a.Verb == Choose && a.Pick == 0 && a.Text != "" && p.Test != nil && p.Test.Kind == tree.Observed && Asked(p.Stage) {
		return Action{Text: a.Text}
	}
	if !slices.Contains(mayAnswer, a.Verb) || p.Test == nil || p.Test.Kind != tree.Observed || !Asked(p.Stage) {
		return a
	}
	if _, err := pick(p.Test.Choices, a.Line); err != nil {
		return a
	}
	return Action{Text: a.Line}
}

// Asked says whether a test waits for an answer at a stage.
func Asked(stage walk.Stage) bool {
	return stage == walk.AtTest || stage == walk.AtCheck || stage == walk.AtHandBack
}

// change does an action that adds to the log.
func (s *Session) change(ctx context.Context, a Action) (Reply, error) {
	switch a.Verb {
	case Time:
		return s.startWatch()
	case Stop:
		return s.stopWatch()
	case Undo:
		return s.undo(ctx)
	case Note:
		return Reply{Said: []string{"Noted."}}, s.record(ctx, job.Event{Kind: job.KindNoted, Noted: &job.Noted{Text: a.Text}})
	case Yes:
		if s.pending != nil {
			return s.takeMeant(ctx)
		}
		return s.confirm(ctx)
	case Keep:
		return s.keep(ctx)
	case Done:
		return s.done(ctx)
	case Pass:
		return s.pass(ctx, a)
	case Choose:
		return s.choose(ctx, a)
	case Tick:
		return s.tick(ctx, a.Text)
	case All:
		return s.tickAll(ctx)
	case Approve:
		return s.approve(ctx, a)
	case Decline:
		return s.declined(ctx, a)
	case ToBin:
		return s.typedBin(ctx, a.Text)
	case Answer:
		return s.answer(ctx, a)
	}
	return Reply{}, fmt.Errorf("%q can't be done here", a.Verb)
}

// confirm acknowledges a danger or confirms make-safe conditions.
func (s *Session) confirm(ctx context.Context) (Reply, error) {
	p := s.Position()
	switch p.Stage {
	case walk.AtDanger:
		var events []job.Event
		for _, d := range p.Danger {
			events = append(events, job.Event{Kind: job.KindHeeded, Heeded: &job.Heeded{Caution: d.Caution.ID, Test: d.Test}})
		}
		return Reply{}, s.record(ctx, events...)
	case walk.AtSafe:
		set := map[string]string{}
		for _, ask := range p.Safe {
			set[ask.Item.ID] = ask.Setting.ID
		}
		if err := s.record(ctx, job.Event{Kind: job.KindSafe, Safe: &job.Safe{Confirmed: set}}); err != nil {
			return Reply{}, err
		}
		s.goOnClosing()
		return Reply{}, nil
	case walk.AtTerms:
		return s.agree(ctx, p, "")
	case walk.AtRepair:
		return s.understood(ctx, p)
	case walk.AtWork:
		return Reply{}, fmt.Errorf("type \"done\" when it is done; nothing was recorded")
	}
	return Reply{}, fmt.Errorf("there is nothing to confirm just now; nothing was recorded")
}

// agree confirms a term of a repair. Of a rule with several ways the number of
// the one that holds must be given.
func (s *Session) agree(ctx context.Context, p walk.Position, text string) (Reply, error) {
	a := job.Agreed{Repair: p.Repair.ID, Term: p.Term.Title}
	ways := make([]tree.Choice, len(p.Term.Ways))
	for i, way := range p.Term.Ways {
		ways[i] = tree.Choice{Name: way}
	}
	switch {
	case len(ways) < 2 && text != "":
		return Reply{}, fmt.Errorf("type \"yes\" when it is so, or \"undo\" to choose another way; nothing was recorded")
	case len(ways) >= 2 && text == "":
		return Reply{}, fmt.Errorf("type the number of the way that holds, or \"undo\" to choose another way; nothing was recorded")
	case len(ways) >= 2:
		way, err := pick(ways, text)
		if err != nil {
			return Reply{}, err
		}
		a.Way = way
	case len(ways) == 1:
		a.Way = ways[0].Name
	}
	return Reply{Said: []string{a.Term + ": confirmed."}}, s.record(ctx, job.Event{Kind: job.KindAgreed, Agreed: &a})
}

// done records a piece of work or a repair.
func (s *Session) done(ctx context.Context) (Reply, error) {
	p := s.Position()
	switch {
	case p.Stage == walk.AtWork:
		step := s.bench.Library.Trees[p.Tree].Step(p.Step)
		return Reply{Said: []string{p.Work.Title + ": done."}}, s.record(ctx, job.Event{
			Kind: job.KindDone, Done: &job.Done{Work: p.Work.ID, Stales: p.System.StaledBy(step)},
		})
	case p.Stage == walk.AtService:
		return Reply{}, fmt.Errorf("type the number of each service that is done; \"pass\" leaves the rest out")
	case p.Stage == walk.AtRepair:
		if err := openSteps(p.Lines); err != nil {
			return Reply{}, err
		}
		stales := walk.StaledBy(s.bench.Library, p.System, p.Repair)
		return Reply{Said: []string{p.Repair.Title + ": done."}}, s.record(ctx, job.Event{
			Kind: job.KindTicked, Ticked: &job.Ticked{Repair: p.Repair.ID, Stales: stales},
		})
	case len(p.Danger) > 0 || len(p.Safe) > 0:
		return Reply{}, fmt.Errorf("first confirm what is asked, with \"yes\"; nothing was recorded")
	}
	return Reply{}, fmt.Errorf("no work is waiting; this step wants an answer, or \"pass\"")
}

// pass records that the current test or work was passed over.
func (s *Session) pass(ctx context.Context, a Action) (Reply, error) {
	p := s.Position()
	why := a.Text
	if why == "" {
		why = "passed over"
	}
	cant := job.Cant{Why: why}
	var title string // with what stands before the reason
	switch {
	case p.Stage == walk.AtDanger:
		return Reply{}, fmt.Errorf("a danger can't be passed over: read it, then type \"yes\"")
	case p.Stage == walk.AtEstimate:
		return s.unasked(ctx, p, a.Text)
	case p.Stage == walk.AtService:
		return s.leaveOut(ctx, p, a.Text)
	case p.Test != nil:
		cant.Test, title = p.Test.ID, titled(p.Test)
	case p.Work != nil:
		cant.Work, title = p.Work.ID, p.Work.Title+": "
	case p.Repair != nil:
		return Reply{}, fmt.Errorf("a chosen repair can't be passed over; \"undo\" takes the choice back")
	default:
		return Reply{}, fmt.Errorf("there is nothing to pass over just now")
	}
	if p.Test != nil && s.mustAnswer(p.Test) {
		return Reply{}, fmt.Errorf("a safety function can't be passed over: test it, or \"close\" the job as unsafe")
	}
	s.asked = ""
	said := []string{title + why + "."}
	if p.Stage == walk.AtSafe {
		cant.Unmade = unmade(p.Safe)
		said = append(said, s.unmadeWords(cant.Unmade))
	}
	return Reply{Said: said}, s.record(ctx, job.Event{Kind: job.KindCant, Cant: &cant})
}

// canPass says whether what is asked, or what it is made safe for, can be passed over.
func (s *Session) canPass() bool {
	p := s.Position()
	return p.Work != nil || p.Test != nil && !s.mustAnswer(p.Test)
}

// mustAnswer says whether a test proves a safety function of a machine that was
// repaired.
func (s *Session) mustAnswer(t *tree.Test) bool {
	return s.facts.Chosen != nil && s.pos.Stage != walk.AtTest && slices.Contains(s.pos.System.HandBack, t.ID)
}
