package suspect

import (
	"bytes"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/benchtime"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/trees/treetest"
)

const root = "../.."

// pumps makes the small pump: a battery, a switch and a motor in a row, and a
// charger beside them.
func pumps(t testing.TB) (*virtual.Maker, Options) {
	t.Helper()
	files := append(treetest.Read(t, root, "testdata/trees/pump"), treetest.Read(t, root, "diag/prove/testdata")...)
	files = treetest.Change(t, files, "trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}")
	lib, issues := tree.Load(files)
	require.NoError(t, issues.Err())
	maker, err := virtual.NewMaker(lib.Systems["spray-pump"], virtual.Conditions{Celsius: 20})
	require.NoError(t, err)
	return maker, Options{Seed: 1, Machines: 100, Meter: lib.Instruments("pocket")}
}

// pump is its clouds.
func pump(t testing.TB, complaint string) *Cloud {
	t.Helper()
	maker, o := pumps(t)
	c, err := Build(maker, complaint, o)
	require.NoError(t, err)
	return c
}

func volts(test string, v float64) Reading {
	return Reading{Key{"", test}, Answer{Kind: Number, Value: v, U: 0.03}}
}

func seen(test, choice string) Reading {
	return Reading{Key{"", test}, Answer{Kind: Seen, Choice: choice}}
}

// The circuit says: weak 3, open switch 2, open motor 1. A dead charger stops no
// pump, and a sound pump isn't brought for that; but one in twenty has a fault that
// is gone on the bench.
func TestBeforeAnyAnswerItIsHowCommonItIs(t *testing.T) {
	c := pump(t, "dead")
	require.Len(t, c.Hypotheses(), 4)
	require.True(t, c.Hypotheses()[3].Gone)
	w := c.Weigh(nil)
	require.InDelta(t, 0.95*3.0/6, w.Fault("bat.weak"), 1e-9)
	require.InDelta(t, 0.95*2.0/6, w.Fault("sw.open"), 1e-9)
	require.InDelta(t, 0.95*1.0/6, w.Fault("mot.open"), 1e-9)
	require.InDelta(t, 0.05, w.P[3], 1e-9)
	require.InDelta(t, 0, w.Fault("chg.dead"), 0)
	require.Equal(t, []string{"bat.weak"}, w.Ranked()[0].Faults)
}

// Held, a weak battery shows 7.1 to 4.2 V (inside 1.6 to 4.1 ohm), and one behind
// an open switch or motor its 12.7 V. At the motor stand 12.7 V when it is open,
// and nothing behind an open switch.
func TestAnswersTellFaultsApart(t *testing.T) {
	c := pump(t, "dead")
	for fault, readings := range map[string][]Reading{
		"bat.weak": {volts("held", 5.5)},
		"sw.open":  {volts("motor", 0), volts("held", 12.7)},
		"mot.open": {volts("motor", 12.7), seen("turns", "stands")},
	} {
		w := c.Weigh(readings)
		require.Greater(t, w.Fault(fault), 0.97, fault)
		require.Less(t, w.Odds[0], 0.05, fault)
	}
}

// One reading in fifty is chance: a reading that fits nothing else is taken for
// one, and the truth lives.
func TestASlipIsSeenAndDoesNotKillTheTruth(t *testing.T) {
	c := pump(t, "dead")
	w := c.Weigh([]Reading{volts("held", 12.7), volts("motor", 12.7), volts("rest", 3), seen("turns", "stands")})
	require.Greater(t, w.Fault("mot.open"), 0.95)
	require.Greater(t, w.Odds[2], 0.99, "no battery here rests at 3 V")
	require.Less(t, w.Odds[0], 0.05)
	w = c.Weigh([]Reading{volts("held", 5), volts("motor", 12.7)})
	require.Greater(t, w.Fault("mot.open"), 0.1, "either of the two may be the slip")
	require.Greater(t, w.Fault("bat.weak"), 0.1)
}

func TestWhatTellsNothingChangesNothing(t *testing.T) {
	c := pump(t, "dead")
	before := c.Weigh([]Reading{volts("held", 12.7)})
	after := c.Weigh([]Reading{volts("held", 12.7), {Key{"", "motor"}, Answer{}}, volts("no_such_test", 3), volts("lost", 3)})
	require.Equal(t, before.P, after.P)
}

