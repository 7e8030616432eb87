package screen

import (
	"context"
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/tree"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// stepAt is a page as a session might show it, without one.
func stepAt(stage walk.Stage, kind tree.TestKind, choices int) *step {
	s := &step{
		prompt: ui.Prompt{Stage: stage, Title: "A step"},
		pos:    walk.Position{Stage: stage},
		words:  []string{"pass", "paths", "left", "leave", "help", "take", "pack_rest", "engine_oil"},
		line:   func(string) *ui.BandLine { return nil },
		view:   func(ui.Verb) []string { return nil },
	}
	if kind != "" {
		s.pos.Test = &tree.Test{ID: "pack_rest", Kind: kind}
	}
	s.prompt.Choices = make([]string, choices)
	return s
}

// TestPress is what keys ask for, by page. "=" before the wanted text means
// that nothing is asked for yet and the input line holds it.
func TestPress(t *testing.T) {
	metered := func() *step { return stepAt(walk.AtTest, tree.Metered, 0) }
	seen := func() *step { return stepAt(walk.AtTest, tree.Observed, 3) }
	at := func(s walk.Stage) func() *step { return func() *step { return stepAt(s, "", 0) } }
	listed := func() *step {
		s := stepAt(walk.AtRepair, "", 0)
		s.pos.Lines = []walk.Line{{Kind: walk.LineStep, Text: "One."}, {Kind: walk.LineStep, Text: "Two."}}
		s.prompt.List = []ui.Item{{Number: 1, Text: "One.", Mark: ui.MarkOpen, Next: true}, {Number: 2, Text: "Two.", Mark: ui.MarkOpen}}
		return s
	}
	careful := func() *step {
		s := listed()
		s.prompt.List[0].Next = false
		s.prompt.Care, s.prompt.Ask = true, "yes when the cautions are understood"
		return s
	}
	priced := func() *step {
		s := stepAt(walk.AtEstimate, "", 0)
		s.prompt.Total = "55.85"
		return s
	}
	for _, c := range []struct {
		name string
		step func() *step
		keys string
		want string
	}{
		{"a number needs no focusing", metered, "12.6", "=12.6"},
		{"Enter sends it", metered, "12.6 <enter>", "send 12.6"},
		{"a comma is sent as it is", metered, "12,6 <enter>", "send 12,6"},
		{"so are several answers", metered, "rest_0.37;_held_0 <enter>", "send rest 0.37; held 0"},
		{"over range begins with no key", metered, "OL <enter>", "send OL"},
		{"Enter alone does nothing", metered, "<enter>", "="},
		{"c waits for Enter", metered, "c", "=c"},
		{"and then passes", metered, "c <enter>", "send pass can't reach"},
		{"but a word may begin with it", metered, "close_1 <enter>", "send close 1"},
		{"f waits", metered, "f", "=f"},
		{"and then is a flicker", metered, "f <enter>", "send flicker"},
		{"the word does the same", metered, "flicker <enter>", "send flicker"},
		{"nothing flickers that is seen", seen, "f <enter>", "send f"},
		{"z waits", metered, "z", "=z"},
		{"and then takes back", metered, "z <enter>", "send undo"},
		{"n waits, and then begins a note", metered, "n <enter>", "prefill note "},
		{"a note can be typed whole", metered, "note_smells <enter>", "send note smells"},
		{"q waits", metered, "q", "=q"},
		{"and then puts aside", metered, "q <enter>", "aside"},
		{"t opens the tests", metered, "t", "pick"},
		{"? explains", metered, "?", "show why"},
		{"l lists what is left", metered, "l", "show left"},
		{"e shows evidence", metered, "e", "show found"},
		{"p shows the paths", metered, "p", "show paths"},
		{"h helps", metered, "h", "show help"},
		{"in a text no key acts", metered, "12?", "=12?"},
		{"Esc empties the line", metered, "12 <esc>", "shut"},
		{"Backspace mends it", metered, "13 <backspace> 2 <enter>", "send 12"},
		{"a digit records nothing", seen, "2", "=2"},
		{"before Enter", seen, "2 <enter>", "send 2"},
		{"and further digits are no further answers", seen, "126", "=126"},
		{"nor is a digit a reading", metered, "2", "=2"},
		{"a no confirms no danger and is no note", at(walk.AtDanger), "n <enter>", "=n"},
		{"a no makes nothing safe", at(walk.AtSafe), "no <enter>", "=no"},
		{"a note can be typed there", at(walk.AtSafe), "note_wet <enter>", "send note wet"},
		{"y confirms no danger", at(walk.AtDanger), "y <enter>", "send y"},
		{"a digit confirms no danger", at(walk.AtDanger), "1", "=1"},
		{"Enter confirms no danger", at(walk.AtDanger), "<enter>", "="},
		{"yes does", at(walk.AtDanger), "yes <enter>", "send yes"},
		{"and so for make safe", at(walk.AtSafe), "yes <enter>", "send yes"},
		{"a danger is never passed by a key", at(walk.AtDanger), "c <enter>", "send c"},
		{"what can't be made safe can be passed", func() *step { return stepAt(walk.AtSafe, tree.Metered, 0) }, "c <enter>", "send pass can't reach"},
		{"a safety function can't", func() *step { return stepAt(walk.AtHandBack, tree.Observed, 2) }, "c <enter>", "send c"},
		{"d waits", at(walk.AtWork), "d", "=d"},
		{"and then work is done", at(walk.AtWork), "d <enter>", "send done"},
		{"work can be passed", at(walk.AtWork), "c <enter>", "send pass can't reach"},
		{"a repair can't", at(walk.AtRepair), "c <enter>", "send c"},
		{"before the cautions Enter ticks nothing", careful, "<enter>", "="},
		{"yes does", careful, "yes <enter>", "send yes"},
		{"a no doesn't", careful, "n <enter>", "=n"},
		{"Enter ticks the next line", listed, "<enter>", "send tick"},
		{"a number ticks one", listed, "2 <enter>", "send 2"},
		{"not before Enter", listed, "2", "=2"},
		{"nothing is done with steps open", listed, "d <enter>", "send d"},
		{"all waits", listed, "a", "=a"},
		{"and then ticks all", listed, "a <enter>", "send all"},
		{"at services Enter alone records nothing", at(walk.AtService), "<enter>", "="},
		{"the price is approved with a name", priced, "a <enter>", "prefill approve 55.85 "},
		{"or declined with one", priced, "d <enter>", "prefill declined "},
		{"or not asked about, with why", priced, "c <enter>", "prefill pass "},
		{"Enter alone approves nothing", priced, "<enter>", "="},
		{"a number waits at the verdict", at(walk.AtVerdict), "2", "=2"},
		{"and then is a way", at(walk.AtVerdict), "2 <enter>", "send choose 2"},
		{"or an outcome", at(walk.AtClose), "1 <enter>", "send close 1"},
		{"nothing is undone once closed", at(walk.AtClosed), "z <enter>", "send z"},
		{"scrolling", metered, "<pgdown>", "scroll 1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, in := c.step(), &input{}
			var got action
			for _, w := range strings.Fields(c.keys) {
				for _, k := range keysOf(strings.ReplaceAll(w, "_", " ")) {
					got = s.press(k, in)
				}
			}
			want := c.want
			if text, ok := strings.CutPrefix(want, "="); ok {
				require.Equal(t, action{}, got)
				require.Equal(t, text, in.text())
				return
			}
			require.Equal(t, want, inWords(got))
		})
	}
}

