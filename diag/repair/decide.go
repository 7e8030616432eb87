package repair

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"benchlead/diag/money"
)

// Open is a test that is still to be taken.
type Open struct {
	Test     string // id
	Title    string
	Minutes  float64 // on the bench, with the way to its points
	Outcomes []Outcome
}

// Outcome is one answer to a test: how likely it comes, and what the suspects are
// after it.
type Outcome struct {
	Answer      string
	Probability float64 // 0 to 1; counted to four places
	Suspects    []Likely
}

// Deciding is a test that is worth taking before money is spent, because some answer
// to it changes what is best done.
type Deciding struct {
	Test  string
	Title string
	Worth decimal.Decimal // what is expected to be saved by it, its minutes taken off
	Says  string
}

// test is an open test counted in.
type test struct {
	Open
	minutes  decimal.Decimal
	outcomes []outcome
}

type outcome struct {
	answer string
	p      decimal.Decimal
	belief belief
}

// expected counts the open tests in. The error names one with a probability or with
// minutes that are none.
func expected(open []Open) ([]test, error) {
	var out []test
	for _, o := range open {
		if !(o.Minutes >= 0 && o.Minutes <= mostMinutes) {
			return nil, fmt.Errorf("test %s: %g is no number of minutes", o.Test, o.Minutes)
		}
		t := test{Open: o, minutes: decimal.NewFromFloat(o.Minutes).Round(places)}
		sum := decimal.Zero
		for _, answer := range o.Outcomes {
			one, err := answer.counted()
			if err != nil {
				return nil, fmt.Errorf("test %s, answer %q: %w", o.Test, answer.Answer, err)
			}
			t.outcomes, sum = append(t.outcomes, one), sum.Add(one.p)
		}
		if sum.GreaterThan(money.One.Add(slack)) {
			return nil, fmt.Errorf("test %s: its answers come to %s; write shares of 1", o.Test, sum)
		}
		out = append(out, t)
	}
	return out, nil
}

func (o Outcome) counted() (outcome, error) {
	p, err := chance(o.Probability)
	if err != nil {
		return outcome{}, err
	}
	b, err := believe(o.Suspects)
	return outcome{o.Answer, p, b}, err
}

// mostMinutes bounds the minutes of a test: nobody stands at one for days.
const mostMinutes = 10_000

// deciding are the tests that are worth their minutes. What is done without them is
// the path with the least expected cost; after an answer, that with the least then.
// Amounts are in sixtieths until the end, so that nothing is rounded on the way.
func (a *ask) deciding(open []test) []Deciding {
	if len(open) == 0 || !a.belief.known() {
		return nil
	}
	d := &decision{ask: a, rests: map[string]*decimal.Decimal{}}
	d.take(open)
	if len(d.paths) == 0 {
		return nil
	}
	var out []Deciding
	for _, t := range open {
		if then, worth, ok := d.worth(t); ok {
			out = append(out, Deciding{Test: t.Test, Title: t.Title, Worth: worth, Says: d.says(t, then, worth)})
		}
	}
	slices.SortStableFunc(out, func(x, y Deciding) int { return cmp.Or(y.Worth.Cmp(x.Worth), cmp.Compare(x.Test, y.Test)) })
	return out
}

// worth is what is expected to be saved by taking a test, and what is then done after
// each answer. It is worth taking when some answer changes what is done, and more is
// saved than its minutes cost.
func (d *decision) worth(t test) (then []*Path, worth decimal.Decimal, ok bool) {
	now, cost := d.best(d.belief)
	after, left := t.minutes.Mul(d.book.Shop.LabourRate), money.One
	for _, o := range t.outcomes {
		best, c := d.best(o.belief)
		then, after, left = append(then, best), after.Add(c.Mul(o.p)), left.Sub(o.p)
	}
	after = after.Add(cost.Mul(decimal.Max(left, decimal.Zero))) // no answer changes nothing
	worth = d.book.Shop.Round(cost.Sub(after), money.Sixty)
	return then, worth, changes(now, then, t.outcomes) && worth.IsPositive()
}

// changes says whether some answer that may come has another path best.
func changes(now *Path, then []*Path, outcomes []outcome) bool {
	for i, p := range then {
		if outcomes[i].p.IsPositive() && p.ID != now.ID {
			return true
		}
	}
	return false
}

// says is a deciding test in a sentence: what it is worth, and what is done after
// which answer.
func (d *decision) says(t test, then []*Path, worth decimal.Decimal) string {
	var titles []string
	answers := map[string][]string{}
	for i, o := range t.outcomes {
		if !o.p.IsPositive() {
			continue
		}
		title := then[i].Title()
		if len(answers[title]) == 0 {
			titles = append(titles, title)
		}
		answers[title] = append(answers[title], fmt.Sprintf("%q", o.answer))
	}
	var parts []string
	for _, title := range titles {
		parts = append(parts, strings.Join(answers[title], " or ")+": "+title)
	}
	return fmt.Sprintf("%q first, %s min: worth %s. If %s.", t.Title, t.minutes, d.money(worth), strings.Join(parts, "; if "))
}
