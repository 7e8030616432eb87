package report

import (
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"benchlead/diag/job"
	"benchlead/diag/repair"
)

var noOffers = repair.Offers{}

func TestMessages(t *testing.T) {
	lib := fullLamp(t)
	back := job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{
		Path: repair.ChooseReturn, Repairs: []string{}, Quote: job.Quote{Currency: "USD", Other: "3.00", Total: "3.00"},
	}}
	for _, c := range []struct {
		name   string
		events []job.Event
		want   string
	}{
		{"being tested", []job.Event{intake(lib)}, "green lamp, job 14: It is being tested. We write when we know more. Next we test this: cell while lit."},
		{
			"found", append(foundDead(t, lib), passed("bulb_lit")),
			"green lamp, job 14: Found: the cell is dead. The cheapest way to repair it comes to 6.15 USD with tax, 5 minutes of work. Shall we? " +
				"More may come: 2 things are not tested yet. 2 possible faults were not tested for; the report names them.",
		},
		{
			"asked", append(foundDead(t, lib), newCell()),
			"green lamp, job 14: Found: the cell is dead. We propose: fit a cell. It comes to 6.15 USD with tax. May we? Please answer yes or no. " +
				"2 possible faults were not tested for; the report names them.",
		},
		{
			"above what was approved", append(foundDead(t, lib), newCell(), said(true, "5.00")),
			"green lamp, job 14: Found: the cell is dead. We propose: fit a cell. It comes to 6.15 USD with tax. That is more than the 5.00 USD you approved. " +
				"May we? Please answer yes or no. 2 possible faults were not tested for; the report names them.",
		},
		{
			"not approved", append(foundDead(t, lib), newCell(), said(false, "")),
			"green lamp, job 14: Found: the cell is dead. You did not approve the estimate. Please call us: shall it go back as it is?",
		},
		{
			"proved", handedBack(t, lib),
			"green lamp, job 14: It is repaired and tested. Found: the cell is dead. Done: fit a cell. To pay: 6.15 USD with tax. " +
				"You can pick it up. Please bring this number: 14.",
		},
		{
			"unsafe", unsafeLamp(t),
			"NOT TO BE USED: green lamp, job 14. Glass over the bulb: missing. It is not safe. Do not start it. Found: the cell is dead. Done: fit a cell. " +
				"To pay: 6.15 USD with tax. Please call us before you pick it up.",
		},
		{
			"returned", append(foundDead(t, lib), back, closed(job.Unrepaired)),
			"green lamp, job 14: It was not repaired. Do not use it: its safety functions are not tested. Found: the cell is dead. To pay: 3.00 USD. " +
				"You can pick it up. Please bring this number: 14.",
		},
		{
			"returned, with the repair declined", append(foundDead(t, lib), newCell(), said(false, ""), closed(job.Unrepaired)),
			"green lamp, job 14: It was not repaired. Do not use it: its safety functions are not tested. Found: the cell is dead. No repair was made and none is charged. " +
				"The fee for finding out what is wrong is 3.00 USD. You can pick it up. Please bring this number: 14.",
		},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, Message(build(t, lib, log(c.events...)))) })
	}
}

// Two paths that were carried out are paid together: 6.15 + 18.00 = 24.15.
func TestTwoPathsArePaidTogether(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(append(foundDead(t, lib), newCell(), ticked("new-cell", "cell_lit"), volts(t, "cell_lit", "0.310"),
		candles(), ticked("candle", "glow"), closed(job.NotProved))...))
	require.Contains(t, Message(d), "To pay: 24.15 USD with tax.")
	require.Contains(t, Message(d), "Done: fit a cell; turn it into a candle holder.")
	require.Contains(t, atOnce(written(t, OwnerText, d)), "= All together: 24.15 USD")
	require.Len(t, d.Earlier, 1)
	require.Contains(t, atOnce(written(t, Text, d)), "PATH BEFORE: REPAIR [x] Fit a cell")
}

// What is read to the owner is the price of all paths: 6.15 + 18.00 = 24.15.
func TestThePhoneSaysTheTotalOfAllPaths(t *testing.T) {
	lib := fullLamp(t)
	events := append(foundDead(t, lib), newCell(), ticked("new-cell", "cell_lit"), volts(t, "cell_lit", "0.310"))
	require.Contains(t, build(t, lib, log(events...)).Phone[1], "The repair comes to 6.15 USD with tax")
	d := build(t, lib, log(append(events, candles())...))
	require.Contains(t, d.Phone[1], "comes to 24.15 USD with tax. Of that, this repair is 18.00 USD")
}

// A choice that nothing followed is no part of the bill.
func TestAChoiceThatWasChangedCostsNothing(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, log(append(foundDead(t, lib), candles(), newCell(), ticked("new-cell", "cell_lit"), closed(job.NotProved))...))
	require.Empty(t, d.Earlier)
	require.Contains(t, Message(d), "To pay: 6.15 USD with tax.")
}

func TestAMessageFitsWhateverIsInIt(t *testing.T) {
	lib := fullLamp(t)
	base := []Document{build(t, lib, handedBack(t, lib)), build(t, lib, unsafeLamp(t)), build(t, lib, log(foundDead(t, lib)...))}
	rapid.Check(t, func(rt *rapid.T) {
		d := rapid.SampledFrom(base).Draw(rt, "job")
		words := func(name string) string {
			return strings.Repeat(rapid.String().Draw(rt, name), rapid.IntRange(0, 60).Draw(rt, name+" times"))
		}
		d.Machine = words("machine")
		d.Findings = append([]Finding{{Title: words("fault")}}, d.Findings...)
		if len(d.NotToUse) > 0 {
			d.NotToUse = []string{words("why")}
		}
		text := Message(d)
		require.LessOrEqual(rt, utf8.RuneCountInString(text), MessageLength)
		require.NotContains(rt, text, "\n")
		if len(d.NotToUse) > 0 {
			require.True(rt, strings.HasPrefix(text, "NOT TO BE USED: "))
		}
	})
}

func TestShorten(t *testing.T) {
	require.Equal(t, "abcdef", shorten(" abcdef ", 6))
	require.Equal(t, "abc..", shorten("abcdef", 5))
	require.Equal(t, "äö..", shorten("äöüßx", 4))
}

func TestHandBackWritersReportAFullDisk(t *testing.T) {
	for _, write := range []func(io.Writer, Document) error{Owner, OwnerText, MessageText, Tag, TagText} {
		require.ErrorContains(t, write(broken{}, Document{}), "disk full")
	}
}
