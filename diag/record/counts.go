package record

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"benchlead/diag/job"
)

// Span is what is counted: jobs taken in from From up to To (not included;
// microseconds since 1970 UTC, 0: no bound), and within how many days a machine
// that is brought again counts as come back.
type Span struct {
	From, To int64
	Days     int
}

// Sums are the counts of some jobs. Comebacks are those that were come-backs:
// the same machine of the same owner, brought again within the days of the Span
// after a repair was handed back. Minutes are sums over the jobs of which they
// are known, and of how many those are.
type Sums struct {
	Jobs       int `json:"jobs"`
	Closed     int `json:"closed"`
	Proved     int `json:"proved"`
	Comebacks  int `json:"comebacks"`
	Quoted     int `json:"quoted_minutes"`
	QuotedJobs int `json:"quoted_jobs"`
	Bench      int `json:"bench_minutes"`
	BenchJobs  int `json:"bench_jobs"`
}

// Month is the jobs that were taken in in one month, "2006-01", UTC.
type Month struct {
	Month string `json:"month"`
	Sums
}

// Line is one fault or repair: in how many jobs it was found or done, and after
// how many of them the machine came back.
type Line struct {
	ID       string `json:"id"`
	System   string `json:"system"` // of the last of these jobs
	Jobs     int    `json:"jobs"`
	CameBack int    `json:"came_back"`
}

// Counts are what the jobs of a span came to. Months are in order, without those
// in which nothing was taken in; faults and repairs begin with the most frequent.
type Counts struct {
	All     Sums    `json:"all"`
	Months  []Month `json:"months"`
	Faults  []Line  `json:"faults"`
	Repairs []Line  `json:"repairs"`
}

// Count counts jobs. cards are those of the whole record: a machine may have come
// back from a job outside the span. Their marks are not needed.
func Count(cards []Card, span Span) Counts {
	back := comebacks(cards, span.Days)
	out := Counts{Months: []Month{}}
	months, faults, repairs := map[string]*Sums{}, map[string]*Line{}, map[string]*Line{}
	for _, c := range cards {
		if !(Query{From: span.From, To: span.To}).Fits(c) {
			continue
		}
		month := time.UnixMicro(c.OpenedAt).UTC().Format("2006-01")
		if months[month] == nil {
			months[month] = &Sums{}
		}
		out.All.add(c, back.are[c.ID])
		months[month].add(c, back.are[c.ID])
		tally(faults, c.Faults, c.System, back.had[c.ID])
		tally(repairs, c.Repairs, c.System, back.had[c.ID])
	}
	for month, sums := range months {
		out.Months = append(out.Months, Month{month, *sums})
	}
	slices.SortFunc(out.Months, func(a, b Month) int { return strings.Compare(a.Month, b.Month) })
	out.Faults, out.Repairs = ranked(faults), ranked(repairs)
	return out
}

func (s *Sums) add(c Card, comeback bool) {
	s.Jobs++
	s.Closed += one(!c.Open)
	s.Proved += one(c.Outcome == job.Proved)
	s.Comebacks += one(comeback)
	if c.Quoted > 0 {
		s.Quoted += c.Quoted
		s.QuotedJobs++
	}
	if spent := c.minutes(); spent > 0 {
		s.Bench += int(spent)
		s.BenchJobs++
	}
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

func tally(lines map[string]*Line, ids []string, system string, cameBack bool) {
	for _, id := range ids {
		if lines[id] == nil {
			lines[id] = &Line{ID: id}
		}
		lines[id].System = system
		lines[id].Jobs++
		lines[id].CameBack += one(cameBack)
	}
}

func ranked(lines map[string]*Line) []Line {
	out := []Line{}
	for _, l := range lines {
		out = append(out, *l)
	}
	slices.SortFunc(out, func(a, b Line) int {
		return cmp.Or(cmp.Compare(b.Jobs, a.Jobs), strings.Compare(a.ID, b.ID))
	})
	return out
}

// returns are the jobs that were come-backs, and those that had one, by number.
type returns struct{ are, had map[int64]bool }

// comebacks finds the machines that were brought again too soon. Only a repair
// that was handed back can come back; a machine without a name, or without an
// owner, can't be told from another.
func comebacks(cards []Card, days int) returns {
	out := returns{map[int64]bool{}, map[int64]bool{}}
	last := map[string]Card{}
	order := slices.Clone(cards)
	slices.SortFunc(order, func(a, b Card) int {
		return cmp.Or(cmp.Compare(a.OpenedAt, b.OpenedAt), cmp.Compare(a.ID, b.ID))
	})
	for _, c := range order {
		machine, owner := Words(c.Machine), Words(c.Owner)
		if len(machine) == 0 || len(owner) == 0 {
			continue
		}
		key := strings.Join(machine, " ") + "\n" + strings.Join(owner, " ")
		if was, ok := last[key]; ok && soon(was, c, days) {
			out.are[c.ID], out.had[was.ID] = true, true
		}
		last[key] = c
	}
	return out
}

// soon says whether a job came within the days after a repair was handed back.
func soon(was, now Card, days int) bool {
	repaired := was.Outcome == job.Proved || was.Outcome == job.NotProved
	since := time.UnixMicro(now.OpenedAt).Sub(time.UnixMicro(was.EndedAt)) // it doesn't overflow
	return repaired && since >= 0 && since <= time.Duration(days)*24*time.Hour
}