// anyReadings draws answers to the pump's tests, sensible or not.
func anyReadings(t *rapid.T) []Reading {
	return rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) Reading {
		switch test := rapid.SampledFrom([]string{"held", "motor", "rest", "charger", "turns"}).Draw(t, "test"); {
		case test == "turns":
			return seen(test, rapid.SampledFrom([]string{"turns", "stands", "smokes", "flies"}).Draw(t, "choice"))
		case rapid.IntRange(0, 9).Draw(t, "odd") == 0:
			return Reading{Key{"", test}, Answer{Kind: rapid.SampledFrom([]Kind{None, Over, Flicker}).Draw(t, "kind")}}
		default:
			return volts(test, rapid.Float64Range(-20, 30).Draw(t, "volts"))
		}
	}), 0, 5, func(r Reading) string { return r.Test }).Draw(t, "readings")
}

func TestTheOrderOfReadingsChangesNothing(t *testing.T) {
	c := pump(t, "dead")
	rapid.Check(t, func(t *rapid.T) {
		readings := anyReadings(t)
		want := c.Weigh(readings)
		mixed := append([]Reading(nil), readings...)
		rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "order"), 0)).Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		require.Equal(t, want.P, c.Weigh(mixed).P)
		sum := 0.0
		for _, p := range want.P {
			require.False(t, math.IsNaN(p))
			sum += p
		}
		require.InDelta(t, 1, sum, 1e-9)
		require.GreaterOrEqual(t, want.Fitting, 1-1e-9)
	})
}

// The error of a reading is the meter's own: reading it again makes nothing surer.
func TestTheSameReadingAgainMakesNothingSurer(t *testing.T) {
	c := pump(t, "dead")
	rapid.Check(t, func(t *rapid.T) {
		readings := anyReadings(t)
		require.Equal(t, c.Weigh(readings).P, c.Weigh(append(append([]Reading(nil), readings...), readings...)).P)
	})
}

// Held above 9.6 V a battery is not weak: such a reading never makes it likelier
// beside nothing being wrong.
func TestAReadingThatClearsNeverSpeaksForTheFault(t *testing.T) {
	c := pump(t, "")
	require.Equal(t, "no fault", c.Hypotheses()[0].Name())
	rapid.Check(t, func(t *rapid.T) {
		before := c.Weigh(nil)
		after := c.Weigh([]Reading{volts("held", rapid.Float64Range(9.6, 12.8).Draw(t, "volts"))})
		require.LessOrEqual(t, after.Fault("bat.weak")*before.P[0], before.Fault("bat.weak")*after.P[0]*(1+1e-9))
	})
}

// Before any answer three faults stand at 0.95 times 1/2, 1/3 and 1/6, and one that
// is gone at 0.05: 0.95 x 1.459 + 0.286 = 1.673 bits. The volts while held tell a
// weak battery, 0.475, from the others: 0.998 bits. Those at the motor tell all
// apart but an open motor, 0.158, from a sound one, 0.05: 0.208 x 0.795 = 0.166 bits
// are left. One answer in fifty is chance and tells nothing.
func TestATestTellsAsManyBitsAsItSplits(t *testing.T) {
	c := pump(t, "dead")
	offers := c.Weigh(nil).Next(At{Access: benchtime.New(c.system), Taken: map[Key]bool{{"", "turns"}: true}})
	bits := map[string]float64{}
	for _, o := range offers {
		bits[o.Test.ID] = o.Bits
	}
	require.InDelta(t, 0.98*0.998, bits["held"], 0.01)
	require.InDelta(t, 0.98*(1.673-0.166), bits["motor"], 0.01)
	require.NotContains(t, bits, "turns", "it was taken")
	require.NotContains(t, bits, "charger", "it stands beside all this")
}

func TestTheSameSeedMakesTheSameBytes(t *testing.T) {
	var a, b bytes.Buffer
	require.NoError(t, pump(t, "dead").Write(&a))
	require.NoError(t, pump(t, "dead").Write(&b))
	require.Equal(t, a.Bytes(), b.Bytes())
}

// However the work is shared out, the same machines come of it.
func TestTheSharesOfACloudMakeTheSameBytes(t *testing.T) {
	maker, o := pumps(t)
	var whole bytes.Buffer
	require.NoError(t, pump(t, "dead").Write(&whole))
	for shares := 2; shares <= 7; shares++ {
		var parts []*Part
		for share := range shares {
			p, err := BuildPart(maker, "dead", o, share, shares)
			require.NoError(t, err)
			parts = append(parts, p)
		}
		c, err := Join(parts...)
		require.NoError(t, err)
		var is bytes.Buffer
		require.NoError(t, c.Write(&is))
		require.Equal(t, whole.Bytes(), is.Bytes(), "%d shares", shares)
	}
}

