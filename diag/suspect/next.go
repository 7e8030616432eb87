package suspect

import (
	"cmp"
	"math"
	"slices"

	"benchlead/diag/benchtime"
	"benchlead/diag/tree"
)

// Offer is a test that would tell something.
type Offer struct {
	Test    *tree.Test
	After   *tree.Stage // the work to be done before; nil as the machine stands
	Bits    float64     // by how much it is expected to narrow down what is wrong
	Minutes float64     // on the bench, with the way to its points and with that work
	Risk    Risk
}

// At is where the bench stands.
type At struct {
	Access *benchtime.Access // what is open already
	Stage  string            // of work that was done; "" as the machine came in
	Taken  map[Key]bool      // tests that were taken, or can't be
	// Still holds back all that needs power or work: an answer says that the work stops.
	Still  bool
	closed map[string]bool // stages whose work is not begun on this machine
}

// Heed holds back what the answers forbid: nothing is switched on where a danger stops
// the work, and no work is begun where what is looked at before it shows a danger or was
// not looked at.
func (a *At) Heed(sys *tree.System, readings []Reading) {
	a.closed = map[string]bool{}
	answers := map[string]*tree.Choice{}
	for _, r := range readings {
		if test := sys.Test(r.Test); test != nil && r.Kind == Seen {
			if at := slices.IndexFunc(test.Choices, func(c tree.Choice) bool { return c.Name == r.Choice }); at >= 0 {
				answers[r.Test] = &test.Choices[at]
			}
		}
	}
	for _, choice := range answers {
		a.Still = a.Still || choice.Danger != "" && choice.Stops
	}
	for _, s := range sys.Circuit.Stages {
		for _, first := range s.First {
			choice := answers[first]
			if a.Taken[Key{"", first}] && (choice == nil || choice.Danger != "") {
				a.closed[s.ID] = true
			}
		}
	}
}

// Risk says what a test asks of the machine and the hand. A riskier test is not
// offered for saving time while a safer one tells enough.
type Risk int

// The risks, the least first.
const (
	Still Risk = iota // nothing is switched on
	Power             // current flows, or the engine is cranked
	Late              // a state that the system keeps for last
)

// least is the fewest bits for which a test is worth taking.
const least = 0.02

// little is how many bits the best test tells when it is time to do some work, and
// to read again.
const little = 0.25

// Next lists the tests that are worth taking, the best first: looks that may show a
// danger; then those of the least risk that tell enough, by bits for the minute;
// then the others. Where what stands on the bench has little left to tell, tests
// after a piece of work are among them.
func (w Weighing) Next(at At) []Offer {
	out := w.offers(at, nil)
	if mostBits(out) < little && at.Stage == "" && !at.Still {
		for _, s := range w.cloud.stages {
			if w.cloud.system.Circuit.Stage(s.ID) != nil && !at.closed[s.ID] {
				out = append(out, w.offers(at, s)...)
			}
		}
	}
	most := mostBits(out)
	tier := func(o Offer) Risk {
		const enough = 0.35 // of the bits that the best test gives
		switch {
		case looks(w.cloud.system, o.Test):
			return Still
		case o.Bits < enough*most:
			return Late + 1
		}
		return max(o.Risk, Power) // between still and power only the minutes count
	}
	slices.SortStableFunc(out, func(a, b Offer) int {
		return cmp.Or(cmp.Compare(tier(a), tier(b)), cmp.Compare(b.Bits/b.rate(), a.Bits/a.rate()))
	})
	return w.onTheWay(out, at)
}

// onTheWay puts in the place of an offer after some work what is looked at before
// anybody begins with that work.
func (w Weighing) onTheWay(offers []Offer, at At) []Offer {
	var out []Offer
	for _, o := range offers {
		if first := w.first(o.After, at); first != nil {
			o = Offer{first, nil, o.Bits, at.Access.Minutes(first), riskOf(w.cloud.system, first)}
		}
		if !slices.ContainsFunc(out, func(had Offer) bool { return had.Test == o.Test && had.After == o.After }) {
			out = append(out, o)
		}
	}
	return out
}

