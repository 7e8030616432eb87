package suspect

import (
	"bytes"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/benchtime"
	"benchlead/diag/tree"
	"benchlead/diag/virtual"
	"benchlead/trees/treetest"
)

// flatPump makes the small pump with a battery that comes in empty, at 0.05 V, when it
// is weak, and when the charger brings no amps (it shows its 14 V all the same). As it
// comes nothing tells the two apart, 3 to 2. There is a stage after the battery was
// charged: then both rest at 12.7 V; held, the weak one (1.6 to 4.1 ohm inside, 2.02
// outside) shows 7.1 to 4.2 V and stands, and that of a dead charger (0.1 ohm inside)
// 12.1 V, and turns. A sound battery rests at 12.6 to 12.8 V, and at 12.7 V or more
// when it was charged.
func flatPump(t testing.TB, changes ...string) (*virtual.Maker, Options) {
	t.Helper()
	files := append(treetest.Read(t, root, "testdata/trees/pump"), treetest.Read(t, root, "diag/prove/testdata")...)
	lib, issues := tree.Load(treetest.Change(t, files, append([]string{
		"trees: [no-run]}", "trees: [no-run]}\n  - {complaint: well, title: Look it over, trees: [charging]}",
		"set: {inside: was + severity}", `set: {rest_volts: "0.05", inside: was + severity}`,
		`set: {charger.volts: "0"}`, `set: {charger.amps: "0.01", rest_volts: "0.05"}`,
		"complaints:\n  - {complaint: dead, when", "stages:\n" +
			"  - {stage: charged, title: After the battery was charged, work: [recharge], why: An empty battery hides what is wrong.}\n" +
			"complaints:\n  - {complaint: dead, when",
	}, changes...)...))
	require.NoError(t, issues.Err())
	maker, err := virtual.NewMaker(lib.Systems["spray-pump"], virtual.Conditions{Celsius: 20})
	require.NoError(t, err)
	return maker, Options{Seed: 1, Machines: 100, Meter: lib.Instruments("pocket")}
}

// extended is the cloud of dead ones with its stages.
func extended(t testing.TB, changes ...string) *Cloud {
	t.Helper()
	maker, o := flatPump(t, changes...)
	c, err := Build(maker, "dead", o)
	require.NoError(t, err)
	c, err = c.Extend(maker, o)
	require.NoError(t, err)
	return c
}

// with are the numbers that machines of a hypothesis show.
func (c *Cloud) with(name string, key Key) []float64 {
	var out []float64
	for i, s := range c.columns[key].shown {
		if c.hypotheses[c.of[i]].Name() == name {
			out = append(out, float64(s.value))
		}
	}
	return out
}

func within(t *testing.T, low, high float64, values []float64) {
	t.Helper()
	require.Len(t, values, 100)
	for _, v := range values {
		require.GreaterOrEqual(t, v, low)
		require.LessOrEqual(t, v, high)
	}
}

func TestAMachineShowsWhatItDoesBeforeAndAfterWork(t *testing.T) {
	c := extended(t)
	rest, held := Key{"", "rest"}, Key{"", "held"}
	charged := func(key Key) Key { return Key{"charged", key.Test} }
	for _, empty := range []string{"bat.weak", "chg.dead"} {
		within(t, 0.049, 0.051, c.with(empty, rest))
		within(t, 0, 0.05, c.with(empty, held))
		within(t, 12.69, 12.71, c.with(empty, charged(rest)))
	}
	within(t, 4.1, 7.2, c.with("bat.weak", charged(held)))
	within(t, 12.05, 12.15, c.with("chg.dead", charged(held)))

	// The same machines stand before and after: what was under 12.7 V came up to it.
	after := c.with("sw.open", charged(rest))
	higher := 0
	for i, before := range c.with("sw.open", rest) {
		require.InDelta(t, math.Max(before, 12.7), after[i], 0.011, "to the last digit of the meter")
		if before < 12.69 {
			higher++
		}
	}
	require.Greater(t, higher, 10)
}

func TestWhatWasBuiltBeforeIsNotChangedByExtending(t *testing.T) {
	maker, o := flatPump(t)
	was, err := Build(maker, "dead", o)
	require.NoError(t, err)
	is, err := was.Extend(maker, o)
	require.NoError(t, err)
	require.NotContains(t, was.columns, Key{"charged", "rest"})
	require.Contains(t, is.columns, Key{"charged", "rest"})
	require.Equal(t, was.Weigh([]Reading{volts("rest", 0.05)}).P, is.Weigh([]Reading{volts("rest", 0.05)}).P)

	o.Stop = func() bool { return true }
	_, err = was.Extend(maker, o)
	require.ErrorIs(t, err, ErrStopped)
}

