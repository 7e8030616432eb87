package electric

import "math"

// The kinds of lead-acid battery whose rest volts differ.
const (
	Flooded = "flooded" // liquid electrolyte, with or without caps
	AGM     = "agm"     // sealed, electrolyte held in glass mat
)

// LeadChemistries lists what LeadRest and its kin accept.
func LeadChemistries() []string { return []string{Flooded, AGM} }

// restFlooded is volts of a rested 12 V flooded battery by state of charge:
// TM 5-3805-262-20 p 5-142, after 15 s of lights and 3 min of rest. The manual
// prints the ends as "12.6 or more" and "11.7 or less".
var restFlooded = table{{0, 11.7}, {0.25, 12.0}, {0.5, 12.2}, {0.75, 12.4}, {1, 12.6}}

// restAGM has its top from TM 9-6115-730-24 WP 0050 (12.8 to 13.0 V full, the
// lower end taken). The rest is from memory, as commonly charted.
var restAGM = table{{0, 11.7}, {0.25, 12.0}, {0.5, 12.3}, {0.75, 12.6}, {1, 12.8}}

// restSlope is how rest volts of a 12 V battery rise with temperature: 0.2 mV
// per cell and kelvin, from memory (electrochemistry of the cell).
const restSlope = 6 * 0.0002

// restCelsius is the temperature the rest tables are taken to hold at; the
// flooded table prints none. From memory.
const restCelsius = 25

func leadTable(chemistry string) (table, bool) {
	switch chemistry {
	case Flooded:
		return restFlooded, true
	case AGM:
		return restAGM, true
	}
	return nil, false
}

// LeadRest is the volts of a rested 12 V battery at a state of charge (0 to 1)
// and a temperature. Sources: TM 5-3805-262-20 p 5-142 (flooded), TM
// 9-6115-730-24 WP 0050 (AGM, full); lower AGM rows from memory.
func LeadRest(soc, celsius float64, chemistry string) float64 {
	t, ok := leadTable(chemistry)
	if !ok {
		return math.NaN()
	}
	return t.at(soc) + restSlope*(celsius-restCelsius)
}

// LeadCharge is the state of charge (0 to 1) that rest volts of a 12 V battery
// mean; the same tables read backwards, so 12.6 V and more are full. It means
// something only after rest: TM 5-3805-262-20 p 5-142.
func LeadCharge(volts, celsius float64, chemistry string) float64 {
	t, ok := leadTable(chemistry)
	if !ok {
		return math.NaN()
	}
	return t.turned().at(volts - restSlope*(celsius-restCelsius))
}

// LeadSurface is the rest volts of a 12 V battery above which it still carries
// surface charge (or still has a charger on it): 2.15 V a cell, the top of a
// full flooded cell in the BCI state-of-charge sheet; 13.0 V, the top of TM
// 9-6115-730-24 WP 0050, for AGM.
func LeadSurface(celsius float64, chemistry string) float64 {
	shift := restSlope * (celsius - restCelsius)
	switch chemistry {
	case Flooded:
		return 6*2.15 + shift
	case AGM:
		return 13.0 + shift
	}
	return math.NaN()
}

// How surface charge comes off and how long a battery must rest.
const (
	// SurfaceLoadSeconds of headlights, engine off: TM 5-3805-262-20 p 5-142.
	SurfaceLoadSeconds = 15
	// SurfaceWaitSeconds after the lights are off: same page.
	SurfaceWaitSeconds = 180
	// CellSpreadVolts: a cell this far under the others is shorted or low: TM
	// 10-3930-607-15.
	CellSpreadVolts = 0.5
	// DamageVolts of a 12 V battery: run below it, damage begins: TM
	// 9-6140-200-14 para 2-4.
	DamageVolts = 10.5
	// ShortedCellVolts is about what a shorted cell takes off: one cell of a
	// full battery. Common practice, no source.
	ShortedCellVolts = 2.1
)
