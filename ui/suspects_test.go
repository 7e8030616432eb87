package ui_test

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/counsel"
	"benchlead/diag/job"
	"benchlead/diag/suspect"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/trees/treetest"
	"benchlead/ui"
	"benchlead/ui/line"
)

// ready are suspects whose cloud is there, or not yet.
type ready struct {
	cloud *suspect.Cloud
	shop  counsel.Shop
}

func (r *ready) Cloud(job.Intake, []string) (*suspect.Cloud, bool) { return r.cloud, r.cloud != nil }
func (r *ready) Shop(string) counsel.Shop                          { return r.shop }
func (r *ready) Changed() <-chan struct{}                          { return make(chan struct{}) }

// suspecting is the pump's bench with its circuit, and the suspects of a pump that
// does nothing: weak 3, open switch 2, open motor 1, by how common they are.
func suspecting(t *testing.T) (ui.Bench, *ready) {
	t.Helper()
	files := append(treetest.Read(t, "..", "testdata/trees/pump"), treetest.Read(t, "..", "diag/prove/testdata")...)
	files = treetest.Change(t, files, "trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}")
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	maker, err := virtual.NewMaker(lib.Systems["spray-pump"], virtual.Conditions{Celsius: 20})
	require.NoError(t, err)
	o := suspect.Options{Seed: 1, Machines: 100, Meter: lib.Instruments("pocket")}
	cloud, err := suspect.Build(maker, "dead", o)
	require.NoError(t, err)
	cloud, err = cloud.Extend(maker, o)
	require.NoError(t, err)
	b, r := bench(t), &ready{cloud: cloud}
	b.Library, b.Suspects = lib, r
	return b, r
}

func view(s *ui.Session) string { return strings.Join(s.View(ui.Suspected), "\n") }

// before cuts a text at the first of another.
func before(text, at string) string {
	out, _, _ := strings.Cut(text, at)
	return out
}

func TestTheViewRanksAndChangesWithAnswers(t *testing.T) {
	b, _ := suspecting(t)
	s := beginPump(t, b)
	first := view(s)
	require.Contains(t, first, "nothing was read yet")
	// 0.95 x 3/6, 2/6 and 1/6, that is 47.5, 31.7 and 15.8 percent; one in twenty is gone on the bench.
	require.Contains(t, first, "  1  The battery is weak\n     #####.....  48 %, possible")
	require.Contains(t, first, "  2  The switch is open\n     ###.......  32 %, possible")
	require.Contains(t, first, "  3  The motor is open\n     ##........  16 %, less likely")
	require.Contains(t, first, "  tell 1  ")
	require.NotContains(t, first, "Don't buy yet", "nobody has looked yet")
	enter(t, s, "held 12.7")
	second := view(s)
	require.Contains(t, second, "after 1 answer")
	require.Contains(t, before(second, "\n  2"), "The switch is open")
	require.Contains(t, second, "Don't buy yet:\n  ", "the motor is suspected, and a test decides it")
	enter(t, s, "motor 0")
	require.Contains(t, view(s), "The first is sure enough.")
	require.Contains(t, view(s), "##########  ")
}

func TestTheViewSaysWhyThereIsNothing(t *testing.T) {
	b, r := suspecting(t)
	cloud := r.cloud
	r.cloud = nil
	s := beginPump(t, b)
	require.Contains(t, view(s), "being worked out")
	require.Equal(t, 1, len(s.View(ui.Suspected)))
	_, err := s.Enter(context.Background(), "tell 1")
	require.ErrorContains(t, err, "being worked out")
	enter(t, s, "rest 12.7") // the walk goes on meanwhile
	r.cloud = cloud
	require.Contains(t, view(s), "after 1 answer")
	enter(t, s, "close 1", "yes")
	require.Contains(t, view(s), "The job is closed.")

	b = bench(t)
	s = beginPump(t, b)
	require.Contains(t, view(s), "not weighed here")
	require.NotContains(t, strings.Join(s.View(ui.Help), "\n"), "tell N")
	b.Suspects = r // of a library without a circuit
	s = beginPump(t, b)
	r.cloud = nil
	require.Contains(t, view(s), "no suspects for this system")
	require.Contains(t, strings.Join(s.View(ui.Help), "\n"), "tell N")
}

