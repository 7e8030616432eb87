package electric

import "math"

// DropPer100A is the rule of thumb for a cranking cable: 0.20 V for each 100
// A, 2 milliohm. TM 10-3930-671-24 p F-303.
const DropPer100A = 0.20

// DropAllowed is what that rule allows at measured amps.
func DropAllowed(amps float64) float64 { return DropPer100A * amps / 100 }

// DropCable is the most a cable of a 12 V cranking circuit may lose: 0.1 V
// under 3 ft, 0.2 V up to 6 ft. TM 5-3820-256-24-4, electrical, p 8. Longer
// cables go on in that proportion (common practice, no source).
func DropCable(metres float64) float64 {
	feet := metres / 0.3048
	switch {
	case math.IsNaN(metres) || metres < 0:
		return math.NaN()
	case feet < 3:
		return 0.1
	case feet <= 6:
		return 0.2
	}
	return 0.2 * feet / 6
}

// The most that other parts of a 12 V cranking circuit may lose, in volts,
// engine cranking. TM 5-3820-256-24-4, electrical, p 8. Fixed limits hold only
// near the cranking amps of the machine they were written for.
const (
	DropSwitch     = 0.1 // mechanical switch
	DropSolenoid   = 0.2 // solenoid contacts
	DropMagnetic   = 0.3 // magnetic switch
	DropConnection = 0.0 // each connection; 0.1 V is common practice
	DropGround     = 0.2 // starter frame to battery ground post
	DropInsulated  = 0.5 // the manual's sum for the whole positive side
)

const (
	// DropCharging from alternator to battery at 10 A: TM 10-3930-671-24 p
	// F-285.
	DropCharging = 0.3
	// DropControl of a 12 V starter's control circuit, both sides together,
	// both coil windings fed, first reading: TM 5-2420-230-24-2 p 13-33.
	DropControl = 1.0
)
