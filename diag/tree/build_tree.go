package tree

import (
	"fmt"
	"slices"
	"strings"

	"benchlead/diag/shape"
	"benchlead/diag/source"
)

// draft is a tree with the words it was made from, for the checks of routes.
type draft struct {
	tree   *Tree
	shape  *treeShape
	notes  []*systemNotes // of its systems
	steps  *register
	shapes map[string]stepShape
	broken bool // something is wrong with its routes already

	edges  map[string][]edge // by step, kept
	inputs map[string]set    // by test, kept
	stales map[string]set    // by step, kept

	into    map[string][]string // by step: the steps that lead to it, kept
	numbers map[string]int32    // by step: its index, kept
}

// trees builds every tree and checks its routes.
func (b *builder) trees() {
	var drafts []*draft
	for _, s := range b.treeShapes {
		if !s.Tree.Given() || b.lib.Trees[s.Tree.Text] != nil {
			continue
		}
		before := len(b.issues)
		d := b.tree(b.wholeTree(s))
		d.broken = b.badFiles[s.Tree.Place.File] ||
			slices.ContainsFunc(b.issues[before:], func(i source.Issue) bool { return i.Code != CodeTooLong }) ||
			slices.ContainsFunc(d.notes, func(n *systemNotes) bool { return n.broken })
		b.lib.Trees[d.tree.ID] = d.tree
		drafts = append(drafts, d)
	}
	b.checkTrees(drafts)
}

func (b *builder) tree(s *treeShape) *draft {
	t := &Tree{ID: s.Tree.Text, Title: b.title(s.Title), Place: s.Tree.Place, steps: map[string]*Step{}}
	d := &draft{tree: t, shape: s, shapes: map[string]stepShape{}, edges: map[string][]edge{}, inputs: map[string]set{}, stales: map[string]set{}}
	d.steps = newRegister("step", " in tree "+t.ID, "steps")
	t.Inner = s.Inner.Value
	t.Systems = b.systemsOf(s.Tree, s.Systems, s.Include)
	for _, id := range t.Systems {
		d.notes = append(d.notes, b.notes[id])
	}
	t.Judges = b.inEach(d.notes, s.Judges, faultsOf)
	d.steps.at[End] = source.Place{}
	for _, step := range s.Steps {
		if step.ID.Text == End {
			b.report(CodeBadID, step.ID.Place, `"end" is the end of the tree`, "choose another id")
			continue
		}
		if b.add(d.steps, step.ID, words) {
			d.shapes[step.ID.Text] = step
		}
	}
	if b.refer(d.steps, s.Begin) {
		t.Begin = s.Begin.Text
	}
	for _, step := range s.Steps {
		if id := step.ID.Text; id == "" || id == End || t.steps[id] != nil {
			continue
		}
		st := b.step(d, step)
		t.Steps, t.steps[st.ID] = append(t.Steps, st), st
	}
	return d
}

func faultsOf(n *systemNotes) *register { return n.faults }
func testsOf(n *systemNotes) *register  { return n.tests }
func workOf(n *systemNotes) *register   { return n.work }

// inEach looks words up in every system of a tree; it returns those that each
// system has.
func (b *builder) inEach(systems []*systemNotes, ids []word, of func(*systemNotes) *register) []string {
	var out []string
	for _, id := range ids {
		if id.Given() && slices.Contains(out, id.Text) {
			b.report(CodeTwice, id.Place, fmt.Sprintf("%q is in this list twice", id.Text), "take one away")
			continue
		}
		if b.inAll(systems, id, of) {
			out = append(out, id.Text)
		}
	}
	return out
}

func (b *builder) inAll(systems []*systemNotes, id word, of func(*systemNotes) *register) bool {
	for _, n := range systems {
		if !b.refer(of(n), id) {
			return false
		}
	}
	return id.Given()
}