func TestOneSuspectInCounts(t *testing.T) {
	b, _ := suspecting(t)
	s := beginPump(t, b)
	enter(t, s, "held 5.5")
	require.Contains(t, strings.Join(enter(t, s, "suspects 1"), " "), "The battery is weak: of 100 simulated machines ")
	_, err := s.Enter(context.Background(), "suspects 9")
	require.ErrorContains(t, err, "9 is no number of the list")
	_, err = s.Enter(context.Background(), "suspects all")
	require.ErrorContains(t, err, "write for example: suspects 1")
}

// The suspects alter nothing: with them and without, in every face, a script of answers
// leads to the same log.
func TestSuspectsAlterNoLog(t *testing.T) {
	scripts, err := filepath.Glob(filepath.Join("..", "testdata", "scripts", "*.txt"))
	require.NoError(t, err)
	with, r := suspecting(t)
	for _, name := range scripts {
		var logs []string
		for _, play := range []face{engine, lines, keys} {
			for _, suspects := range []ui.Suspects{nil, r} {
				b := bench(t)
				b.Library, b.Suspects = with.Library, suspects
				play(t, b, script(t, name))
				events, err := b.Store.Load(context.Background(), 1)
				require.NoError(t, err)
				logs = append(logs, string(job.Canonical(events)))
			}
		}
		for _, log := range logs {
			require.Equal(t, logs[0], log, name)
		}
	}
}

// What is offered is taken as if it were asked for by name, and nothing of it is
// recorded.
func TestTellTakesTheTestAndRecordsNothing(t *testing.T) {
	b, _ := suspecting(t)
	s := beginPump(t, b)
	events, offered := len(s.Events()), s.Counsel().Tests
	require.Greater(t, len(offered), 1)
	enter(t, s, "suspects", "suspects 2", "tell", "tell 2")
	require.Equal(t, offered[1].Test, s.Position().Test)
	require.Len(t, s.Events(), events)
	enter(t, s, "undo")
	require.Equal(t, "rest", s.Position().Test.ID, "back to the walk")
	_, err := s.Enter(context.Background(), "tell 9")
	require.ErrorContains(t, err, "9 is no number of the list")
	require.Len(t, s.Events(), events)
}

// A test that tells something only once the battery is charged is not jumped to.
func TestTellDoesNotJumpOverWork(t *testing.T) {
	b, _ := suspecting(t)
	s := beginPump(t, b)
	s.Advise(counsel.Counsel{Tests: []counsel.Test{{
		Offer: suspect.Offer{Test: b.Library.Systems["spray-pump"].Test("held"), After: &tree.Stage{ID: "charged"}, Minutes: 61},
		Work:  []*tree.Work{b.Library.Systems["spray-pump"].FindWork("recharge")},
	}}})
	require.Contains(t, view(s), "  tell 1  Battery with the switch held (61 min), after this work: Charge the battery")
	said := strings.Join(enter(t, s, "tell 1"), " ")
	require.Contains(t, said, "after this work: Charge the battery.")
	require.Equal(t, "rest", s.Position().Test.ID)
}

func TestTheViewSaysWhatNoTestTellsApart(t *testing.T) {
	b, _ := suspecting(t)
	s := beginPump(t, b)
	s.Advise(counsel.Counsel{Alike: []string{"The switch is open", "The motor is open"}})
	require.Contains(t, view(s), "No test that is left tells these apart: The switch is open, or The motor is open.")
	s.Advise(counsel.Counsel{Moved: []string{"Moved."}, Plan: []string{"Clip on.", "Wiggle."}})
	require.Contains(t, view(s), "No test that is left would tell us much.")
	require.Contains(t, view(s), "What moved the odds before any reading:\n  Moved.")
	require.Contains(t, view(s), "For a fault that comes and goes:\n  1. Clip on.\n  2. Wiggle.")
	_, err := s.Enter(context.Background(), "tell 1")
	require.ErrorContains(t, err, "no test that is left would tell us much")
}

