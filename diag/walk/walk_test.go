package walk

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/measure"
	"benchlead/diag/tree"
)

// log builds a job's events one after another.
type log struct {
	t      *testing.T
	lib    *tree.Library
	events []job.Event
}

func begin(t *testing.T) *log {
	t.Helper()
	l := &log{t: t, lib: library(t, "pump")}
	l.add(job.Event{Kind: job.KindIntake, Intake: &job.Intake{
		System: "spray-pump", Complaint: "dead", Celsius: 20, Meter: *l.lib.Meters["test"], Digest: l.lib.Digest,
	}})
	return l
}

func (l *log) add(e job.Event) *log {
	e.Seq = int64(len(l.events)) + 1
	l.events = append(l.events, e)
	return l
}

// read takes a reading; seen makes a choice; pass passes a test over.
func (l *log) read(test, text string) *log {
	l.t.Helper()
	return l.measured(test, text, measure.DCVolts)
}

func (l *log) measured(test, text string, function measure.Function) *log {
	l.t.Helper()
	r, err := measure.Parse(text, function)
	require.NoError(l.t, err)
	return l.add(job.Event{Kind: job.KindRead, Read: &job.Read{Test: test, Reading: r}})
}

func (l *log) seen(test, choice string) *log {
	return l.add(job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test, Choice: choice}})
}

func (l *log) pass(test string) *log {
	return l.add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: test, Why: "can't reach"}})
}

func (l *log) safe(pairs ...string) *log {
	set := map[string]string{}
	for i := 0; i+1 < len(pairs); i += 2 {
		set[pairs[i]] = pairs[i+1]
	}
	return l.add(job.Event{Kind: job.KindSafe, Safe: &job.Safe{Confirmed: set}})
}

func (l *log) heed(caution, test string) *log {
	return l.add(job.Event{Kind: job.KindHeeded, Heeded: &job.Heeded{Caution: caution, Test: test}})
}

func (l *log) did(work string, stales ...string) *log {
	return l.add(job.Event{Kind: job.KindDone, Done: &job.Done{Work: work, Stales: stales}})
}

func (l *log) where() Position {
	l.t.Helper()
	facts, err := job.Fold(l.events)
	require.NoError(l.t, err)
	return Where(l.lib, facts)
}

func (l *log) waitsFor(test string) Position {
	l.t.Helper()
	p := l.where()
	require.Equal(l.t, AtTest, p.Stage)
	require.Equal(l.t, test, p.Test.ID)
	return p
}

func found(v Verdict) []string {
	out := []string{}
	for _, f := range v.Found {
		out = append(out, f.Fault.ID)
	}
	return out
}

func cleared(v Verdict) []string {
	out := []string{}
	for _, c := range v.Cleared {
		out = append(out, c.Fault.ID)
	}
	return out
}

// partitioned checks that every fault of the system is in exactly one list.
func partitioned(t *testing.T, p Position) {
	t.Helper()
	count := map[string]int{}
	for _, f := range p.Verdict.Found {
		count[f.Fault.ID]++
	}
	for _, c := range p.Verdict.Cleared {
		count[c.Fault.ID]++
	}
	for _, m := range p.Verdict.Masked {
		count[m.Fault.ID]++
	}
	for _, u := range p.Verdict.Untested {
		count[u.Fault.ID]++
	}
	for _, f := range p.System.Faults {
		require.Equal(t, 1, count[f.ID], f.ID)
	}
	require.Len(t, count, len(p.System.Faults))
}

func TestAFindingDoesNotEndTheWalkAndBothFaultsAreFound(t *testing.T) {
	l := begin(t)
	l.waitsFor("rest")
	l.read("rest", "0.37")
	p := l.where()
	require.Equal(t, AtDanger, p.Stage, "danger comes before anything else")
	require.Equal(t, "charger", p.Test.ID)
	l.heed("gas", "rest")
	l.waitsFor("charger")
	l.read("charger", "0")
	p = l.where()
	require.Equal(t, AtSafe, p.Stage)
	require.Equal(t, "spark-lead", p.Safe[0].Item.ID)
	l.safe("spark-lead", "off")
	l.waitsFor("held")
	l.read("held", "0.2")
	p = l.waitsFor("motor")
	require.Equal(t, []string{"bat.weak", "chg.dead"}, found(p.Verdict))
	require.Len(t, p.Verdict.Masked, 2)
	partitioned(t, p)
}

