package app

import (
	"bytes"
	"cmp"
	"context"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
	"benchlead/diag/report"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
	"benchlead/ui/line"
	"benchlead/ui/screen"
)

// newPackNewCharger is what the bench shows of the same machine once pack and
// charger are new: common practice, no source.
var newPackNewCharger = map[string]string{
	"pack_rest": "11.9", "pack_look": "sound", "pack_lamp": "11.6", "dock_lamp": "11.6", "pack_crank": "10.9", "crank_symptom": "cranks",
	"charger_dc": "12.40", "charger_load": "12.1", "cord_wiggle": "steady", "good_pack": "cranks",
}

// scripted works through a job and keeps every line that is typed. At each stage
// that comes after the verdict one answer is taken back and given again.
type scripted struct {
	t       *testing.T
	s       *ui.Session
	answers map[string]string
	lines   []string
	undone  map[walk.Stage]bool
	again   []walk.Stage // the stages at which an answer is taken back
}

func (d *scripted) enter(line string) {
	d.t.Helper()
	_, err := d.s.Enter(context.Background(), line)
	require.NoError(d.t, err, "%s: %s", d.s.Position().Stage, line)
	d.lines = append(d.lines, line)
}

// next is the line that answers what is asked now; empty at a decision.
func (d *scripted) next() string {
	pos := d.s.Position()
	switch pos.Stage {
	case walk.AtSafe, walk.AtDanger:
		return "yes"
	case walk.AtTerms:
		if len(pos.Term.Ways) > 1 {
			return "2"
		}
		return "yes"
	case walk.AtWork:
		return "pass not at hand"
	case walk.AtEstimate:
		return "approve 900 the owner, by telephone"
	case walk.AtRepair:
		return d.ticking(pos)
	case walk.AtService:
		if pos.Services[0].Open() {
			return "1"
		}
		return "pass"
	case walk.AtTest, walk.AtCheck, walk.AtHandBack:
		return cmp.Or(numbered(pos.Test, d.answers[pos.Test.ID]), "pass can't be had")
	}
	return ""
}

// withNewPack says whether a path fits a new pack.
func withNewPack(p repair.Path) bool {
	return slices.ContainsFunc(p.Repairs, func(r *tree.Repair) bool { return r.ID == "replace-pack" })
}

// numbered is the number of a choice: on the screen a word may begin with the letter
// that opens a list. A reading stays as it is.
func numbered(test *tree.Test, answer string) string {
	if i := slices.IndexFunc(test.Choices, func(c tree.Choice) bool { return c.Name == answer }); i >= 0 {
		return strconv.Itoa(i + 1)
	}
	return answer
}

func (d *scripted) ticking(pos walk.Position) string {
	open := slices.ContainsFunc(pos.Lines, func(l walk.Line) bool { return l.Needed() && !l.Done })
	switch {
	case d.s.Prompt().Care:
		return "yes"
	case open && !d.undone[walk.AtRepair]:
		return "tick"
	case open:
		return "all"
	}
	return "done"
}

// on goes on to the next decision.
func (d *scripted) on() {
	d.t.Helper()
	for range 300 {
		stage, line := d.s.Position().Stage, d.next()
		if line == "" {
			return
		}
		d.enter(line)
		if slices.Contains(d.again, stage) && !d.undone[stage] && line != "yes" {
			d.enter("undo")
			require.Equal(d.t, stage, d.s.Position().Stage, "undo leads back")
			d.enter(line)
			d.undone[stage] = true
		}
	}
	require.Fail(d.t, "the job goes round")
}

// wholeJob is a job on the shipped trees from intake to hand-back, by the way that
// is chosen; the lines that were typed, and the job at its end.
func wholeJob(t *testing.T, choose func(repair.Path) bool, after map[string]string) ([]string, *ui.Session) {
	t.Helper()
	d := &scripted{t: t, s: openedAgain(t, shippedBench(t)), answers: deadPackDeadCharger, undone: map[walk.Stage]bool{}}
	d.on()
	require.Equal(t, walk.AtVerdict, d.s.Position().Stage)
	n := slices.IndexFunc(d.s.Offer().Paths, choose)
	require.GreaterOrEqual(t, n, 0)
	d.enter("choose " + strconv.Itoa(n+1))
	d.again = []walk.Stage{walk.AtEstimate, walk.AtRepair, walk.AtCheck, walk.AtService, walk.AtHandBack}
	d.answers = maps.Clone(deadPackDeadCharger)
	maps.Copy(d.answers, after)
	d.on()
	require.Equal(t, walk.AtClose, d.s.Position().Stage, "%v", foundIn(d.s.Position().Verdict))
	d.enter("close 1")
	if d.s.Position().Stage == walk.AtSafe { // the last test has spark and fuel off
		d.enter("yes")
		d.enter("close 1")
	}
	d.enter("yes")
	for _, stage := range d.again {
		require.True(t, d.undone[stage], "nothing was taken back at %s", stage)
	}
	return d.lines, d.s
}

// openedAgain is the machine taken in, put aside and opened again: as a face finds it.
func openedAgain(t *testing.T, b ui.Bench) *ui.Session {
	t.Helper()
	s, _, err := ui.Resume(context.Background(), b, begin1(t, b).ID())
	require.NoError(t, err)
	return s
}

