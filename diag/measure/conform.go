package measure

import (
	"math"
	"slices"
)

// phi is the normal distribution function.
func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// Conform is the probability that the true value lies between two limits, of
// which one may be missing (-Inf, +Inf): JCGM 106:2012 clause 7, normal and
// without prior knowledge. With u = 0 it is 1 within the limits, limits
// included, and 0 outside; NaN stays NaN.
func Conform(y, u, lower, upper float64) float64 {
	switch {
	case slices.ContainsFunc([]float64{y, u, lower, upper}, math.IsNaN):
		return math.NaN()
	case u <= 0 || math.IsInf(y, 0):
		if lower <= y && y <= upper {
			return 1
		}
		return 0
	}
	return between(y, u, lower, upper)
}

// between is the share of a normal distribution between two limits, taken from
// the nearer tail so that small shares keep their digits.
func between(y, u, lower, upper float64) float64 {
	if upper <= lower {
		return 0
	}
	a, b := (lower-y)/u, (upper-y)/u
	if a > 0 {
		a, b = -b, -a
	}
	return math.Max(0, phi(b)-phi(a))
}

// Accept is where a reading must lie to be called within the limits with that
// confidence: each limit moved inwards by a guard band of z times u (JCGM
// 106:2012 clause 8; ILAC-G8:09/2019). A missing limit stays at infinity. ok
// is false when the guard bands cross: then this meter can't decide.
func Accept(lower, upper, u, confidence float64) (from, to float64, ok bool) {
	w := math.Sqrt2 * math.Erfinv(2*confidence-1) * u
	from, to = lower+w, upper-w
	return from, to, from <= to
}

// ConformRect is Conform for a reading whose error is anywhere within ±a with
// equal chance and nothing else.
func ConformRect(y, a, lower float64) float64 {
	return math.Max(0, math.Min(1, (y+a-lower)/(2*a)))
}

// ConformMixed is the same with a normal part of standard deviation s added.
func ConformMixed(y, a, s, lower float64) float64 {
	g := func(x float64) float64 {
		return x*phi(x) + math.Exp(-x*x/2)/math.Sqrt(2*math.Pi)
	}
	return s / (2 * a) * (g((y+a-lower)/s) - g((y-a-lower)/s))
}

// WithPrior joins a reading with what was known before it, both normal: the
// mean and standard deviation after (JCGM 106:2012 clause 6).
func WithPrior(y, u, mean, deviation float64) (after, spread float64) {
	w := deviation * deviation / (deviation*deviation + u*u)
	return w*y + (1-w)*mean, deviation * u / math.Hypot(deviation, u)
}
