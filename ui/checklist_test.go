package ui_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// repairing is a job at the first repair of its path: a new battery, with a
// caution, two steps and three lines more.
func repairing(t *testing.T) *ui.Session {
	t.Helper()
	s := estimated(t)
	enter(t, s, "approve 90 Mrs. K")
	require.Equal(t, walk.AtRepair, s.Position().Stage)
	return s
}

func refused(t *testing.T, s *ui.Session, line, why string) {
	t.Helper()
	before := len(s.Events())
	_, err := s.Enter(context.Background(), line)
	require.ErrorContains(t, err, why, line)
	require.Len(t, s.Events(), before, line)
}

// marks are the marks of the list, one after the other.
func marks(s *ui.Session) string {
	var out []string
	for _, it := range s.Prompt().List {
		out = append(out, strings.Trim(it.Mark, "[]"))
	}
	return strings.Join(out, "")
}

func TestNothingIsTickedBeforeTheCautionsAreUnderstood(t *testing.T) {
	s := repairing(t)
	require.Equal(t, []string{"Battery gas. Keep flames away."}, s.Prompt().Caution)
	for _, line := range []string{"tick", "tick 1", "1", "done"} {
		refused(t, s, line, "first the cautions")
	}
	refused(t, s, "y", "help")
	enter(t, s, "yes")
	require.Equal(t, job.Lined{Repair: "new-battery", Line: "Understood: Battery gas"}, s.Facts().Lined[0])
	refused(t, s, "yes", "tick")
	enter(t, s, "undo")
	require.True(t, s.Prompt().Care)
}

func TestARepairIsTickedLineByLine(t *testing.T) {
	s := repairing(t)
	enter(t, s, "yes")
	require.Equal(t, "     ", marks(s))
	refused(t, s, "done", "steps 1 and 5 are open yet")
	enter(t, s, "tick", "4")
	require.Equal(t, "x  x ", marks(s))
	refused(t, s, "4", "settled already")
	refused(t, s, "6", "no number of the list")
	refused(t, s, "0", "no number of the list")
	refused(t, s, "done", "step 5 is open yet")
	refused(t, s, "pass", "can't be passed over")
	enter(t, s, "undo")
	require.Equal(t, "x    ", marks(s))
	enter(t, s, "tick 5", "done") // what is kept is for the hand to count
	require.Equal(t, []string{"new-battery"}, s.Facts().Ticked)
	require.Equal(t, "Fit a charger", s.Prompt().Title)
	enter(t, s, "undo")
	require.Equal(t, "x   x", marks(s), "the lines stay ticked")
}

// Somebody who has done it a hundred times ticks all at once: as many events. The
// cautions are not among them: those want a word of their own.
func TestAllLinesAtOnce(t *testing.T) {
	s := repairing(t)
	refused(t, s, "all", "first the cautions")
	require.Empty(t, s.Facts().Lined)
	said := enter(t, s, "yes", "all")
	require.Equal(t, "5 lines: done.", said[len(said)-1])
	require.Len(t, s.Facts().Lined, 6)
	refused(t, s, "all", "ticked already")
	refused(t, s, "tick", "nothing is next")
	enter(t, s, "done")
}

// A checklist goes on where it was.
func TestAChecklistIsResumed(t *testing.T) {
	b := bench(t)
	s := beginPump(t, b)
	enter(t, s, "charger 0", "held 9.0", "choose 1", "approve 90 Mrs. K", "yes", "tick")
	s, _, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.Equal(t, "x    ", marks(s))
	require.Equal(t, 2, func() int {
		for _, it := range s.Prompt().List {
			if it.Next {
				return it.Number
			}
		}
		return 0
	}())
	require.Equal(t, "1. Done: Negative lead off first.", s.View(ui.List)[0])
	require.Equal(t, "2. Comes off: The old battery, to a collection point", s.View(ui.List)[1])
	require.Equal(t, "5. Fit it, negative lead on last.", s.View(ui.List)[4])
}

// Words of a list are answers where a test has such a choice.
func TestAWordOfAListMayBeAChoice(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "      - stands\n", "      - {choice: stands, title: all is still}\n")
	s := beginPump(t, b)
	enter(t, s, "12.8", "yes", "11.4", "11.2", "yes", "all is still")
	require.Equal(t, "stands", s.Position().Results["turns"].Choice)
	refused(t, s, "all", "no list")
	require.Equal(t, "all is still", s.Facts().Answers["turns"][0].Seen.Text)
}

// served is a job at its services: a battery is proved.
func atServices(t *testing.T) *ui.Session {
	t.Helper()
	s := beginPump(t, bench(t))
	enter(t, s, "charger 13.5", "held 9.0", "choose 1", "pass ours", "yes", "all", "done", "12.8", "yes", "11.4", "11.2", "yes", "turns")
	require.Equal(t, walk.AtService, s.Position().Stage)
	return s
}

