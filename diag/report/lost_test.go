package report

import (
	"io"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/tree"
)

// A record outlives its trees: a job whose system nobody knows any more is still
// handed over, with ids where titles were.
func TestAJobOutlivesItsTrees(t *testing.T) {
	full := fullLamp(t)
	d, err := Build(&tree.Library{Digest: "other"}, 14, handedBack(t, full), noOffers)
	require.NoError(t, err)
	require.Equal(t, "As it was said then.", d.Now)
	require.Equal(t, lostVerdict, d.Verdict)
	require.Equal(t, StateReady, d.State)
	noNilSlice(t, reflect.ValueOf(d), "document")
	for name, write := range everyForm {
		harmless(t, written(t, write, d))
		require.NotEmpty(t, written(t, write, d), name)
	}
	text := atOnce(written(t, Text, d))
	for _, want := range []string{
		"green lamp, lamp", "Complaint: dark", "Label: volts: 1.5", "[x] new-cell [x] Fit it.", "1 x cell, original, 2.00 each, in hand; shelf 4", "[x] hinge",
		"- cell_lit where: dc volts reads: 0.310 V after new-cell: 1.480 V", "Out: bulb, piece 3-9", "trees were changed", "what was found can't be shown any more",
	} {
		require.Contains(t, text, want)
	}
	owner := atOnce(written(t, OwnerText, d))
	for _, want := range []string{"[x] New-cell.", "Part fitted: cell (new", "= Total: 6.15 USD", "90 days", "What was found can't be shown any more."} {
		require.Contains(t, owner, want)
	}
	require.Contains(t, Message(d), "To pay: 6.15 USD with tax.")
}

// An open job of a system that nobody knows concludes nothing.
func TestAnOpenJobWithoutItsTreesConcludesNothing(t *testing.T) {
	d, err := Build(&tree.Library{}, 14, log(append(foundDead(t, fullLamp(t)), newCell(), ticked("new-cell"))...), noOffers)
	require.NoError(t, err)
	require.Empty(t, d.Now)
	require.Equal(t, lostVerdict, d.Verdict)
	require.Empty(t, d.Findings)
	require.NotContains(t, written(t, OwnerText, d), "ruled out")
}

// A test that the trees dropped keeps its answers.
func TestADroppedTestKeepsItsAnswers(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(append(foundDead(t, lib), volts(t, "gone_test", "1.23"), seen("gone_look", "as new"))...))
	last := d.Readings[len(d.Readings)-1]
	require.Equal(t, []string{"gone_test", "gone_test", "V", "1.23 V"}, []string{last.Test, last.Title, last.Unit, last.Taken[0].Value})
	require.Equal(t, "as new", d.Readings[len(d.Readings)-2].Taken[0].Value)
	require.Contains(t, written(t, CSV, d), "gone_look")
}

// everyForm is every renderer of a document.
var everyForm = map[string]func(io.Writer, Document) error{
	"bench text": Text, "bench page": HTML, "bench object": JSON, "readings": CSV, "owner text": OwnerText, "owner page": Owner,
	"message": MessageText, "tag text": TagText, "tag page": Tag,
}
