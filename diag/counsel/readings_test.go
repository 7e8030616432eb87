package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/job"
)

func TestTheLatestAnswerOfATestCounts(t *testing.T) {
	b := pump(t)
	once := b.job().read("held", "12.7").counsel()
	require.Equal(t, 1, once.Readings)
	require.Equal(t, once.Suspects, b.job().read("held", "12.6").read("held", "12.7").counsel().Suspects)
	require.Less(t, once.p("bat.weak"), 0.03, "12.7 V while held are no weak battery's")

	turned := b.job().read("held", "12.7").read("held", "5.5").read("held", "5.5").counsel()
	require.Equal(t, 1, turned.Readings)
	require.Greater(t, turned.p("bat.weak"), 0.97)
}

// 12.7 V and 5.5 V held are no fact: one of them is wrong, and nobody knows which.
func TestReadingsInDisputeWeighNothing(t *testing.T) {
	b := pump(t)
	c := b.job().read("held", "12.7").read("held", "5.5").counsel()
	require.Zero(t, c.Readings)
	fresh := b.job().counsel()
	require.Equal(t, len(fresh.Suspects), len(c.Suspects))
	for i, s := range c.Suspects {
		require.InDelta(t, fresh.Suspects[i].P, s.P, 1e-12)
		require.Equal(t, "how common it is; no reading counts yet", s.Why)
	}
	require.Empty(t, c.Unlike)
}

func TestAnAnswerTakenBackCountsForNothing(t *testing.T) {
	b := pump(t)
	require.Equal(t, b.job().counsel(), b.job().read("held", "5.5").undo().counsel())
	require.Equal(t, b.job().read("held", "12.7").counsel().Suspects, b.job().read("held", "12.7").read("held", "5.5").undo().counsel().Suspects,
		"the one before counts again")
}

// Passed over, a test says nothing, not even what it said before, and it is offered no
// more.
func TestATestPassedOverSaysNothingAndIsNotOfferedAgain(t *testing.T) {
	b := pump(t)
	fresh := b.job().counsel()
	require.Contains(t, fresh.offered(), "held")
	for name, l := range map[string]*log{"at once": b.job().pass("held"), "after a reading": b.job().read("held", "5.5").pass("held")} {
		passed := l.counsel()
		require.Zero(t, passed.Readings, name)
		require.Equal(t, fresh.Suspects, passed.Suspects, name)
		require.NotContains(t, passed.offered(), "held", name)
		require.Contains(t, passed.offered(), "motor", name)
	}
	require.Greater(t, b.job().pass("held").read("held", "5.5").counsel().p("bat.weak"), 0.97, "it was read after all")
}

// Empty as it came, the battery or its charger: 3 to 2. Charged and held it shows 12.1 V,
// which no weak one does. Both readings of the battery at rest count, that of 0.05 V for
// an empty battery as it came, and 12.7 V say nothing once it is charged.
func TestAnAnswerAfterWorkThatMakesAStageStandsBesideTheOneBefore(t *testing.T) {
	b := flatPump(t)
	l := b.job().read("rest", "0.05")
	before := l.counsel()
	require.Equal(t, 1, before.Readings)
	require.InDelta(t, 3.0/5, before.p("bat.weak"), 0.01)
	require.InDelta(t, 2.0/5, before.p("chg.dead"), 0.01)

	after := l.did("recharge", "rest").read("rest", "12.7").counsel()
	require.Equal(t, 2, after.Readings)
	require.InDelta(t, 3.0/5, after.p("bat.weak"), 0.01)
	require.InDelta(t, 2.0/5, after.p("chg.dead"), 0.01)

	told := l.read("held", "12.1").counsel()
	require.Equal(t, 3, told.Readings)
	require.Greater(t, told.p("chg.dead"), 0.97)
	require.True(t, told.Named)
	require.Contains(t, told.Suspects[0].Why, "what speaks for it: Battery at rest; ", "0.05 V are not those of three others")

	weak := b.job().read("rest", "0.05").did("recharge", "rest").did("recharge", "rest").read("held", "5.5").counsel()
	require.Greater(t, weak.p("bat.weak"), 0.97, "charged twice it is charged")
	require.Greater(t, b.job().did("recharge").read("held", "5.5").counsel().p("bat.weak"), 0.97)
	require.Regexp(t, `^what speaks for it: Battery with the switch held \(after the battery was charged\); `,
		b.job().did("recharge").read("held", "5.5").counsel().Suspects[0].Why)
}

// Without a stage nobody knows what a pump shows that was charged.
func TestAfterWorkThatNoStageKnowsAnswersCountForNothing(t *testing.T) {
	b := pump(t)
	l := b.job().read("rest", "12.7")
	want := l.counsel()
	after := l.did("recharge", "rest").read("held", "5.5").read("rest", "3").counsel()
	require.Equal(t, 1, after.Readings)
	require.Equal(t, want.Suspects, after.Suspects)
	require.Empty(t, after.Again)
}

// Nor is a test offered whose answer would count for nothing.
func TestAfterWorkThatNoStageKnowsNothingIsOffered(t *testing.T) {
	b := pump(t)
	after := b.job().read("rest", "12.7").did("recharge", "rest").counsel()
	require.Empty(t, after.Tests)
	require.Empty(t, after.Alike, "tests would tell them apart, if anybody knew what these show")
	require.Len(t, slipped(b, "3").counsel().Again, 1)
	require.Empty(t, slipped(b, "3").did("recharge", "rest").counsel().Again, "nor is it asked for again")
}

