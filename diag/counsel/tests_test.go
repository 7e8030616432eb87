package counsel

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// By bits and minutes, with the way to the points: the volts while held tell a weak
// battery from the rest, 1 bit in 3 minutes; those at the motor 1.5 bits in 5; and
// whether it turns only one that is gone, 0.28 bits in 1: less than a third of the most
// bits, and so last. At rest all show the same, and the charger is beside all this.
func TestTheTestsThatTellMostAreOffered(t *testing.T) {
	c := pump(t).job().counsel()
	require.Equal(t, []string{"held", "motor", "turns"}, c.offered())
	require.InDelta(t, 3, c.Tests[0].Minutes, 1e-9)
	require.InDelta(t, 5, c.Tests[1].Minutes, 1e-9, "2, a lid 2 and a post 1")
	for _, one := range c.Tests {
		require.Nil(t, one.After)
		require.Empty(t, one.Work)
	}
	read := pump(t).job().read("rest", "12.7").counsel()
	require.InDelta(t, 1, read.Tests[0].Minutes, 1e-9, "the posts are bare now")
}

func TestASplitSaysWhichSuspectsWouldGiveWhichAnswer(t *testing.T) {
	const gone = "Nothing is wrong now, and it may come and go"
	c := pump(t).job().counsel()
	require.Equal(t, []Split{
		{"sags", []string{"The battery is weak"}},
		{"holds", []string{"The switch is open", "The motor is open", gone}},
	}, c.Tests[0].Splits)
	require.Equal(t, []Split{
		{"there", []string{"The battery is weak", "The motor is open", gone}},
		{"none", []string{"The switch is open"}},
	}, c.Tests[1].Splits)
	require.Equal(t, []Split{
		{"stands", []string{"The battery is weak", "The switch is open", "The motor is open"}},
		{"turns", []string{gone}},
	}, c.Tests[2].Splits)
	require.Equal(t, "there: The battery is weak, or The motor is open, or "+gone, c.Tests[1].Splits[0].String())
}

// A choice with a title is called by it.
func TestAChoiceIsCalledByItsTitle(t *testing.T) {
	c := pump(t, "      - stands\n", "      - {choice: stands, title: It stands still}\n").job().counsel()
	require.Equal(t, "turns", c.Tests[2].Test.ID)
	require.Equal(t, "It stands still", c.Tests[2].Splits[0].Answer)
}

// With its only cut at 3 V, a weak battery holds like the others, 4.2 V and 12.7 V: the
// volts tell them apart, and no band does.
func TestATestWithOneAnswerForAllHasNoSplits(t *testing.T) {
	c := pump(t, `{band: sags, below: "9.6", basis: practice}`, `{band: sags, below: "3", basis: practice}`).job().counsel()
	require.Equal(t, "held", c.Tests[0].Test.ID)
	require.Empty(t, c.Tests[0].Splits)
	require.Len(t, c.Tests[1].Splits, 2)
}

// Weak batteries have 1.5 to 4 ohm more inside, evenly by ratio: half of them under 2.45,
// which is 5.6 V while held. With a cut at 5.9 V most of them sag, 60 in 100; with one at
// 5.3 V most hold, as the others do.
func TestASuspectGivesTheAnswerOfMostOfItsMachines(t *testing.T) {
	held := func(cut string) []Split {
		c := pump(t, `{band: sags, below: "9.6", basis: practice}`, `{band: sags, below: "`+cut+`", basis: practice}`).job().counsel()
		require.Equal(t, "held", c.Tests[0].Test.ID)
		return c.Tests[0].Splits
	}
	require.Len(t, held("5.9"), 2)
	require.Empty(t, held("5.3"))
}

// Only those that are worth a line stand in a split: with an open motor of 0.16 in 6, not
// that.
func TestASplitNamesNoneThatIsNotWorthALine(t *testing.T) {
	c := pump(t, "fault: mot.open\n    common: 1", "fault: mot.open\n    common: 0.16").job().counsel()
	require.Equal(t, []string{"The switch is open", "Nothing is wrong now, and it may come and go"}, c.Tests[0].Splits[1].Titles)
}