// first is the next test that is answered before the work of a stage; nil when
// nothing stands before it.
func (w Weighing) first(stage *tree.Stage, at At) *tree.Test {
	if stage == nil {
		return nil
	}
	for _, id := range stage.First {
		if !at.Taken[Key{"", id}] {
			return w.cloud.system.Test(id)
		}
	}
	return nil
}

// offers are the tests that tell something now, or after some work.
func (w Weighing) offers(at At, after *tree.Stage) []Offer {
	stage, work := at.Stage, 0.0
	if after != nil {
		stage = after.ID
		for _, id := range after.Work {
			work += w.cloud.system.FindWork(id).Minutes
		}
	}
	told := map[*column]bool{}
	for key := range at.Taken {
		told[w.cloud.columns[key]] = true
	}
	before := entropy(w.P)
	var out []Offer
	for _, test := range w.cloud.tests {
		column := w.cloud.columns[Key{stage, test.ID}]
		if column == nil || told[column] || after != nil && column == w.cloud.columns[Key{at.Stage, test.ID}] {
			continue
		}
		risk := riskOf(w.cloud.system, test)
		if at.Still && risk != Still {
			continue
		}
		if bits := before - w.after(column); bits > least {
			out = append(out, Offer{test, after, bits, work + at.Access.Minutes(test), risk})
		}
	}
	return out
}

func mostBits(offers []Offer) float64 {
	most := 0.0
	for _, o := range offers {
		most = math.Max(most, o.Bits)
	}
	return most
}

// looks says whether a test is a look, with nothing switched on, that may show a
// danger: it comes before everything that it may tell of.
func looks(sys *tree.System, t *tree.Test) bool {
	return t.Kind == tree.Observed && riskOf(sys, t) == Still &&
		slices.ContainsFunc(t.Choices, func(c tree.Choice) bool { return c.Danger != "" })
}

// rate is the minutes that bits are divided by: nothing is for nothing.
func (o Offer) rate() float64 { return math.Max(o.Minutes, 0.25) }

func riskOf(sys *tree.System, t *tree.Test) Risk {
	s := sys.State(t.State)
	switch {
	case s != nil && s.Late:
		return Late
	case s.Live():
		return Power
	}
	return Still
}

// after is the entropy, in bits, that is expected to be left of the hypotheses
// when a test has answered.
func (w Weighing) after(c *column) float64 {
	hypotheses := len(w.P)
	sums := make([]float64, (c.count+1)*hypotheses)
	for i, h := range w.cloud.of {
		if weight := w.weight[i]; weight > 0 {
			sums[int(c.bins[i]+1)*hypotheses+h] += weight
		}
	}
	left, cells, bins := 0.0, 0, 0
	for bin := range c.count + 1 {
		row := sums[bin*hypotheses : (bin+1)*hypotheses]
		total := 0.0
		for _, s := range row {
			total += s
		}
		if total > slight {
			bins++
		}
		for _, s := range row {
			if s > 0 {
				left -= s * math.Log2(s/total)
			}
			if s > slight {
				cells++
			}
		}
	}
	left += w.luck(cells, bins)
	// An answer in so many is chance and tells nothing.
	return left + chance*math.Max(0, entropy(w.P)-left)
}

// slight is the weight that a cell must have to count.
const slight = 1e-4

// luck is how many bits a test seems to tell only because few machines stand
// behind the figures: half a nat for each degree of freedom, by machine (G. A.
// Miller, Note on the bias of information estimates, in Information Theory in
// Psychology, 1955; from memory).
func (w Weighing) luck(cells, bins int) float64 {
	hypotheses := 0
	for _, p := range w.P {
		if p > slight {
			hypotheses++
		}
	}
	free := cells - bins - hypotheses + 1
	return math.Max(0, float64(free)) / (2 * w.Fitting * math.Ln2)
}

// entropy in bits.
func entropy(p []float64) float64 {
	sum := 0.0
	for _, x := range p {
		if x > 0 {
			sum -= x * math.Log2(x)
		}
	}
	return sum
}
