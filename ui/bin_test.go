package ui_test

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/job/jobtest"
	"benchlead/diag/repair"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// yes confirms what stands in front of a session, then types lines, confirming in
// between.
func yes(t *testing.T, s *ui.Session, lines ...string) []string {
	t.Helper()
	var said []string
	for _, l := range append(lines, "") {
		for s.Position().Stage == walk.AtSafe || s.Position().Stage == walk.AtDanger {
			enter(t, s, "yes")
		}
		if l != "" {
			said = append(said, enter(t, s, l)...)
		}
	}
	return said
}

// proving answers all that is asked once the repair is done, until the job waits
// for a decision; the shaft as told.
func proving(t *testing.T, s *ui.Session, turns string) {
	t.Helper()
	answers := map[string]string{"charger": "13.5", "rest": "12.8", "held": "11.5", "motor": "11.4", "turns": turns, "safe_stop": "stops"}
	enter(t, s, "pass ours")
	yes(t, s, "all", "done")
	for range 50 {
		yes(t, s)
		p := s.Position()
		if p.Stage == walk.AtService {
			enter(t, s, "pass")
			continue
		}
		if p.Stage != walk.AtTest && p.Stage != walk.AtCheck && p.Stage != walk.AtHandBack {
			return
		}
		enter(t, s, answers[p.Test.ID])
	}
	require.Fail(t, "the job goes round")
}

// chooseBy takes the first way that fits, and gives what is said.
func chooseBy(t *testing.T, s *ui.Session, fits func(repair.Path) bool) ([]string, error) {
	t.Helper()
	n := slices.IndexFunc(s.Offer().Paths, fits)
	require.GreaterOrEqual(t, n, 0, "%v", s.PathLines())
	r, err := s.Enter(context.Background(), "choose "+strconv.Itoa(n+1))
	return r.Said, err
}

func fromBin(p repair.Path) bool { return len(p.FromBin()) > 0 }

// refuses looks that a line is refused with a reason and changes nothing.
func refuses(t *testing.T, s *ui.Session, line, why string) {
	t.Helper()
	before := len(s.Events())
	_, err := s.Enter(context.Background(), line)
	require.ErrorContains(t, err, why, line)
	require.Len(t, s.Events(), before)
}

// apart is a pump with a dead charger and all else proved good, to be taken apart.
func apart(t *testing.T, b ui.Bench) *ui.Session {
	t.Helper()
	s := beginPump(t, b)
	yes(t, s, "charger 0", "rest 12.8", "held 11.5", "motor 11.4", "turns 1")
	n := len(s.Offer().Paths) + slices.IndexFunc(s.Offer().Leave, func(l repair.Leave) bool { return l.Kind == repair.ChoosePartOut })
	enter(t, s, "choose "+strconv.Itoa(n+1))
	return s
}

// deadMotor is a pump whose motor is found.
func deadMotor(t *testing.T, b ui.Bench) *ui.Session {
	t.Helper()
	s := beginPump(t, b)
	yes(t, s, "charger 13.5", "rest 12.8", "held 11.5", "motor 11.4", "turns 2")
	require.Equal(t, "mot.open", s.Position().Verdict.Found[0].Fault.ID)
	return s
}

func pieces(t *testing.T, b ui.Bench) []job.Shelved {
	t.Helper()
	jobtest.Agree(t, b.Store)
	out, err := b.Store.Bin(context.Background())
	require.NoError(t, err)
	return out
}