// at is a reading of volts at a stage.
func at(stage, test string, v float64) Reading {
	r := volts(test, v)
	r.Stage = stage
	return r
}

// burnt are changes by which so many of so many dead chargers show 0 V, not 14 V.
func burnt(dead, limp string) []string {
	const was = `{way: burnt, share: 1, set: {charger.amps: "0.01", rest_volts: "0.05"}}`
	return []string{was, `{way: burnt, share: ` + dead + `, set: {charger.volts: "0", rest_volts: "0.05"}}, ` +
		`{way: limp, share: ` + limp + `, set: {charger.amps: "0.01", rest_volts: "0.05"}}`}
}

// Charging leaves the charger as it is: after it the charger's volts are the reading of
// before, and to take them again makes nothing surer. The battery's are another.
func TestATestThatTheWorkDoesNotTouchIsTheSameReading(t *testing.T) {
	c := extended(t, burnt("2", "8")...)
	require.Same(t, c.columns[Key{"", "charger"}], c.columns[Key{"charged", "charger"}])
	require.NotSame(t, c.columns[Key{"", "rest"}], c.columns[Key{"charged", "rest"}])
	before := c.Weigh([]Reading{at("", "charger", 0)})
	require.Greater(t, before.Fault("chg.dead"), 0.9)
	require.Equal(t, before.P, c.Weigh([]Reading{at("charged", "charger", 0)}).P)
	require.Equal(t, before.P, c.Weigh([]Reading{at("", "charger", 0), at("charged", "charger", 0)}).P)
	require.Equal(t, before.P, c.Weigh([]Reading{at("", "charger", 13.5), at("charged", "charger", 0)}).P, "the later counts")

	empty := c.Weigh([]Reading{at("", "rest", 0.05)})
	require.InDelta(t, 2.0/5, empty.Fault("chg.dead"), 0.01)
	both := c.Weigh([]Reading{at("", "rest", 0.05), at("charged", "rest", 12.7), at("charged", "held", 12.1)})
	require.Greater(t, both.Fault("chg.dead"), 0.97, "both count")
	require.Less(t, c.Weigh([]Reading{at("", "held", 12.1), at("charged", "rest", 12.7)}).Fault("chg.dead"), 0.03, "as it came it is not empty")
}

// The account names the work beside the test.
func TestAnAccountSaysAfterWhichWorkAnAnswerWas(t *testing.T) {
	c := extended(t)
	require.Equal(t, []string{"bat.weak"}, c.hypotheses[0].Faults)
	weak := c.Weigh([]Reading{at("charged", "held", 5.5)}).Account(0)
	require.Equal(t, Key{"charged", "held"}, weak.For)
	require.Contains(t, weak.Says(c.system), `Most for it: "Battery with the switch held", after the battery was charged, over 100 times`)
}

// Volts while held are asked only after charging: as it came there is no such test, and
// weighing one says nothing.
func TestATestAfterWorkIsOnlySimulatedThere(t *testing.T) {
	c := extended(t, "leads: {red: bat.pos, black: bat.neg}\n    state: held", "leads: {red: bat.pos, black: bat.neg}\n    after: recharge\n    state: held")
	require.NotContains(t, c.columns, Key{"", "held"})
	within(t, 12.05, 12.15, c.with("chg.dead", Key{"charged", "held"}))
	require.Equal(t, c.Weigh(nil).P, c.Weigh([]Reading{volts("held", 5.5)}).P)
}

// work are changes that add to the pump a lamp that changes nothing, and a bridge over the
// switch, with a stage after charging.
var work = []string{
	"work:\n  - {work: recharge, title", "work:\n  - {work: lamp, title: Hang in a lamp, tell: Hang it in., minutes: 5}\n" +
		"  - {work: bridge, title: Bridge the switch, tell: Bridge it., minutes: 5}\n  - {work: recharge, title",
	"  - {work: recharge, set", "  - {work: lamp}\n  - {work: bridge, set: {lever_switch.ohms: \"0.02\"}}\n  - {work: recharge, set",
	"hides what is wrong.}\n", "hides what is wrong.}\n" +
		"  - {stage: bridged, title: With the switch bridged, work: [recharge, bridge], why: Then it is out of the way.}\n",
}

