package ui_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// atClamp is a job at a test that is read with a clamp, with a meter and in a shop.
func atClamp(t *testing.T, meter string, owned, tools []string) *ui.Session {
	t.Helper()
	b := bench(t)
	b.Library, b.Meters, b.Tools = shippedLibrary(t), owned, tools
	s, err := ui.Begin(t.Context(), b, job.Intake{System: "key-start-12v", Complaint: "slow", Meter: b.Library.Instruments(meter), Celsius: 20})
	require.NoError(t, err)
	enter(t, s, "take starter_amps")
	if s.Position().Stage == walk.AtSafe {
		enter(t, s, "yes")
	}
	require.Equal(t, "starter_amps", s.Position().Test.ID)
	return s
}

// Who has no clamp is told so where one is wanted, and with what it goes on; passing the
// step then leads to just that.
func TestATestForAClampSaysHowItGoesOnWithout(t *testing.T) {
	s := atClamp(t, "pocket", nil, nil)
	said := s.Prompt().Tell[0]
	require.True(t, strings.HasPrefix(said, "No clamp is among"), said)
	_, next, ok := strings.Cut(said, ": it goes on with \"")
	require.True(t, ok, said)
	enter(t, s, "pass no clamp")
	require.Contains(t, s.Prompt().Title, strings.TrimSuffix(next, "\"."))

	for name, has := range map[string]*ui.Session{
		"the job's meter": atClamp(t, "clamp", nil, nil), "a meter of the shop": atClamp(t, "pocket", []string{"pocket", "clamp"}, nil),
		"a tool of the shop": atClamp(t, "pocket", nil, []string{"Clamp"}),
	} {
		require.NotContains(t, strings.Join(has.Prompt().Tell, "\n"), "No clamp", name)
	}
}
