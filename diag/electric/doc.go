// Package electric holds the tables and formulas of the trade: batteries,
// copper, rectified waves, alternators, chargers, fuses, diodes, coils. Each
// value has its published source beside it; a value without one is marked
// "common practice, no source" or "from memory".
//
// Everything here is a plain function of numbers (and the name of a
// chemistry), without state. Quantities are in volts, amperes, ohms, seconds
// and degrees Celsius unless a name says otherwise (Millimetres, Ah); a state
// of charge is a share from 0 to 1. A table is interpolated on straight lines
// and holds its end values outside its range. An argument that makes no sense
// (an unknown chemistry, no cells, a negative rating, NaN) yields NaN; nothing
// panics.
//
//	LeadRest(0.75, 25, "flooded")        // 12.4 V
//	LoadFloor(-1.11, 6)                  // 9.1 V after 15 s of load
//	LithiumFull(3, "lithium-ion")        // 12.6 V
//	HalfWaveMean(16.4)                   // 7.38 V on a DC range
//
// The package imports nothing of ours.
package electric