func TestAGoodPartGoesInTheBinWithWhatWasRead(t *testing.T) {
	b := bench(t)
	s := apart(t, b)
	said := enter(t, s, "bin mot; 20; shelf 2; no play in its bearings")
	require.Contains(t, said[0], "piece 1.")
	got := pieces(t, b)[0]
	require.Equal(t, []string{"no play in its bearings", "Does it turn: turns"}, got.Shown)
	require.Equal(t, []string{"mot", "20.00", "shelf 2"}, []string{got.Part, got.Asking, got.Place})
	require.Equal(t, b.Prices.Shop.Currency, got.Currency)

	enter(t, s, "bin sw; 4.50")
	require.Len(t, pieces(t, b)[1].Shown, 1, "what cleared it is enough")
	require.Regexp(t, `^Volts at the motor: 11\.40 \+- 0\.\d+ V, there$`, pieces(t, b)[1].Shown[0])

	require.Contains(t, enter(t, s, "undo")[0], "Switch")
	require.Len(t, pieces(t, b), 1)
	enter(t, s, "close 1", "yes")
	refuses(t, s, "bin sw; 4.50", "closed")
	require.Equal(t, job.PartedOut, s.Facts().Closed.Outcome)
}

func TestWhatDoesNotGoInTheBinIsSaidWhy(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "title: Switch, refund", `title: Switch, no bin: Only new ones., refund`)
	b.Library.Parts["bat"].BinNeeds = []string{"Holds a day.", "Load test"}
	s := apart(t, b)
	refuses(t, s, "bin sw; 5", "Only new ones.")
	refuses(t, s, "bin chg; 5", "found: the charger is dead")
	refuses(t, s, "bin crank; 5", "no test of this machine judges it")
	refuses(t, s, "bin mott; 5", `did you mean "mot"`)
	refuses(t, s, "bin bat; 5; shelf", "1 Holds a day (nothing was said of it")
	refuses(t, s, "bin bat; 5; shelf; 2: yes, 9.8 V", "1 Holds a day")
	refuses(t, s, "bin mot; cheap", "asking price")
	require.Contains(t, strings.Join(enter(t, s, "bin bat"), "\n"), `1 Holds a day (nothing was said of it; if it is so, write "1: yes"`)
	list := strings.Join(enter(t, s, "bin"), "\n")
	for _, want := range []string{"mot  Motor: may go in", "Only new ones.", "found: the charger is dead"} {
		require.Contains(t, list, want)
	}
	enter(t, s, "bin bat; 5; shelf; 2: yes, 9.8 V; holds a day: yes, 12.6 V")
	require.Equal(t, []string{"Load test: yes, 9.8 V", "holds a day: yes, 12.6 V"}, pieces(t, b)[0].Shown[:2])
	require.Contains(t, pieces(t, b)[0].Shown[2], "Battery with the switch held: 11.50")

	// Without a way chosen nothing is off the machine; and what is not cleared was
	// not proved good.
	s = beginPump(t, b)
	yes(t, s, "charger 0", "rest 12.8")
	refuses(t, s, "bin mot; 5", "takes motor off")
	require.Contains(t, enter(t, s, "bin")[1], "Nothing is off")
	n := len(s.Offer().Paths) + 2
	enter(t, s, "choose "+strconv.Itoa(n))
	refuses(t, s, "bin mot; 5", "not cleared: the motor is open")
	require.Len(t, pieces(t, b), 1)
}

// What a conversion takes off was judged before it: that the machine has none any
// more proves nothing.
func TestAPartThatARepairTookOff(t *testing.T) {
	b := bench(t)
	b.Library = edited(t, "steps: [Fit it.]\n    checks: [safe_stop]", "steps: [Fit it.]\n    bin: [mot, bat]\n    checks: [safe_stop]")
	s := beginPump(t, b)
	yes(t, s, "charger 0", "rest 12.8", "turns 1")
	_, err := chooseBy(t, s, func(p repair.Path) bool { return p.Converts })
	require.NoError(t, err)
	refuses(t, s, "bin mot; 5", "takes motor off")
	yes(t, s, "pass ours", "yes", "1", "all", "done")
	require.Contains(t, s.Facts().Repaired, "hand-crank")
	enter(t, s, "bin mot; 5")
	refuses(t, s, "bin bat; 5", "not cleared: the battery is weak")
	refuses(t, s, "bin sw; 5", "takes switch off")
	require.Equal(t, []string{"Does it turn: turns"}, pieces(t, b)[0].Shown)
}

