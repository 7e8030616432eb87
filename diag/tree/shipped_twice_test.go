package tree

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What the state and the setups of a test tell already, its own text doesn't say again:
// who reads it with a probe in each hand reads each sentence once.
func TestNoTestSaysAgainWhatItsStateTells(t *testing.T) {
	_, lib, _ := shippedOutlined(t)
	// A clause that is the whole point of the step, or the beginning of an order of steps.
	meant := map[string]bool{"gen_alone": true, "reverse_blade": true, "mow_try": true, "hot_spark": true, "try_in_gear": true}
	ends := regexp.MustCompile(`[.?]\s+`)
	for _, s := range lib.Systems {
		for _, x := range s.Tests {
			if meant[x.ID] {
				continue
			}
			before := " "
			for _, id := range x.With {
				before += plainWords(s.Setup(id).Tell) + " "
			}
			if st := s.State(x.State); st != nil {
				before += plainWords(st.Tell) + " "
			}
			for _, sentence := range ends.Split(strings.TrimRight(x.Tell, "."), -1) {
				said := plainWords(sentence)
				if strings.Count(said, " ") >= 2 {
					require.NotContains(t, before, " "+said+" ", "%s %s", s.ID, x.ID)
				}
			}
		}
	}
}

// plainWords are the words of a text in lower case with a space between.
func plainWords(text string) string {
	return strings.Join(regexp.MustCompile(`[a-z0-9']+`).FindAllString(strings.ToLower(text), -1), " ")
}
