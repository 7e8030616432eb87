package counsel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/suspect"
)

func TestTheListIsTheLikeliestFirst(t *testing.T) {
	c := pump(t).job().counsel()
	require.Equal(t, []string{"bat.weak", "sw.open", "mot.open", "gone while testing"}, c.names())
	for i, want := range []float64{weakest, switchs, motors, goneNow} {
		require.InDelta(t, want, c.Suspects[i].P, 1e-9)
		require.Equal(t, "how common it is; nothing was read yet", c.Suspects[i].Why)
	}
	require.Equal(t, "The battery is weak", c.Suspects[0].Title)
	require.Equal(t, "possible", c.Suspects[0].Words)
	require.Equal(t, "Nothing is wrong now, and it may come and go", c.Suspects[3].Title)
	require.InDelta(t, 0, c.Others, 1e-9)
	require.False(t, c.Named)
}

// No circuit shows that it stops now and then: nothing wrong 1, the faults 3, 2, 2 and 1,
// of 9, in seven of ten; in three it is gone. Five are shown, and the sixth, an open
// motor with 0.7/9, stands for all others.
func TestFiveAreShownAndTheOthersTogether(t *testing.T) {
	b := pumpThat(t, "stops now and then")
	c := b.job().counsel()
	require.Equal(t, []string{"gone while testing", "bat.weak", "chg.dead", "sw.open", "no fault"}, c.names())
	require.Equal(t, "Nothing wrong", c.Suspects[4].Title)
	require.InDelta(t, 0.3, c.Suspects[0].P, 1e-9)
	require.InDelta(t, 0.7*3/9, c.Suspects[1].P, 1e-9)
	require.InDelta(t, 0.7/9, c.Others, 1e-9)
	require.InDelta(t, 0.7/9, c.p("mot.open"), 1e-9, "as a fault it is worth its line")
}

// An open motor as common as 0.17 is 0.95 x 0.17 / 5.17, 0.031 of all; one as common as
// 0.16 is 0.95 x 0.16 / 5.16, 0.0295.
func TestWhatIsUnderThreeInAHundredIsNotWorthALine(t *testing.T) {
	c := pump(t, "fault: mot.open\n    common: 1", "fault: mot.open\n    common: 0.17").job().counsel()
	require.Equal(t, []string{"bat.weak", "sw.open", "gone while testing", "mot.open"}, c.names())
	require.InDelta(t, 0, c.Others, 1e-9)
	require.InDelta(t, 0.95*0.17/5.17, c.p("mot.open"), 1e-9)

	c = pump(t, "fault: mot.open\n    common: 1", "fault: mot.open\n    common: 0.16").job().counsel()
	require.Equal(t, []string{"bat.weak", "sw.open", "gone while testing"}, c.names())
	require.InDelta(t, 0.95*0.16/5.16, c.Others, 1e-9)
	require.Len(t, c.Faults, 2)
}

// Alone a weak battery is 3 of 9, and with a dead charger 3 more: 6 of 9 of 0.95. The
// charger is never alone; it is in those 3.
func TestAFaultIsAsLikelyAloneAndWithOthersTogether(t *testing.T) {
	b := pump(t, "shows:\n  - test: turns", "together:\n  - {faults: [bat.weak, chg.dead], common: 3, why: It never got full.}\nshows:\n  - test: turns")
	c := b.job().counsel()
	require.Equal(t, "bat.weak", c.Faults[0].ID)
	require.InDelta(t, 0.95*6/9, c.Faults[0].P, 1e-9)
	require.Equal(t, "chg.dead", c.Faults[1].ID, "more than the switch")
	require.InDelta(t, 0.95*3/9, c.p("chg.dead"), 1e-9)
	require.InDelta(t, 0.95*2/9, c.p("sw.open"), 1e-9)
	require.Equal(t, []string{"bat.weak", "bat.weak + chg.dead", "sw.open", "mot.open", "gone while testing"}, c.names())
	require.Equal(t, "The battery is weak + The charger is dead", c.Suspects[1].Title)
	require.InDelta(t, 0.95*3/9, c.Suspects[1].P, 1e-9)
}

