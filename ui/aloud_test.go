package ui_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/ui"
)

// Whoever hears the ways has each of them first, a sentence with its number, its amounts
// with the currency; nothing that the list warns of is kept for later, and what is not
// said now is said when it is asked for.
func TestTheWaysAreHeardBeforeWhatStandsBehindThem(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 0", "held 9.0")
	offers := s.Offer()
	ways := offers.Ways()
	require.Greater(t, len(ways), 2)
	heard := s.WaysAloud()
	for i, w := range ways {
		require.True(t, strings.HasPrefix(heard[i], string(rune('1'+i))+". "), heard[i])
		require.Regexp(t, `\.$`, heard[i])
		if w.Path != nil {
			require.Contains(t, heard[i], "it costs "+w.Path.Money(w.Path.Total))
			for _, warn := range w.Path.Warn {
				require.Contains(t, strings.Join(heard, "\n"), strings.TrimSuffix(warn, "."))
			}
			for _, only := range w.Path.Before {
				require.Contains(t, strings.Join(heard, "\n"), strings.TrimSuffix(only, "."))
			}
		}
	}
	both := strings.Join(append(heard, s.MoreAloud()...), "\n")
	for _, amount := range regexp.MustCompile(`\d+\.\d\d\b.{0,4}`).FindAllString(both, -1) {
		require.Contains(t, amount, " USD", both)
	}
	for _, w := range ways {
		if w.Path != nil {
			require.Contains(t, strings.Join(s.MoreAloud(), "\n"), "it comes to "+w.Path.Money(w.Path.OverSeasons))
		}
	}
	for _, l := range s.PathLines() { // what is left out, and why, word for word
		if strings.HasPrefix(l, "Left out: ") {
			require.Contains(t, both, l)
		}
	}
}

// "paths" says the ways, "paths more" the rest; the screen shows the one list for both.
func TestMoreIsSaidOfTheWaysWhenItIsAskedFor(t *testing.T) {
	s := beginPump(t, bench(t))
	enter(t, s, "charger 0", "held 9.0")
	short, more := inPlain(t, s, "paths"), inPlain(t, s, "paths more")
	require.Contains(t, short, "\"paths more\" says")
	require.NotContains(t, short, "seasons it comes to")
	require.Contains(t, more, "seasons it comes to")
	_, err := ui.Parse(nil, "paths 3")
	require.ErrorContains(t, err, "stands alone, or with")
	require.Equal(t, s.View(ui.Paths), s.PathLines())
	require.Contains(t, inPlain(t, s, "help"), "paths more: ")
}

// The estimate says the currency with each amount, also where the screen has it once.
func TestEachAmountOfAnEstimateSaysItsCurrency(t *testing.T) {
	aloud := estimated(t).Prompt().Aloud
	for _, l := range []string{"Battery, original, 1 at 40.00 USD", "Charger, original, 1 at 25.00 USD, to be ordered", "Parts: 65.00 USD", "Labour, 15 min: 12.00 USD", "Tax: 4.88 USD", "Total: 81.88 USD"} {
		require.Contains(t, aloud, l)
	}
}

// An answer of the intake is said whole, also one with a colon in it.
func TestAnAnswerOfTheIntakeIsSaidWhole(t *testing.T) {
	in := ui.NewIntake(shipped(t))
	for _, typed := range []string{"1", "key-start-12v", "1"} {
		require.NoError(t, in.Answer(typed))
	}
	require.Equal(t, "What does it do: Key turned: nothing, not even a click", in.Given()[2])
}
