package record

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"benchlead/diag/job"
)

func at(t *testing.T, when string) int64 {
	t.Helper()
	got, err := time.Parse("2006-01-02 15:04", when)
	require.NoError(t, err)
	return got.UnixMicro()
}

// visit is a machine that was brought; ended "" means it is still here.
func visit(t *testing.T, id int64, machine, owner, opened, ended string, outcome job.Outcome) Card {
	c := Card{Summary: job.Summary{ID: id, Machine: machine, OpenedAt: at(t, opened), Open: outcome == "", Outcome: outcome}, Owner: owner}
	if ended != "" {
		c.EndedAt = at(t, ended)
	}
	return c
}

func TestComebacks(t *testing.T) {
	first := visit(t, 1, "Grey mower", "Ticket 7", "2026-03-01 09:00", "2026-03-02 09:00", job.Proved)
	for _, c := range []struct {
		name string
		now  Card
		was  Card
		back bool
	}{
		{"on the last day", visit(t, 2, "grey  MOWER", "ticket, 7", "2026-05-31 09:00", "", ""), first, true},
		{"a minute too late", visit(t, 2, "Grey mower", "Ticket 7", "2026-05-31 09:01", "", ""), first, false},
		{"another machine", visit(t, 2, "Green mower", "Ticket 7", "2026-03-09 09:00", "", ""), first, false},
		{"another owner", visit(t, 2, "Grey mower", "Ticket 8", "2026-03-09 09:00", "", ""), first, false},
		{"before it was handed back", visit(t, 2, "Grey mower", "Ticket 7", "2026-03-02 08:59", "", ""), first, false},
		{"it was not repaired", visit(t, 2, "Grey mower", "Ticket 7", "2026-03-09 09:00", "", ""), visit(t, 1, "Grey mower", "Ticket 7", "2026-03-01 09:00", "2026-03-02 09:00", job.Unrepaired), false},
		{"repaired, not proved", visit(t, 2, "Grey mower", "Ticket 7", "2026-03-09 09:00", "", ""), visit(t, 1, "Grey mower", "Ticket 7", "2026-03-01 09:00", "2026-03-02 09:00", job.NotProved), true},
		{"nobody knows whose", visit(t, 2, "Grey mower", " ", "2026-03-09 09:00", "", ""), visit(t, 1, "Grey mower", " ", "2026-03-01 09:00", "2026-03-02 09:00", job.Proved), false},
		{"nobody knows which", visit(t, 2, "", "Ticket 7", "2026-03-09 09:00", "", ""), visit(t, 1, "", "Ticket 7", "2026-03-01 09:00", "2026-03-02 09:00", job.Proved), false},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := comebacks([]Card{c.now, c.was}, 90)
			require.Equal(t, c.back, got.are[2])
			require.Equal(t, c.back, got.had[1])
			require.False(t, got.are[1] || got.had[2])
		})
	}
}

func TestCount(t *testing.T) {
	a := visit(t, 1, "Mower", "Seven", "2026-01-31 23:59", "2026-02-01 10:00", job.Proved)
	a.Faults, a.Repairs, a.Quoted, a.Spent = []string{"cable.ground"}, []string{"clean"}, 25, 40*minute
	b := visit(t, 2, "Mower", "Seven", "2026-02-10 09:00", "2026-02-11 09:00", job.NotProved)
	b.Faults, b.Repairs, b.Quoted, b.System = []string{"bat.weak", "cable.ground"}, []string{"clean"}, 30, "key"
	c := visit(t, 3, "Pump", "Eight", "2026-02-20 09:00", "", "")
	c.Faults, c.Spent = []string{"bat.weak"}, minute/2

	require.Equal(t, Counts{
		All: Sums{Jobs: 3, Closed: 2, Proved: 1, Comebacks: 1, Quoted: 55, QuotedJobs: 2, Bench: 41, BenchJobs: 2},
		Months: []Month{
			{"2026-01", Sums{Jobs: 1, Closed: 1, Proved: 1, Quoted: 25, QuotedJobs: 1, Bench: 40, BenchJobs: 1}},
			{"2026-02", Sums{Jobs: 2, Closed: 1, Comebacks: 1, Quoted: 30, QuotedJobs: 1, Bench: 1, BenchJobs: 1}},
		},
		Faults:  []Line{{ID: "bat.weak", Jobs: 2}, {ID: "cable.ground", System: "key", Jobs: 2, CameBack: 1}},
		Repairs: []Line{{ID: "clean", System: "key", Jobs: 2, CameBack: 1}},
	}, Count([]Card{a, b, c}, Span{Days: 90}))

	// Only February: what the machine came back from lies outside.
	only := Count([]Card{a, b, c}, Span{From: at(t, "2026-02-01 00:00"), To: at(t, "2026-03-01 00:00"), Days: 90})
	require.Equal(t, Sums{Jobs: 2, Closed: 1, Comebacks: 1, Quoted: 30, QuotedJobs: 1, Bench: 1, BenchJobs: 1}, only.All)
	require.Equal(t, []Line{{ID: "clean", System: "key", Jobs: 1}}, only.Repairs)

	require.Zero(t, Count([]Card{a, b, c}, Span{Days: 8}).All.Comebacks, "nearly nine days")
	require.Equal(t, 1, Count([]Card{a, b, c}, Span{Days: 9}).All.Comebacks)
	none := Count(nil, Span{})
	require.NotNil(t, none.Months)
	require.NotNil(t, none.Faults)
	require.NotNil(t, none.Repairs)
}
