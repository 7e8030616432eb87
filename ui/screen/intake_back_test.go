package screen

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/ui"
)

// "undo" and "back" go to the question before; they are no words to look for.
func TestTheIntakeIsGoneBackInByAWord(t *testing.T) {
	for _, word := range []string{"undo", "back", "Back"} {
		p, in := &intakePage{question: ui.Question{Title: "Which of these", Before: "3"}}, &input{}
		for _, k := range keysOf(word) {
			require.Equal(t, action{}, p.press(k, in))
		}
		require.Equal(t, action{deed: back}, p.press(key{name: "enter"}, in))
		require.Equal(t, "3", in.text(), "what was answered before stands to be kept")
	}
	p, in := &intakePage{question: ui.Question{Title: "Which of these"}}, &input{}
	in.set("backfires")
	require.Equal(t, action{deed: answer, text: "backfires"}, p.press(key{name: "enter"}, in))
}