// step builds one step. What kind it is, one of six keys says.
func (b *builder) step(d *draft, s stepShape) *Step {
	st := &Step{ID: s.ID.Text, Place: s.ID.Place}
	st.Kind = b.stepKind(s)
	b.stepKeys(s, st.Kind)
	switch st.Kind {
	case Ask:
		b.inAll(d.notes, s.Test, testsOf)
		st.Test = s.Test.Text
		b.askRoutes(d, st, s)
	case Do:
		b.inAll(d.notes, s.Do, workOf)
		st.Work = s.Do.Text
		st.Next = b.next(d, s)
		st.Else = b.elseStep(d, s)
		st.AtMost = b.whole(s.AtMost, 1, 0)
		st.Stales = b.inEach(d.notes, s.Stales, testsOf)
		st.Powered = s.Powered.Value
	case Find, Clear:
		w := s.Find
		if st.Kind == Clear {
			w = s.Clear
		}
		b.inAll(d.notes, w, faultsOf)
		st.Fault = w.Text
		st.Next = b.next(d, s)
		st.By = b.proof(d, s)
		st.After = b.inEach(d.notes, s.After, faultsOf)
	case Sub:
		b.refer(b.treeIDs, s.Walk)
		st.Tree = s.Walk.Text
		st.Then = b.routes(d, s, []string{Shown, Cleared, Unsure}, nil)
	case Stop:
		st.Say = b.tell(s.Stop)
		if b.refer(b.cautions, s.Caution) {
			st.Caution = s.Caution.Text
		}
	}
	return st
}

func (b *builder) stepKind(s stepShape) StepKind {
	var kinds []StepKind
	for _, k := range []struct {
		kind  StepKind
		place source.Place
	}{
		{Ask, s.Test.Place},
		{Do, s.Do.Place},
		{Find, s.Find.Place},
		{Clear, s.Clear.Place},
		{Sub, s.Walk.Place},
		{Stop, s.Stop.Place},
	} {
		if k.place.Line > 0 {
			kinds = append(kinds, k.kind)
		}
	}
	switch len(kinds) {
	case 0:
		b.report(CodeStepKind, s.ID.Place, fmt.Sprintf("nothing says what the step %q does", s.ID.Text), "add one of: test, do, find, clear, walk, stop")
		return ""
	case 1:
		return kinds[0]
	}
	b.report(CodeStepKind, s.ID.Place, fmt.Sprintf("the step %q does two things: %s and %s", s.ID.Text, kinds[0], kinds[1]), "make a step of each")
	return ""
}

// stepKeys reports keys that have no meaning in that kind of step.
func (b *builder) stepKeys(s stepShape, kind StepKind) {
	if kind == "" {
		return
	}
	for _, k := range []struct {
		name  string
		place source.Place // without a line when the key isn't there
		kinds []StepKind
	}{
		{"then", s.Then.place(), []StepKind{Ask, Do, Find, Clear, Sub}},
		{"else", s.Else.Place, []StepKind{Do}},
		{"at most", s.AtMost.Place, []StepKind{Do}},
		{"stales", first(s.Stales), []StepKind{Do}},
		{"stales powered", s.Powered.Place, []StepKind{Do}},
		{"by", s.by(), []StepKind{Find, Clear}},
		{"after", first(s.After), []StepKind{Find}},
		{"caution", s.Caution.Place, []StepKind{Stop}},
	} {
		if k.place.Line > 0 && !slices.Contains(k.kinds, kind) {
			b.report(CodeNotBoth, k.place, fmt.Sprintf("the step %q is a %q, so %q means nothing in it", s.ID.Text, kind, k.name), "take "+k.name+": away")
		}
	}
}

// next is the one step that follows.
func (b *builder) next(d *draft, s stepShape) string {
	switch {
	case s.Then == nil:
		b.report(CodeNoRoute, s.ID.Place, fmt.Sprintf("nothing says what follows the step %q", s.ID.Text), "add then: STEP, or then: end")
	case len(s.Then.Routes) > 0:
		b.report(CodeNoRoute, s.Then.Place, "only one step can follow here", "write then: STEP")
	case b.refer(d.steps, s.Then.Next):
		return s.Then.Next.Text
	}
	return ""
}

func (b *builder) elseStep(d *draft, s stepShape) string {
	if !s.Else.Given() {
		b.report(CodeNoRoute, s.ID.Place, fmt.Sprintf("nothing says what follows when %q is declined, or was done often enough", s.ID.Text), "add else: STEP, or else: end")
		return ""
	}
	b.refer(d.steps, s.Else)
	return s.Else.Text
}