func TestABatteryIsNotCondemnedBeforeItsChargerIsJudged(t *testing.T) {
	l := begin(t).safe("spark-lead", "off").read("held", "8.1")
	require.Empty(t, found(l.where().Verdict))
	l.read("charger", "13.6")
	require.Equal(t, []string{"bat.weak"}, found(l.where().Verdict))
	require.Equal(t, []string{"chg.dead"}, cleared(l.where().Verdict))
}

func TestReadingsInAnyOrderComeToTheSame(t *testing.T) {
	one := begin(t).read("rest", "12.9").read("held", "11.2").read("motor", "0").seen("turns", "stands").where()
	other := begin(t).seen("turns", "stands").read("motor", "0").read("held", "11.2").read("rest", "12.9").where()
	require.Equal(t, []string{"sw.open"}, found(one.Verdict))
	require.Equal(t, found(one.Verdict), found(other.Verdict))
	require.Equal(t, cleared(one.Verdict), cleared(other.Verdict))
}

func TestWorkMakesItsTestsUnknownAgainAndIsBounded(t *testing.T) {
	l := begin(t).read("rest", "11.5")
	p := l.where()
	require.Equal(t, AtWork, p.Stage)
	require.Equal(t, "recharge", p.Work.ID)
	l.did("recharge", "rest")
	l.waitsFor("rest")
	l.read("rest", "11.6") // still low: charged often enough, on to the charger
	l.waitsFor("charger")
}

func TestWorkPassedOverGoesOn(t *testing.T) {
	l := begin(t).read("rest", "11.5").add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Work: "recharge", Why: "no charger"}})
	l.waitsFor("charger")
}

// 12.4 with the meter's 0.0817 V half width is half one side and half the
// other: never called, and it must not lead to a finding.
func TestTooCloseIsUnsure(t *testing.T) {
	l := begin(t).safe("spark-lead", "off").read("rest", "12.40")
	p := l.waitsFor("held")
	require.Equal(t, tree.Unsure, p.Trail[0].Outcome)
	l.read("charger", "13.6").read("held", "9.60")
	p = l.where()
	require.Empty(t, found(p.Verdict))
	require.Equal(t, measure.TooClose, p.Results["held"].Call().Answer)
}

// A value between two bands that lead to the same place is called for that
// place, though not for either band.
func TestBandsWithOneDestinationAreTakenTogether(t *testing.T) {
	p := begin(t).read("rest", "11").add(job.Event{Kind: job.KindCant, Cant: &job.Cant{Work: "recharge"}}).read("charger", "12.80").where()
	require.NotEqual(t, measure.Called, p.Results["charger"].Call().Answer)
	require.Contains(t, []string{"some", "good"}, p.Trail[len(p.Trail)-2].Outcome)
}

func TestPassedOverGoesByUnsureAndStaysUntested(t *testing.T) {
	l := begin(t).safe("spark-lead", "off").pass("rest").pass("held").pass("motor")
	p := l.where()
	require.Equal(t, "turns", p.Test.ID)
	l.pass("turns")
	p = l.where()
	require.Equal(t, AtVerdict, p.Stage)
	require.Len(t, p.Verdict.Untested, 4)
	require.Len(t, p.Verdict.Unclear, 4)
	partitioned(t, p)
}

func TestAReadingThatProvesNothingNamesTheOneThatWould(t *testing.T) {
	p := begin(t).read("rest", "12.9").where()
	require.Len(t, p.Verdict.Unclear, 1)
	require.Equal(t, "held", p.Verdict.Unclear[0].Take.ID)
}

func TestContradictionIsDoubtAndNeitherFoundNorCleared(t *testing.T) {
	l := begin(t).read("held", "11.5").read("motor", "0.1") // switch open
	require.Equal(t, []string{"sw.open"}, found(l.where().Verdict))
	// The motor test says "there" after all when it is taken again.
	l.read("motor", "11.0")
	p := l.where()
	require.Empty(t, found(p.Verdict))
	require.True(t, p.Results["motor"].Astray)
	partitioned(t, p)
}

