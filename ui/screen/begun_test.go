package screen

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
)

// An answer of the owner that a key has begun asks who, and is never wiped by what is
// typed after an error.
func TestTheOwnersAnswerAsksWho(t *testing.T) {
	d := drive(t, bench(t, small))
	verdict(d)
	d.keys("1 <enter> z9 <enter>")
	require.NotEmpty(t, d.wrong)
	d.keys("<esc> q9 <enter> <esc>")
	d.line("a")
	require.Empty(t, d.wrong, "the error was about another line")
	begun := d.input.text()
	require.Equal(t, "approve "+d.step.prompt.Total+" ", begun)
	require.Contains(t, d.View(), "who said so, then Enter")
	d.keys("<enter>")
	require.Contains(t, d.wrong, "who said so")
	require.Equal(t, begun, d.input.text())
	d.keys("z <enter>")
	require.Contains(t, d.wrong, "two letters")
	require.Equal(t, begun, d.input.text(), "a letter that was meant for a key is gone")
	d.keys("Tork <enter>")
	require.NotEqual(t, walk.AtEstimate, d.step.prompt.Stage)
	events := d.session.Events()
	require.Equal(t, "Tork", events[len(events)-1].Asked.Who)
}

func TestALetterIsNoNameAndNoReason(t *testing.T) {
	for key, begun := range map[string]string{"d": "declined ", "c": "pass "} {
		d := drive(t, bench(t, small))
		verdict(d)
		d.keys("1 <enter> " + key + " <enter>")
		before := len(d.session.Events())
		require.Contains(t, d.View(), "then Enter")
		for _, typed := range []string{"<enter>", "z <enter>"} {
			d.keys(typed)
			require.NotEmpty(t, d.wrong)
			require.Equal(t, begun, d.input.text())
		}
		require.Len(t, d.session.Events(), before)
		d.keys("Tork <enter>")
		require.Greater(t, len(d.session.Events()), before)
	}
}
