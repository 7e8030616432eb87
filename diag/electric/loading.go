package electric

// Parallel is two resistances side by side.
func Parallel(a, b float64) float64 { return a * b / (a + b) }

// Loaded is what a meter shows of open-circuit volts behind a source
// resistance: the meter's own resistance pulls them down. Standard loading
// formula; most ranges of a digital meter have 10 Mohm.
func Loaded(volts, sourceOhms, meterOhms float64) float64 {
	return volts * meterOhms / (sourceOhms + meterOhms)
}

// Unloaded is the open-circuit volts behind a loaded reading.
func Unloaded(reading, sourceOhms, meterOhms float64) float64 {
	return reading * (1 + sourceOhms/meterOhms)
}
