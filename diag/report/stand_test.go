package report

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
	"benchlead/diag/repair"
)

// Where a job stands, as its tag says it.
func TestStates(t *testing.T) {
	lib := fullLamp(t)
	order := newCell()
	order.Chosen.Lines[0].InHand = false
	leave := func(path string) job.Event {
		return job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: path, Repairs: []string{}}}
	}
	left := func(service string) job.Event {
		return job.Event{Kind: job.KindServed, Served: &job.Served{Service: service, Left: true}}
	}
	lined := job.Event{Kind: job.KindLined, Lined: &job.Lined{Repair: "new-cell", Line: "Fit it."}}
	heeded := job.Event{Kind: job.KindHeeded, Heeded: &job.Heeded{Caution: "leak", Test: "cell_lit"}}
	hands := job.Event{Kind: job.KindSafe, Safe: &job.Safe{Confirmed: map[string]string{"hands": "clear"}}}
	begun := append(foundDead(t, lib), heeded, hands, passed("bulb_lit"))
	with := func(more ...job.Event) []job.Event { return append(begun[:len(begun):len(begun)], more...) }
	mended := []job.Event{newCell(), said(true, "10"), ticked("new-cell", "cell_lit"), volts(t, "cell_lit", "1.480")}
	for _, c := range []struct {
		name        string
		events      []job.Event
		state, next string
	}{
		{"just in", []job.Event{intake(lib)}, StateTests, "Cell while lit, to be tested"},
		{"a danger was shown", foundDead(t, lib), StateTests, "Look at the danger: Leaking cell"},
		{"found", begun, StateApproval, "Tell the owner what it costs, and ask"},
		{"chosen", with(newCell()), StateApproval, "Tell the owner what it costs, and ask"},
		{"declined", with(newCell(), said(false, "")), StateRefused, "Ask the owner what becomes of it"},
		{"above what was approved", with(newCell(), said(true, "6.14")), StateApproval, "Tell the owner what it costs, and ask"},
		{"just what was approved", with(newCell(), said(true, "6.15")), StateRepair, "Fit a cell"},
		{"approved, to be ordered", with(order, said(true, "10")), StateParts, "Wait for cell"},
		{"ordered, and begun all the same", with(order, said(true, "10"), lined), StateRepair, "Fit a cell"},
		{"done", with(mended[:3]...), StateProof, "Cell while lit, to be proved"},
		{"usual work", with(append(mended, seen("glow", "glows"))...), StateProof, "Usual work before it is handed back, done or left out"},
		{"proved but for the safety", with(append(mended, seen("glow", "glows"), left("hinge"), left("polish"))...), StateProof, "Glass over the bulb, to be proved"},
		{"to be sold", with(leave(repair.ChooseAsIs)), StateForSale, "Close the job"},
		{"to be taken apart", with(leave(repair.ChoosePartOut)), StateForParts, "Close the job"},
		{"to go back", with(leave(repair.ChooseReturn)), StateUnrepaired, "Close the job"},
		{"closed", with(append(mended, seen("guard", "whole"), closed(job.Proved))...), StateReady, "Tell the owner that it can be picked up"},
		{"not proved", with(closed(job.NotProved)), StateNotProved, "Tell the owner that it can be picked up"},
		{"parted", with(closed(job.PartedOut)), StateParted, ""},
		{"unsafe", with(closed(job.Unsafe)), StateUnsafe, "Tell the owner in writing: nobody may use it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := build(t, lib, log(c.events...))
			require.Equal(t, []string{c.state, c.next}, []string{d.State, d.Next})
		})
	}
}

func TestTheTag(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, handedBack(t, lib))
	require.Equal(t, "Job: 14 Machine: green lamp Complaint: It stays dark State: ready Next: Tell the owner that it can be picked up "+
		"Dates: in 1 January 1970, as of 1 January 1970", atOnce(written(t, TagText, d)))
	page := written(t, Tag, d)
	quiet(t, page)
	require.Contains(t, page, "@page { size: 100mm 62mm")
	require.Contains(t, page, `<div class="state">ready</div>`)
	require.NotContains(t, page, "UNSAFE")
}

func TestATagHoldsNoMoreThanItsLabel(t *testing.T) {
	lib := fullLamp(t)
	d := build(t, lib, unsafeLamp(t))
	long := ""
	for range 50 {
		long += "long words "
	}
	d.Machine, d.Complaint, d.Next, d.NotToUse = long, long, long, []string{long}
	tag := tagOf(d)
	for text, most := range map[string]int{tag.Machine: tagMachine, tag.Complaint: tagComplaint, tag.Next: tagNext, tag.Why: tagWhy} {
		require.LessOrEqual(t, len(text), most)
		require.Contains(t, text, "long words")
	}
}

// A machine that goes back without its safety functions tested says so on its tag too,
// in both forms, and the message says the same.
func TestTheTagOfAMachineThatGoesBackUntested(t *testing.T) {
	lib := fullLamp(t)
	back := job.Event{Kind: job.KindChosen, Chosen: &job.Chosen{Path: repair.ChooseReturn, Repairs: []string{}, Quote: job.Quote{Currency: "USD", Total: "0.00"}}}
	d := build(t, lib, log(append(foundDead(t, lib), back, closed(job.Unrepaired))...))
	require.Contains(t, Message(d), "Do not use it: its safety functions are not tested.")
	text := atOnce(written(t, TagText, d))
	require.Contains(t, text, "NOT TESTED - DO NOT USE IT Why: Its safety functions are not tested. Job: 14")
	page := written(t, Tag, d)
	quiet(t, page)
	require.Contains(t, page, `<div class="state">NOT TESTED<br>DO NOT USE IT</div>`)
	for name, write := range map[string]func(io.Writer, Document) error{"owner, text": OwnerText, "owner, page": Owner, "bench": Text} {
		says := written(t, write, d)
		if _, body, ok := strings.Cut(says, "<body"); ok {
			says = body
		}
		at := strings.Index(says, "DO NOT USE IT")
		require.GreaterOrEqual(t, at, 0, name)
		require.Less(t, at, strings.Index(says, "Report of job"), "%s: before anything else", name)
	}
	require.Contains(t, page, "<div>Its safety functions are not tested.</div>")

	for i := range d.Safety {
		d.Safety[i].State = SafetyProved
	}
	require.NotContains(t, written(t, TagText, d), "DO NOT USE")
	require.NotContains(t, written(t, Tag, d), "DO NOT USE")
}
