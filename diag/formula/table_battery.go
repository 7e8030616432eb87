package formula

import "benchlead/diag/electric"

// Arguments that many functions share. A share is a plain number from 0 to 1.
var (
	celsius = number("celsius", Kelvin)
	cells   = number("cells", Plain)
	soc     = number("share", Plain)
	volts   = number("volts", Volts)
	amps    = number("amps", Amps)
	ohms    = number("ohms", Ohms)
	cca     = number("cca", Amps)
	leadOf  = oneOf("chemistry", electric.LeadChemistries())
	lionOf  = oneOf("chemistry", electric.LithiumChemistries())
)

// lead are the functions of lead-acid batteries.
var lead = []Function{
	{
		Name: "lead_rest", Args: []Arg{soc, celsius, leadOf}, Result: Volts,
		Says:   "Rest volts of a 12 V battery charged to a share (0 to 1).",
		Source: "TM 5-3805-262-20 p 5-142; TM 9-6115-730-24 WP 0050; lower AGM rows from memory",
		run:    electric.LeadRest,
	},
	{
		Name: "lead_charge", Args: []Arg{volts, celsius, leadOf}, Result: Plain,
		Says:   "Share of charge (0 to 1) that the rest volts of a 12 V battery mean.",
		Source: "TM 5-3805-262-20 p 5-142; TM 9-6115-730-24 WP 0050; lower AGM rows from memory",
		run:    electric.LeadCharge,
	},
	{
		Name: "lead_surface", Args: []Arg{celsius, leadOf}, Result: Volts,
		Says:   "Rest volts above which a 12 V battery still carries surface charge.",
		Source: "BCI state-of-charge sheet; TM 9-6115-730-24 WP 0050",
		run:    electric.LeadSurface,
	},
	{
		Name: "lead_float", Args: []Arg{celsius, cells, leadOf}, Result: Volts,
		Says:   "Volts that a charger should hold a full battery at.",
		Source: "a public encyclopedia article on float voltage",
		run:    electric.LeadFloat,
	},
	{
		Name: "lead_ohms", Args: []Arg{cca, soc, celsius}, Result: Ohms,
		Says:   "Internal resistance of a sound 12 V battery.",
		Source: "SAE J537 for the cold end; the rise with discharge is a model, no source",
		run:    electric.LeadOhms,
	},
	{
		Name: "lead_loaded", Args: []Arg{amps, cca, soc, celsius, leadOf}, Result: Volts,
		Says:   "Volts that a sound 12 V battery keeps under amps: a yardstick for healthy, not a limit.",
		Source: "model, no source",
		run:    electric.LeadLoaded,
	},
	{
		Name: "lead_freezes", Args: []Arg{soc}, Result: Kelvin,
		Says:   "Temperature at which a battery charged to a share (0 to 1) freezes.",
		Source: "TM 5-4210-230-14&P-1 Table 2, p 458",
		run:    electric.LeadFreezes,
	},
	{
		Name: "load_amps", Args: []Arg{cca, number("ah", AmpHours)}, Result: Amps,
		Says:   "Amps of the 15 s load test: half of cca, or 3 x ah where cca is 0.",
		Source: "half of cca: BCI practice, from memory; 3 x ah: TM 5-3805-260-24 p 146",
		run:    electric.LoadAmps,
	},
	{
		Name: "load_floor", Args: []Arg{celsius, cells}, Result: Volts,
		Says:   "Least volts after 15 s of load at a battery temperature.",
		Source: "TM 5-4210-230-14&P-1 Table 5, p 463",
		run:    electric.LoadFloor,
	},
	{
		Name: "load_floor_ah", Args: []Arg{cells}, Result: Volts,
		Says:   "Least volts after 15 s at three times the amp-hours.",
		Source: "TM 5-3805-260-24 p 146",
		run:    electric.LoadFloorAh,
	},
	{
		Name: "cold_factor", Args: []Arg{celsius}, Result: Plain,
		Says:   "Share of its warm cranking power that a full battery has left.",
		Source: "TM 5-4210-230-14&P-1 Table 3",
		run:    electric.CrankPower,
	},
	{
		Name: "crank_least", Args: []Arg{celsius}, Result: Volts,
		Says:   "Lowest battery volts to expect while a 12 V system cranks.",
		Source: "TM 5-3895-382-24 Table 29",
		run:    electric.CrankLeast,
	},
	{
		Name: "crank_most", Args: []Arg{celsius}, Result: Volts,
		Says:   "Highest battery volts to expect while a 12 V system cranks.",
		Source: "TM 5-3895-382-24 Table 29",
		run:    electric.CrankMost,
	},
	{
		Name: "gravity_charge", Args: []Arg{number("gravity", Plain)}, Result: Plain,
		Says:   "Share of charge (0 to 1) that a corrected specific gravity means.",
		Source: "TM 5-4210-230-14&P-1 Table 2, p 458",
		run:    electric.GravityCharge,
	},
	{
		Name: "gravity_at_80f", Args: []Arg{number("reading", Plain), celsius}, Result: Plain,
		Says:   "Hydrometer reading corrected to 80 degrees Fahrenheit.",
		Source: "TM 5-4210-230-14&P-1 p 457",
		run:    electric.GravityAt80F,
	},
}