// Work of which the circuit says nothing changes nothing.
func TestWorkWithoutEffectIsNone(t *testing.T) {
	b := pump(t, "  - {work: recharge, set", "  - {work: wash}\n  - {work: recharge, set",
		"work:\n  - {work: recharge, title", "work:\n  - {work: wash, title: Wash it, tell: Wash it., minutes: 5}\n  - {work: recharge, title")
	require.Equal(t, b.job().read("held", "12.7").counsel().Suspects, b.job().did("wash").read("held", "12.7").counsel().Suspects)
}

// What is only asked after the battery was charged is an answer of then, though nobody
// wrote that it was: 12.1 V are no weak battery's once it is charged. Nothing tells the
// four others apart: the charger 2, the switch 2 and the motor 1 of 8, and one gone.
func TestATestThatIsOnlyAskedAfterWorkIsAnsweredAfterIt(t *testing.T) {
	after := []string{"leads: {red: bat.pos, black: bat.neg}\n    state: held", "leads: {red: bat.pos, black: bat.neg}\n    after: recharge\n    state: held"}
	c := flatPump(t, after...).job().read("held", "12.1").counsel()
	require.Equal(t, 1, c.Readings)
	require.Less(t, c.p("bat.weak"), 0.03)
	require.Greater(t, c.p("chg.dead"), c.p("mot.open"))
	require.NotContains(t, c.offered(), "held")

	require.InDelta(t, 0.95*3/8, flatPump(t).job().counsel().p("bat.weak"), 1e-9)
	require.InDelta(t, weakest, pump(t, after...).job().read("held", "12.1").counsel().p("bat.weak"), 1e-9, "without a stage it says nothing")
}

// Charged, and with the switch bridged, 12.0 V come to the motor of an open switch as to
// that of a dead charger and of one that is gone, and 12.7 V to an open one: the switch is
// 2 of 2 + 2 + 0.4 and not quite 1. Without the bridge nothing would stand behind it.
func TestAnAnswerAfterMoreWorkIsOfThatWork(t *testing.T) {
	c := flatPump(t, "measure: dc volts\n    leads: {red: mot.pos, black: bat.neg}", "measure: dc volts\n    leads: {red: mot.pos, black: bat.neg}\n    after: recharge",
		"work:\n  - {work: recharge, title", "work:\n  - {work: bridge, title: Bridge the switch, tell: Bridge it., minutes: 5}\n  - {work: recharge, title",
		"  - {work: recharge, set", "  - {work: bridge, set: {lever_switch.ohms: \"0.02\"}}\n  - {work: recharge, set",
		"hides what is wrong.}\n", "hides what is wrong.}\n  - {stage: bridged, title: With the switch bridged, work: [recharge, bridge], why: Then it is out of the way.}\n",
	).job().did("recharge").did("bridge").read("motor", "12").counsel()
	require.Equal(t, 1, c.Readings)
	require.Less(t, c.p("bat.weak"), 0.03)
	require.InDelta(t, 2/5.3, c.p("sw.open"), 0.03)
	require.InDelta(t, c.p("chg.dead"), c.p("sw.open"), 0.01)
}

func TestThereIsNoCounselAfterARepairOnAClosedJobOrWithoutACloud(t *testing.T) {
	b := pump(t)
	held := func() *log { return b.job().read("held", "5.5") }
	require.NotEqual(t, Counsel{}, held().counsel())
	for name, l := range map[string]*log{
		"repaired": held().add(job.Event{Kind: job.KindTicked, Ticked: &job.Ticked{Repair: "new-battery", Stales: []string{"held"}}}).read("held", "12.1"),
		"closed":   held().add(job.Event{Kind: job.KindClosed, Closed: &job.Closed{Outcome: job.Unrepaired, Verdict: "None."}}),
		"no cloud": {bench: bench{t: t, lib: b.lib}, events: held().events},
	} {
		require.Equal(t, Counsel{}, l.counsel(), name)
	}
}

// The answers of a job, sensible or not, say the same in any order: what counts is the
// test and the answer. Of nothing are there fewer than none, or more than all.
func TestTheOrderOfAnswersChangesNothing(t *testing.T) {
	b := pump(t)
	answer := rapid.Custom(func(r *rapid.T) job.Event {
		switch test := rapid.SampledFrom([]string{"rest", "held", "charger", "motor", "turns"}).Draw(r, "test"); {
		case rapid.IntRange(0, 9).Draw(r, "passed") == 0:
			return job.Event{Kind: job.KindCant, Cant: &job.Cant{Test: test, Why: "can't reach"}}
		case test == "turns":
			return job.Event{Kind: job.KindSeen, Seen: &job.Seen{Test: test, Choice: rapid.SampledFrom([]string{"turns", "stands", "smokes"}).Draw(r, "choice")}}
		default:
			return reading(t, test, rapid.SampledFrom([]string{"0", "0.4", "3", "5", "7", "9.6", "12.1", "12.7", "13.9", "OL"}).Draw(r, "volts"))
		}
	})
	of := func(e job.Event) string {
		switch {
		case e.Read != nil:
			return e.Read.Test
		case e.Seen != nil:
			return e.Seen.Test
		}
		return e.Cant.Test
	}
	rapid.Check(t, func(r *rapid.T) {
		events := rapid.SliceOfNDistinct(answer, 1, 5, of).Draw(r, "answers")
		mixed := rapid.Permutation(events).Draw(r, "order")
		one, other := b.job(), b.job()
		for i := range events {
			one.add(events[i])
			other.add(mixed[i])
		}
		c := one.counsel()
		require.Equal(r, c, other.counsel())
		sum := c.Others
		for _, s := range c.Suspects {
			sum += s.P
		}
		whole := 1.0
		if c.Unlike != "" { // nobody is suspected
			whole = 0
		}
		require.InDelta(r, whole, sum, 1e-9)
		require.LessOrEqual(r, len(c.Suspects), 5)
		require.LessOrEqual(r, len(c.Tests), 3)
	})
}