// The motor's volts show an open switch, and the eye says that the pump turns.
func TestAnAnswerThatOthersContradictIsAskedOnceMore(t *testing.T) {
	l := begin(t)
	l.lib = library(t, "pump", "{choice: turns, clears: [mot.open]}", "{choice: turns, clears: [mot.open, sw.open]}")
	l.safe("spark-lead", "off", "fuel", "off").read("rest", "12.9").read("held", "11.5").read("motor", "0.1")
	require.Equal(t, []string{"sw.open"}, found(l.where().Verdict))
	l.seen("turns", "turns")

	p := l.waitsFor("turns") // one answer speaks for it, two against
	require.NotNil(t, p.Again)
	require.Equal(t, "sw.open", p.Again.Fault.ID)
	require.Len(t, p.Again.Evidence, 3)
	require.False(t, p.Verdict.Finished)
	partitioned(t, p)

	once := *l
	once.events = slices.Clone(l.events)
	once.seen("turns", "stands")
	p = once.where()
	require.Nil(t, p.Again)
	require.Equal(t, []string{"sw.open"}, found(p.Verdict), "it was the eye that slipped")

	// The same again: then the other side, each once, and no more.
	l.seen("turns", "turns")
	require.Equal(t, "held", l.waitsFor("held").Again.Evidence[0].Test.ID)
	l.read("held", "11.5").waitsFor("motor")
	l.read("motor", "0.1")
	p = l.where()
	require.Nil(t, p.Again)
	require.Equal(t, AtVerdict, p.Stage)
	require.NotEmpty(t, p.Verdict.Untested[0].Doubt, "a doubt that stays is said")
}

// While what was read without power shows a fault, power is not put on again to
// contradict it.
func TestPowerIsNotPutOnAgainAgainstWhatWasReadWithout(t *testing.T) {
	l := begin(t)
	l.lib = library(t, "pump", "{choice: turns, clears: [mot.open]}", "{choice: turns, clears: [mot.open, chg.dead]}")
	l.safe("spark-lead", "off", "fuel", "off").seen("turns", "turns").read("charger", "0")
	require.Equal(t, "chg.dead", l.waitsFor("charger").Again.Fault.ID)
	l.read("charger", "0")
	p := l.where()
	require.Nil(t, p.Again, "the shaft is not turned again for it")
	require.NotEmpty(t, p.Verdict.Untested[slices.IndexFunc(p.Verdict.Untested, func(u Untested) bool { return u.Fault.ID == "chg.dead" })].Doubt)
}

func TestNothingIsAskedAgainOnceTheWalkIsStopped(t *testing.T) {
	l := begin(t)
	l.lib = library(t, "pump", "{choice: smokes, danger: gas}", "{choice: smokes, danger: gas, clears: [sw.open]}")
	l.safe("spark-lead", "off", "fuel", "off").read("rest", "12.9").read("held", "11.5").read("motor", "0.1").seen("turns", "smokes")
	p := l.heed("gas", "turns").where()
	require.NotNil(t, p.Stop)
	require.Nil(t, p.Again)
	require.Nil(t, p.Test)
}

func TestRepeatsThatAgreeAreAveragedAndShrinkOnlyTheirOwnPart(t *testing.T) {
	once := begin(t).read("rest", "12.40..12.60").where().Results["rest"]
	twice := begin(t).read("rest", "12.40..12.60").read("rest", "12.40..12.60").where().Results["rest"]
	require.Equal(t, 2, twice.Count)
	require.Less(t, twice.Estimate.U(), once.Estimate.U())
	for scale, gain := range once.Estimate.Gain {
		require.InDelta(t, gain, twice.Estimate.Gain[scale], 1e-12)
	}
}

// Two readings on one scale of one meter share its gain error: 11.50 - 11.20 =
// 0.30 V has u^2 = (0.30 x 0.5 %/sqrt 3)^2 + 2 (0.02/sqrt 3)^2 (JCGM 100:2008,
// 5.2, correlated inputs): 0.016353 V.
func TestWorkedOutValueCarriesItsUncertainty(t *testing.T) {
	r := begin(t).read("held", "11.50").read("motor", "11.20").where().Results["lost"]
	require.Equal(t, Read, r.Mark)
	require.InDelta(t, 0.30, r.Estimate.Value, 1e-9)
	require.InDelta(t, 0.0163529, r.Estimate.U(), 1e-6)
}

func TestFlickerIsNeverANumber(t *testing.T) {
	p := begin(t).safe("spark-lead", "off").read("rest", "12.9").read("held", "flicker").where()
	require.Equal(t, "motor", p.Test.ID)
	require.True(t, p.Results["held"].Flicker)
	require.Equal(t, Passed, begin(t).read("held", "flicker").read("motor", "3").where().Results["lost"].Mark)
}

