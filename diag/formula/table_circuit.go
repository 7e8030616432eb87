package formula

import "benchlead/diag/electric"

var (
	metres   = number("metres", Plain)
	rms      = number("rms", Volts)
	rpm      = number("rpm", Plain)
	rating   = number("rating", Amps)
	armature = number("armature", Ohms)
	kindOf   = oneOf("kind", electric.ChargerKinds())
)

// wires are the functions of copper and of what cables may lose.
var wires = []Function{
	{
		Name: "copper_ohms", Args: []Arg{ohms, celsius}, Result: Ohms,
		Says: "Ohms at a temperature of copper that has so many at 20 degrees.", Source: "NBS Handbook 100",
		run: electric.CopperOhms,
	},
	{
		Name: "copper_20", Args: []Arg{ohms, celsius}, Result: Ohms,
		Says: "Ohms at 20 degrees of copper measured at a temperature.", Source: "NBS Handbook 100",
		run: electric.Copper20,
	},
	{
		Name: "wire_ohms", Args: []Arg{number("awg", Plain), metres, celsius}, Result: Ohms,
		Says: "Ohms of a copper wire of a gauge and length.", Source: "ASTM B258; NBS Handbook 100",
		run: electric.WireOhms,
	},
	{
		Name: "cable_ohms", Args: []Arg{number("square_mm", Plain), metres, celsius}, Result: Ohms,
		Says: "Ohms of a copper cable of a cross-section and length.", Source: "NBS Handbook 100",
		run: electric.CableOhms,
	},
	{
		Name: "parallel", Args: []Arg{number("a", Ohms), number("b", Ohms)}, Result: Ohms,
		Says: "Two resistances side by side.", Source: "Ohm's law",
		run: electric.Parallel,
	},
	{
		Name: "drop_allowed", Args: []Arg{amps}, Result: Volts,
		Says: "Volts that a cranking cable may lose at measured amps.", Source: "TM 10-3930-671-24 p F-303",
		run: electric.DropAllowed,
	},
	{
		Name: "drop_cable", Args: []Arg{metres}, Result: Volts,
		Says:   "Volts that a cranking cable of a length may lose.",
		Source: "TM 5-3820-256-24-4, electrical, p 8; over 6 ft in proportion: common practice, no source",
		run:    electric.DropCable,
	},
	{
		Name: "loaded", Args: []Arg{volts, number("source", Ohms), number("meter", Ohms)}, Result: Volts,
		Says:   "What a meter shows of volts behind a resistance.",
		Source: "standard loading formula",
		run:    electric.Loaded,
	},
	{
		Name: "unloaded", Args: []Arg{volts, number("source", Ohms), number("meter", Ohms)}, Result: Volts,
		Says:   "The volts behind a resistance, from what a meter shows.",
		Source: "standard loading formula",
		run:    electric.Unloaded,
	},
}