func keysOf(word string) []key {
	if typ, ok := special[word]; ok {
		return keys(tea.KeyMsg{Type: typ})
	}
	return keys(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(word)})
}

func inWords(a action) string {
	switch a.deed {
	case send:
		return "send " + a.text
	case prefill:
		return "prefill " + a.text
	case show:
		return "show " + string(a.view)
	case pickTest:
		return "pick"
	case aside:
		return "aside"
	case shut:
		return "shut"
	case scroll:
		return "scroll 1"
	}
	return "nothing"
}

// TestHints: what Enter would do stands there before it is pressed.
func TestHints(t *testing.T) {
	seen := stepAt(walk.AtTest, tree.Observed, 0)
	seen.prompt.Choices = []string{"1 sound", "2 swollen or split"}
	named := stepAt(walk.AtTest, tree.Observed, 0)
	named.pos.Test.Choices = []tree.Choice{{Name: "sound"}, {Name: "swollen or split"}}
	held := stepAt(walk.AtTest, tree.Metered, 0)
	held.prompt.Hold = []int{15, 180}
	safe := stepAt(walk.AtSafe, tree.Metered, 0)
	verdict := stepAt(walk.AtVerdict, "", 0)
	verdict.prompt.Tell = []string{"Found: a thing.", "1  Fit a new one: 10 USD", "   Only if: it fits", "2  Sell it"}
	terms := stepAt("a stage of later", "", 0)
	terms.prompt.Ask, terms.prompt.Choices = "yes, or a number of the list", []string{"1 less", "2 more"}
	for _, c := range []struct {
		step        *step
		typed, want string
	}{
		{seen, "", "the number of what you see, then Enter"},
		{seen, "2", "Enter: 2 swollen or split"},
		{seen, "02", "Enter: 2 swollen or split"},
		{seen, "3", "3 is none of the list"},
		{seen, "sound", ""},
		{named, "sw", "Enter: 2 swollen or split"},
		{named, "s", ""}, // both begin so
		{held, "", "Space counts 15 s; the reading, then Enter"},
		{seen, "n", "Enter: begin a note"},
		{seen, "c", "Enter: pass this step: can't reach it, can't do it"},
		{safe, "", "type yes, then Enter: all of it is so"},
		{safe, "n", "type yes, or Esc"},
		{safe, "no", "type yes, or Esc"},
		{safe, "y", "type yes, or Esc"},
		{safe, "yes", "Enter: yes"},
		{verdict, "2", "Enter: 2 Sell it"},
		{verdict, "7", "7 is none of the list"},
		{terms, "", "yes, or a number of the list, then Enter"},
		{terms, "n", "type yes, or Esc"},
		{terms, "1", "Enter: 1 less"},
		{stepAt(walk.AtTest, tree.Metered, 0), "12", ""},
	} {
		require.Equal(t, c.want, c.step.hint(c.typed), "%s: %q", c.step.prompt.Stage, c.typed)
	}
}

