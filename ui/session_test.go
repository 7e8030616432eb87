package ui_test

import (
	"context"
	"strconv"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/source"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
	"benchlead/ui/screen"
)

func beginPump(t *testing.T, b ui.Bench) *ui.Session {
	t.Helper()
	in := ui.NewIntake(b.Library)
	for _, a := range []string{"1", "1", "", "", "", "", "", "", "", ""} {
		require.NoError(t, in.Answer(a))
	}
	s, err := ui.Begin(context.Background(), b, in.Result())
	require.NoError(t, err)
	return s
}

func enter(t *testing.T, s *ui.Session, lines ...string) []string {
	t.Helper()
	var said []string
	for _, l := range lines {
		r, err := s.Enter(context.Background(), l)
		require.NoError(t, err, l)
		said = append(said, r.Said...)
	}
	return said
}

// edited is the pump's library with each old text changed to the new in its files.
func edited(t *testing.T, changes ...string) *tree.Library {
	t.Helper()
	var files []source.File
	hits := map[string]bool{}
	for _, name := range []string{"system", "trees", "charging", "lists", "repairs"} {
		f := open(t, "../testdata/trees/pump/"+name+".yaml")
		for i := 0; i+1 < len(changes); i += 2 {
			if strings.Contains(f.Text, changes[i]) {
				hits[changes[i]] = true
				f.Text = strings.ReplaceAll(f.Text, changes[i], changes[i+1])
			}
		}
		files = append(files, f)
	}
	require.Len(t, hits, len(changes)/2, "not all was edited")
	lib, issues := tree.Load(files)
	require.Empty(t, issues)
	return lib
}

// A tree edited while a job is open: the walk is worked out anew, what changed
// in the findings is said and recorded, and the readings stay.
func TestATreeEditedWhileAJobIsOpen(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "charger 13.5", "held 9.0")
	require.Equal(t, "bat.weak", s.Position().Verdict.Found[0].Fault.ID)
	b.Library = edited(t, `below: "9.6"`, `below: "8.5"`)
	s, said, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Contains(t, strings.Join(said, "\n"), "No longer found: The battery is weak.")
	require.Empty(t, s.Position().Verdict.Found)
	last := s.Events()[len(s.Events())-1]
	require.Equal(t, job.KindTrees, last.Kind)
	require.Equal(t, b.Library.Digest, last.Trees.Digest)
	// The same trees again say nothing.
	_, said, err = ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Empty(t, said)
}

// Words that change in the trees change nothing in what was found.
func TestATreeRewordedChangesNoFinding(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "rest 12.8")
	b.Library = edited(t, "title: Battery at rest", "title: Battery, resting")
	s, said, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Contains(t, strings.Join(said, "\n"), "The findings stay the same.")
	require.Equal(t, walk.Read, s.Position().Results["rest"].Mark)
}

// A reading of a test that the trees no longer have is kept, and it is said.
func TestAReadingOfATestThatIsGoneIsKeptAndNamed(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "safe_stop stops")
	b.Library = edited(t, "safe_stop", "lets_go")
	s, said, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Contains(t, strings.Join(said, "\n"), "safe_stop is no longer in the fault trees; its reading is kept")
	require.Len(t, s.Facts().Answers["safe_stop"], 1)
}

// Closing freezes the verdict and the quote: other trees don't rewrite it.
func TestAClosedJobIsFrozen(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "charger 13.5", "held 9.0", "close 1", "yes")
	before, err := s.Document()
	require.NoError(t, err)
	b.Library = edited(t, `below: "9.6"`, `below: "8.5"`)
	s, said, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Empty(t, said)
	after, err := s.Document()
	require.NoError(t, err)
	require.Equal(t, before.Verdict, after.Verdict)
	require.Equal(t, before.Outcome, after.Outcome)
	_, err = s.Enter(context.Background(), "rest 12")
	require.ErrorContains(t, err, "closed")
}

// Two benches on one job: the second is told, sees what came in, and nothing of
// either is lost.
func TestTwoBenchesOnOneJob(t *testing.T) {
	b := bench(t)
	one := beginPump(t, b)
	two, _, err := ui.Resume(context.Background(), b, one.ID())
	require.NoError(t, err)
	enter(t, two, "rest 12.8")
	_, err = one.Enter(context.Background(), "charger 13.5")
	require.ErrorIs(t, err, ui.ErrOthers)
	require.Equal(t, walk.Read, one.Position().Results["rest"].Mark, "what came in is there")
	enter(t, one, "charger 13.5")
	require.Equal(t, walk.Read, one.Position().Results["charger"].Mark)

	reply, err := two.Enter(context.Background(), "note smells of fuel")
	require.ErrorIs(t, err, ui.ErrOthers)
	require.Empty(t, reply.Said, "it is not said to be noted")
}