func TestServicesAreDoneOrLeftOut(t *testing.T) {
	s := atServices(t)
	require.Equal(t, "15 min", s.Prompt().Cost)
	require.Equal(t, []string{"Battery gas. Keep flames away."}, s.Prompt().Caution)
	require.Equal(t, "1. Change the gear oil (12 min): Old oil to a collection point.", s.Prompt().List[0].Line())
	refused(t, s, "tick", "nothing is next")
	refused(t, s, "done", "number of each service")
	refused(t, s, "11.4", "list to be ticked")
	enter(t, s, "pass 1")
	require.Equal(t, "- ", marks(s))
	require.Empty(t, s.Prompt().Caution, "of what is left out nothing has to be known")
	refused(t, s, "1", "settled already")
	refused(t, s, "pass 1", "settled already")
	enter(t, s, "undo", "1")
	require.Equal(t, "x ", marks(s))
	enter(t, s, "pass not wanted by the owner")
	require.Equal(t, walk.AtHandBack, s.Position().Stage)
	require.Equal(t, []job.Served{{Service: "oil"}, {Service: "hose", Left: true, With: true}}, s.Facts().Served)
	require.Equal(t, "Services left out: not wanted by the owner.", s.Facts().Notes[0].Text)
	require.Equal(t, []string{"Taken back: Look at the hose."}, enter(t, s, "undo"))
	require.Equal(t, "x ", marks(s))
	require.Empty(t, s.Facts().Notes, "why they were left out was of the same line")
	enter(t, s, "all")
	require.Equal(t, walk.AtHandBack, s.Position().Stage)
}

// One line that left several out is taken back by one undo, and what was said before it
// stands; one line each is one undo each.
func TestOneLineIsOneUndo(t *testing.T) {
	s := atServices(t)
	enter(t, s, "pass")
	require.Equal(t, walk.AtHandBack, s.Position().Stage)
	require.Equal(t, []string{"Taken back: what was said of 2 services."}, enter(t, s, "undo"))
	require.Equal(t, "  ", marks(s))
	enter(t, s, "pass 1", "pass 2", "undo")
	require.Equal(t, "- ", marks(s))
	enter(t, s, "undo")
	require.Equal(t, "  ", marks(s))
	enter(t, s, "all", "undo")
	require.Equal(t, "  ", marks(s), "and so of several that are done")
	enter(t, s, "undo")
	require.NotEqual(t, walk.AtService, s.Position().Stage, "what came before can be taken back still")
}

// A safety function of a repaired machine can't be passed over, and the prompt does
// not offer it.
func TestASafetyFunctionIsNotPassedOver(t *testing.T) {
	s := atServices(t)
	enter(t, s, "pass")
	require.NotContains(t, s.Prompt().Ask, "pass,")
	require.Contains(t, s.Prompt().Ask, "can't be passed over")
	refused(t, s, "pass no time", "can't be passed over")
	enter(t, s, "take rest", "take safe_stop")
	refused(t, s, "pass", "can't be passed over")
	said := enter(t, s, "undo", "close")
	require.Equal(t, []string{"Back to the step.", "Close the job as:", "  close 1  " + string(job.Unsafe) + " (a safety function is not proved)"}, said)
}

// The number of a service that needs it asks for what makes it safe, and after that
// says that the service is done.
func TestAServiceIsBegunByMakingItSafe(t *testing.T) {
	b := bench(t)
	oil, hose := b.Library.Services["oil"], b.Library.Services["hose"]
	oil.Needs, oil.Leaves = map[string]string{"spark-lead": "off"}, map[string]string{"fuel": "off"}
	hose.Needs = map[string]string{"spark-lead": "off", "fuel": "off"}
	s := beginPump(t, b)
	enter(t, s, "charger 13.5", "held 9.0", "choose 1", "pass ours", "yes", "all", "done", "12.8", "yes", "11.4", "11.2", "yes", "turns")
	require.False(t, s.Prompt().List[0].Begin, "the last test had it so")
	s, _, err := ui.Resume(context.Background(), b, s.ID())
	require.NoError(t, err)
	require.True(t, s.Prompt().List[0].Begin, "nobody knows what was done meanwhile")
	require.Contains(t, s.Prompt().Ask, "before you begin it")
	refused(t, s, "all", "not made safe for these: 1 Change the gear oil, 2 Look at the hose")
	require.Equal(t, []string{"First make it safe. Type the number again when it is done."}, enter(t, s, "1"))
	require.Equal(t, walk.AtSafe, s.Position().Stage)
	require.Equal(t, "Make safe before: Change the gear oil", s.Prompt().Title)
	require.Equal(t, []string{"Engine: Key or switch off, lever let go. Wait until all stands still.", "Spark lead: Pull it off and ground it."}, s.Prompt().Tell, "the last test had it running")
	refused(t, s, "1", "first confirm")
	require.Equal(t, []string{"Back to the list."}, enter(t, s, "undo"))
	require.Empty(t, s.Facts().Served)
	enter(t, s, "1", "yes")
	require.Equal(t, "  ", marks(s), "it is begun, and not done")
	require.True(t, s.Prompt().List[0].Next)
	enter(t, s, "tick")
	require.Equal(t, "x ", marks(s))
	require.Equal(t, "off", s.Facts().Safe["fuel"], "as the service leaves it")
	require.False(t, s.Prompt().List[1].Begin)
	enter(t, s, "undo")
	require.Equal(t, "  ", marks(s), "what it left is no answer to be taken back first")
	enter(t, s, "pass 1", "2")
	require.Equal(t, []job.Served{{Service: "oil", Left: true}, {Service: "hose"}}, s.Facts().Served)
}
