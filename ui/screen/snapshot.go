package screen

import (
	"strings"

	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// snapshot is what the page shows of a session now.
func snapshot(s *ui.Session) *step {
	p := s.Prompt()
	pos := s.Position()
	in := s.Facts().Intake
	out := &step{
		id: s.ID(), machine: in.Machine, prompt: p, pos: pos,
		asking: p.Meant != "" || strings.HasSuffix(p.Ask, string(ui.Keep)),
		chosen: s.Facts().Chosen != nil,
		before: s.Readings(),
		words:  words(pos),
		view:   s.View,
		line:   func(string) *ui.BandLine { return nil },
	}
	out.suspects = suspectsOf(s)
	out.timed, out.watch = s.Timed(), s.Watch()
	if out.suspects.shown {
		out.words = append(out.words, string(ui.Suspected), string(ui.Tell))
	}
	// A test taken out of turn stands in no tree, and can be left again.
	out.fresh = !s.CanUndo() && !out.asking && pos.Tree != ""
	if out.machine == "" && pos.System != nil {
		out.machine = pos.System.Machine
	}
	if pos.System != nil {
		out.complaint = complaint(pos.System, in.Complaint)
	}
	if t := s.Library().Trees[pos.Tree]; t != nil {
		out.tree = t.Title
	}
	if isAsked(p.Stage) {
		out.line = func(typed string) *ui.BandLine { return s.Line(pos.Test, typed) }
	}
	return out
}

func complaint(sys *tree.System, id string) string {
	for _, c := range sys.Complaints {
		if c.ID == id {
			return c.Title
		}
	}
	return id
}

// words are what a typed line may begin with.
func words(pos walk.Position) []string {
	out := []string{
		string(ui.Yes), string(ui.Done), string(ui.Pass), string(ui.Keep), string(ui.Undo), string(ui.Note),
		string(ui.Take), string(ui.Choose), string(ui.Close), string(ui.Why), string(ui.Left), string(ui.Found),
		string(ui.Aim), string(ui.Time), string(ui.Stop), string(ui.Tick), string(ui.All), string(ui.List), string(ui.Approve), string(ui.Decline), string(ui.Paths), string(ui.ToBin), string(ui.Help), string(ui.Leave), string(ui.Machine), "flicker",
	}
	if pos.System != nil {
		for _, t := range pos.System.Tests {
			out = append(out, t.ID)
		}
	}
	if pos.Test != nil {
		for _, c := range pos.Test.Choices {
			out = append(out, strings.ToLower(c.Name), strings.ToLower(ui.ChoiceTitle(c)))
		}
	}
	return out
}