func TestUndoIsRefusedOnceLaterEventsRestOnIt(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 0", "held 9.0", "choose 1")
	_, err := s.Enter(context.Background(), "undo")
	require.NoError(t, err, "the choice itself can be taken back")
	require.Nil(t, s.Facts().Chosen)
	enter(t, s, "undo")
	require.Equal(t, walk.Unknown, s.Position().Results["held"].Mark)
}

func TestAnImpossibleValueAsksBeforeItCounts(t *testing.T) {
	s := beginPump(t, bench(t))
	said := enter(t, s, "126")
	require.Contains(t, said[0], "Did you mean 12.6 V")
	require.Equal(t, walk.Unknown, s.Position().Results["rest"].Mark)
	require.Contains(t, s.Prompt().Ask, "keep")
	enter(t, s, "keep")
	require.True(t, s.Facts().Answers["rest"][0].Read.Sure)
}

func TestSafetyIsConfirmedByTheWholeWordOnly(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12.8")
	require.Equal(t, walk.AtSafe, s.Position().Stage)
	for _, text := range []string{"y", "ye", "ok", "1", "done", "11.2"} {
		_, err := s.Enter(context.Background(), text)
		require.Error(t, err, text)
		require.Equal(t, walk.AtSafe, s.Position().Stage)
	}
	enter(t, s, "yes")
	require.Equal(t, walk.AtTest, s.Position().Stage)
}

func TestADangerCantBePassedOver(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "0.3")
	require.Equal(t, walk.AtDanger, s.Position().Stage)
	_, err := s.Enter(context.Background(), "pass")
	require.Error(t, err)
	enter(t, s, "yes")
	require.Equal(t, "charger", s.Position().Test.ID)
}

// The text of a stranger never reaches the terminal raw.
func TestEscapesAreHarmless(t *testing.T) {
	s := beginPump(t, bench(t))
	_, err := s.Enter(context.Background(), "\x1b[2Jrubbish\x07")
	require.Error(t, err)
	require.NotContains(t, err.Error(), "\x1b")
	enter(t, s, "note \x1b]0;owned\x07 hello")
	doc, err := s.Document()
	require.NoError(t, err)
	require.NotContains(t, strings.Join(doc.Notes, " "), "\x1b")
}

func TestAClosedOutcomeMustBeTrue(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12.8", "yes", "11.4", "0.0", "yes", "stands", "choose 1", "pass ours", "all", "done")
	said := enter(t, s, "close")
	require.NotContains(t, strings.Join(said, "\n"), string(job.Proved), "nothing is proved yet")
	require.Contains(t, strings.Join(said, "\n"), string(job.Unsafe))
}

// A repair with terms is not begun before they are confirmed, each by itself,
// and a rule with several ways wants the one that holds.
func TestTermsComeBeforeTheWorkAndStandInTheReport(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 0", "held 9.0")
	n := 0
	for i, p := range s.Offer().Paths {
		if p.Converts {
			n = i + 1
		}
	}
	require.Positive(t, n, "the conversion is among the paths")
	enter(t, s, "choose "+strconv.Itoa(n), "approve 900 the owner")
	require.Equal(t, walk.AtTerms, s.Position().Stage)
	for _, text := range []string{"done", "1", "y", "pass"} {
		_, err := s.Enter(context.Background(), text)
		require.Error(t, err, text)
	}
	enter(t, s, "yes")
	require.Equal(t, "Rule of the tests", s.Position().Term.Title)
	_, err := s.Enter(context.Background(), "yes")
	require.Error(t, err, "a rule with two ways wants one of them")
	enter(t, s, "2")
	require.Equal(t, walk.AtRepair, s.Position().Stage)
	enter(t, s, "undo", "1", "tick")
	refused(t, s, "done", "step 2 is open yet")
	require.Equal(t, "2. Rule of the tests: A guard is fitted.", s.Prompt().List[1].Line())
	enter(t, s, "tick", "done")
	doc, err := s.Document()
	require.NoError(t, err)
	require.Len(t, doc.Law, 2)
	require.Equal(t, "A guard is fitted.", doc.Law[1].Met)
	require.Equal(t, "[x]", doc.Law[1].Mark("A guard is fitted."))
	require.Equal(t, "[ ]", doc.Law[1].Mark("The crank lets go by itself."))
}

// A machine that failed a stop is not started again for the next test, and
// can't be closed as repaired.
func TestAFailedStopEndsTheHandBack(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12.8", "yes", "11.4", "11.2", "yes", "stands", "choose 1", "pass ours", "all", "done", "yes", "turns", "11.4", "11.2", "pass")
	require.Equal(t, walk.AtHandBack, s.Position().Stage)
	enter(t, s, "runs on", "yes")
	require.Equal(t, walk.AtClose, s.Position().Stage)
	said := enter(t, s, "close")
	require.Equal(t, []string{"Close the job as:", "  close 1  " + string(job.Unsafe) + " (It stops when let go)"}, said)
}

