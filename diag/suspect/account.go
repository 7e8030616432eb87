package suspect

import (
	"fmt"
	"strings"

	"benchlead/diag/tree"
)

// Account says in counts why a hypothesis is as likely as it is.
type Account struct {
	Hypothesis
	Machines int // simulated with it
	Still    int // of these, that fit every answer
	// For is the test whose answer speaks most for it beside all others, and Against
	// the one that speaks most against it, with how many times as likely the answer is
	// with it as without, and the other way round; none and 0 when none does.
	For, Against           Key
	ForTimes, AgainstTimes float64
	// Out is the test whose answer rules out most of its machines, and OutCount how
	// many.
	Out      Key
	OutCount int
}

// telling is how many times as likely an answer must be, with or without, to be
// called one that speaks for or against.
const telling = 1.5

// Account is that of the hypothesis of that place in Cloud.Hypotheses.
func (w Weighing) Account(hypothesis int) Account {
	c := w.cloud
	out := Account{Hypothesis: c.hypotheses[hypothesis]}
	fits := make([]bool, len(c.of))
	for i, h := range c.of {
		if fits[i] = h == hypothesis; fits[i] {
			out.Machines++
		}
	}
	for _, key := range w.read() {
		f := w.fits[c.columns[key]]
		with, without, weight, rest, gone := 0.0, 0.0, 0.0, 0.0, 0
		for i, h := range c.of {
			if h != hypothesis {
				without, rest = without+c.weight[i]*f.of[i], rest+c.weight[i]
				continue
			}
			with, weight = with+c.weight[i]*f.of[i], weight+c.weight[i]
			if f.of[i] < 2*f.slip { // likelier a slip than this machine's answer
				fits[i] = false
				gone++
			}
		}
		if gone > out.OutCount {
			out.Out, out.OutCount = key, gone
		}
		if rest == 0 {
			continue
		}
		times := with / weight / (without / rest)
		if times > max(telling, out.ForTimes) {
			out.For, out.ForTimes = key, times
		}
		if 1/times > max(telling, out.AgainstTimes) {
			out.Against, out.AgainstTimes = key, 1/times
		}
	}
	for _, fit := range fits {
		if fit {
			out.Still++
		}
	}
	return out
}

// read are the readings that count, in the order of the system.
func (w Weighing) read() []Key {
	var out []Key
	for _, test := range w.cloud.tests {
		had := map[*column]bool{}
		for _, stage := range append([]*tree.Stage{nil}, w.cloud.stages...) {
			key := Key{"", test.ID}
			if stage != nil {
				key.Stage = stage.ID
			}
			column := w.cloud.columns[key]
			if _, counts := w.fits[column]; counts && !had[column] {
				out, had[column] = append(out, key), true
			}
		}
	}
	return out
}

// Says is the account in a sentence or two, with the titles of the system.
func (a Account) Says(sys *tree.System) string {
	out := fmt.Sprintf("%s: of %d simulated machines %s", a.Title(sys), a.Machines, a.still())
	if a.Still == 0 && a.OutCount > 0 {
		out += fmt.Sprintf("; %s rules out %d of them", quoted(sys, a.Out), a.OutCount)
	}
	out += "."
	if a.ForTimes > 0 {
		out += fmt.Sprintf(" Most for it: %s, %s as likely with it as without.", quoted(sys, a.For), times(a.ForTimes))
	}
	if a.AgainstTimes > 0 {
		out += fmt.Sprintf(" Most against it: %s, %s as likely without it as with it.", quoted(sys, a.Against), times(a.AgainstTimes))
	}
	return out
}

func (a Account) still() string {
	switch a.Still {
	case 0:
		return "none fits all answers"
	case a.Machines:
		return "all still fit"
	}
	return fmt.Sprintf("%d still fit", a.Still)
}

func quoted(sys *tree.System, key Key) string {
	out := `"` + sys.Test(key.Test).Title + `"`
	if s := StageNamed(sys, key.Stage); s != nil {
		out += ", " + strings.ToLower(s.Title[:1]) + s.Title[1:]
	}
	return out
}

// times is a ratio in words: no more digits than it is worth.
func times(ratio float64) string {
	const few, many = 3, 100
	switch {
	case ratio < few:
		return fmt.Sprintf("%.1f times", ratio)
	case ratio < many:
		return fmt.Sprintf("%.0f times", ratio)
	}
	return "over 100 times"
}
