package screen

import (
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

// figuresOf says whether a page has a text in figures of any size.
func figuresOf(page, text string) bool {
	for size := 1; size <= largestFigures; size++ {
		for gap := 1; gap <= 2; gap++ {
			all := true
			for _, row := range scaled(bigText(text, gap), size) {
				all = all && strings.Contains(page, row)
			}
			if all {
				return true
			}
		}
	}
	return false
}

func TestBigReadingsStayForTheSession(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Green pump")
	d.keys("1 <enter> 12.6")
	require.False(t, figuresOf(d.View(), "12.6"))
	d.keys("<tab>")
	require.True(t, figuresOf(d.View(), "12.6"), "also in the middle of a number")
	require.True(t, figuresOf(d.View(), "full"))
	d.keys("<backspace> 4")
	require.True(t, figuresOf(d.View(), "too close"))
	d.keys("<esc>")
	require.Contains(t, d.View(), "[R] red", "where the leads go")
	d.keys("note_12.6")
	require.Contains(t, d.View(), "[R] red", "words are no reading")
	d.keys("<esc> c")
	require.Contains(t, d.View(), "[R] red", "nor is a key")
	d.keys("<esc> q <enter>")
	d.begin("1", "1", "Red pump")
	d.keys("1 <enter> 12.6")
	require.True(t, figuresOf(d.View(), "full"), "in the next job too")
	d.keys("<tab>")
	require.Contains(t, d.View(), "[R] red")
}

// The answer just given stands until the next key, which only turns the page.
func TestTheAnswerStandsUntilTheNextKey(t *testing.T) {
	for _, key := range []string{"<enter>", "<esc>", "space", "y", "h"} {
		d := drive(t, bench(t, small))
		big(d)
		d.keys("12.6 <enter>")
		require.True(t, figuresOf(d.View(), "12.6"))
		require.Contains(t, d.View(), "At rest it is full.")
		require.Equal(t, walk.AtSafe, d.step.prompt.Stage)
		last := d.session.Facts().Last
		if key == "space" {
			d.press1(" ")
		} else {
			d.keys(key)
		}
		require.False(t, figuresOf(d.View(), "12.6"), key)
		require.Equal(t, last, d.session.Facts().Last, key)
		require.Empty(t, d.input.text(), key)
		require.Nil(t, d.over, key)
	}
}

func TestADangerComesBeforeBigFigures(t *testing.T) {
	d := drive(t, bench(t, small))
	watch(d)
	d.keys("<tab> 2.5 <enter>")
	require.Equal(t, walk.AtDanger, d.step.prompt.Stage)
	require.Contains(t, d.View(), "STOP: ")
	require.False(t, figuresOf(d.View(), "2.5"))
}

// What a reading says in figures and words is what is recorded: the number as it was
// typed.
func TestReadingsInManyFormsAreShownBig(t *testing.T) {
	for typed, want := range map[string][2]string{
		"12.6": {"12.6", "V"}, "12,6": {"12,6", "V"}, "12.6 V": {"12.6", "V"}, "12600mV": {"12600", "mV"},
		"12.6 @20": {"12.6", "V"}, "-12.6": {"-12.6", "V"}, ".37": {".37", "V"},
	} {
		d := drive(t, bench(t, small))
		big(d)
		d.keys(strings.ReplaceAll(typed, " ", "_"))
		require.NotNil(t, d.reading(), typed)
		number, unit := d.reading().number()
		require.Equal(t, want, [2]string{number, unit}, typed)
		require.True(t, figuresOf(d.View(), number), typed)
	}
}

// A countdown answers nothing. What is typed meanwhile waits in the input line.
func TestACountdownAnswersNothing(t *testing.T) {
	d := drive(t, bench(t, small))
	held(d)
	last := d.session.Facts().Last
	d.count(400)
	require.True(t, figuresOf(d.View(), "2"), "a second begun counts whole")
	d.keys("8.9")
	require.Equal(t, "8.9", d.input.text())
	require.Contains(t, d.View(), "8.90 +- 0.09 V: sags, sure")
	lapse = 2 * time.Second
	defer func() { lapse = time.Minute }()
	_, cmd := d.Update(countTick{d.Model.count.run})
	require.NotNil(t, cmd)
	require.Contains(t, d.View(), "Read the meter now.")
	require.NotContains(t, d.View(), bell)
	require.Equal(t, last, d.session.Facts().Last)
	require.Equal(t, "8.9", d.input.text())
	d.keys("<enter>")
	require.Greater(t, d.session.Facts().Last, last, "Enter sends what was typed")
	require.Zero(t, d.Model.count.says())
}

func TestTheBell(t *testing.T) {
	d := drive(t, bench(t, small))
	held(d)
	d.keys("<ctrl+g>")
	d.count(1_000)
	require.NotContains(t, d.View(), bell)
	d.keys("h") // whatever lies over the page
	lapse = 2 * time.Second
	defer func() { lapse = time.Minute }()
	run := d.Model.count.run
	d.Update(countTick{run})
	require.Equal(t, 1, strings.Count(d.View(), bell))
	require.Contains(t, d.View(), "time is up")
	d.Update(countTick{run})
	require.NotContains(t, d.View(), bell, "once")
	d.keys("<esc>")
	require.Contains(t, d.View(), "[R] red")
	d.keys("<ctrl+g>")
	d.count(3_000)
	require.Contains(t, d.View(), "Read the meter now.")
	require.NotContains(t, d.View(), bell)
}

// A rest can be put aside and looked at again; one stray key doesn't end it.
func TestARestRunsOn(t *testing.T) {
	d := drive(t, bench(t, small))
	resting(d)
	d.count(600_000)
	require.True(t, figuresOf(d.View(), "50:00"))
	d.press1(" ")
	d.keys("<esc>")
	require.Contains(t, d.View(), "50:00 left")
	require.Contains(t, d.View(), "until the charger says full")
	d.keys("e") // other pages can be read meanwhile
	require.Contains(t, d.View(), "50:00 left")
	d.keys("<esc>")
	d.press1(" ")
	require.True(t, figuresOf(d.View(), "50:00"))
	d.keys("<esc> <esc>")
	require.NotContains(t, d.View(), "left, cleared")
	run := d.Model.count.run
	_, cmd := d.Update(countTick{run})
	require.Nil(t, cmd, "it is ended")
	d.count(60_000)
	require.True(t, figuresOf(d.View(), "59:00"), "and begins anew")
	_, cmd = d.Update(countTick{run})
	require.Nil(t, cmd, "that was another run")
	d.keys("d <enter>")
	require.Zero(t, d.Model.count.says(), "it was of that step")
}

func TestAClockThatIsSetBackLosesNoRest(t *testing.T) {
	d := drive(t, bench(t, small))
	resting(d)
	d.count(600_000)
	lapse = -5 * time.Hour
	d.Update(countTick{d.Model.count.run})
	lapse = 60 * time.Second
	defer func() { lapse = time.Minute }()
	require.Equal(t, "50:00 left", d.Model.count.says())
	d.Update(countTick{d.Model.count.run})
	require.Equal(t, "49:00 left", d.Model.count.says())
}

// Esc never loses what was typed: Up brings it back, on every page with a line.
func TestUpBringsBackWhatEscEmptied(t *testing.T) {
	for name, play := range map[string]func(d driver) *input{
		"step":   func(d driver) *input { d.begin("1", "1", "A"); d.keys("1 <enter>"); return &d.input },
		"jobs":   func(d driver) *input { return &d.input },
		"intake": func(d driver) *input { d.keys("n 1 <enter>"); return &d.input },
		"tests":  func(d driver) *input { d.begin("1", "1", "A"); d.keys("t"); return &d.over.search },
		"prices": func(d driver) *input { d.keys("p"); return &d.over.prices.search },
	} {
		d := drive(t, bench(t, small))
		in := play(d)
		for _, empties := range []string{"<esc>", "<ctrl+u>"} {
			d.keys("12.6 " + empties)
			require.Empty(t, in.text(), name)
			require.Contains(t, d.View(), bringsBack, name)
			d.keys("<up>")
			require.Equal(t, "12.6", in.text(), name)
			d.keys("<esc> <down> <up>")
			require.Empty(t, in.text(), "%s: after another key Up is what it always is", name)
		}
	}
}

// Going back in the intake shows what was answered, and Enter keeps it.
func TestGoingBackKeepsTheAnswers(t *testing.T) {
	d := drive(t, bench(t, small))
	d.keys("n 1 <enter> 2 <enter> Green_pump <enter> Mrs._K <enter>")
	d.keys("<esc> <esc> <esc>")
	require.Contains(t, d.View(), "question 2")
	require.Contains(t, d.View(), "> 2_")
	require.Contains(t, d.View(), "Enter: 2 Runs slowly")
	d.keys("<enter> <enter>")
	require.Contains(t, d.View(), "> Mrs. K_")
	d.keys("?")
	require.Equal(t, "Mrs. K", d.input.text(), "help takes nothing away")
	d.keys("Mr._B <enter>")
	for i := 0; d.intake != nil; i++ {
		require.Less(t, i, 20)
		d.keys("<enter>")
	}
	in := d.session.Facts().Intake
	require.Equal(t, "weak", in.Complaint)
	require.Equal(t, "Green pump", in.Machine)
	require.Equal(t, "Mr. B", in.Owner)
}

func TestTheIntakeIsNotLeftByOneKey(t *testing.T) {
	d := drive(t, bench(t, small))
	d.keys("n <esc>")
	require.Nil(t, d.intake, "nothing was answered")
	d.keys("n 1 <enter> 2 <enter> <esc> <esc> <esc>")
	require.NotNil(t, d.intake)
	require.Contains(t, d.View(), "Esc once more")
	d.keys("<enter>")
	require.Contains(t, d.View(), "> 2_")
	d.keys("<esc> <esc>")
	require.NotNil(t, d.intake, "it is asked again")
	d.keys("<esc>")
	require.Nil(t, d.intake)
	require.NotContains(t, d.View(), "Esc once more")
}

// One letter proves no safety function, and what Enter will do is said.
func TestALetterProvesNoSafetyFunction(t *testing.T) {
	d := drive(t, bench(t, small))
	services(d)
	d.line("pass")
	require.Equal(t, "stops", d.step.pos.Test.ID)
	last := d.session.Facts().Last
	d.line("w")
	require.Equal(t, last, d.session.Facts().Last)
	require.Contains(t, d.wrong, "safety function")
	d.keys("within")
	require.Contains(t, d.View(), "Enter: 1 Within a second")
	d.keys("<enter>")
	require.Greater(t, d.session.Facts().Last, last)
}

func TestAPasteIsNoCountdown(t *testing.T) {
	d := drive(t, bench(t, small))
	held(d)
	d.Update(tea.KeyMsg{Type: tea.KeyRunes, Paste: true, Runes: []rune(" ")})
	require.Zero(t, d.Model.count.says())
}

// What can be seen stands on the page of a countdown that is over, and its number is the
// answer, with no key before it.
func TestACountdownEndsWithItsChoices(t *testing.T) {
	for _, size := range sizes {
		d := drive(t, bench(t, small))
		d.size(size[0], size[1])
		looking(d)
		test := d.step.pos.Test.ID
		d.count(0)
		require.NotContains(t, d.View(), "It runs on", "while it runs nothing is answered")
		d.Update(countTick{d.Model.count.run})
		d.keys("<esc> <esc>")
		d.count(3_000)
		require.Contains(t, d.View(), "Time is up")
		require.Contains(t, d.View(), "2  It runs on")
		d.keys("1")
		require.Contains(t, d.View(), "Enter: 1 Within a second")
		d.keys("<enter>")
		require.Contains(t, d.session.Facts().Answers, test)
	}
}

// After a service hands were in the machine: before it runs again everyone is clear.
func TestPeopleAreClearAfterAService(t *testing.T) {
	for _, done := range []bool{true, false} {
		d := drive(t, bench(t, small))
		services(d)
		if done {
			d.keys("2 <enter>")
		}
		d.line("pass")
		require.Equal(t, done, d.step.prompt.Stage == walk.AtSafe, d.View())
	}
}