// A repair that did not clear its fault is said so, and the next way is offered.
func TestARepairThatFailedIsNotOfferedAgain(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12.8", "yes", "11.4", "0.0", "yes", "stands")
	first := s.Offer().Paths[0].Repairs[0].ID
	enter(t, s, "choose 1", "pass ours", "all", "done", "yes", "0.0", "11.4")
	require.Equal(t, "sw.open", s.Position().Verdict.Found[0].Fault.ID)
	require.Contains(t, strings.Join(s.PathLines(), "\n"), "Tried already")
	for _, p := range s.Offer().Paths {
		require.NotEqual(t, first, p.Repairs[0].ID)
	}
}

// Over range on volts says that the range was too low, nothing of the machine.
func TestOverRangeOnVoltsIsNoAnswer(t *testing.T) {
	s := beginPump(t, bench(t))
	_, err := s.Enter(context.Background(), "OL")
	require.ErrorContains(t, err, "higher range")
	require.Equal(t, walk.Unknown, s.Position().Results["rest"].Mark)
}

func TestAFaultIsSaidAsSoonAsItIsShown(t *testing.T) {
	s := beginPump(t, bench(t))
	said := enter(t, s, "charger 0")
	require.Contains(t, said, "Found: The charger is dead.")
	said = enter(t, s, "undo")
	require.Contains(t, said[0], "Taken back: Charger output")
}

// A job whose system the trees don't have is kept, shown as such in every face,
// and nothing panics.
func TestAJobOfAnUnknownSystemIsKept(t *testing.T) {
	ctx, b := context.Background(), bench(t)
	s := beginPump(t, b)
	enter(t, s, "rest 12.8")
	b.Library = edited(t, "spray-pump", "spray-pump-two")
	s, _, err := ui.Resume(ctx, b, s.ID())
	require.NoError(t, err)
	require.Contains(t, s.Prompt().Title, "have no such system")
	for _, l := range []string{"12.6", "yes", "pass", "undo", "take rest", "choose 1", "close 1", "done", "keep", "rest 12"} {
		_, err := s.Enter(ctx, l)
		require.Error(t, err, l)
	}
	for _, v := range []ui.Verb{ui.Why, ui.Left, ui.Found, ui.Paths, ui.Help} {
		require.NotEmpty(t, s.View(v), v)
	}
	doc, err := s.Document()
	require.NoError(t, err, "its report outlives the trees")
	require.Equal(t, "12.8 V", doc.Readings[0].Taken[0].Value)
	m := screen.NewModel(ctx, screen.Options{Bench: b})
	for _, msg := range []tea.Msg{
		tea.WindowSizeMsg{Width: 80, Height: 24},
		tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("1")},
		tea.KeyMsg{Type: tea.KeyEnter},
		tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("l")},
		tea.KeyMsg{Type: tea.KeyEsc},
		tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("12.6")},
		tea.KeyMsg{Type: tea.KeyEnter},
	} {
		m.Update(msg)
		require.NotEmpty(t, m.View())
	}
}

// leaving has the spark lead left on, or off when the pump is not to be run, and the
// fuel tap always shut.
func leaving(b ui.Bench) {
	lead, tap := b.Library.Safe["spark-lead"].Settings, b.Library.Safe["fuel"].Settings
	lead[0].Unfit, lead[1].Back, tap[0].Back = true, true, true
}

// Whatever a test took off or strapped is put back before a job ends, also when
// nothing was repaired.
func TestAllIsPutBackBeforeAJobIsClosed(t *testing.T) {
	b := bench(t)
	leaving(b)
	s := beginPump(t, b)
	enter(t, s, "12.8", "yes", "pass", "pass")
	require.Contains(t, strings.Join(enter(t, s, "close 1"), " "), "First all is put back")
	require.Nil(t, s.Facts().Closed)
	require.Equal(t, walk.AtSafe, s.Position().Stage)
	require.Len(t, s.Position().Safe, 1, "the tap was never opened")
	require.Equal(t, "on", s.Position().Safe[0].Setting.ID)
	require.Contains(t, s.Prompt().Title, "closing the job")
	enter(t, s, "take rest")
	require.Equal(t, "rest", s.Position().Test.ID, "another test can still be taken")
	enter(t, s, "12.8")
	s, _, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	enter(t, s, "close", "close 1")
	require.Equal(t, "on", s.Position().Safe[0].Setting.ID, "it is known after the job was put aside, too")
	enter(t, s, "yes", "close 1", "yes")
	require.Equal(t, job.Unrepaired, s.Facts().Closed.Outcome)
}

