package tree

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/formula"
	"benchlead/diag/source"
)

// systemNotes is what is known of a system while it is built, and what the
// checks of trees and repairs need of it.
type systemNotes struct {
	shape  *systemShape
	system *System
	names  formula.Names // what cuts may mention
	usual  []sample      // label values at which limits are tried, the defaults first

	kindless bool // some test isn't answered in one way; formulas can't name it
	broken   bool // something in it is missing that its trees rest on

	points, states, setups, work, tests, faults *register
	testShapes                                  map[string]testShape
	includes                                    set // shared files
	uncut                                       set // tests of which a limit was reported
}

// systems builds every system, with what it includes.
func (b *builder) systems() {
	b.systemIDs = newRegister("system", "", "system")
	b.treeIDs = newRegister("tree", "", "tree")
	for _, s := range b.treeShapes {
		b.add(b.treeIDs, s.Tree, plainID)
	}
	b.sharedIDs = newRegister("shared file", "", "shared")
	shared, known := map[string]*sharedShape{}, b.sharedIDs
	used := map[string]bool{}
	for _, s := range b.sharedShapes {
		if b.add(known, s.Shared, plainID) {
			shared[s.Shared.Text] = s
		}
	}
	everything := b.catalogue()
	for _, s := range b.systemShapes {
		if !b.add(b.systemIDs, s.System, plainID) || !b.builds(s.System.Text) {
			continue
		}
		s = b.extended(s)
		included := b.referAll(known, s.Include)
		for _, id := range included {
			used[id] = true
		}
		b.quiet = b.quiet || len(included) < len(s.Include)
		before := len(b.issues)
		b.system(s, b.allOf(s, included, shared, everything))
		for _, id := range included {
			b.notes[s.System.Text].includes[id] = true
		}
		b.noteBroken(b.notes[s.System.Text], before, included, shared)
	}
	for _, s := range b.sharedShapes {
		if s.Shared.Given() && !used[s.Shared.Text] && !b.quiet {
			b.report(CodeUnused, s.Shared.Place, fmt.Sprintf("no system includes %q", s.Shared.Text), "add it to a system's include: list, or take the file away")
		}
	}
}

// noteBroken keeps the checks of trees from a system in which something that
// they rest on is missing: each would report it again.
func (b *builder) noteBroken(n *systemNotes, before int, included []string, shared map[string]*sharedShape) {
	n.broken = b.badFiles[n.at().File] || slices.ContainsFunc(b.issues[before:], breaks)
	for _, id := range included {
		n.broken = n.broken || b.badFiles[shared[id].Shared.Place.File]
	}
}

func breaks(i source.Issue) bool {
	switch i.Code {
	case CodeMissing, CodeTestKind, CodeRound, CodeBadID, CodeDuplicateID, "unknown-fault", "unknown-test":
		return true
	}
	return strings.HasPrefix(string(i.Code), "formula-")
}

// merged is a system's own contents followed by what it includes.
func merged(a, b contents) contents {
	return contents{
		History: slices.Concat(a.History, b.History), Label: slices.Concat(a.Label, b.Label),
		Points: slices.Concat(a.Points, b.Points), States: slices.Concat(a.States, b.States),
		Setups: slices.Concat(a.Setups, b.Setups), Work: slices.Concat(a.Work, b.Work),
		Tests: slices.Concat(a.Tests, b.Tests), Faults: slices.Concat(a.Faults, b.Faults),
		Service: slices.Concat(a.Service, notIn(b.Service, a.Service)), NotFor: slices.Concat(a.NotFor, b.NotFor),
		Agree: slices.Concat(a.Agree, b.Agree),
	}
}

