package record

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"

	"github.com/shopspring/decimal"

	"benchlead/diag/job"
)

// exactAmount is money as an event holds it: digits, and some places after a point.
// How many there may be is judgement: more than any currency wants for a repair, and
// few enough that adding them up takes no time.
var exactAmount = regexp.MustCompile(`^[0-9]{1,12}(\.[0-9]{1,20})?$`)

// isAmount says whether a text is an exact amount. Empty is none told, as in records
// of before.
func isAmount(what, text string) error {
	if text == "" || exactAmount.MatchString(text) {
		return nil
	}
	return fmt.Errorf("its %s is %s, which is no amount; digits such as 84.00 belong there", what, strconv.Quote(cut(text, 40)))
}

// sums says whether the money of an event is money, and adds up. A record that is
// here already may hold other text from before, and is still read; what comes in
// from elsewhere is not taken on trust.
func sums(e job.Event) error {
	switch {
	case e.Chosen != nil:
		q := e.Chosen.Quote
		err := errors.Join(isAmount("parts", q.Parts), isAmount("labour", q.Labour), isAmount("other", q.Other), isAmount("tax", q.Tax), isAmount("total", q.Total), isAmount("deposit", q.Deposit))
		for _, l := range e.Chosen.Lines {
			err = errors.Join(err, isAmount("price of "+strconv.Quote(cut(l.Part, 40)), l.Each))
		}
		if err != nil {
			return err
		}
		return addsUp(q)
	case e.Asked != nil:
		return errors.Join(isAmount("total", e.Asked.Total), isAmount("ceiling", e.Asked.Ceiling))
	case e.Binned != nil:
		return isAmount("asking price", e.Binned.Asking)
	}
	return nil
}

// addsUp says whether a quote comes to its total. A line that is empty counts as
// nothing; a total alone, as records of before have it, has nothing to add up. The
// lines are amounts.
func addsUp(q job.Quote) error {
	sum, told := decimal.Zero, false
	for _, line := range []string{q.Parts, q.Labour, q.Other, q.Tax} {
		d, err := orNothing(line)
		if err != nil {
			return err
		}
		sum, told = sum.Add(d), told || line != ""
	}
	total, err := orNothing(q.Total)
	if err == nil && told && !total.Equal(sum) {
		err = fmt.Errorf("its quote does not add up: parts, labour, other and tax are %s together, its total is %s", sum, total)
	}
	return err
}

func orNothing(amount string) (decimal.Decimal, error) {
	if amount == "" {
		return decimal.Zero, nil
	}
	return decimal.NewFromString(amount)
}