func TestKeepIsAKeyOnlyWhenAValueIsQuestioned(t *testing.T) {
	s := stepAt(walk.AtTest, tree.Metered, 0)
	require.Nil(t, s.waiting("k"))
	s.asking = true
	require.Equal(t, "keep", s.waiting("k").act.text)
}

func TestOneMessageMayHoldManyKeys(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	d.keys("126")
	require.Equal(t, "126", d.input.text())
	require.Contains(t, d.View(), "126 is none of the list")
	before := len(d.session.Events())
	d.keys("<enter>")
	require.Len(t, d.session.Events(), before)
	require.Equal(t, "bat_look", d.step.pos.Test.ID)
}

func TestAPasteIsNeverACommand(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	before := len(d.session.Events())
	for _, text := range []string{"1", "h", "?", "q", "z\r\n", "\x1b[31mred\x1b[0m", "a\x00b\u202ec"} {
		d.Update(tea.KeyMsg{Type: tea.KeyRunes, Paste: true, Runes: []rune(text)})
	}
	require.Nil(t, d.over)
	require.Equal(t, "1h?qz redabc", d.input.text())
	require.Len(t, d.session.Events(), before)
}

func TestALetterThatOpenedAViewMayBeginAWord(t *testing.T) {
	for line, want := range map[string]string{
		"left": "What is not tested yet", "paths": "Ways to repair, with prices", "help": "Keys and words", "found": "Findings and readings so far",
	} {
		d := drive(t, bench(t, small))
		d.begin("1", "1", "Pump")
		d.line(line)
		require.NotNil(t, d.over, line)
		require.Equal(t, want, d.over.title)
	}
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	for _, k := range "held" { // each in a message of its own: h opens help, the rest is a test's name
		d.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{k}})
	}
	require.Nil(t, d.over)
	require.Equal(t, "held", d.input.text())
	d.keys("<esc> l h") // but another view's letter opens that
	require.Equal(t, "Keys and words", d.over.title)
	d.keys("12.6") // and a number needs no closing
	require.Nil(t, d.over)
	require.Equal(t, "12.6", d.input.text())
}

func TestTakingAnotherTest(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	d.keys("t post") // of no title or name
	require.Empty(t, d.over.found())
	d.keys("<esc> motor <enter>")
	require.Equal(t, "motor", d.step.pos.Test.ID)
	d.line("take rest") // typed whole, although t opens the list
	require.Equal(t, "rest", d.step.pos.Test.ID)
	d.line("take nothing_like_it")
	require.Contains(t, d.wrong, "There is no test")
}

func TestWhatWasRefusedStaysAndGivesWay(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	d.keys("1 <enter> 12.6_ohm <enter>")
	require.NotEmpty(t, d.wrong)
	require.Equal(t, "12.6 ohm", d.input.text())
	d.keys("<backspace> <backspace> <backspace> V")
	require.Equal(t, "12.6 V", d.input.text())
	d.keys("olm <enter> 1")
	require.Equal(t, "1", d.input.text(), "what is typed next takes its place")
}