func TestAPieceIsDrawnWithTheChoiceAndComesBackWithIt(t *testing.T) {
	b := bench(t)
	donor := apart(t, b)
	enter(t, donor, "bin mot; 20; shelf 2; no play")
	name := pieces(t, b)[0].Name

	one, two := deadMotor(t, b), deadMotor(t, b)
	require.Contains(t, strings.Join(one.PathLines(), "\n"), "no play; Does it turn: turns; shelf 2; piece "+name+" from job 1")
	said, err := chooseBy(t, one, fromBin)
	require.NoError(t, err)
	require.Contains(t, said, "Reserved in the parts bin: piece "+name+", shelf 2.")
	require.Equal(t, one.ID(), pieces(t, b)[0].Drawn)
	require.Equal(t, name, one.Facts().Chosen.Lines[0].Piece)

	// The other bench still shows the old list.
	before := len(two.Events())
	_, err = chooseBy(t, two, fromBin)
	require.ErrorIs(t, err, job.ErrTaken)
	require.ErrorContains(t, err, "another bench took it: piece "+name+" is in job 2. The list is new")
	require.Len(t, two.Events(), before)
	require.Nil(t, two.Facts().Chosen)
	require.False(t, slices.ContainsFunc(two.Offer().Paths, fromBin), "the list is new")

	// Its binning can't be taken back while it is out.
	refuses(t, donor, "undo", "is in job 2")

	said = enter(t, one, "undo")
	require.Equal(t, []string{"Taken back: the way that was chosen.", "Free again in the parts bin: piece " + name + ", shelf 2."}, said)
	require.Nil(t, one.Facts().Chosen)
	require.True(t, pieces(t, b)[0].Free())
	require.True(t, slices.ContainsFunc(one.Offer().Paths, fromBin))
	two, _, err = ui.Resume(context.Background(), b, two.ID())
	require.NoError(t, err)
	_, err = chooseBy(t, two, fromBin)
	require.NoError(t, err)
	require.Equal(t, two.ID(), pieces(t, b)[0].Drawn)
}

// What was reserved and not fitted goes back when the job ends; what was fitted
// stays with it.
func TestAPieceThatWasNotFittedGoesBack(t *testing.T) {
	for name, fit := range map[string]bool{"not fitted": false, "fitted": true} {
		t.Run(name, func(t *testing.T) {
			b := bench(t)
			enter(t, apart(t, b), "bin mot; 20")
			s := deadMotor(t, b)
			_, err := chooseBy(t, s, fromBin)
			require.NoError(t, err)
			if fit {
				proving(t, s, "turns")
			}
			said := enter(t, s, "close 1", "yes")
			require.NotNil(t, s.Facts().Closed)
			require.Equal(t, fit, s.Facts().Closed.Outcome == job.Proved)
			require.Equal(t, !fit, pieces(t, b)[0].Free())
			require.Equal(t, !fit, strings.Contains(strings.Join(said, "\n"), "Free again"))
		})
	}
}

// A fitted piece can't be given away by taking the choice back, and a job that
// goes on with another repair keeps it.
func TestAFittedPieceStays(t *testing.T) {
	b := bench(t)
	enter(t, apart(t, b), "bin mot; 20")
	s := deadMotor(t, b)
	_, err := chooseBy(t, s, fromBin)
	require.NoError(t, err)
	proving(t, s, "stands") // the motor was not all of it
	require.Equal(t, walk.AtVerdict, s.Position().Stage)
	yes(t, s, "choose 1")
	require.Equal(t, s.ID(), pieces(t, b)[0].Drawn)
	enter(t, s, "undo")
	require.Equal(t, s.ID(), pieces(t, b)[0].Drawn)
}