func TestMakeSafeIsStateAndAskedAgainOnResume(t *testing.T) {
	l := begin(t).read("rest", "12.9").safe("spark-lead", "off").read("held", "11.3").read("motor", "11.2")
	p := l.where()
	require.Equal(t, AtSafe, p.Stage, "turning needs the fuel off too")
	require.Len(t, p.Safe, 1)
	require.Equal(t, "fuel", p.Safe[0].Item.ID)
	l.safe("fuel", "off")
	l.waitsFor("turns")
	l.add(job.Event{Kind: job.KindOpened})
	p = l.where()
	require.Equal(t, AtSafe, p.Stage)
	require.Len(t, p.Safe, 2)
}

func TestStopEndsTheWalk(t *testing.T) {
	p := begin(t).safe("spark-lead", "off", "fuel", "off").
		read("rest", "12.9").read("held", "11.3").read("motor", "11.2").seen("turns", "smokes").where()
	require.Equal(t, AtDanger, p.Stage)
	require.NotNil(t, p.Stop)
	require.True(t, p.Verdict.Finished)
}

func TestUndoTakesTheWalkBack(t *testing.T) {
	l := begin(t).safe("spark-lead", "off").read("rest", "12.9").read("held", "11.3")
	l.waitsFor("motor")
	l.add(job.Event{Kind: job.KindUndone, Undone: &job.Undone{Seq: 4}})
	l.waitsFor("held")
}

func TestRepairChecksThenHandsBack(t *testing.T) {
	l := begin(t).safe("spark-lead", "off", "fuel", "off").
		read("rest", "12.9").read("held", "11.3").read("motor", "0.0").seen("turns", "stands")
	p := l.where()
	require.Equal(t, AtVerdict, p.Stage)
	require.Equal(t, []string{"sw.open"}, found(p.Verdict))
	l.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new-switch"}}})
	p = l.where()
	require.Equal(t, AtRepair, p.Stage)
	require.Equal(t, "new-switch", p.Repair.ID)
	l.add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{
		Repair: "new-switch", Stales: StaledBy(l.lib, p.System, p.Repair),
	}})
	p = l.where()
	require.Equal(t, AtSafe, p.Stage, "nobody knows how it stands after a repair")
	require.Equal(t, "spark-lead", p.Safe[0].Item.ID)
	p = l.safe("spark-lead", "off", "fuel", "off").where()
	require.Equal(t, AtCheck, p.Stage)
	require.Equal(t, "motor", p.Test.ID)
	require.Empty(t, found(p.Verdict), "the reading before the repair no longer condemns")
	l.read("motor", "11.1")
	require.Empty(t, found(l.where().Verdict), "it stood still while nothing reached it: that says nothing of the motor")
	l.read("held", "11.3").waitsFor("turns")
	l.seen("turns", "stands")
	p = l.where()
	require.Equal(t, []string{"mot.open"}, found(p.Verdict), "the switch had masked the motor: it stands still with volts")
	require.Equal(t, AtVerdict, p.Stage)
	l.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new-motor"}}})
	l.add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new-motor", Stales: []string{"turns"}}})
	l.seen("turns", "turns")
	require.Equal(t, AtService, l.where().Stage)
	p = l.leave().safe("spark-lead", "off", "fuel", "off").where()
	require.Equal(t, AtHandBack, p.Stage)
	require.Equal(t, "safe_stop", p.Test.ID)
	l.seen("safe_stop", "stops")
	require.Equal(t, AtClose, l.where().Stage)
}

func TestTheSamePositionFromTheSameFacts(t *testing.T) {
	l := begin(t).read("rest", "0.37").read("charger", "0").read("held", "0.2").read("motor", "0")
	require.Equal(t, l.where(), l.where())
}

// When a repaired machine does again what it did not, the walk is not gone
// through once more: only the safety functions are left.
func TestAComplaintThatIsGoneEndsTheWalkAfterARepair(t *testing.T) {
	for _, well := range []bool{false, true} {
		l := begin(t).safe("spark-lead", "off", "fuel", "off").read("held", "11.3").read("motor", "0.0")
		sys := l.lib.Systems["spray-pump"]
		if well {
			sys.Well = []tree.Evidence{{Test: "turns", Bands: []string{"turns"}}}
		}
		stales := StaledBy(l.lib, sys, l.lib.Repairs["new-switch"])
		require.Contains(t, stales, "motor")
		require.Contains(t, stales, "safe_stop", "safety functions are proved after every repair")
		require.Contains(t, stales, "turns", "what is seen under power may have changed")
		require.NotContains(t, stales, "rest", "a new switch changes nothing of a battery at rest")
		l.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"new-switch"}}})
		l.add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new-switch", Stales: stales}})
		l.safe("spark-lead", "off", "fuel", "off").read("motor", "11.1")
		if well {
			require.Equal(t, AtCheck, l.where().Stage)
			require.Equal(t, "turns", l.where().Test.ID)
			l.seen("turns", "turns").leave()
			require.Equal(t, AtHandBack, l.where().Stage)
			// That it turns says nothing of a machine that came in for its charger.
			sys.Complaints[0].ToTheEnd = true
			require.Equal(t, "rest", l.waitsFor("rest").Test.ID)
			continue
		}
		require.Equal(t, "rest", l.where().Test.ID, "without it the walk begins at what is open")
	}
}

