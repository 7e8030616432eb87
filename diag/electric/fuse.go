package electric

import "math"

// Typical blade fuses, C size, by ampere rating: a fuse maker's table, from
// memory.
var (
	fuseCold = table{{5, 17.9e-3}, {7.5, 10.9e-3}, {10, 7.7e-3}, {15, 4.8e-3}, {20, 3.4e-3}, {25, 2.5e-3}, {30, 2.0e-3}}
	fuseDrop = table{{5, 0.128}, {7.5, 0.116}, {10, 0.109}, {15, 0.102}, {20, 0.098}, {25, 0.092}, {30, 0.084}}
)

// FuseOhms is the cold resistance of a blade fuse of 5 to 30 A: a fuse maker's
// table, from memory. Most meters can't see it: an open fuse is found by the
// full supply volts across it (NEETS Module 3 p 2-17).
func FuseOhms(rating float64) float64 {
	if !positive(rating) {
		return math.NaN()
	}
	return fuseCold.at(rating)
}

// FuseDrop is the volts across such a fuse at its rated amps, warm: same table,
// from memory.
func FuseDrop(rating float64) float64 {
	if !positive(rating) {
		return math.NaN()
	}
	return fuseDrop.at(rating)
}

// fuseTime is one line of the blade fuse standards.
type fuseTime struct{ ratio, least, most float64 }

// SAE J1284 / ISO 8820-3, from memory; 110 % must be carried for 100 h.
var fuseTimes = []fuseTime{
	{3.5, 0.04, 0.5},
	{2.0, 0.15, 5},
	{1.35, 0.75, 600},
}

// FuseSeconds is the longest a blade fuse may take to open at amps: 600 s from
// 1.35 of its rating, 5 s from 2.0, 0.5 s from 3.5; infinite below 1.35, where
// nothing is promised. SAE J1284 / ISO 8820-3, from memory.
func FuseSeconds(rating, amps float64) float64 {
	if !positive(rating) || math.IsNaN(amps) {
		return math.NaN()
	}
	for _, t := range fuseTimes {
		if amps >= t.ratio*rating {
			return t.most
		}
	}
	return math.Inf(1)
}

// FuseHolds is the share of its rating a blade fuse must carry for 100 h: SAE
// J1284 / ISO 8820-3, from memory.
const FuseHolds = 1.10