func (b *builder) system(shape *systemShape, all contents) {
	id := shape.System.Text
	sys := &System{
		ID: id, Title: b.title(shape.Title), About: b.tell(shape.About), Machine: shape.Machine.Text,
		Place: shape.System.Place, tests: map[string]*Test{},
	}
	where := " in system " + id
	n := &systemNotes{
		shape: shape, system: sys, includes: set{}, uncut: set{}, testShapes: map[string]testShape{},
		points: newRegister("point", where, "points"), states: newRegister("state", where, "states"),
		setups: newRegister("setup", where, "setups"), work: newRegister("work", where, "work"),
		tests: newRegister("test", where, "tests"), faults: newRegister("fault", where, "faults"),
	}
	b.lib.Systems[id], b.notes[id] = sys, n
	b.register(n, all)
	b.label(n, all.Label)
	b.places(n, all)
	b.doing(n, all.Work)
	b.faults(n, all.Faults)
	b.tests(n, all.Tests)
	sys.History = b.choices(n, all.History, "history line")
	b.complaints(n)
	b.sketch(n)
	sys.Service = b.referAll(b.services, all.Service)
	sys.HandBack = b.referAll(n.tests, shape.HandBack)
	b.notFor(n, all.NotFor)
	b.agree(n, all.Agree)
	sys.Well = b.evidence(&draft{notes: []*systemNotes{n}}, shape.Well)
	b.checkSystem(n)
}

// register notes the ids first, so that things may name what stands below.
func (b *builder) register(n *systemNotes, all contents) {
	var ids []word
	for _, s := range all.Points {
		b.add(n.points, s.Point, plainID)
	}
	for _, s := range all.States {
		b.add(n.states, s.State, plainID)
	}
	for _, s := range all.Setups {
		b.add(n.setups, s.Setup, plainID)
	}
	for _, s := range all.Work {
		b.add(n.work, s.Work, plainID)
	}
	for _, s := range all.Faults {
		b.add(n.faults, s.Fault, faultID)
	}
	for _, s := range all.Tests {
		if b.add(n.tests, s.Test, nameID) {
			n.testShapes[s.Test.Text] = s
			ids = append(ids, s.Test)
		}
	}
	b.notNames(ids)
}

// notNames reports tests whose id a formula can't name, because it means
// something else there. They are tried many at a time.
func (b *builder) notNames(ids []word) {
	const many = 50
	for batch := range slices.Chunk(ids, many) {
		if canName(batch) {
			continue
		}
		for _, id := range batch {
			if nameID.MatchString(id.Text) && !canName([]word{id}) {
				b.report(CodeBadID, id.Place, fmt.Sprintf("%q has a meaning of its own in formulas", id.Text), "choose another id")
			}
		}
	}
}

// canName says whether a formula can name all of the ids.
func canName(ids []word) bool {
	names := formula.Names{Numbers: map[string]formula.Dimension{}}
	for _, id := range ids {
		names.Numbers[id.Text] = formula.Plain
	}
	sum := strings.Join(texts(ids), " + ")
	_, issues := formula.Compile(sum, source.Roughly(ids[0].Place), names, formula.Plain)
	return len(issues) == 0
}

func (b *builder) places(n *systemNotes, all contents) {
	for _, s := range all.Points {
		n.system.Points = append(n.system.Points, Point{
			ID: s.Point.Text, Title: b.title(s.Title), Minutes: b.amount(s.Minutes, 0, 0), Cover: s.Cover.Text,
			Place: s.Point.Place,
		})
	}
	for _, s := range all.States {
		n.system.States = append(n.system.States, State{
			ID: s.State.Text, Title: b.title(s.Title), Tell: b.tell(s.Tell), Needs: b.needs(s.Needs),
			Hold: b.hold(s.Hold, s.Tell.Text), Powered: s.Powered.Value, Moving: s.Moving.Value, Late: s.Late.Value,
			Place: s.State.Place,
		})
		b.stateNeeds(s)
	}
	for _, s := range all.Setups {
		n.system.Setups = append(n.system.Setups, Setup{
			ID: s.Setup.Text, Title: b.title(s.Title), Tell: b.tell(s.Tell), Needs: b.needs(s.Needs),
			Hold: b.hold(s.Hold, s.Tell.Text), Cautions: b.referAll(b.cautions, s.Cautions),
		})
	}
}