func TestACloudThatWasKeptIsTheSame(t *testing.T) {
	was := pump(t, "dead")
	var kept bytes.Buffer
	require.NoError(t, was.Write(&kept))
	is, err := Read(bytes.NewReader(kept.Bytes()), was.system)
	require.NoError(t, err)
	require.Equal(t, was, is)

	for cut := 0; cut < kept.Len(); cut += 97 {
		_, err := Read(bytes.NewReader(kept.Bytes()[:cut]), was.system)
		require.Error(t, err, "cut off at %d", cut)
	}
	_, err = Read(bytes.NewReader(kept.Bytes()), &tree.System{Circuit: &tree.Circuit{}})
	require.EqualError(t, err, "it is not of this system as it is now")
}

// Whatever is in a file that is damaged: no cloud, or one that can be weighed.
func TestADamagedCloudHarmsNothing(t *testing.T) {
	was := pump(t, "dead")
	var kept bytes.Buffer
	require.NoError(t, was.Write(&kept))
	rapid.Check(t, func(t *rapid.T) {
		bad := bytes.Clone(kept.Bytes())
		for range rapid.IntRange(1, 4).Draw(t, "bytes") {
			bad[rapid.IntRange(0, len(bad)-1).Draw(t, "at")] = rapid.Byte().Draw(t, "byte")
		}
		if c, err := Read(bytes.NewReader(bad), was.system); err == nil {
			c.Weigh([]Reading{volts("held", 11.3)})
		}
	})
}

func TestAComplaintThatNobodyHasIsAnError(t *testing.T) {
	maker, o := pumps(t)
	o.Machines = 0
	_, err := Build(maker, "dead", o)
	require.EqualError(t, err, `no simulated machine of spray-pump comes in with "dead"`)
}

// No circuit shows that something comes and goes: whatever may be wrong may be, and
// three in ten are well while one looks.
func TestAComplaintThatNoCircuitShowsTakesThemAll(t *testing.T) {
	c := pump(t, "stops now and then")
	require.Len(t, c.Hypotheses(), 6, "nothing, four faults, and gone")
	require.InDelta(t, 0.3, c.Prior()[5], 1e-9)
}

// Nobody complains of a pump that is only looked over: as likely as not it is well.
func TestWhatNobodyComplainsOfIsUsuallyWell(t *testing.T) {
	c := pump(t, "well")
	require.Equal(t, "no fault", c.Hypotheses()[0].Name())
	require.InDelta(t, 0.5, c.Prior()[0], 1e-9)
}

func TestWorkIsStoppedWhenNobodyWaits(t *testing.T) {
	maker, o := pumps(t)
	left := 50
	o.Stop = func() bool { left--; return left < 0 }
	_, err := Build(maker, "dead", o)
	require.ErrorIs(t, err, ErrStopped)
}

// Held at 5.5 V, no machine with an open switch or motor fits: these hold 12.7 V.
// Weak ones have 1.6 to 4.1 ohm inside, evenly by ratio, and show 12.7 x 2.02 /
// (2.02 + inside): a kernel of half a volt about 5.5 V takes in a part of them.
func TestAnAccountCountsTheMachinesThatFit(t *testing.T) {
	c := pump(t, "dead")
	w := c.Weigh([]Reading{volts("held", 5.5), volts("rest", 12.7)})
	byName := map[string]Account{}
	for i, h := range c.Hypotheses() {
		byName[h.Name()] = w.Account(i)
	}
	weak := byName["bat.weak"]
	require.Equal(t, 100, weak.Machines)
	require.Greater(t, weak.Still, 30)
	require.Equal(t, Key{"", "held"}, weak.For)
	require.Greater(t, weak.ForTimes, 50.0)
	require.Zero(t, weak.AgainstTimes)

	open := byName["sw.open"]
	require.Equal(t, 0, open.Still)
	require.Equal(t, Key{"", "held"}, open.Out)
	require.Equal(t, 100, open.OutCount)
	require.Equal(t, Key{"", "held"}, open.Against)
	require.Equal(t, `The switch is open: of 100 simulated machines none fits all answers; "Battery with the switch held" rules out 100 of them.`+
		` Most against it: "Battery with the switch held", over 100 times as likely without it as with it.`, open.Says(c.system))
}

func TestRatiosAreSaidNoFinerThanTheyAre(t *testing.T) {
	require.Equal(t, "1.6 times", times(1.57))
	require.Equal(t, "12 times", times(12.3))
	require.Equal(t, "over 100 times", times(4e5))
}
