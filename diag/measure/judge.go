package measure

import (
	"math"
	"slices"
)

// Spread is the probability of each band of a test, low to high: len(cuts)+1
// of them, cuts rising, each the value that its band lies below. Over range is
// in the top band. With no uncertainty one band has it all, and a value
// exactly on a cut belongs to the band above. A cut below the one before it
// leaves no room for its band. NaN anywhere gives NaN everywhere.
func Spread(e Estimate, cuts []float64) []float64 {
	p := make([]float64, len(cuts)+1)
	if math.IsNaN(e.Value) || slices.ContainsFunc(cuts, math.IsNaN) {
		for i := range p {
			p[i] = math.NaN()
		}
		return p
	}
	cuts = rising(cuts)
	u := e.U()
	if !(u > 0) || math.IsInf(e.Value, 0) {
		p[above(e.Value, cuts)] = 1
		return p
	}
	low := math.Inf(-1)
	for i, cut := range cuts {
		p[i] = between(e.Value, u, low, cut)
		low = cut
	}
	p[len(cuts)] = between(e.Value, u, low, math.Inf(1))
	return p
}

// above is how many cuts a value has reached.
func above(v float64, cuts []float64) int {
	n := 0
	for n < len(cuts) && v >= cuts[n] {
		n++
	}
	return n
}

func rising(cuts []float64) []float64 {
	out := slices.Clone(cuts)
	for i := 1; i < len(out); i++ {
		out[i] = math.Max(out[i], out[i-1])
	}
	return out
}

// Judgement is in which band a value is, and how sure that is.
type Judgement struct {
	Answer      Answer
	Band        int     // the most probable band of the most probable group
	Probability float64 // of that group
}

// Judge decides between the bands of a test. Bands that lead to the same place
// share a number in groups, and their probabilities add up before the answer;
// without groups (nil, or not one for each band) each band stands alone. The
// answer is Called from SureAt on; CantTell when with this uncertainty that
// group would not be called at any value, because its bands are too narrow for
// this meter; and TooClose otherwise.
func Judge(e Estimate, cuts []float64, groups []int) Judgement {
	p := Spread(e, cuts)
	if math.IsNaN(p[0]) {
		return Judgement{Answer: CantTell}
	}
	if len(groups) != len(p) {
		groups = alone(len(p))
	}
	group, sure := likeliest(p, groups)
	j := Judgement{Answer: TooClose, Band: likeliestBand(p, groups, group), Probability: sure}
	switch {
	case sure >= SureAt:
		j.Answer = Called
	case atBest(group, groups, rising(cuts), e.U()) < SureAt:
		j.Answer = CantTell
	}
	return j
}

func alone(n int) []int {
	groups := make([]int, n)
	for i := range groups {
		groups[i] = i
	}
	return groups
}

// likeliest is the group with the most probability; the lowest band's group
// where two have the same.
func likeliest(p []float64, groups []int) (group int, sure float64) {
	sums := map[int]float64{}
	for i, g := range groups {
		sums[g] += p[i]
	}
	group, sure = groups[0], -1
	for _, g := range groups {
		if sums[g] > sure {
			group, sure = g, sums[g]
		}
	}
	return group, math.Min(1, sure)
}

func likeliestBand(p []float64, groups []int, group int) int {
	best := -1
	for i, g := range groups {
		if g == group && (best < 0 || p[i] > p[best]) {
			best = i
		}
	}
	return best
}

// atBest is the most probability a group could have at any value with this
// uncertainty: in the middle of its widest run of neighbouring bands.
func atBest(group int, groups []int, cuts []float64, u float64) float64 {
	best := 0.0
	for from := 0; from < len(groups); from++ {
		if groups[from] != group {
			continue
		}
		to := from
		for to+1 < len(groups) && groups[to+1] == group {
			to++
		}
		best = math.Max(best, inMiddle(from, to, cuts, u))
		from = to
	}
	return best
}

// inMiddle is the probability of bands from..to for a value in their middle.
func inMiddle(from, to int, cuts []float64, u float64) float64 {
	if from == 0 || to == len(cuts) {
		return 1
	}
	half := (cuts[to] - cuts[from-1]) / 2
	if half <= 0 {
		return 0
	}
	return between(0, u, -half, half)
}
