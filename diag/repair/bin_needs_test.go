package repair

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/tree"
)

// needy is a pack that has to show something in each way that there is.
func needy() *tree.Library {
	lib, _ := bench()
	p := lib.Parts["pack"]
	p.BinNeeds = []string{"Never below its floor.", "At least 80 % of the label", "Holds its volts for 24 hours", "Held 13 to 15 V"}
	p.BinFigures = map[string]tree.NeedFigure{
		p.BinNeeds[1]: {Unit: "%", Least: 80, Most: 130}, p.BinNeeds[2]: {Unit: "h", Least: 24, Most: 1e9}, p.BinNeeds[3]: {Unit: "V", Least: 13, Most: 15},
	}
	return lib
}

func TestANeedIsMetAndNotOnlySpokenOf(t *testing.T) {
	good := []string{"1: yes, 9.6 V at the least", "2: 84 % by a full discharge", "3: 26 h, 11.9 V then 11.8 V", "4: 14.1 V"}
	for name, c := range map[string]struct {
		at         int
		shown, say string // say is empty where it is met
	}{
		"as it is":                {0, good[0], ""},
		"yes alone":               {0, "1: YES", ""},
		"at the edge":             {1, "2: 80%", ""},
		"a comma for the point":   {1, "2: 80,5 percent", ""},
		"in hours":                {2, "3: 24 hours", ""},
		"its number alone":        {0, "1", "1 Never below its floor (what was read is missing; if it is so, write \"1: yes\""},
		"its words alone":         {0, "never below its floor.", "what was read is missing"},
		"no yes":                  {0, "1: 9.6 V", "not confirmed with yes"},
		"yes in another word":     {0, "1: yesterday 9 V", "not confirmed with yes"},
		"it went below once":      {0, "1: went to 0.4 V once", `"once" tells against it`},
		"yes, but":                {0, "1: yes, but it sank to 4 V", `"but" tells against it`},
		"it isn't":                {0, "1: yes it isn't", `tells against it`},
		"too little":              {1, "2: 61 %", "61 % is below 80 %"},
		"one of two too little":   {1, "2: 84 %, then 79.9 %", "79.9 % is below 80 %"},
		"less than nothing":       {1, "2: -90 %", "-90 % is below 80 %"},
		"more than there can be":  {1, "2: 840 %", "840 % is above 130 %"},
		"another unit":            {1, "2: 4.1 Ah", "names no reading of 80 to 130 %"},
		"yes is no figure":        {1, "2: yes", "names no reading"},
		"no unit":                 {1, "2: 84", "names no reading"},
		"it fell":                 {2, "3: 24 h, fell to 9 V", `"fell" tells against it`},
		"amp-hours are not hours": {2, "3: 48 Ah", "names no reading"},
		"not so long":             {2, "3: 23.9 h", "write \"3:\" and what was read, as in 24 h"},
		"too high":                {3, "4: 15.1 V", "15.1 V is above 15 V"},
		"millivolts":              {3, "4: 14 mV", "names no reading of 13 to 15 V"},
	} {
		t.Run(name, func(t *testing.T) {
			u := Used{Part: "pack", Shown: append([]string{}, good...), Asking: "30"}
			u.Shown[c.at] = c.shown
			_, err := edited(t).ToBin(needy(), u)
			if c.say == "" {
				require.NoError(t, err)
				return
			}
			require.ErrorContains(t, err, c.say)
			require.ErrorContains(t, err, fmt.Sprintf("shown on it: %d ", c.at+1), "it alone is told")
		})
	}
}

// A good answer beside it does not make up for a bad one.
func TestTwoAnswersToOneNeedBothHaveToMeetIt(t *testing.T) {
	part := needy().Parts["pack"]
	typed := shown(part, []string{"2: 61 %", "2: 84 %", "1: yes", "3: 24 h", "4: 14 V"})
	require.Len(t, NotShown(part, typed), 1)
	require.Empty(t, NotShown(part, typed[1:]))
}

// Whatever a bench reads, a piece goes in exactly when the figure lies between the ends.
func TestTheFigureDecides(t *testing.T) {
	f := tree.NeedFigure{Unit: "V", Least: 13, Most: 15}
	rapid.Check(t, func(t *rapid.T) {
		tenths := rapid.IntRange(0, 300).Draw(t, "tenths")
		text := fmt.Sprintf("read %d.%d V on it", tenths/10, tenths%10)
		require.Equal(t, tenths >= 130 && tenths <= 150, outside(f, text) == "", text)
	})
}
