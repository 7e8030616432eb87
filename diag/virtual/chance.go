package virtual

import "math"

// chance gives the random numbers of one machine. A number depends on the seed,
// the machine's number and the name asked for, and on nothing that was asked
// before.
type chance uint64

// newChance mixes seed and number, so that neighbours have nothing in common.
func newChance(seed uint64, number int) chance {
	return chance(mix(mix(seed) ^ uint64(number)))
}

// uniform is a number from 0 up to, but not including, 1.
func (c chance) uniform(kind, name string) float64 {
	const (
		start = 0xcbf29ce484222325 // 64-bit FNV-1a (Fowler, Noll and Vo; RFC 9923)
		prime = 0x100000001b3
	)
	h := uint64(start)
	for i := range len(kind) {
		h = (h ^ uint64(kind[i])) * prime
	}
	h = (h ^ '/') * prime
	for i := range len(name) {
		h = (h ^ uint64(name[i])) * prime
	}
	return float64(mix(h^uint64(c))>>11) / (1 << 53)
}

// mix is the step of splitmix64 (Steele, Lea and Flood, Fast splittable
// pseudorandom number generators, OOPSLA 2014).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// triangular turns a uniform number into one between from and to that is most
// often near usual.
func triangular(u, from, usual, to float64) float64 {
	if !(to > from) {
		return usual
	}
	usual = math.Max(from, math.Min(to, usual))
	if rising := (usual - from) / (to - from); u < rising {
		return from + math.Sqrt(u*(to-from)*(usual-from))
	}
	return to - math.Sqrt((1-u)*(to-from)*(to-usual))
}

// byWeight is the place of the weight that a uniform number falls on.
func byWeight(u float64, weights []float64) int {
	var sum float64
	for _, w := range weights {
		sum += w
	}
	for i, w := range weights {
		if u -= w / sum; u < 0 {
			return i
		}
	}
	return len(weights) - 1
}

// between is a uniform number stretched from one limit to the other; by ratio,
// as many come out below the geometric middle as above it.
func between(u, from, to float64, byRatio bool) float64 {
	if byRatio && from > 0 && to > from {
		return from * math.Pow(to/from, u)
	}
	return from + u*(to-from)
}
