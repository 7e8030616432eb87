package line

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/walk"
	"benchlead/ui"
)

// prompted is what the face says of steps, one after another.
func prompted(f *Face, steps ...ui.Prompt) string {
	var out bytes.Buffer
	f.out = &out
	for _, p := range steps {
		f.whole(p)
	}
	return out.String()
}

const (
	acid = "Acid and gas. Glasses and gloves on. No flame."
	turn = "Parts will turn. Hands clear."
	post = "Negative lead: Lead off its post, glasses and gloves on - acid. A spanner from plus to the frame sparks, so it is the first to come off. Its lead goes to the frame or block. Tuck it where it can't spring back."
	fuel = "Fuel: Shut the valve. No valve: pinch the hose."
)

// A caution, and a long line of a card, is said whole the first time; after that its
// title, or what is to be done. One that is new is said whole beside it.
func TestWhatACardHasSaidIsNotSaidWholeAgain(t *testing.T) {
	f := New(strings.NewReader(""), nil)
	card := ui.Prompt{Stage: walk.AtSafe, Title: "Make safe before: Turned by hand", Caution: []string{acid}, Tell: []string{post, fuel}}
	first := prompted(f, card)
	require.Contains(t, first, "Caution: Acid and gas. Glasses and gloves on. No flame.\n")
	require.Contains(t, first, "so it is the first to come off")
	require.False(t, f.short)

	card.Caution = []string{acid, turn}
	second := prompted(f, card)
	require.Contains(t, second, "Caution, as before: Acid and gas.\n")
	require.Contains(t, second, "Caution: Parts will turn. Hands clear.\n", "it is new")
	require.Contains(t, second, "Negative lead: Lead off its post, glasses and gloves on: acid. The rest as before.\n")
	require.Contains(t, second, "Fuel: Shut the valve. No valve: pinch the hose.\n", "what is to be done is said each time")
	require.True(t, f.short, "and how all of it is heard")

	f.repeats("again")
	whole := prompted(f, card)
	for _, l := range []string{"Caution: Acid and gas. Glasses", "Caution: Parts will turn. Hands", "so it is the first"} {
		require.Contains(t, whole, l)
	}
	require.Contains(t, prompted(f, card), "Caution, as before: Acid and gas. Parts will turn.\n")
}

// The cautions of work and of a repair go the same way; a danger is said whole each time.
func TestADangerIsSaidWholeEachTime(t *testing.T) {
	f := New(strings.NewReader(""), nil)
	danger := ui.Prompt{Stage: walk.AtDanger, Title: "STOP: Acid and gas", Caution: []string{acid, turn}}
	for range 2 {
		require.Equal(t, "\nSTOP: Acid and gas.\nCaution: Glasses and gloves on. No flame.\nCaution: Parts will turn. Hands clear.\n", prompted(f, danger))
	}
	for _, p := range []ui.Prompt{
		{Stage: walk.AtWork, Title: "Charge it", Caution: []string{acid}},
		{Stage: walk.AtRepair, Title: "Fit a battery", Care: true, Caution: []string{acid}},
	} {
		require.Contains(t, prompted(f, p), "Caution, as before: Acid and gas.\n")
		require.Contains(t, prompted(New(strings.NewReader(""), nil), p), "Caution: "+acid)
	}
	test := ui.Prompt{Stage: walk.AtTest, Title: "Battery at rest", Caution: []string{acid}}
	require.Contains(t, prompted(f, test), "Caution: "+acid, "a test has only what the test before it said")
	require.Contains(t, prompted(f, test), "Caution, as before: Acid and gas.")
}

// Enter alone confirms nothing. Who types it twice hears once more what is open.
func TestTheSecondEmptyLineSaysTheCardAgain(t *testing.T) {
	b := pump(t)
	b.Store = &job.Memory{}
	_, s := played(t, b, taken+"0.37\nyes\n0\n")
	require.Equal(t, walk.AtSafe, s.Position().Stage)
	open := s.Prompt().Tell[0]
	for typed, times := range map[string]int{"\n": 1, "\n\n": 2, "\n\n\n": 2, "\n\n\n\n": 3, "\nwhy\n\n": 1} {
		var out bytes.Buffer
		require.ErrorIs(t, New(strings.NewReader(typed), &out).Walk(t.Context(), s), ErrEnd)
		require.Equal(t, times, strings.Count(out.String(), spoken(open)), "%q: %s", typed, out.String())
		require.Equal(t, walk.AtSafe, s.Position().Stage)
	}
}