func (b *builder) doing(n *systemNotes, all []workShape) {
	for _, s := range all {
		n.system.Work = append(n.system.Work, &Work{
			ID: s.Work.Text, Title: b.title(s.Title), Tell: b.tell(s.Tell), Why: b.tell(s.Why),
			Minutes: b.amount(s.Minutes, 0, 0), Needs: b.needs(s.Needs), Cautions: b.referAll(b.cautions, s.Cautions),
			Hold: b.hold(s.Hold, s.Tell.Text),
		})
	}
}

func (b *builder) faults(n *systemNotes, all []faultShape) {
	for _, s := range all {
		f := &Fault{
			ID: s.Fault.Text, Title: b.title(s.Title), Says: b.tell(s.Says), Masks: b.referAll(n.faults, s.Masks),
			Place: s.Fault.Place,
		}
		if b.refer(b.parts, s.Part) {
			f.Part = s.Part.Text
		}
		if b.refer(b.cautions, s.Danger) {
			f.Danger = s.Danger.Text
		}
		if slices.Contains(f.Masks, f.ID) {
			b.report(CodeTwice, s.Fault.Place, fmt.Sprintf("%q masks itself", f.ID), "take it out of masks:")
		}
		n.system.Faults = append(n.system.Faults, f)
	}
}

func (b *builder) choices(n *systemNotes, all []choiceShape, sort string) []Choice {
	known := newRegister(sort, "", "choices")
	var out []Choice
	for _, s := range all {
		if !b.add(known, s.Choice, words) {
			continue
		}
		b.notAnOutcome(s.Choice)
		c := Choice{
			Name: s.Choice.Text, Title: b.title(s.Title), Clears: b.referAll(n.faults, s.Clears),
			Says: b.tell(s.Says), Absent: s.Absent.Value, Place: s.Choice.Place,
		}
		c.Danger, c.Take = b.dangerAndTake(n, s.Danger, s.Take)
		c.Stops = b.stops(s.Stops, s.Danger)
		out = append(out, c)
	}
	return out
}

func (b *builder) dangerAndTake(n *systemNotes, danger, take word) (string, string) {
	if !b.refer(b.cautions, danger) {
		danger.Text = ""
	}
	if !b.refer(n.tests, take) {
		take.Text = ""
	}
	return danger.Text, take.Text
}

// stops says whether an answer stops the work: it has to say with which danger.
func (b *builder) stops(s yesNo, danger word) bool {
	if s.Value && !danger.Given() {
		b.report(CodeMissing, s.Place, "it stops the work and does not say why", "add danger: CAUTION")
	}
	return s.Value && danger.Given()
}

// notAnOutcome reports a band or choice with the name of the route that stands
// for no answer.
func (b *builder) notAnOutcome(name word) {
	if name.Text == Unsure {
		b.report(CodeBadID, name.Place, `"unsure" is the route for everything that is no answer`, "choose another word")
	}
}

func (b *builder) complaints(n *systemNotes) {
	known := newRegister("complaint", "", "complaints")
	for _, s := range n.shape.Complaints {
		if !b.add(known, s.Complaint, plainID) {
			continue
		}
		b.refer(b.troubles, s.Trouble)
		if len(b.troubles.at) > 0 && !s.Trouble.Given() && s.Complaint.Given() {
			b.report(CodeMissing, s.Complaint.Place, fmt.Sprintf("nothing leads to the complaint %q: it belongs to no trouble", s.Complaint.Text), "add trouble: one of the list troubles:")
		}
		c := Complaint{ID: s.Complaint.Text, Title: b.title(s.Title), Trouble: s.Trouble.Text, Trees: b.referAll(b.treeIDs, s.Trees), ToTheEnd: s.ToTheEnd.Value}
		if s.Complaint.Given() && len(s.Trees) == 0 {
			b.report(CodeNoTrees, s.Complaint.Place, fmt.Sprintf("no tree answers the complaint %q", c.ID), "add trees: [...]")
		}
		n.system.Complaints = append(n.system.Complaints, c)
	}
}

// at is where a system's own line about something stands, for messages about
// what is missing.
func (n *systemNotes) at() source.Place { return n.shape.System.Place }