// looks are three looks with nothing switched on, each of which may show a danger: at
// amps of 0 behind an open switch or motor, 2 to 3.5 with a weak battery, and 5.9 with
// nothing wrong.
var looks = []string{
	"  - test: safe_stop\n    title", `  - {test: glows, title: Does it glow, see: Look., state: "off", minutes: 1, choices: [glows, dark, {choice: burns, danger: gas}]}
  - {test: hums, title: Does it hum, see: Listen., state: "off", minutes: 2, choices: [hums, silent, {choice: hisses, danger: gas}]}
  - {test: warm, title: Is it warm, see: Feel it., state: "off", minutes: 3, choices: [warm, cold, {choice: hot, danger: gas}]}
  - test: safe_stop
    title`,
	"  - test: safe_stop\n    choices: [{choice: stops}]", `  - {test: glows, choices: [{choice: glows, when: windings.amps > 1, state: held}, {choice: dark}]}
  - {test: hums, choices: [{choice: hums, when: windings.amps > 1, state: held}, {choice: silent}]}
  - {test: warm, choices: [{choice: warm, when: windings.amps > 1, state: held}, {choice: cold}]}
  - {test: safe_stop, choices: [{choice: stops}]}`,
	"unmodelled:\n", `unmodelled:
  - {what: "glows: burns", why: nothing burns here}
  - {what: "hums: hisses", why: nothing hisses here}
  - {what: "warm: hot", why: nothing gets hot here}
`,
}

// All three looks come before what is metered, in the order of their minutes. Three tests
// are shown, and the last is the best reading, for whoever has looked already. A suspected
// part is put off for a reading, not for a look, though that comes first; with the
// readings passed over, for the first look.
func TestAMeterReadingIsAmongTheTestsBehindLooks(t *testing.T) {
	b := pump(t, looks...)
	c := b.job().read("rest", "12.7").counsel()
	require.Equal(t, []string{"glows", "hums", "held"}, c.offered())
	require.Equal(t, "held", c.notYet()["Battery"])
	require.Equal(t, "glows", b.job().read("rest", "12.7").pass("held", "motor").counsel().notYet()["Battery"])
	require.Equal(t, []string{"hums", "warm", "held"}, b.job().pass("glows").counsel().offered())
	require.Equal(t, []string{"warm", "held", "motor"}, b.job().pass("glows", "hums").counsel().offered(), "it was among them anyway")
}

// Empty, nothing that can be read tells the battery from its charger. Charged, in 60
// minutes, the volts while held do, and whether it turns, in 1 each; and those at the
// motor, behind a lid.
func TestATestAfterWorkSaysWhichWork(t *testing.T) {
	b := flatPump(t)
	before := b.job().counsel()
	for _, one := range before.Tests {
		require.Nil(t, one.After, "much can be told as it stands")
	}
	c := b.job().read("rest", "0.05").counsel()
	require.Equal(t, []string{"held", "turns", "motor"}, c.offered())
	for i, minutes := range []float64{60 + 1, 60 + 1, 60 + 2 + 2} {
		require.Equal(t, "charged", c.Tests[i].After.ID)
		require.Len(t, c.Tests[i].Work, 1)
		require.Equal(t, "Charge the battery", c.Tests[i].Work[0].Title)
		require.InDelta(t, minutes, c.Tests[i].Minutes, 1e-9)
	}
	require.Equal(t, []Split{
		{"sags", []string{"The battery is weak"}},
		{"holds", []string{"The charger is dead"}},
	}, c.Tests[0].Splits)

	done := b.job().read("rest", "0.05").did("recharge", "rest").counsel()
	require.Equal(t, []string{"held", "turns", "motor"}, done.offered())
	require.Nil(t, done.Tests[0].After, "it is charged")
	require.Empty(t, done.Tests[0].Work)
	require.InDelta(t, 1, done.Tests[0].Minutes, 1e-9)
	require.Equal(t, c.Tests[0].Splits, done.Tests[0].Splits)
}
