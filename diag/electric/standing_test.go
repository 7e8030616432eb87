package electric

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A battery handbook's table, p 19: percent a month at 20 and 10 °C.
func TestSelfDischargeTable(t *testing.T) {
	const month = 365.25 / 12
	rows := []struct {
		name      string
		celsius   float64
		got, want float64
	}{
		{"starter battery", 20, LeadSelf(20, Flooded), 0.06},
		{"starter battery", 10, LeadSelf(10, Flooded), 0.03},
		{"sealed AGM", 20, LeadSelf(20, AGM), 0.03},
		{"sealed AGM", 10, LeadSelf(10, AGM), 0.015},
		{"tubular, 5 % antimony", 20, LeadSelfMost(20), 0.12},
		{"tubular, 5 % antimony", 10, LeadSelfMost(10), 0.06},
	}
	for _, r := range rows {
		require.InDelta(t, r.want, r.got*month, exact, "%s at %g", r.name, r.celsius)
	}
	require.True(t, math.IsNaN(LeadSelf(20, "nickel")))
}

// TM 9-6140-200-14 para 4-8c gives the loss of specific gravity a day: 0.001 at
// 80 °F, 0.0003 at 50 °F, 0.0025 at 100 °F, of the 0.145 between full (1.265) and
// empty (1.120) of TM 5-4210-230-14&P-1 Table 2.
func TestSelfDischargeAgainstSpecificGravity(t *testing.T) {
	warm, cool, hot := celsiusOf(80), celsiusOf(50), celsiusOf(100)
	require.InEpsilon(t, 0.001/0.0003, LeadSelf(warm, Flooded)/LeadSelf(cool, Flooded), 0.1)
	require.InEpsilon(t, 0.0025/0.001, LeadSelf(hot, Flooded)/LeadSelf(warm, Flooded), 0.15)
	// 0.69 % a day at 80 °F; the highest rate of the other table is 0.63 %.
	require.InEpsilon(t, 0.001/0.145, LeadSelfMost(warm), 0.1)
}

func TestStandingWorked(t *testing.T) {
	checkWorked(t, []worked{
		// 0.4 A x 24 h is 9.6 Ah a day: 45 Ah last 4.69 days.
		{"0.4 A on 45 Ah", "A x h = Ah", 4.6875, exact, StandingDays(0.4, 45, 1, 0)},
		// 0.025 A x 24 h is 0.6 Ah a day, 6 % of 45 Ah in 30.4 days 0.0887: 33.75 Ah last 49.0 days.
		{"25 mA on 45 Ah to a quarter", "A x h = Ah; table p 19", 33.75 / (0.6 + 0.06*45/30.4375), 1e-9, StandingDays(0.025, 45, 0.75, 0.06/30.4375)},
		// 6 % a month takes three quarters in 12.5 months, 380 days.
		{"nothing drawn, flooded", "table p 19", 12.5 * 30.4375, 1e-9, StandingDays(0, 24, 0.75, 0.06/30.4375)},
		// 20 mA is 0.48 Ah a day: 18 Ah of 24 go in 37.5 days.
		{"20 mA on 24 Ah", "A x h = Ah", 37.5, exact, StandingDays(0.02, 24, 0.75, 0)},
		{"what takes 18 Ah in 37.5 days", "A x h = Ah", 0.02, exact, StandingAmps(24, 37.5, 0.75, 0)},
		// 0.75 less four months of 6 % is 0.51 of 24 Ah, 12.24 Ah in 2922 h: 4.189 mA.
		{"store, 24 Ah flooded", "table p 19: four months, 6 %", 0.51 * 24 / (4 * 30.4375 * 24), exact, StoreAmps(24, Flooded)},
		{"store, 24 Ah flooded, in figures", "table p 19: four months, 6 %", 0.004189, 1e-6, StoreAmps(24, Flooded)},
		// 0.75 less six months of 3 % is 0.57 of 24 Ah, 13.68 Ah in 4383 h: 3.121 mA.
		{"store, 24 Ah AGM", "table p 19: six months, 3 %", 0.003121, 1e-6, StoreAmps(24, AGM)},
	})
	require.Equal(t, math.Inf(1), StandingDays(0, 24, 0.75, 0))
	require.Zero(t, StandingDays(1, 24, -0.05, 0))
	require.Zero(t, StandingAmps(24, 400, 0.75, 0.06/30.4375), "by itself it is there after 380 days")
	for _, v := range []float64{StandingDays(1, 0, 1, 0), StandingAmps(24, 0, 1, 0), StoreAmps(24, "nickel"), StoreAmps(0, AGM)} {
		require.True(t, math.IsNaN(v))
	}
}

// 12.65 V behind loads, by hand: a meter of 2 ohm hides little of 80 ohm and a
// fifth of 7 ohm; one of 100 ohm hides everything that counts.
func TestBurdenWorked(t *testing.T) {
	checkWorked(t, []worked{
		{"80 ohm, no burden", "Ohm's law", 0.158125, 1e-9, InSeries(12.65, 80, 0)},
		{"80 ohm, 2 ohm", "Ohm's law: 12.65 / 82", 0.154268, 1e-6, InSeries(12.65, 80, 2)},
		{"80 ohm, 100 ohm", "Ohm's law: 12.65 / 180", 0.070278, 1e-6, InSeries(12.65, 80, 100)},
		{"7 ohm, 2 ohm", "Ohm's law: 12.65 / 9", 1.405556, 1e-6, InSeries(12.65, 7, 2)},
	})
	require.True(t, math.IsNaN(InSeries(12, 10, -1)))
}

func TestStandingIsItsOwnInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ah := rapid.Float64Range(2, 150).Draw(t, "ah")
		amps := rapid.Float64Range(1e-4, 10).Draw(t, "amps")
		self := rapid.Float64Range(0, 0.02).Draw(t, "self")
		days := StandingDays(amps, ah, 0.75, self)
		require.InEpsilon(t, amps, StandingAmps(ah, days, 0.75, self), 1e-6)
	})
}