// Held at 9.3 V the walk calls the battery weak. But weak ones of this pump hold 4 to
// 7 V, and with 0 V at the motor behind it the switch is open.
func TestAFindingInDoubtSaysSo(t *testing.T) {
	b, _ := suspecting(t)
	s := beginPump(t, b)
	enter(t, s, "rest 12.7", "charger 14", "held 9.3", "motor 0")
	require.Equal(t, "bat.weak", s.Position().Verdict.Found[0].Fault.ID)
	require.True(t, s.Doubted("bat.weak"))
	require.Contains(t, view(s), "Findings in doubt:\n  The battery is weak (")
	require.Contains(t, strings.Join(s.View(ui.Found), "\n"), "Found, in doubt: The battery is weak, by ")
	enter(t, s, "yes", "turns stands", "safe_stop stops")
	p := s.Prompt()
	require.Equal(t, "Verdict", p.Title)
	require.Contains(t, p.Tell, "The readings fit better: the switch is open (almost sure).")
	require.Contains(t, strings.Join(p.Tell, "\n"), "In doubt: The battery is weak (unlikely). The other readings speak against it. Take again: Battery with the switch held (take held).")

	doc, err := s.Document()
	require.NoError(t, err)
	require.Len(t, doc.Doubts, 1)
	require.Equal(t, "bat.weak", doc.Doubts[0].Fault)
}

// No battery here rests at 3 V: with all else well the reading is chance.
func TestAReadingThatFitsNothingIsNamed(t *testing.T) {
	b, _ := suspecting(t)
	s := beginPump(t, b)
	enter(t, s, "held 12.7", "motor 12.7", "turns stands", "rest 3")
	require.Contains(t, view(s), "Readings that fit nothing:\n  Battery at rest (take rest). It fits nothing that is likely. Take it again.")
}

// The plain face says who leads after the answer that changes it, and no more.
func TestThePlainFaceSaysWhoLeadsOnce(t *testing.T) {
	b, r := suspecting(t)
	s := beginPump(t, b)
	play := func(lines string) string {
		var out bytes.Buffer
		require.ErrorIs(t, line.New(strings.NewReader(lines), &out).Walk(context.Background(), s), line.ErrEnd)
		return out.String()
	}
	out := play("why\nheld 12.7\ncharger 14\nmotor 0\n")
	require.Equal(t, 2, strings.Count(out, "Suspects: "), out)
	require.Contains(t, out, "Suspects: the switch is open (likely), the motor is open (possible).")
	require.Contains(t, out, "Suspects: the switch is open (almost sure).")
	out = play("suspects\n")
	require.Contains(t, out, "\n1. The switch is open: over 99 %, almost sure; ", "no bar is drawn")
	r.cloud = nil
	require.NotContains(t, play("note one\nnote two\n"), "Suspects: ")
}

// What the shop's last jobs of the kind were is said first, also while nothing else
// can be said, and not of other complaints or once something was repaired.
func TestTheViewSaysWhatTheLastOnesWere(t *testing.T) {
	b, r := suspecting(t)
	weak := []string{"bat.weak"}
	r.shop.Last = map[string][][]string{"dead": {weak, {"sw.open"}, weak}}
	const says = "Of your last three of these, two were: the battery is weak."
	s := beginPump(t, b)
	require.True(t, strings.HasPrefix(view(s), says+"\n\nWhat may be wrong"), view(s))
	cloud := r.cloud
	r.cloud = nil
	require.Contains(t, view(s), "being worked out")
	require.Contains(t, view(s), "\n"+says)
	r.cloud = cloud
	r.shop.Last = map[string][][]string{"well": {weak, weak, weak}}
	require.NotContains(t, view(s), "Of your last")
}