func TestOfSeveralAnswersNoneIsTakenWhereOneIsRefused(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	d.line("bat_look clean; rest 12.6 ohm; held 11")
	require.Equal(t, walk.Unknown, d.step.pos.Results["bat_look"].Mark)
	require.Equal(t, "bat_look clean; rest 12.6 ohm; held 11", d.input.text(), "as it was typed")

	d.input.set("")
	d.line("bat_look clean; rest 12.6; held 11")
	require.Equal(t, walk.Read, d.step.pos.Results["held"].Mark)
}

// TestNothingIsTakenThatIsNotStored: when the store refuses, the error is
// shown, what was typed stays, and the page stays where it was.
func TestNothingIsTakenThatIsNotStored(t *testing.T) {
	b := bench(t, small)
	full := &fullStore{Store: b.Store}
	b.Store = full
	d := drive(t, b)
	d.begin("1", "1", "Pump")
	d.keys("1 <enter>")
	full.err = errors.New("the disk is full")
	d.keys("12.6 <enter>")
	require.Contains(t, d.View(), "! The disk is full.")
	require.Equal(t, "12.6", d.input.text())
	require.Equal(t, "rest", d.step.pos.Test.ID)
	full.err = nil
	d.keys("<enter>")
	require.Equal(t, walk.Read, d.step.pos.Results["rest"].Mark)

	d.keys("q <enter>")
	full.err = errors.New("the disk is full")
	d.keys("n 1 <enter> 1 <enter>")
	for d.intake != nil && !d.intake.done {
		d.keys("<enter>")
	}
	require.Contains(t, d.View(), "! The disk is full.")
	full.err = nil
	d.keys("<enter>")
	require.Equal(t, int64(2), d.Session().ID())
}

type fullStore struct {
	job.Store
	err error
}

func (s *fullStore) Append(ctx context.Context, id, expected int64, events []job.Event) ([]job.Event, error) {
	if s.err != nil {
		return nil, s.err
	}
	return s.Store.Append(ctx, id, expected, events)
}

func (s *fullStore) Create(ctx context.Context, first []job.Event) (int64, error) {
	if s.err != nil {
		return 0, s.err
	}
	return s.Store.Create(ctx, first)
}

func TestIntakeGoesBackAndForth(t *testing.T) {
	d := drive(t, bench(t, small))
	d.keys("n 1 <enter> 2 <enter> q <enter>")
	require.Equal(t, 4, d.intake.question.Step, "letters are answers here")
	d.keys("<esc> <esc>")
	require.Equal(t, 2, d.intake.question.Step)
	d.keys("1 <esc>")
	require.Equal(t, 2, d.intake.question.Step, "the first Esc empties the line")
	d.keys("<ctrl+b> <esc> <esc>")
	require.Nil(t, d.intake)
	d.begin("1", "2", "h")
	require.Equal(t, "h", d.session.Facts().Intake.Machine)
}

func TestJobsAreOpenedByNumberOrFromTheList(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	d.keys("q <enter>")
	d.begin("1", "2", "Sprayer")
	d.keys("q <enter> /pump")
	require.Contains(t, d.View(), "Pump")
	require.NotContains(t, d.View(), "Sprayer")
	d.keys("<enter>")
	require.Equal(t, int64(1), d.Session().ID())
	d.keys("q <enter> 2 <enter>")
	require.Equal(t, int64(2), d.Session().ID())
	d.keys("q <enter> 7 <enter>")
	require.Nil(t, d.Session())
	require.NotEmpty(t, d.wrong)
	d.keys("seven <enter>")
	require.NotEmpty(t, d.wrong)
}

func TestLeaving(t *testing.T) {
	for _, keys := range []string{"", "n 1 <enter>", "h"} {
		d := drive(t, bench(t, small))
		d.keys(keys)
		_, cmd := d.Update(tea.KeyMsg{Type: tea.KeyCtrlC})
		require.Equal(t, tea.Quit(), cmd())
	}
	d := drive(t, bench(t, small))
	_, cmd := d.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q")})
	require.Nil(t, cmd, "it waits for Enter, as in a job")
	_, cmd = d.Update(tea.KeyMsg{Type: tea.KeyEnter})
	require.Equal(t, tea.Quit(), cmd())
}