func TestTheStageOfAMachineIsTheWorkThatWasDone(t *testing.T) {
	maker, _ := flatPump(t, work...)
	for _, c := range []struct {
		says  string
		done  []string
		stage string
		ok    bool
	}{
		{"as it came", nil, "", true},
		{"a stage", []string{"recharge"}, "charged", true},
		{"two pieces in order", []string{"recharge", "bridge"}, "bridged", true},
		{"two pieces in another order", []string{"bridge", "recharge"}, "bridge + recharge", true},
		{"the same work again", []string{"recharge", "recharge"}, "charged", true},
		{"again after other work", []string{"recharge", "bridge", "recharge"}, "bridged", true},
		{"work that changes something, without a stage", []string{"bridge"}, "bridge", true},
		{"work that changes nothing", []string{"lamp"}, "", true},
		{"work that is not in the trees", []string{"recharge", "polish"}, "", false},
		{"a stage, with work that changes nothing", []string{"lamp", "recharge", "lamp"}, "charged", true},
	} {
		stage, ok := StageOf(maker.System(), c.done)
		require.Equal(t, c.stage, stage, c.says)
		require.Equal(t, c.ok, ok, c.says)
	}
}

// A stage that the circuit does not name is worked out when it is asked for; it is weighed,
// and kept, and never offered.
func TestAnyWorkCanBeAStage(t *testing.T) {
	maker, o := flatPump(t, work...)
	c := extended(t, work...)
	require.False(t, c.Knows("bridge"))
	more, err := c.Extend(maker, o, "bridge")
	require.NoError(t, err)
	require.True(t, more.Knows("bridge"))
	require.True(t, more.Knows("charged"), "what it knew stays")
	require.False(t, c.Knows("bridge"), "the first is as it was")
	require.Equal(t, "After this: "+tree.InSentence(c.system.FindWork("bridge").Title), StageNamed(c.system, "bridge").Title)
	for _, offer := range more.Weigh(nil).Next(At{Access: benchtime.New(c.system)}) {
		require.False(t, offer.After != nil && offer.After.ID == "bridge")
	}
	var kept bytes.Buffer
	require.NoError(t, more.Write(&kept))
	is, err := Read(&kept, c.system)
	require.NoError(t, err)
	require.Equal(t, more, is)
	_, err = c.Extend(maker, o, "polish")
	require.ErrorContains(t, err, `no stage "polish"`)
	require.Nil(t, StageNamed(c.system, "lamp"), "it changes nothing")
}

// Behind an open switch stands nothing, charged or not; with a bridge over it the motor
// gets 12.0 V.
func TestTheWorkOfAStageIsDoneInOrder(t *testing.T) {
	c := extended(t, work...)
	within(t, 0, 0.001, c.with("sw.open", Key{"charged", "motor"}))
	within(t, 11.9, 12.1, c.with("sw.open", Key{"bridged", "motor"}))
	within(t, 11.9, 12.1, c.with("chg.dead", Key{"bridged", "motor"}))
}

// offered is what would tell something: the test, "after" and the stage.
func offered(offers []Offer) []string {
	var out []string
	for _, o := range offers {
		name := o.Test.ID
		if o.After != nil {
			name += " after " + o.After.ID
		}
		out = append(out, name)
	}
	return out
}

// emptied is the bench after the battery was read: 0.05 V. Its posts are bare, and one
// minute is paid for each no more.
func emptied(c *Cloud) (Weighing, At) {
	at := At{Access: benchtime.New(c.system), Taken: map[Key]bool{{"", "rest"}: true}}
	at.Access.Take(c.system.Test("rest"))
	return c.Weigh([]Reading{volts("rest", 0.05)}), at
}