// askRoutes: a route for each band or choice that the test has in any system.
func (b *builder) askRoutes(d *draft, st *Step, s stepShape) {
	var all []string
	for _, n := range d.notes {
		t := n.system.Test(s.Test.Text)
		if t == nil {
			return
		}
		for _, o := range t.Outcomes() {
			if !slices.Contains(all, o) {
				all = append(all, o)
			}
		}
	}
	var test *Test
	if len(d.notes) > 0 {
		test = d.notes[0].system.Test(s.Test.Text)
	}
	st.Then = b.routes(d, s, append(all, Unsure), test)
}

// routes reads the route of each outcome. test is the one asked, if any.
func (b *builder) routes(d *draft, s stepShape, outcomes []string, test *Test) map[string]string {
	then := map[string]string{}
	if s.Then == nil || s.Then.Next.Given() {
		place := s.ID.Place
		if s.Then != nil {
			place = s.Then.Place
		}
		b.report(CodeNoRoute, place, fmt.Sprintf("the step %q must say what follows each outcome", s.ID.Text), "write then: {"+strings.Join(outcomes, ": STEP, ")+": STEP}")
		return then
	}
	known := len(outcomes) > 1
	for _, r := range s.Then.Routes {
		if known && !slices.Contains(outcomes, r.Key.Text) {
			b.strayRoute(r.Key, outcomes, test)
			continue
		}
		b.refer(d.steps, r.Value)
		then[r.Key.Text] = r.Value.Text
	}
	b.unrouted(s, outcomes, then, len(then) < len(s.Then.Routes))
	return then
}

func (b *builder) strayRoute(key word, outcomes []string, test *Test) {
	hint := "there are: " + strings.Join(outcomes, ", ")
	if near := source.Nearest(key.Text, outcomes); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	what := "a walk through another tree never comes out as"
	if test != nil {
		what = test.ID + " has no " + bandOrChoice(test)
	}
	b.report(CodeStrayRoute, key.Place, fmt.Sprintf("%s %q", what, key.Text), hint)
}

func bandOrChoice(t *Test) string {
	if t.Kind == Observed {
		return "choice"
	}
	return "band"
}

// unrouted reports outcomes without a route. A route with a slip in its name
// was reported already, and is not reported again as missing.
func (b *builder) unrouted(s stepShape, outcomes []string, then map[string]string, slip bool) {
	var lacks []string
	for _, o := range outcomes {
		if _, ok := then[o]; !ok && o != Unsure {
			lacks = append(lacks, o)
		}
	}
	if len(lacks) > 0 && !slip {
		b.report(CodeUnrouted, s.Then.Place, fmt.Sprintf("the step %q has no route for %s", s.ID.Text, shape.Quoted(lacks)), "add "+lacks[0]+": STEP")
	}
	if _, ok := then[Unsure]; !ok && !(slip && len(lacks) == 0) {
		b.report(CodeNoUnsure, s.Then.Place, fmt.Sprintf("the step %q has no route for %q", s.ID.Text, Unsure), "add unsure: STEP, for when the test can't be done or decides nothing")
	}
}

// proof reads the evidence of a finding or a clearing.
func (b *builder) proof(d *draft, s stepShape) []Evidence {
	if len(s.By) == 0 {
		b.report(CodeMissing, s.ID.Place, fmt.Sprintf("the step %q names no evidence", s.ID.Text), "add by: {TEST: [BAND, ...]}")
	}
	return b.evidence(d, s.By)
}

// evidence reads tests with the bands or choices that count.
func (b *builder) evidence(d *draft, shapes []proofShape) []Evidence {
	var out []Evidence
	for _, p := range shapes {
		if !b.inAll(d.notes, p.Test, testsOf) {
			continue
		}
		out = append(out, Evidence{Test: p.Test.Text, Bands: b.proofBands(d, p), Place: p.Test.Place})
	}
	return out
}

func (b *builder) proofBands(d *draft, p proofShape) []string {
	var bands []string
	for _, w := range p.Bands {
		for _, n := range d.notes {
			t := n.system.Test(p.Test.Text)
			if w.Given() && len(t.Outcomes()) > 0 && !slices.Contains(t.Outcomes(), w.Text) {
				b.strayRoute(w, t.Outcomes(), t)
				break
			}
		}
		bands = append(bands, w.Text)
	}
	return bands
}
