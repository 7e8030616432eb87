package electric

import "math"

// Self-discharge of a rested lead-acid battery at 20 °C, as a share of its
// amp-hours in a month: a battery handbook's table, p 19 (starter battery with
// 1.6 % antimony, sealed AGM, and tubular plates with 5 % antimony, which is the
// highest figure published). The table halves each of them at 10 °C.
const (
	selfMonthFlooded = 0.06
	selfMonthAGM     = 0.03
	selfMonthMost    = 0.12
	// MonthDays is the mean month.
	MonthDays = 365.25 / 12
)

// Months after which a battery in store is charged again: the same table, p 19
// (open cells no more than four months, sealed ones six to eight).
const (
	rechargeMonthsFlooded = 4
	rechargeMonthsAGM     = 6
)

// selfShift is the table's rule for temperature, 20 to 10 °C halves it, carried on
// outside. TM 9-6140-200-14 para 4-8c agrees: 0.001 of specific gravity a day at
// 80 °F, 0.0003 at 50 °F and 0.0025 at 100 °F.
func selfShift(celsius float64) float64 { return math.Exp2((celsius - 20) / 10) }

// LeadSelf is the share of its amp-hours that a rested battery loses by itself in
// a day. Source: a battery handbook's table, p 19.
func LeadSelf(celsius float64, chemistry string) float64 {
	switch chemistry {
	case Flooded:
		return selfMonthFlooded / MonthDays * selfShift(celsius)
	case AGM:
		return selfMonthAGM / MonthDays * selfShift(celsius)
	}
	return math.NaN()
}

// LeadSelfMost is the highest share a day that any table gives for a sound
// lead-acid battery, plates with 5 % antimony. Source: the same table, p 19.
func LeadSelfMost(celsius float64) float64 { return selfMonthMost / MonthDays * selfShift(celsius) }

// StandingDays is how many days a battery of ah takes to lose a share of its
// amp-hours, with amps drawn all the time and a share self lost by itself each
// day; +Inf when nothing goes. Arithmetic on A x h = Ah.
func StandingDays(amps, ah, share, self float64) float64 {
	if math.IsNaN(amps) || math.IsNaN(share) || math.IsNaN(self) || !positive(ah) {
		return math.NaN()
	}
	goes := 24*amps/ah + self
	switch {
	case share <= 0:
		return 0
	case goes <= 0:
		return math.Inf(1)
	}
	return share / goes
}

// StandingAmps is the draw with which a battery of ah loses a share in so many
// days, a share self going by itself each day; 0 when it loses that much without a
// draw. The inverse of StandingDays.
func StandingAmps(ah, days, share, self float64) float64 {
	if math.IsNaN(share) || math.IsNaN(self) || !positive(ah, days) {
		return math.NaN()
	}
	return max(0, ah*(share/days-self)/24)
}

// StoreAmps is the draw with which a full battery of ah, losing at 20 °C what its
// kind loses, is down to a quarter when it is due to be charged again in store:
// more than that no machine at rest can be allowed. Source: intervals and rates of
// a battery handbook's table, p 19; that a quarter counts as flat: TM 5-3805-262-20
// p 5-142 (12.0 V).
func StoreAmps(ah float64, chemistry string) float64 {
	const downToQuarter = 0.75
	months := map[string]float64{Flooded: rechargeMonthsFlooded, AGM: rechargeMonthsAGM}[chemistry]
	if months == 0 {
		return math.NaN()
	}
	return StandingAmps(ah, months*MonthDays, downToQuarter, LeadSelf(20, chemistry))
}

// InSeries is what an ammeter shows of a draw in which it has a burden in ohms:
// the volts over the ohms of the load and the burden. Source: Ohm's law.
func InSeries(volts, load, burden float64) float64 {
	if !positive(volts, load) || !(burden >= 0) {
		return math.NaN()
	}
	return volts / (load + burden)
}
