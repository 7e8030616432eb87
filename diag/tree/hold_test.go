package tree

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTimesThatATextSays(t *testing.T) {
	for text, want := range map[string][]int{
		"Hold the key for three seconds.":                            {3},
		"Load on for 15 seconds, then read.":                         {15},
		"Half a minute, read, load off.":                             {30},
		"A quarter of an hour at working speed.":                     {900},
		"Lamps on for fifteen seconds, off. Wait three\n  minutes.":  {15, 180},
		"Rest it 3 h, or 10 min.":                                    {10800, 600},
		"Two full minutes.":                                          {120},
		"Forty-five minutes on the charger, forty seconds of spin.":  {2700, 40},
		"A second minute is no second hour meter.":                   {1}, // a second: more than is meant, never less
		"Five at most. The twenty of them stood for seconds, not 9.": nil,
	} {
		require.Equal(t, want, saidSeconds(text), text)
	}
}

// A test has its own times, or those of its setups and its state in the order in
// which they are told.
func TestTimesOfATest(t *testing.T) {
	s := &System{
		States: []State{{ID: "held", Powered: true, Hold: []int{2}}, {ID: "dead", Hold: []int{60}}, {ID: "off"}},
		Setups: []Setup{{ID: "lamp", Hold: []int{15, 180}}, {ID: "plain"}},
	}
	require.Equal(t, []int{15, 180, 2}, s.Holds(&Test{State: "held", With: []string{"plain", "lamp"}}))
	require.Equal(t, []int{60, 15, 180}, s.Holds(&Test{State: "dead", With: []string{"lamp"}}), "what makes it dead comes first")
	require.Equal(t, []int{5}, s.Holds(&Test{State: "held", With: []string{"lamp"}, Hold: []int{5}}))
	require.Empty(t, s.Holds(&Test{State: "off"}))
}

// notCounted are times in the shipped texts that nobody waits for.
var notCounted = regexp.MustCompile("(?i)" + strings.Join([]string{
	// Limits.
	`\w+ (seconds|minutes?) at most`, `\w+ seconds, no longer`, `within (a|two) (minutes?|seconds)`, `in the first five seconds`,
	`up to half an hour`, `gets hot - ten seconds`, `One minute in all`,
	// Looking round.
	`three minutes, (key off|pack out)`, `three minutes\. Strap`,
	// Done before, or asked of the owner.
	`two hours in a warm room`, `An hour or more on a charger`, `and ten minutes of rest off it`, `rested for ten minutes`,
	`has fed it three seconds already`, `after twenty minutes of mowing`,
	// After the answer, or between several tries.
	`then a minute (of rest|off)`, `five times, a minute apart`,
	// The longer or the other of two ways.
	`a bulb across the posts for a minute`, `three hours, or`, `their three minutes`,
	// Before a stop-watch, which has the space bar.
	`(full speed for )?six minutes( at full speed)?\. From`,
}, "|"))

// TestEveryTimeThatIsToldIsCounted: whoever adds a time to a text of the shipped
// trees gives it a countdown, or a reason here.
func TestEveryTimeThatIsToldIsCounted(t *testing.T) {
	lib, issues := Open(shipped(t))
	require.NoError(t, issues.Err())
	look := func(what, tell string, hold []int) {
		for _, s := range saidSeconds(notCounted.ReplaceAllString(tell, "")) {
			require.True(t, s < shortestHold || slices.Contains(hold, s), "%s says %d s, which nothing counts: %s", what, s, tell)
		}
	}
	counted := 0
	for _, sys := range lib.Systems {
		for _, s := range sys.States {
			look("state "+s.ID, s.Tell, s.Hold)
		}
		for _, s := range sys.Setups {
			look("setup "+s.ID, s.Tell, s.Hold)
		}
		for _, w := range sys.Work {
			look("work "+w.ID, w.Tell, w.Hold)
			counted += len(w.Hold)
		}
		for _, test := range sys.Tests {
			look(fmt.Sprintf("test %s of %s", test.ID, sys.ID), test.Tell, sys.Holds(test))
			counted += len(sys.Holds(test))
		}
	}
	require.Positive(t, counted)
}
