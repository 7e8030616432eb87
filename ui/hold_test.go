package ui_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/walk"
	"benchlead/ui"
)

func TestTimesInWords(t *testing.T) {
	for seconds, want := range map[int]string{2: "2 s", 15: "15 s", 60: "1 min", 90: "1.5 min", 600: "10 min", 3600: "60 min", 10800: "3 h"} {
		require.Equal(t, want, ui.HoldWords(seconds))
	}
	p := ui.Prompt{Stage: walk.AtTest, Hold: []int{15, 180}}
	require.Equal(t, "Time is up. Next: 3 min.", p.TimeUp(0))
	require.Equal(t, "Time is up. Read the meter now.", p.TimeUp(1))
	p.Choices = []string{"1 It turns"}
	require.Equal(t, "Time is up. Look now.", p.TimeUp(1))
	require.Equal(t, "Time is up. Go on with the work.", ui.Prompt{Stage: walk.AtWork, Hold: []int{60}}.TimeUp(0))
}
