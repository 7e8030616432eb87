package screen

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"benchlead/diag/job"
	"benchlead/diag/tree"
)

// jobsPage is the list of jobs: open ones first, the newest first.
type jobsPage struct {
	jobs   []job.Summary
	older  int // jobs on record that are not in the list
	lib    *tree.Library
	zone   *time.Location
	record string
	demo   bool
	at     int // the line under >, among those that are shown
}

// take puts the jobs in the order they are shown in.
func (p *jobsPage) take(jobs []job.Summary, older int) {
	p.jobs, p.older = slices.Clone(jobs), older
	slices.SortStableFunc(p.jobs, func(a, b job.Summary) int {
		if a.Open != b.Open {
			return map[bool]int{true: -1, false: 1}[a.Open]
		}
		return cmp.Or(cmp.Compare(b.LastAt, a.LastAt), cmp.Compare(b.ID, a.ID))
	})
}

// shown are the jobs that fit what is typed: "/words" searches.
func (p *jobsPage) shown(typed string) []job.Summary {
	search, ok := strings.CutPrefix(typed, "/")
	if !ok {
		return p.jobs
	}
	var out []job.Summary
	for _, j := range p.jobs {
		if matches(p.line(j), search) {
			out = append(out, j)
		}
	}
	return out
}

// matches says whether every word of the search stands in a text.
func matches(text, search string) bool {
	text = strings.ToLower(text)
	for _, w := range strings.Fields(strings.ToLower(search)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

func (p *jobsPage) press(k key, in *input) action {
	b := find(jobsKeys(), k.name)
	switch {
	case k.name == "enter" && strings.TrimSpace(in.text()) == "q": // as in a job: it waits for Enter
		return find(jobsKeys(), "q").act
	case k.name == "enter":
		return p.open(in.text())
	case k.char != 0 && (!in.empty() || b == nil || b.waits):
		in.press(k)
		return action{}
	case k.char == 0 && in.press(k):
		return action{}
	case b != nil:
		return b.act
	}
	return action{}
}

// open opens the job by the number typed, or the one under the cursor.
func (p *jobsPage) open(typed string) action {
	typed = strings.TrimSpace(typed)
	if typed != "" && !strings.HasPrefix(typed, "/") {
		id, err := strconv.ParseInt(typed, 10, 64)
		if err != nil || id < 1 {
			return action{deed: noJob, text: typed}
		}
		return action{deed: openJob, job: id}
	}
	list := p.shown(typed)
	if len(list) == 0 {
		return action{}
	}
	return action{deed: openJob, job: list[min(p.at, len(list)-1)].ID}
}

// move moves the cursor among the jobs that are shown.
func (p *jobsPage) move(by int, typed string) {
	p.at = max(min(p.at+by, len(p.shown(typed))-1), 0)
}

// line is a job in words: number, machine, complaint, state and day.
func (p *jobsPage) line(j job.Summary) string {
	return fmt.Sprintf("%d %s %s %s %s", j.ID, p.what(j), p.says(j), state(j), p.day(j))
}

func (p *jobsPage) what(j job.Summary) string {
	if j.Machine != "" {
		return j.Machine
	}
	if sys := p.lib.Systems[j.System]; sys != nil {
		return sys.Title
	}
	return j.System
}

func (p *jobsPage) says(j job.Summary) string {
	if sys := p.lib.Systems[j.System]; sys != nil {
		return complaint(sys, j.Complaint)
	}
	return j.Complaint
}

// state is open, or how it was closed in a few words.
func state(j job.Summary) string {
	if j.Open {
		return "open"
	}
	if words, ok := ended[j.Outcome]; ok {
		return words
	}
	return string(j.Outcome)
}

// ended is how a job was closed, in one or two words.
var ended = map[job.Outcome]string{
	job.Proved: "proved", job.NotProved: "not proved", job.SoldAsIs: "sold as is",
	job.PartedOut: "parted out", job.Unrepaired: "returned", job.Unsafe: "unsafe",
}

func (p *jobsPage) day(j job.Summary) string {
	return time.UnixMicro(j.LastAt).In(p.zone).Format("_2 Jan 2006")
}

// body draws the list, with the line under > always to be seen.
func (p *jobsPage) body(sty styles, typed string, width, height int) []string {
	list := p.shown(typed)
	if len(p.jobs) == 0 {
		return []string{"", sty.title.Render("No jobs yet."), "", "n takes in the first machine."}
	}
	if len(list) == 0 {
		return append([]string{"", "No job has these words. Esc shows all of them."}, p.others(width)...)
	}
	at := min(p.at, len(list)-1)
	each := jobRows(width)
	var rows []string
	for i, j := range list {
		mark, look := "  ", sty.plain
		if i == at {
			mark, look = "> ", sty.cursor
		}
		rows = append(rows, paint(look, p.rows(mark, j, width, each))...)
	}
	return around(append(rows, p.others(width)...), at*each, each, height)
}

// others says how to find the jobs that are not listed.
func (p *jobsPage) others(width int) []string {
	if p.older == 0 {
		return nil
	}
	return append([]string{""}, wrap(fmt.Sprintf("%d older jobs are not listed. Type the number of one, or look for it: benchlead jobs WORDS", p.older), width)...)
}

// jobRows is how many lines a job takes.
func jobRows(width int) int {
	if width < 76 {
		return 2
	}
	return 1
}

// rows is one job in one or two lines.
func (p *jobsPage) rows(mark string, j job.Summary, width, each int) []string {
	head := mark + fmt.Sprintf("%4d  ", j.ID)
	if each == 2 {
		return []string{
			ends(head+p.what(j), p.day(j), width),
			ends("        "+p.says(j), state(j), width),
		}
	}
	wide := 0
	for _, other := range p.jobs {
		wide = max(wide, len(state(other)))
	}
	right := "  " + pad(state(j), wide) + "  " + p.day(j)
	room := width - len(head) - len(right) - 2
	what := min(room/2, 40)
	left := pad(short(p.what(j), what), what) + "  " + short(p.says(j), room-what)
	return []string{pad(head+left, width-len(right)) + right}
}

// around is the part of rows that holds the chosen ones, height lines at most.
func around(rows []string, at, each, height int) []string {
	if len(rows) <= height || height < 1 {
		return rows[:min(len(rows), max(height, 0))]
	}
	from := max(min(at-height/2, len(rows)-height), 0)
	if each > 1 {
		from -= from % each
	}
	return rows[from:min(from+height, len(rows))]
}