// waves are the functions of alternating and rectified volts.
var waves = []Function{
	{
		Name: "half_wave_mean", Args: []Arg{rms}, Result: Volts,
		Says: "What a DC range shows behind one diode.", Source: "TC 9-62 para 4-11",
		run: electric.HalfWaveMean,
	},
	{
		Name: "full_wave_mean", Args: []Arg{rms}, Result: Volts,
		Says: "What a DC range shows behind four diodes.", Source: "TC 9-62 para 4-11",
		run: electric.FullWaveMean,
	},
	{
		Name: "half_wave_dc", Args: []Arg{rms}, Result: Volts,
		Says:   "What a DC range shows on an unregulated charging coil's diode, battery off, probes loaded.",
		Source: "TC 9-62 para 4-11; that coils are tested so is common practice, no source",
		run:    electric.HalfWaveDC,
	},
	{
		Name: "sine_peak", Args: []Arg{rms}, Result: Volts,
		Says: "Peak of a sine wave.", Source: "Army Ordnance subcourse OD1647",
		run: electric.SinePeak,
	},
	{
		Name: "sine_rms", Args: []Arg{number("peak", Volts)}, Result: Volts,
		Says: "RMS of a sine wave from its peak.", Source: "Army Ordnance subcourse OD1647",
		run: electric.SineRMS,
	},
	{
		Name: "half_wave_least", Args: []Arg{rpm}, Result: Volts,
		Says:   "Least DC volts behind the one diode of an unregulated charging coil, lead off, at a speed.",
		Source: "a public small-engine service text on flywheel alternators",
		run:    electric.HalfWaveLeast,
	},
	{
		Name: "stator_least", Args: []Arg{rpm, amps}, Result: Volts,
		Says:   "Least open-circuit AC volts of a flywheel alternator rated for amps, at a speed.",
		Source: "common practice from memory, no source",
		run:    electric.StatorLeast,
	},
	{
		Name: "stator_volts", Args: []Arg{rpm, number("known_volts", Volts), number("known_rpm", Plain)}, Result: Volts,
		Says:   "Open-circuit AC volts at a speed, from those at another.",
		Source: "Dorrell, IECON 2007, equation 1",
		run:    electric.StatorVolts,
	},
	{
		Name: "stator_hertz", Args: []Arg{number("poles", Plain), rpm}, Result: Plain,
		Says: "Frequency of a flywheel alternator.", Source: "textbook, from memory",
		run: electric.StatorHertz,
	},
	{
		Name: "charger_open", Args: []Arg{volts, kindOf}, Result: Volts,
		Says:   "DC volts that a plain charger for label volts shows with nothing connected; expect 20 % either way.",
		Source: "TC 9-62 para 4-11; label to secondary is common practice, no source",
		run:    electric.ChargerOpen,
	},
	{
		Name: "charger_secondary", Args: []Arg{volts, kindOf}, Result: Volts,
		Says:   "Open-circuit AC volts of the transformer in a plain charger for label volts.",
		Source: "common practice, no source",
		run:    electric.ChargerSecondary,
	},
	{
		Name: "test_load_ohms", Args: []Arg{volts, amps}, Result: Ohms,
		Says: "Resistor that draws a charger's label amps.", Source: "common practice, no source",
		run: electric.TestLoadOhms,
	},
}

// parts are the functions of coils, motors, fuses and diodes.
var parts = []Function{
	{
		Name: "coil_ohms", Args: []Arg{volts, amps}, Result: Ohms,
		Says: "Resistance of a coil from its volts and amps.", Source: "Ohm's law",
		run: electric.CoilOhms,
	},
	{
		Name: "coil_amps", Args: []Arg{volts, ohms}, Result: Amps,
		Says: "Amps that a coil draws.", Source: "Ohm's law",
		run: electric.CoilAmps,
	},
	{
		Name: "pull_in_ohms", Args: []Arg{volts, number("both", Amps), number("hold", Amps)}, Result: Ohms,
		Says:   "Pull-in winding of a solenoid, from the amps of both windings and of the hold-in winding.",
		Source: "TM 5-2420-230-24-2 p 13-33",
		run:    electric.PullInOhms,
	},
	{
		Name: "hold_in_ohms", Args: []Arg{volts, number("hold", Amps)}, Result: Ohms,
		Says: "Hold-in winding of a solenoid.", Source: "TM 5-2420-230-24-2 p 13-33",
		run: electric.HoldInOhms,
	},
	{
		Name: "back_emf", Args: []Arg{volts, amps, armature}, Result: Volts,
		Says: "Volts that a running motor makes against its supply.", Source: "standard motor equation",
		run: electric.BackEMF,
	},
	{
		Name: "motor_amps", Args: []Arg{volts, number("back_emf", Volts), armature}, Result: Amps,
		Says: "Amps of a motor against its back-EMF.", Source: "standard motor equation",
		run: electric.MotorAmps,
	},
	{
		Name: "stall_amps", Args: []Arg{volts, armature}, Result: Amps,
		Says: "Amps of a motor with its shaft held.", Source: "Ohm's law",
		run: electric.StallAmps,
	},
	{
		Name: "fuse_ohms", Args: []Arg{rating}, Result: Ohms,
		Says: "Cold resistance of a blade fuse of 5 to 30 A.", Source: "a fuse maker's table, from memory",
		run: electric.FuseOhms,
	},
	{
		Name: "fuse_drop", Args: []Arg{rating}, Result: Volts,
		Says: "Volts across a blade fuse at its rated amps, warm.", Source: "a fuse maker's table, from memory",
		run: electric.FuseDrop,
	},
	{
		Name: "diode_volts", Args: []Arg{amps, celsius}, Result: Volts,
		Says: "Forward drop of a 1 A silicon rectifier.", Source: "textbook, from memory",
		run: electric.DiodeVolts,
	},
}
