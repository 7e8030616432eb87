package electric

import "math"

// BackEMF is what a running motor makes against its supply: volts less the
// drop in the armature. Standard motor equation.
func BackEMF(volts, amps, armatureOhms float64) float64 { return volts - amps*armatureOhms }

// MotorAmps is what a motor draws against that back-EMF.
func MotorAmps(volts, backEMF, armatureOhms float64) float64 {
	if !positive(armatureOhms) {
		return math.NaN()
	}
	return (volts - backEMF) / armatureOhms
}

// ArmatureOhms is the armature's resistance from volts and the amps with the
// shaft held (no back-EMF).
func ArmatureOhms(volts, stallAmps float64) float64 { return CoilOhms(volts, stallAmps) }

// StallAmps is the draw with the shaft held.
func StallAmps(volts, armatureOhms float64) float64 { return MotorAmps(volts, 0, armatureOhms) }

// GeneratorEMF is what a generator makes inside, from its terminal volts and
// the amps through its armature.
func GeneratorEMF(volts, armatureAmps, armatureOhms float64) float64 {
	return volts + armatureAmps*armatureOhms
}

// What a small engine's gear-drive starter does unloaded, on 12 V: TM
// 5-4240-501-14&P p 180.
const (
	NoLoadRPM  = 5600.0 // at least
	NoLoadAmps = 6.0    // at most, after the surge
)
