package app

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"benchlead/diag/job"
	"benchlead/diag/record"
	"benchlead/diag/source"
	"benchlead/diag/tree"
)

// finding is what is looked for, as it is typed.
type finding struct {
	words                               []string
	machine, owner, system, complaint   string
	fault, repair, part, outcome, month string
	open                                bool
	most                                int

	strange []unheard // what the trees don't know of it
}

func (f *finding) flags(cmd *cobra.Command) {
	flags := cmd.Flags()
	flags.StringVar(&f.machine, "machine", "", "`words` of the machine")
	flags.StringVar(&f.owner, "owner", "", "`words` of the owner")
	flags.StringVar(&f.system, "system", "", "a system: its id or `words` of its title")
	flags.StringVar(&f.complaint, "complaint", "", "a complaint: its id or `words` of its title")
	flags.StringVar(&f.fault, "fault", "", "a fault that was found: its id or `words` of its title")
	flags.StringVar(&f.repair, "repair", "", "a repair that was done: its id or `words` of its title")
	flags.StringVar(&f.part, "part", "", "a part that was used: its id or `words` of its title")
	flags.StringVar(&f.outcome, "outcome", "", "`how` the job ended: "+strings.Join(outcomeWords(), ", "))
	flags.StringVar(&f.month, "month", "", "a month of the intake as 2026-11, or from one to another as 2026-03..2026-11 (`months`; UTC)")
	flags.BoolVar(&f.open, "open", false, "only jobs that are still open")
	flags.IntVar(&f.most, "most", usualMost, "how many are shown, the newest first")
}

// asks says whether anything is looked for at all.
func (f *finding) asks() bool {
	return len(f.words) > 0 || f.open || f.most != usualMost || f.machine+f.owner+f.system+f.complaint+f.fault+f.repair+f.part+f.outcome+f.month != ""
}

// outcomes are how jobs end, by the word that is typed.
var outcomes = map[string]job.Outcome{
	"proved": job.Proved, "not-proved": job.NotProved, "sold": job.SoldAsIs,
	"parted-out": job.PartedOut, "returned": job.Unrepaired, "unsafe": job.Unsafe,
}

func outcomeWords() []string { return slices.Sorted(maps.Keys(outcomes)) }

// query puts what is looked for into marks. Titles are those of the trees in use;
// the record knows only ids.
func (f *finding) query(lib *tree.Library) (record.Query, error) {
	q := record.Query{Most: f.most}
	if f.most < 1 || f.most > mostShown {
		return q, usage{fmt.Errorf("--most wants a number from 1 to %d", mostShown)}
	}
	t := titlesOf(lib)
	for _, w := range record.Words(strings.Join(f.words, " ")) {
		q.All = append(q.All, record.Any{Begins: []string{w}, Is: ids(record.OfFault, t.faults, []string{w})})
	}
	if len(f.words) > 0 && len(q.All) == 0 {
		return q, usage{errors.New("there is no word to look for: letters and digits make one")}
	}
	for _, w := range record.Words(f.machine) {
		q.All = append(q.All, record.Any{Begins: []string{record.Mark(record.OfMachine, w)}})
	}
	for _, w := range record.Words(f.owner) {
		q.All = append(q.All, record.Any{Begins: []string{record.Mark(record.OfOwner, w)}})
	}
	q.All = append(q.All, f.named(record.OfSystem, f.system, t.systems)...)
	q.All = append(q.All, f.named(record.OfComplaint, f.complaint, t.complaints)...)
	q.All = append(q.All, f.named(record.OfFault, f.fault, t.faults)...)
	q.All = append(q.All, f.named(record.OfRepair, f.repair, t.repairs)...)
	q.All = append(q.All, f.used(lib, t)...)
	if err := f.ended(&q); err != nil {
		return q, err
	}
	var err error
	q.From, q.To, err = monthsOf(f.month)
	return q, err
}

// How many jobs a search shows.
const (
	usualMost = 20
	mostShown = 1000
)

// ended adds how the job has to stand.
func (f *finding) ended(q *record.Query) error {
	if f.open && f.outcome != "" {
		return usage{errors.New("an open job has no outcome yet: choose --open or --outcome")}
	}
	how := ""
	if f.open {
		how = record.StillOpen
	}
	if f.outcome != "" {
		outcome, ok := outcomes[f.outcome]
		if !ok {
			return usage{fmt.Errorf("there is no outcome %q; write one of %s", source.CleanLine(f.outcome), strings.Join(outcomeWords(), ", "))}
		}
		how = string(outcome)
	}
	if how != "" {
		q.All = append(q.All, record.Any{Is: []string{record.Mark(record.OfOutcome, how)}})
	}
	return nil
}