// inLines types the lines into the plain face, inKeys into the screen, a key each.
func inLines(t *testing.T, b ui.Bench, typed []string) {
	in := strings.NewReader(strings.Join(typed, "\n") + "\n")
	require.NoError(t, line.New(in, new(bytes.Buffer)).Walk(context.Background(), openedAgain(t, b)))
}

func inKeys(t *testing.T, b ui.Bench, typed []string) {
	begin1(t, b)
	m := screen.NewModel(context.Background(), screen.Options{Bench: b})
	send := func(text string) {
		for _, r := range text {
			m.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
		m.Update(tea.KeyMsg{Type: tea.KeyEnter})
	}
	m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	send("1")
	for _, l := range typed {
		for range 5 {
			if l == "yes" { // which waits for lines that were not shown
				m.Update(tea.KeyMsg{Type: tea.KeyPgDown})
			}
		}
		send(l)
		for _, row := range strings.Split(m.View(), "\n") {
			require.LessOrEqual(t, ansi.StringWidth(row), 80)
		}
		m.Update(tea.KeyMsg{Type: tea.KeyEsc})
	}
}

// One script from the verdict on: the price, the checklist, services, the proof, the
// safety functions, with an answer taken back at each of them, on the shipped trees.
// Repaired, and converted to a rope: the logs of the faces are equal to the byte,
// and the job is proved.
func TestAWholeJobIsTheSameInEveryFace(t *testing.T) {
	for name, c := range map[string]struct {
		choose func(repair.Path) bool
		after  map[string]string
	}{
		"new pack and charger": {withNewPack, newPackNewCharger},
		"rope start":           {func(p repair.Path) bool { return p.Converts }, nil},
	} {
		t.Run(name, func(t *testing.T) {
			typed, s := wholeJob(t, c.choose, c.after)
			require.Equal(t, job.Proved, s.Facts().Closed.Outcome)
			want := string(job.Canonical(s.Events()))
			for _, kind := range []job.Kind{job.KindAsked, job.KindLined, job.KindTicked, job.KindServed, job.KindUndone} {
				require.Contains(t, want, `"kind":"`+string(kind)+`"`)
			}
			for face, play := range map[string]func(*testing.T, ui.Bench, []string){"lines": inLines, "keys": inKeys} {
				b := shippedBench(t)
				play(t, b, typed)
				events, err := b.Store.Load(context.Background(), 1)
				require.NoError(t, err)
				require.Equal(t, want, string(job.Canonical(events)), face)
			}
		})
	}
}

// The conversion's rule stands on the checklist, on the page that closes the job,
// and in the report, each time in the way that was confirmed.
func TestTheRuleOfAConversionIsHeldToTheEnd(t *testing.T) {
	const cite, way = "16 CFR 1205.5(a)(1)(iv)", "The starting control - the rope's handle - is within 24 inches of the top of the machine's handles"
	_, s := wholeJob(t, func(p repair.Path) bool { return p.Converts }, nil)
	require.Contains(t, s.Facts().Lined, job.Lined{Repair: "rope-start-conversion", Line: cite + ": " + way})
	doc, err := s.Document()
	require.NoError(t, err)
	i := slices.IndexFunc(doc.Law, func(l report.Law) bool { return l.Cite == cite })
	require.Equal(t, way, doc.Law[i].Met)
	var answered []string
	for _, id := range []string{"stop_time", "engine_stops", "stop_released", "stop_held", "guards"} {
		if s.Position().Results[id].Counts() {
			answered = append(answered, id)
		}
	}
	require.Len(t, answered, 5, "the safety functions are proved on the machine as it is now")

	one, open := bench1(t), ""
	goOn(t, one, deadPackDeadCharger)
	n := slices.IndexFunc(one.Offer().Paths, func(p repair.Path) bool { return p.Converts })
	_, err = one.Enter(context.Background(), "choose "+strconv.Itoa(n+1))
	require.NoError(t, err)
	goOn(t, one, deadPackDeadCharger)
	require.Equal(t, walk.AtClose, one.Position().Stage)
	for _, l := range one.Prompt().Tell {
		if strings.HasPrefix(l, cite) {
			open = l
		}
	}
	require.Contains(t, open, "met by this")
}

// A check reading that fails opens the walk again on the shipped trees: the pack is
// found again, what was tried is said, and the job can't be closed as proved.
func TestAPackThatIsDeadAgainIsFoundAgain(t *testing.T) {
	d := &scripted{t: t, s: openedAgain(t, shippedBench(t)), answers: deadPackDeadCharger, undone: map[walk.Stage]bool{walk.AtRepair: true}}
	d.on()
	d.enter("choose " + strconv.Itoa(1+slices.IndexFunc(d.s.Offer().Paths, withNewPack)))
	d.answers = maps.Clone(deadPackDeadCharger)
	maps.Copy(d.answers, newPackNewCharger)
	d.answers["pack_rest"], d.answers["pack_lamp"], d.answers["pack_crank"], d.answers["crank_symptom"] = "0.37", "0.00", "", "silent"
	d.on()
	require.Equal(t, walk.AtVerdict, d.s.Position().Stage)
	require.Contains(t, foundIn(d.s.Position().Verdict), "pack.no-output")
	require.Contains(t, strings.Join(d.s.PathLines(), "\n"), "Tried already, and the fault is still there: Fit a new pack.")
	r, err := d.s.Enter(context.Background(), "close")
	require.NoError(t, err)
	require.NotContains(t, strings.Join(r.Said, "\n"), string(job.Proved))
}