// lithium are the functions of lithium packs; cells are those in series.
var lithium = []Function{
	{
		Name: "lithium_nominal", Args: []Arg{cells, lionOf}, Result: Volts,
		Says: "Volts on the label of a pack.", Source: "published cell tables",
		run: electric.LithiumNominal,
	},
	{
		Name: "lithium_full", Args: []Arg{cells, lionOf}, Result: Volts,
		Says:   "Volts of a full pack, and where its charger stops.",
		Source: "data sheet of a 4.2 V charger circuit; iron-phosphate charts",
		run:    electric.LithiumFull,
	},
	{
		Name: "lithium_full_least", Args: []Arg{cells, lionOf}, Result: Volts,
		Says:   "Low end of a right charger's volts.",
		Source: "data sheet of a 4.2 V charger circuit; iron-phosphate charts",
		run:    electric.LithiumFullLeast,
	},
	{
		Name: "lithium_full_most", Args: []Arg{cells, lionOf}, Result: Volts,
		Says:   "High end of a right charger's volts; above it a pack is overcharged.",
		Source: "data sheet of a 4.2 V charger circuit; iron-phosphate charts",
		run:    electric.LithiumFullMost,
	},
	{
		Name: "lithium_empty", Args: []Arg{cells, lionOf}, Result: Volts,
		Says: "Volts at which a pack counts as empty.", Source: "published cell tables",
		run: electric.LithiumEmpty,
	},
	{
		Name: "lithium_precharge", Args: []Arg{cells, lionOf}, Result: Volts,
		Says:   "Volts below which a right charger only trickles.",
		Source: "data sheet of a 4.2 V charger circuit; iron-phosphate from memory",
		run:    electric.LithiumPrecharge,
	},
	{
		Name: "lithium_refused", Args: []Arg{cells}, Result: Volts,
		Says:   "Volts below which many chargers refuse a lithium-ion pack.",
		Source: "a published note on protection circuits",
		run:    electric.LithiumRefused,
	},
	{
		Name: "lithium_unsafe", Args: []Arg{cells, lionOf}, Result: Volts,
		Says:   "Volts at the cells below which a pack is put aside and not charged.",
		Source: "a published note on deep discharge; barring the charge from memory",
		run:    electric.LithiumUnsafe,
	},
	{
		Name: "lithium_rest", Args: []Arg{soc, cells, lionOf}, Result: Volts,
		Says:   "Rest volts of a pack charged to a share (0 to 1).",
		Source: "example table of a public kernel driver; iron-phosphate: a web chart, within 15 %",
		run:    electric.LithiumRest,
	},
	{
		Name: "lithium_charge", Args: []Arg{volts, cells, lionOf}, Result: Plain,
		Says:   "Share of charge (0 to 1) that rest volts mean; no value on the flat part of iron-phosphate.",
		Source: "example table of a public kernel driver; iron-phosphate: a web chart, within 15 %",
		run:    electric.LithiumCharge,
	},
}