// Before any answer the volts at rest tell an empty battery, 5 of 8, from the others:
// nearly a bit, and nobody waits an hour for the charge. When they were read there are a
// weak battery and a dead charger, 3 to 2, 0.971 bits, that nothing tells apart as it
// stands. Charged for 60 minutes, the volts while held and whether it turns tell them in 1
// more, and those at the motor in 4; at rest both show the same. One answer in fifty is
// chance.
func TestATestAfterWorkIsOfferedWhenLittleElseTells(t *testing.T) {
	c := extended(t)
	for _, o := range c.Weigh(nil).Next(At{Access: benchtime.New(c.system)}) {
		require.Nil(t, o.After, o.Test.ID)
	}
	w, at := emptied(c)
	offers := w.Next(at)
	require.Equal(t, []string{"held after charged", "turns after charged", "motor after charged"}, offered(offers))
	for i, minutes := range []float64{61, 61, 64} {
		require.InDelta(t, minutes, offers[i].Minutes, 1e-9)
		require.InDelta(t, 0.98*0.971, offers[i].Bits, 0.02)
		require.Equal(t, Power, offers[i].Risk)
	}

	at.Taken[Key{"charged", "held"}] = true
	require.NotContains(t, offered(w.Next(at)), "held after charged", "it can't be had")
	at.Stage = "charged"
	require.Equal(t, []string{"turns", "motor"}, offered(w.Next(at)), "it is charged")
	require.InDelta(t, 1, w.Next(at)[0].Minutes, 1e-9)
}

// Where the bench can still tell a quarter of a bit, no work is offered. The battery is
// weak, 0.6, or the charger dead, as above, but of ten chargers two show 0 V: 0.08 of all.
// Of the other 0.92 a battery is 0.6, with 0.932 bits: 0.971 - 0.92 x 0.932 = 0.11 bits
// are told. With six it is 0.24; of 0.76 a battery is 0.6, with 0.742 bits: 0.41 are told.
// Which charger is which is drawn, so that ten in a hundred more or less are no wonder.
func TestWorkIsNotOfferedWhileTheBenchTellsMore(t *testing.T) {
	w, at := emptied(extended(t, burnt("2", "8")...))
	bits := map[string]float64{}
	for i, name := range offered(w.Next(at)) {
		bits[name] = w.Next(at)[i].Bits
	}
	require.InDelta(t, 0.11, bits["charger"], 0.05, "it tells a little")
	require.Contains(t, bits, "held after charged")
	require.NotContains(t, bits, "charger after charged", "it would be the same")
	w, at = emptied(extended(t, burnt("6", "4")...))
	require.Equal(t, []string{"charger"}, offered(w.Next(at)))
	require.InDelta(t, 0.41, w.Next(at)[0].Bits, 0.1)
}

// Once it is charged, no other stage is offered: its work would be done on top of this.
func TestAfterWorkNoOtherStageIsOffered(t *testing.T) {
	w, at := emptied(extended(t, work...))
	require.Contains(t, offered(w.Next(at)), "held after bridged")
	for _, test := range []string{"rest", "held", "motor", "turns", "charger"} {
		at.Taken[Key{"charged", test}] = true
	}
	at.Stage = "charged"
	require.Empty(t, w.Next(at))
}

// Before anybody begins to charge, the charger is read, and looked whether it turns: each
// in the place of all that follows the charge, with its own minutes; then the charge.
func TestWhatComesBeforeTheWorkIsOfferedFirst(t *testing.T) {
	c := extended(t, "work: [recharge], why", "work: [recharge], first: [charger, turns], why")
	w, at := emptied(c)
	offers := w.Next(at)
	require.Equal(t, []string{"charger"}, offered(offers))
	require.InDelta(t, 1+1+1, offers[0].Minutes, 1e-9, "two points that nobody has bared")
	require.Equal(t, Still, offers[0].Risk)
	require.InDelta(t, 0.98*0.971, offers[0].Bits, 0.02, "those of what it leads to")

	at.Taken[Key{"", "charger"}] = true
	require.Equal(t, []string{"turns"}, offered(w.Next(at)))
	at.Taken[Key{"", "turns"}] = true
	require.Equal(t, []string{"held after charged", "turns after charged", "motor after charged"}, offered(w.Next(at)))
}

func TestACloudWithStagesThatWasKeptIsTheSame(t *testing.T) {
	was := extended(t, work...)
	var kept, again bytes.Buffer
	require.NoError(t, was.Write(&kept))
	is, err := Read(bytes.NewReader(kept.Bytes()), was.system)
	require.NoError(t, err)
	require.Equal(t, was, is)
	require.Same(t, is.columns[Key{"", "charger"}], is.columns[Key{"charged", "charger"}], "it is one reading still")
	require.NoError(t, is.Write(&again))
	require.Equal(t, kept.Bytes(), again.Bytes())

	plain, _ := flatPump(t)
	_, err = Read(bytes.NewReader(kept.Bytes()), plain.System())
	require.Equal(t, errors.New("it is not of this system as it is now"), err, "it has no stage bridged")
}