// A machine that is not to be run keeps its spark lead off, and whoever closes it as
// unsafe confirms that it is off.
func TestAnUnsafeMachineKeepsItsSparkLeadOff(t *testing.T) {
	b := bench(t)
	leaving(b)
	s := beginPump(t, b)
	enter(t, s, "12.8")
	require.Contains(t, strings.Join(enter(t, s, "close", "close 2"), " "), "what lets it run is off")
	require.Equal(t, "off", s.Position().Safe[0].Setting.ID, "it was never asked for")
	enter(t, s, "yes", "close 2", "yes")
	require.Equal(t, job.Unsafe, s.Facts().Closed.Outcome)
	s = beginPump(t, b)
	enter(t, s, "12.8", "yes", "close", "close 2", "yes")
	require.Equal(t, job.Unsafe, s.Facts().Closed.Outcome, "it is off already")
}

// A contradiction is said in words, on both faces, before what to do.
func TestAnAnswerAskedOnceMoreSaysWhy(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "{choice: turns, clears: [mot.open]}", "{choice: turns, clears: [mot.open, sw.open]}")
	s := beginPump(t, b)
	enter(t, s, "12.8", "yes", "11.4", "0.0", "yes", "turns")
	p := s.Prompt()
	require.Equal(t, walk.AtTest, p.Stage)
	require.Equal(t, "turns", s.Position().Test.ID)
	require.Contains(t, p.Tell[0], "Take it once more. The answers contradict each other about \"The switch is open\"")
	require.Contains(t, p.Tell[0], "(none)")
	require.Contains(t, p.Tell[0], "(turns)")
	enter(t, s, "stands")
	require.Equal(t, "sw.open", s.Position().Verdict.Found[0].Fault.ID)
}

// A closed job stays closed, and a number may have been meant for the page before: it
// is asked about once, in words, whatever was shown.
func TestClosingAsksOnce(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "rest 12.8", "close 2")
	require.Nil(t, s.Facts().Closed)
	require.Equal(t, `Close as "unsafe: not operable, owner informed"?`, s.Prompt().Title)
	require.Equal(t, []string{"The job goes on."}, enter(t, s, "no"))
	require.NotContains(t, s.Prompt().Title, "Close as")
	enter(t, s, "close 2", "charger 13.5")
	require.Equal(t, walk.Read, s.Position().Results["charger"].Mark, "anything else goes on")
	enter(t, s, "close", "charger 13.6", "close 2")
	require.Nil(t, s.Facts().Closed)
	enter(t, s, "yes")
	require.Equal(t, job.Unsafe, s.Facts().Closed.Outcome)
	s = beginPump(t, bench(t))
	enter(t, s, "rest 12.8", "close", "close 1")
	require.Nil(t, s.Facts().Closed, "the list was shown, and it is asked all the same")
	enter(t, s, "yes")
	require.Equal(t, job.Unrepaired, s.Facts().Closed.Outcome)
}

// A make-safe card that is passed over leaves what it asked for unknown, and the next
// step says so.
func TestAMakeSafeCardPassedOverIsSaid(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12.8")
	require.Equal(t, walk.AtSafe, s.Position().Stage)
	title := s.Position().Safe[0].Item.Title
	said := enter(t, s, "pass can't see it")
	require.Len(t, said, 2)
	require.Contains(t, said[1], title)
	enter(t, s, "take charger")
	require.Equal(t, walk.AtTest, s.Position().Stage)
	require.Contains(t, s.Prompt().Tell[0], title, "it says nothing of it by itself")
	enter(t, s, "0", "yes")
	require.NotContains(t, strings.Join(s.Prompt().Tell, "\n"), "Passed over")
}

// The cautions of a step stand on its make-safe card in short, before the yes, and all
// of them on the step.
func TestTheMakeSafeCardWarns(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "12.8")
	test := s.Position().Test
	b.Library.Cautions["slow"] = &tree.Caution{ID: "slow", Title: "Acid", Tell: "Glasses on. Never while frozen."}
	test.Cautions = []string{"slow", "slow"}
	require.Equal(t, []string{"Acid. Glasses on."}, s.Prompt().Caution)
	enter(t, s, "yes")
	require.Equal(t, []string{"Acid. Glasses on. Never while frozen."}, s.Prompt().Caution)
}

// A card before a question must not look like the question.
func TestTheMakeSafeCardIsNoQuestion(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "12.8")
	require.Equal(t, "Make safe before: "+s.Position().Test.Title, s.Prompt().Title)
	s.Position().Test.Title = "Is it this kind of machine?"
	require.Equal(t, `Make safe first. After that the question "Is it this kind of machine?"`, s.Prompt().Title)
}