// Another program chose anew and gave the piece free for it. When that choice is
// taken back, the one before it is in force again, and its piece is reserved again.
func TestTheChoiceBeforeReservesItsPieceAgain(t *testing.T) {
	ctx, b := context.Background(), bench(t)
	enter(t, apart(t, b), "bin mot; 20")
	s := deadMotor(t, b)
	_, err := chooseBy(t, s, fromBin)
	require.NoError(t, err)
	drawn := int64(len(s.Events()))
	other := job.Chosen{Path: repair.ChooseReturn, Repairs: []string{}}
	_, err = b.Store.Append(ctx, s.ID(), drawn, []job.Event{
		{Kind: job.KindUndone, Undone: &job.Undone{Seq: drawn}}, {Kind: job.KindChosen, Chosen: &other},
	})
	require.NoError(t, err)
	require.True(t, pieces(t, b)[0].Free())
	s, _, err = ui.Resume(ctx, b, s.ID())
	require.NoError(t, err)
	enter(t, s, "undo")
	require.Equal(t, repair.ChooseRepair, s.Facts().Chosen.Path)
	require.Equal(t, s.ID(), pieces(t, b)[0].Drawn)
	enter(t, s, "undo")
	require.Nil(t, s.Facts().Chosen)
	require.True(t, pieces(t, b)[0].Free())
}

// A bin that can't be read keeps nobody from working, and it is said.
func TestABinThatCantBeRead(t *testing.T) {
	b := bench(t)
	b.Store = noBin{b.Store}
	s := deadMotor(t, b)
	require.Contains(t, s.PathLines()[0], "The parts bin could not be read")
	require.Contains(t, s.PathLines()[0], "a mouse")
	enter(t, s, "choose 1")
}

type noBin struct{ job.Store }

func (noBin) Bin(context.Context) ([]job.Shelved, error) { return nil, errors.New("a mouse") }

// A used part does not hide the new one: which it is to be is the owner's to say.
func TestTheNewPartStandsBesideTheUsedOne(t *testing.T) {
	b := bench(t)
	enter(t, apart(t, b), "bin mot; 20")
	var grades []repair.Grade
	for _, p := range deadMotor(t, b).Offer().Paths {
		if !p.Converts {
			grades = append(grades, p.Lines[0].Grade)
		}
	}
	require.Equal(t, []repair.Grade{repair.Bin, repair.Aftermarket}, grades)
}

// What the owner does not want needs no piece: it is free again, and reserved anew
// when the answer is taken back. Each undo takes one thing back, in its order.
func TestDeclinedWorkGivesItsPieceFree(t *testing.T) {
	b := bench(t)
	enter(t, apart(t, b), "bin mot; 20; shelf 2")
	s := deadMotor(t, b)
	_, err := chooseBy(t, s, fromBin)
	require.NoError(t, err)
	said := enter(t, s, "declined Mrs. K")
	require.Contains(t, said, "Free again in the parts bin: piece "+pieces(t, b)[0].Name+", shelf 2.")
	require.True(t, pieces(t, b)[0].Free())
	require.Equal(t, walk.AtVerdict, s.Position().Stage)
	said = enter(t, s, "undo")
	require.Equal(t, "Taken back: the owner's answer.", said[0])
	require.Equal(t, s.ID(), pieces(t, b)[0].Drawn)
	require.Equal(t, walk.AtEstimate, s.Position().Stage)

	enter(t, s, "approve 1 Mrs. K")
	_, err = chooseBy(t, s, func(p repair.Path) bool { return !fromBin(p) })
	require.NoError(t, err)
	require.True(t, pieces(t, b)[0].Free())
	require.Equal(t, "Taken back: the way that was chosen.", enter(t, s, "undo")[0])
	require.Equal(t, s.ID(), pieces(t, b)[0].Drawn, "the path before it is in force again")
	require.Equal(t, "Taken back: the owner's answer.", enter(t, s, "undo")[0])
	require.Empty(t, s.Facts().Asked)
	require.Equal(t, "Taken back: the way that was chosen.", enter(t, s, "undo")[0])
	require.Nil(t, s.Facts().Chosen)
	require.True(t, pieces(t, b)[0].Free())
}