// A conversion takes its parts off: their faults are neither found nor open any
// more, and nobody asks for a pack that is gone.
func TestAConversionTakesItsFaultsOff(t *testing.T) {
	l := begin(t).safe("spark-lead", "off", "fuel", "off").read("charger", "0").read("held", "8.0")
	require.Equal(t, []string{"bat.weak", "chg.dead"}, found(l.where().Verdict))
	l.add(job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: "repair", Repairs: []string{"hand-crank"}}})
	require.Equal(t, AtTerms, l.where().Stage)
	l.add(job.Event{Kind: job.KindAgreed, Agreed: &job.Agreed{Repair: "hand-crank", Term: "Before it is begun"}})
	require.Equal(t, "Rule of the tests", l.where().Term.Title)
	l.add(job.Event{Kind: job.KindAgreed, Agreed: &job.Agreed{Repair: "hand-crank", Term: "Rule of the tests", Way: "A guard is fitted."}})
	p := l.where()
	require.Equal(t, AtRepair, p.Stage)
	l.add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{
		Repair: "hand-crank", Stales: StaledBy(l.lib, p.System, p.Repair),
	}})
	require.Equal(t, AtService, l.where().Stage, "nothing is touched after a safety function")
	p = l.leave().safe("spark-lead", "off", "fuel", "off").where()
	require.Equal(t, AtCheck, p.Stage)
	require.Equal(t, "safe_stop", p.Test.ID)
	l.seen("safe_stop", "stops")
	p = l.where()
	require.Equal(t, AtClose, p.Stage)
	require.Empty(t, p.Verdict.Found)
	require.True(t, p.Verdict.Cleared[0].Removed)
	partitioned(t, p)
}

// Ahead must come to the same as Where, whatever is asked for next.
func TestAheadIsWhereWithoutTheResults(t *testing.T) {
	lib := shipped(t)
	for id := range lib.Systems {
		for seed := range uint64(10) {
			facts, err := job.Fold(answered(t, lib, id, seed, 3*int(seed)))
			require.NoError(t, err)
			want := Where(lib, facts)
			require.Len(t, want.Results, len(lib.Systems[id].Tests))
			want.Results = nil
			require.Equal(t, want, Ahead(lib, facts))
		}
	}
}

// A copy of a system that was given other tests, faults or trees is walked as it
// is, not as Load left the one that it was copied from.
func TestACopiedSystemIsWalkedAsItIs(t *testing.T) {
	l := begin(t).read("held", "8.0").read("charger", "13.6")
	require.Equal(t, []string{"bat.weak"}, found(l.where().Verdict))
	sys := *l.lib.Systems["spray-pump"]
	sys.Tests, sys.Faults = slices.Clone(sys.Tests), slices.Clone(sys.Faults)
	slices.Reverse(sys.Tests)
	slices.Reverse(sys.Faults)
	lib := *l.lib
	lib.Systems = map[string]*tree.System{sys.ID: &sys}
	l.lib = &lib
	require.Equal(t, []string{"bat.weak"}, found(l.where().Verdict))
	require.Equal(t, []string{"chg.dead"}, cleared(l.where().Verdict))
	lib.Trees = map[string]*tree.Tree{}
	require.Empty(t, found(l.where().Verdict), "nothing finds without a tree")
}

// OL on volts says that the range was too low; in ohms it is the highest band.
func TestOverRangeOnVoltsIsNoBand(t *testing.T) {
	p := begin(t).read("charger", "OL").where()
	require.True(t, p.Results["charger"].Over)
	require.Empty(t, cleared(p.Verdict))
	require.Contains(t, p.Verdict.Unclear[0].Why, "higher range")
}
