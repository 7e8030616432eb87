package report

import (
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

// unsafeLamp was repaired, and its glass is missing.
func unsafeLamp(t testing.TB) []job.Event {
	t.Helper()
	return log(append(foundDead(t, fullLamp(t)), newCell(), ticked("new-cell", "cell_lit"), volts(t, "cell_lit", "1.480"),
		seen("guard", "gone"), closed(job.Unsafe))...)
}

// A machine that nobody may use says so before anything else, in every form.
func TestAnUnsafeClosingLeadsEveryForm(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, unsafeLamp(t))
	require.Equal(t, []string{"Glass over the bulb: missing."}, d.NotToUse)
	for name, write := range map[string]func(io.Writer, Document) error{"bench": Text, "owner": OwnerText, "message": MessageText, "tag": TagText} {
		lead, _, _ := strings.Cut(strings.TrimLeft(written(t, write, d), "!\n "), "\n")
		require.Contains(t, lead, "NOT TO BE USED", name)
	}
	for name, write := range map[string]func(io.Writer, Document) error{"bench": HTML, "owner": Owner, "tag": Tag} {
		_, body, _ := strings.Cut(written(t, write, d), "<body>")
		at := strings.Index(body, "NOT TO BE USED")
		require.Positive(t, at, name)
		for _, later := range []string{"<h1", "green lamp", "<table", "It stays dark"} {
			if i := strings.Index(body, later); i >= 0 {
				require.Less(t, at, i, "%s: %s", name, later)
			}
		}
		require.Contains(t, body, "Glass over the bulb: missing.", name)
	}
	var back map[string]any
	require.NoError(t, json.Unmarshal([]byte(written(t, JSON, d)), &back))
	require.Equal(t, []any{"Glass over the bulb: missing."}, back["not_to_be_used"])
	require.Equal(t, StateUnsafe, back["state"])
	require.Contains(t, d.Phone[0], "It must not be used.")
	require.NotContains(t, Message(d), "You can pick it up.")
}

func TestWhoMayNotUseIt(t *testing.T) {
	lib := fullLamp(t)
	bypass := closed(job.Unrepaired)
	bypass.Closed.Found = []string{"interlock.bypassed"}
	unsafe := closed(job.Unsafe)
	unsafe.Closed.Why = "it smells of fuel"
	gone, other := seen("guard", "gone"), *lib
	other.Digest = "changed"
	for _, c := range []struct {
		name   string
		events []job.Event
		want   []string
	}{
		{"found dead", foundDead(t, lib), nil},
		{"a safety function failed, and the job is open", append(foundDead(t, lib), gone), []string{"Glass over the bulb: missing."}},
		{"closed as proved before other trees", append(foundDead(t, lib), gone, closed(job.Proved)), nil},
		{"taken apart", append(foundDead(t, lib), gone, closed(job.PartedOut)), nil},
		{"closed as unsafe, nothing tested", []job.Event{intake(lib), unsafe}, []string{"Not tested: glass over the bulb.", "It smells of fuel."}},
		{"a bypass that today's trees don't know", []job.Event{intake(lib), bypass}, []string{"interlock.bypassed."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := Build(&other, 14, log(c.events...), noOffers)
			require.NoError(t, err)
			require.ElementsMatch(t, c.want, d.NotToUse)
		})
	}
}