// named is the condition that one of the things that are called so is in the job.
func (f *finding) named(kind, typed string, titles map[string]string) []record.Any {
	if typed == "" {
		return nil
	}
	is := ids(kind, titles, record.Words(typed))
	if _, exact := titles[typed]; !exact && len(is) == 0 {
		f.strange = append(f.strange, unheard{typed, source.Nearest(typed, slices.Sorted(maps.Keys(titles)))})
	}
	if _, exact := titles[typed]; exact || len(is) == 0 {
		is = []string{record.Mark(kind, typed)} // also one that these trees no longer have
	}
	return []record.Any{{Is: is}}
}

// used is the condition that a part was used: it stands in the log, or, in logs of
// before parts stood there, a repair was done that needs it.
func (f *finding) used(lib *tree.Library, t titles) []record.Any {
	all := f.named(record.OfPart, f.part, t.parts)
	for i := range all {
		for _, id := range slices.Sorted(maps.Keys(lib.Repairs)) {
			if slices.ContainsFunc(lib.Repairs[id].Parts, func(u tree.PartUse) bool {
				return slices.Contains(all[i].Is, record.Mark(record.OfPart, u.Part))
			}) {
				all[i].Is = append(all[i].Is, record.Mark(record.OfRepair, id))
			}
		}
	}
	return all
}

// titles are what ids are called, by id; a fault or complaint of several systems
// may have several titles.
type titles struct{ systems, complaints, faults, repairs, parts map[string]string }

func titlesOf(lib *tree.Library) titles {
	t := titles{map[string]string{}, map[string]string{}, map[string]string{}, map[string]string{}, map[string]string{}}
	for id, s := range lib.Systems {
		t.systems[id] = s.Title
		for _, c := range s.Complaints {
			t.complaints[c.ID] += " " + c.Title
		}
		for _, f := range s.Faults {
			t.faults[f.ID] += " " + f.Title
		}
	}
	for id, r := range lib.Repairs {
		t.repairs[id] = r.Title
	}
	for id, p := range lib.Parts {
		t.parts[id] = p.Title
	}
	return t
}

// ids are the marks of all things in whose id or title every word begins one.
func ids(kind string, titles map[string]string, words []string) []string {
	var out []string
	for _, id := range slices.Sorted(maps.Keys(titles)) {
		called := record.Words(id + " " + titles[id])
		if len(words) > 0 && !slices.ContainsFunc(words, func(w string) bool { return !begins(called, w) }) {
			out = append(out, record.Mark(kind, id))
		}
	}
	return out
}

func begins(called []string, word string) bool {
	return slices.ContainsFunc(called, func(c string) bool { return strings.HasPrefix(c, word) })
}

// monthsOf reads "2026-11", "2026-03..2026-11", or one with an open end: from the
// first moment of the first month up to the first after the last, microseconds since
// 1970 UTC; 0 where there is no bound.
func monthsOf(text string) (from, to int64, err error) {
	if text == "" {
		return 0, 0, nil
	}
	first, last, ranged := strings.Cut(text, "..")
	if !ranged {
		last = first
	}
	begin, err1 := monthOf(first, ranged)
	end, err2 := monthOf(last, ranged)
	if err1 != nil || err2 != nil || begin.IsZero() && end.IsZero() {
		return 0, 0, usage{fmt.Errorf("%q is no month; write 2026-11, 2026-03..2026-11, 2026-03.. or ..2026-11", source.CleanLine(text))}
	}
	if !begin.IsZero() {
		from = begin.UnixMicro()
	}
	if !end.IsZero() {
		to = end.AddDate(0, 1, 0).UnixMicro()
	}
	if from != 0 && to != 0 && to <= from {
		return 0, 0, usage{fmt.Errorf("%q ends before it begins", source.CleanLine(text))}
	}
	return from, to, nil
}

func monthOf(text string, mayMiss bool) (time.Time, error) {
	if text == "" && mayMiss {
		return time.Time{}, nil
	}
	return time.Parse("2006-01", text)
}