func TestNothingIsAnsweredInAWindowThatIsTooSmall(t *testing.T) {
	d := drive(t, bench(t, small))
	d.begin("1", "1", "Pump")
	before := len(d.session.Events())
	d.size(49, 24)
	require.Contains(t, d.View(), "Make the window larger")
	d.keys("1 <enter>")
	require.Len(t, d.session.Events(), before)
	d.size(50, 14)
	d.keys("1 <enter>")
	require.Greater(t, len(d.session.Events()), before)
}

// TestEveryKeyThatIsShownWorks: no key of any page of a job is refused.
func TestEveryKeyThatIsShownWorks(t *testing.T) {
	if raced {
		t.Skip("it has no goroutines, and takes long under the race detector")
	}
	for _, scene := range scenes {
		d := drive(t, bench(t, small))
		scene.play(d)
		if d.step == nil || d.over != nil {
			continue
		}
		for _, b := range d.step.keys() {
			if b.act.deed == quit {
				continue
			}
			d := drive(t, bench(t, small))
			scene.play(d)
			d.keys("<ctrl+u>")
			d.wrong = ""
			for _, k := range keysOf(b.keys[0]) {
				if b.waits {
					d.do(d.press(k))
					d.keys("<enter>")
				}
			}
			require.Empty(t, d.wrong, "%s: %s", scene.name, b.name())
		}
	}
}

func TestAQuestionMarkAtTheIntakeIsNoAnswer(t *testing.T) {
	d := drive(t, bench(t, small))
	d.keys("n")
	require.Contains(t, d.View(), "question 1 ")
	require.NotContains(t, d.View(), "of 0")
	d.keys("1")
	require.Contains(t, d.View(), "Enter: 1 Spray pump")
	d.keys("<enter> ?")
	require.Equal(t, 2, d.intake.question.Step)
	require.Contains(t, d.View(), "Can't tell: type 3.")
	d.keys("1 <enter>")
	require.Equal(t, 3, d.intake.question.Step)
	require.NotContains(t, d.View(), "Can't tell", "what is typed on the page answers its question")
	d.Update(tea.KeyMsg{Type: tea.KeyRunes, Paste: true, Runes: []rune(" ? ")})
	d.keys("<enter>")
	require.Equal(t, 3, d.intake.question.Step)
	require.Contains(t, d.View(), "What to do: Type the answer, then Enter. Not known: Enter alone")
	d.keys("?")
	require.Nil(t, d.over, "its own key closes it")
	d.line("Pump ?")
	require.Equal(t, 4, d.intake.question.Step)
	require.Contains(t, strings.Join(d.intake.given, " "), "Pump ?")
}

func TestADangerIsSaidOnce(t *testing.T) {
	s := stepAt(walk.AtDanger, "", 0)
	s.prompt.Title = "STOP: A safety switch is bypassed"
	s.prompt.Caution = []string{"A safety switch is bypassed. Somebody went round a safety switch. Do not run it so."}
	require.Equal(t, []string{"Look it over: Jumper."}, s.unsaid([]string{"Look it over: Jumper. Somebody went round a safety switch."}))
	require.Equal(t, []string{"Too high. Leave it off."}, s.unsaid([]string{"Too high. Leave it off."}), "other words are kept")
	require.Equal(t, []string{"! Somebody went round a safety switch. Do not run it so."}, s.care(100, bare), "and never shortened")
	s.prompt.Stage = walk.AtTest
	said := []string{"Somebody went round a safety switch."}
	require.Equal(t, said, s.unsaid(said))
}

// A word typed on the page of the ways is that word, and a number there chooses a
// way: neither is a reading of the step below.
func TestAWordOnThePageOfWays(t *testing.T) {
	b, _ := suspecting(t)
	d := drive(t, b)
	d.begin("1", "1", "Pump")
	d.line("charger 0")
	require.Equal(t, walk.AtTest, d.step.pos.Stage)
	before := len(d.session.Events())
	d.keys("p")
	require.Equal(t, ui.Paths, d.over.view)
	d.keys("aim")
	require.Equal(t, "aim", d.input.text())
	d.keys("<enter>")
	require.Empty(t, d.wrong)
	require.Equal(t, ui.Paths, d.over.view, "the ways are shown as they rank now")
	d.keys("1")
	require.Equal(t, "choose 1", d.input.text())
	require.Len(t, d.session.Events(), before)
	d.keys("<esc>")
	d.keys("pa")
	require.Equal(t, "pa", d.input.text(), "which begins pass")
}
