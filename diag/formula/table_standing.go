package formula

import "benchlead/diag/electric"

// standing are the functions of a battery that stands.
var standing = []Function{
	{
		Name: "lead_self", Args: []Arg{celsius, leadOf}, Result: Plain,
		Says:   "Share of its amp-hours (0 to 1) that a rested battery loses by itself in a day.",
		Source: "a battery handbook's table of self-discharge, p 19; halved for each 10 degC: the same table",
		run:    electric.LeadSelf,
	},
	{
		Name: "lead_self_most", Args: []Arg{celsius}, Result: Plain,
		Says:   "Highest share a day that is published for a sound lead-acid battery.",
		Source: "a battery handbook's table of self-discharge, p 19 (plates with 5 % antimony)",
		run:    electric.LeadSelfMost,
	},
	{
		Name: "standing_days", Args: []Arg{amps, number("ah", AmpHours), soc, number("self", Plain)}, Result: Plain,
		Says:   "Days in which a battery loses a share of its amp-hours to a draw and to what it loses by itself a day.",
		Source: "arithmetic: amps x hours",
		run:    electric.StandingDays,
	},
	{
		Name: "standing_amps", Args: []Arg{number("ah", AmpHours), number("days", Plain), soc, number("self", Plain)}, Result: Amps,
		Says:   "Draw that takes a share of a battery's amp-hours in so many days, beside what it loses by itself a day.",
		Source: "arithmetic: amps x hours",
		run:    electric.StandingAmps,
	},
	{
		Name: "store_amps", Args: []Arg{number("ah", AmpHours), leadOf}, Result: Amps,
		Says:   "Draw with which a full battery is down to a quarter when it is due to be charged again in store.",
		Source: "a battery handbook's table, p 19: four months open, six sealed, 6 and 3 % a month; TM 5-3805-262-20 p 5-142",
		run:    electric.StoreAmps,
	},
	{
		Name: "in_series", Args: []Arg{volts, number("load", Ohms), number("burden", Ohms)}, Result: Amps,
		Says:   "What an ammeter with a burden shows of a load.",
		Source: "Ohm's law",
		run:    electric.InSeries,
	},
}