func TestHowLikelyIsSaidInWords(t *testing.T) {
	for _, step := range []struct {
		least        float64
		words, under string
	}{
		{0.97, "almost sure", "very likely"},
		{0.75, "very likely", "likely"},
		{0.5, "likely", "possible"},
		{0.2, "possible", "less likely"},
		{0.05, "less likely", "unlikely"},
	} {
		require.Equal(t, step.words, Words(step.least))
		require.Equal(t, step.under, Words(math.Nextafter(step.least, 0)))
	}
	require.Equal(t, "almost sure", Words(1))
	require.Equal(t, "unlikely", Words(0))
	require.InDelta(t, 0.97, suspect.Sure, 0, "what is named is almost sure")
}

// Held 1 V shows a weak battery with a good charger, and 12.7 V at a motor that stands an
// open motor: that is likelier, and the 1 V rule out all its machines.
func TestWhyALikelyOneIsLikelyIsSaidInOneLine(t *testing.T) {
	b := pump(t)
	c := b.job().read("charger", "13.9").read("held", "1").read("motor", "12.7").seen("turns", "stands").counsel()
	why := map[string]string{}
	for _, s := range c.Suspects {
		why[s.Name()] = s.Why
	}
	require.Equal(t, "none of 100 simulated machines with it reads as this one does; Battery with the switch held rules out 100", why["mot.open"])

	sure := b.job().read("motor", "0").counsel().Suspects[0]
	require.Equal(t, "sw.open", sure.Name())
	require.Equal(t, "what speaks for it: Volts at the motor; all 100 simulated machines with it read as this one does", sure.Why)
	require.Contains(t, sure.Account, "The switch is open: of 100 simulated machines all still fit.")

	// At 9.3 V only the best of the weak batteries fit, of 1.9 ohm and less: about one in six.
	for _, s := range b.job().read("held", "9.3").counsel().Suspects {
		if s.Name() == "bat.weak" {
			require.Regexp(t, `^what speaks against it: Battery with the switch held; \d+ of 100 simulated machines with it read as this one does$`, s.Why)
			why["against"] = s.Why
		}
	}
	require.Contains(t, why, "against")

	// Its 12.7 V at rest are everybody's.
	require.Equal(t, "all 100 simulated machines with it read as this one does", b.job().read("rest", "12.7").counsel().Suspects[0].Why)
}

func TestTheFirstIsNamedOnlyWhenItIsSure(t *testing.T) {
	b := pump(t)
	named := b.job().read("motor", "0").counsel()
	require.True(t, named.Named)
	require.Empty(t, named.Tests)
	require.Empty(t, named.Alike)
	require.False(t, b.job().read("held", "12.7").counsel().Named)

	// An open switch of 196 in 200 that stands: 0.95 x 0.98, and of the one that is gone, which
	// would turn, a slip of 0.02 / 3 is left: 0.98. The volts while held would still tell a
	// weak battery, 3 in 200, but nobody needs it.
	c := pump(t, "fault: sw.open\n    common: 2", "fault: sw.open\n    common: 196").job().seen("turns", "stands").counsel()
	require.InDelta(t, 0.98, c.Suspects[0].P, 0.001)
	require.True(t, c.Named)
	require.Empty(t, c.Tests)
}

// Every test passed over but one that all answer alike: a weak battery, an open switch
// and an open motor can't be told apart. One that is gone, 0.05, is no more than thought
// of.
func TestWhatNoTestLeftTellsApartIsSaid(t *testing.T) {
	b := pump(t)
	c := b.job().read("rest", "12.7").pass("held", "motor", "turns").counsel()
	require.Empty(t, c.Tests)
	require.Equal(t, []string{"The battery is weak", "The switch is open", "The motor is open"}, c.Alike)
	require.Empty(t, b.job().read("rest", "12.7").pass("held", "motor").counsel().Alike, "whether it turns is left")
}
