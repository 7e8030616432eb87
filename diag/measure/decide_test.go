package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Readings of hand-held meters judged against limits. Half width of the
// meter's limit (percent of the reading plus counts), rectangular: JCGM
// 100:2008 4.3.7. Probability of conformance and guard-banded acceptance
// limits for 95 %: JCGM 106:2012 clauses 7 and 8. The figures were worked out
// apart from this program with 40-digit arithmetic from those formulas.

// within is how near every figure must come.
const within = 1e-6

var none = math.NaN() // no such limit

type decision struct {
	name                 string
	f                    Function
	full, res            float64 // scale
	percent, counts      float64
	y, celsius           float64
	leads, leadsU, other float64 // taken off, its uncertainty, and another one
	u                    float64
	lower, upper         float64
	pc                   float64
	from, to             float64
}

var decisions = []decision{
	{"rest volts, 20 V range", DCVolts, 20, 0.01, 0.5, 2, 12.34, 23, 0, 0, 0, 0.0471695170, 12.40, none, 0.101685150, 12.4775870, none},
	{"the same, better meter", DCVolts, 20, 0.01, 0.1, 2, 12.34, 23, 0, 0, 0, 0.0186715077, 12.40, none, 0.000655747826, 12.4307119, none},
	{"cranking volts", DCVolts, 20, 0.01, 0.5, 2, 9.62, 23, 0, 0, 0, 0.0393175533, 9.60, none, 0.694511256, 9.66467162, none},
	{"cable drop, 2 V range", DCVolts, 2, 0.001, 0.5, 2, 0.18, 23, 0, 0, 0, 0.00167431578, none, 0.20, 1, none, 0.197245996},
	{"cable drop, 20 V range", DCVolts, 20, 0.01, 0.5, 2, 0.18, 23, 0, 0, 0, 0.0120666206, none, 0.20, 0.951287239, none, 0.180152175},
	{"solenoid coil less leads", Ohms, 200, 0.1, 0.9, 3, 5.3, 23, 0.3, 0.1, 0, 0.224273115, 3, 5, 0.5, 3.36889645, 4.63110355},
	{"charging volts", DCVolts, 20, 0.01, 0.5, 2, 14.62, 23, 0, 0, 0, 0.0537513101, 13.5, 14.7, 0.931668823, 13.5884130, 14.6115870},
	{"diode test", DiodeTest, 2, 0.001, 1, 2, 0.562, 23, 0, 0, 0, 0.00439940905, 0.4, 0.8, 1, 0.407236384, 0.792763616},
	{"stator at 5 °C", ACVolts, 200, 0.1, 1, 3, 27.4, 5, 0, 0, 0, 0.762217825, 28, none, 0.215589261, 29.2537368, none},
	{"stator at 23 °C", ACVolts, 200, 0.1, 1, 3, 27.4, 23, 0, 0, 0, 0.331399055, 28, none, 0.0351086719, 28.5451029, none},
	{"draw with the key off, mA", DCAmps, 200, 0.1, 1.5, 3, 31.2, 23, 0, 0, 0, 0.443405007, none, 30, 0.00340157650, none, 29.2706637},
	{"stator winding less leads", Ohms, 200, 0.1, 0.9, 3, 0.5, 23, 0.2, 0.05, 0, 0.182775135, 0.2, 0.6, 0.657490744, 0.500638344, 0.299361656},
	{"clamp amps", ClampAmps, 400, 0.1, 2.5, 5, 112, 23, 0, 0, 0, 1.90525589, none, 115, 0.942324633, none, 111.866133},
	{"rest volts, settling", DCVolts, 20, 0.01, 0.5, 2, 12.34, 23, 0, 0, 0.03, 0.0559013715, 12.40, none, 0.141564023, 12.4919496, none},
}

func (d decision) estimate(t *testing.T) Estimate {
	m := Meter{ID: "m", Scales: []Scale{{Function: d.f, FullScale: d.full, Resolution: d.res, Percent: d.percent, Counts: d.counts}}}
	e, err := m.Estimate(Reading{Function: d.f, Kind: Number, Value: d.y}, d.celsius)
	require.NoError(t, err)
	if d.leads == 0 && d.other == 0 {
		return e
	}
	return Combine(d.y-d.leads, []Estimate{e, {Value: d.leads, Own: d.leadsU}, {Own: d.other}}, []float64{1, -1, 1})
}

func or(limit, missing float64) float64 {
	if math.IsNaN(limit) {
		return missing
	}
	return limit
}

func TestDecisions(t *testing.T) {
	for _, d := range decisions {
		t.Run(d.name, func(t *testing.T) {
			e := d.estimate(t)
			require.InDelta(t, d.y-d.leads, e.Value, within)
			require.InDelta(t, d.u, e.U(), within)
			lower, upper := or(d.lower, math.Inf(-1)), or(d.upper, math.Inf(1))
			require.InDelta(t, d.pc, Conform(e.Value, e.U(), lower, upper), within)
			from, to, ok := Accept(lower, upper, e.U(), 0.95)
			require.Equal(t, d.name != "stator winding less leads", ok)
			checkLimit(t, d.from, from, -1)
			checkLimit(t, d.to, to, 1)
		})
	}
}

func checkLimit(t *testing.T, want, got float64, sign int) {
	if math.IsNaN(want) {
		require.True(t, math.IsInf(got, sign))
		return
	}
	require.InDelta(t, want, got, within)
}

func TestHalfWidths(t *testing.T) {
	rows := map[string]float64{
		"rest volts, 20 V range": 0.0817, "the same, better meter": 0.03234, "cranking volts": 0.0681,
		"cable drop, 2 V range": 0.0029, "cable drop, 20 V range": 0.0209, "charging volts": 0.0931,
		"diode test": 0.00762, "stator at 5 °C": 1.3202, "stator at 23 °C": 0.574,
		"draw with the key off, mA": 0.768, "clamp amps": 3.3,
	}
	for _, d := range decisions {
		if a, ok := rows[d.name]; ok {
			require.InDelta(t, a, d.estimate(t).U()*math.Sqrt(3), within, d.name)
		}
	}
	// Those with other parts: the meter's alone.
	for _, r := range []struct{ d, a float64 }{{5, 0.3477}, {11, 0.3045}, {13, 0.0817}} {
		d := decisions[int(r.d)]
		d.leads, d.other = 0, 0
		require.InDelta(t, r.a, d.estimate(t).U()*math.Sqrt(3), within, d.name)
	}
}

func TestTheRangeIsPartOfTheReading(t *testing.T) {
	fine, coarse := decisions[3].estimate(t), decisions[4].estimate(t)
	require.Greater(t, Conform(fine.Value, fine.U(), math.Inf(-1), 0.20), 1-1e-9)
	require.Less(t, Conform(coarse.Value, coarse.U(), math.Inf(-1), 0.20), 0.96)
}

// meter20 has ±(0.5 % + 2 counts) on volts and ±(2.5 % + 5 counts) on a clamp.
var meter20 = Meter{ID: "m", Scales: []Scale{
	{Function: DCVolts, FullScale: 2, Resolution: 0.001, Percent: 0.5, Counts: 2},
	{Function: DCVolts, FullScale: 20, Resolution: 0.01, Percent: 0.5, Counts: 2},
	{Function: ClampAmps, FullScale: 400, Resolution: 0.1, Percent: 2.5, Counts: 5},
}}

func take(t *testing.T, f Function, v float64) Estimate {
	e, err := meter20.Estimate(Reading{Function: f, Kind: Number, Value: v}, 23)
	require.NoError(t, err)
	return e
}

func TestDifferenceOnOneRange(t *testing.T) {
	a, b := take(t, DCVolts, 12.31), take(t, DCVolts, 12.05)
	shared := Combine(12.31-12.05, []Estimate{a, b}, []float64{1, -1})
	require.InDelta(t, 0.0163471710, shared.U(), within)
	require.InDelta(t, 0.0001211046258, Conform(shared.Value, shared.U(), math.Inf(-1), 0.20), within)

	other := Meter{ID: "another", Scales: meter20.Scales}
	b2, err := other.Estimate(Reading{Function: DCVolts, Kind: Number, Value: 12.05}, 23)
	require.NoError(t, err)
	apart := Combine(12.31-12.05, []Estimate{a, b2}, []float64{1, -1})
	require.InDelta(t, 0.0660567054, apart.U(), within)
	require.InDelta(t, 0.1818570948, Conform(apart.Value, apart.U(), math.Inf(-1), 0.20), within)

	require.InDelta(t, 0.00190525589, take(t, DCVolts, 0.260).U(), within)
}

func TestOhmsFromVoltsAndAmps(t *testing.T) {
	v, i := take(t, DCVolts, 0.64), take(t, ClampAmps, 112)
	r := Combine(0.64/112, []Estimate{v, i}, []float64{1.0 / 112, -0.64 / 112 / 112})
	require.InDelta(t, 0.00571428571, r.Value, within)
	require.InDelta(t, 0.000100835139, r.U(), 1e-12)
	require.InDelta(t, 0.9976977860, Conform(r.Value, r.U(), math.Inf(-1), 0.006), within)

	v1, v2, amps := take(t, DCVolts, 12.64), take(t, DCVolts, 11.17), take(t, ClampAmps, 88.8)
	inside := (12.64 - 11.17) / 88.8
	b := Combine(inside, []Estimate{v1, v2, amps}, []float64{1 / 88.8, -1 / 88.8, -inside / 88.8})
	require.InDelta(t, 0.0165540541, b.Value, within)
	require.InDelta(t, 0.000349005586, b.U(), 1e-12)
}

func TestOtherShapes(t *testing.T) {
	require.InDelta(t, 0.1328029376, ConformRect(12.34, 0.0817, 12.40), within)
	require.InDelta(t, 0.1580142966, ConformMixed(12.34, 0.0817, 0.03, 12.40), within)
	m, s := WithPrior(12.34, 0.0817/math.Sqrt(3), 12.60, 0.15)
	require.InDelta(t, 12.36339702, m, within)
	require.InDelta(t, 0.04499713472, s, within)
	require.InDelta(t, 0.2079796655, Conform(m, s, 12.40, math.Inf(1)), within)
}

func TestPhi(t *testing.T) {
	rows := map[float64]float64{
		0: 0.5, 0.5: 0.6914624613, 1: 0.8413447461, 1.5: 0.9331927987, 2: 0.9772498681, 2.5: 0.9937903347, 3: 0.9986501020,
	}
	for z, want := range rows {
		require.InDelta(t, want, phi(z), 1e-10)
		require.InDelta(t, want, Conform(0, 1, -z, math.Inf(1)), 1e-10)
	}
}

func TestConformWorked(t *testing.T) {
	inf := math.Inf(1)
	rows := []struct {
		name                string
		y, u, lower, upper  float64
		want, printed, near float64
	}{
		{"breakdown volts of a diode, JCGM 106:2012 7.3 (from memory)", -5.47, 0.05, -inf, -5.40, 0.91924, 0.92, 0.005},
		{"burst pressure of a container, JCGM 106:2012 7.3 (from memory)", 507, 8, 490, inf, 0.98321, 0.98, 0.005},
		{"viscosity of an oil, JCGM 106:2012 7.4 (from memory)", 13.6, 1.8, 12.5, 16.3, 0.662629786, 0.66, 0.005},
		{"exactly on the limit: half", 9.6, 0.05, 9.6, inf, 0.5, 0.5, 0},
		{"2u inside one limit: ILAC-G8:09/2019, risk under 2.5 %", 9.7, 0.05, 9.6, inf, 0.97725, 0.977, 0.001},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			got := Conform(r.y, r.u, r.lower, r.upper)
			require.InDelta(t, r.want, got, 5e-6)
			require.InDelta(t, r.printed, got, r.near+1e-9)
		})
	}
}

func TestAcceptWithAGuardBandOfU(t *testing.T) {
	// ILAC-G8:09/2019 with w = U: floor 9.60 V, U = 0.05 V, pass from 9.65 V.
	from, to, ok := Accept(9.60, math.Inf(1), 0.025, phi(2))
	require.True(t, ok)
	require.InDelta(t, 9.65, from, 1e-9)
	require.True(t, math.IsInf(to, 1))
	// Guard factors: tables of the normal distribution.
	for p, z := range map[float64]float64{0.90: 1.281551566, 0.95: 1.644853627, 0.975: 1.959963985, 0.99: 2.326347874} {
		from, _, _ := Accept(0, math.Inf(1), 1, p)
		require.InDelta(t, z, from, 1e-8)
	}
}

func TestMeterLimitsAsPublished(t *testing.T) {
	rows := []struct {
		source                       string
		full, res, percent, count, y float64
		a, near                      float64
	}{
		{"instrument leaflet: 2.000 V, ±(0.08 % + 2 counts)", 5, 0.001, 0.08, 2, 2, 0.0036, 1e-9},
		{"instrument leaflet: 100.0 V, ±(0.8 % + 2 counts)", 200, 0.1, 0.8, 2, 100, 1.0, 1e-9},
		{"university laboratory page: 166.51 mV, ±(0.1 % + 4 digits)", 200, 0.01, 0.1, 4, 166.51, 0.2065, 1e-4},
		{"university laboratory page: 1.4869 A, ±(0.5 % + 1 digit)", 2, 0.0001, 0.5, 1, 1.4869, 0.00753, 1e-5},
		{"bench meter manual: 5 V, 0.0020 % + 0.0005 % of 10 V, as 5 counts of 10 uV", 10, 1e-5, 0.0020, 5, 5, 150e-6, 1e-12},
		{"JCGM 100:2008 4.3.7 (from memory): 0.928571 V, 14e-6 + 2e-6 of 1 V", 1, 1e-6, 14e-4, 2, 0.928571, 15e-6, 1e-7},
	}
	for _, r := range rows {
		t.Run(r.source, func(t *testing.T) {
			m := Meter{Scales: []Scale{{Function: DCVolts, FullScale: r.full, Resolution: r.res, Percent: r.percent, Counts: r.count}}}
			e, err := m.Estimate(Reading{Function: DCVolts, Kind: Number, Value: r.y}, 23)
			require.NoError(t, err)
			require.InDelta(t, r.a, e.U()*math.Sqrt(3), r.near)
		})
	}
	// JCGM 100:2008 5.1.5 (from memory): 12 uV of repeatability makes it 15 uV.
	m := Meter{Scales: []Scale{{Function: DCVolts, FullScale: 1, Resolution: 1e-6, Percent: 14e-4, Counts: 2}}}
	e, err := m.Estimate(Reading{Function: DCVolts, Kind: Number, Value: 0.928571}, 23)
	require.NoError(t, err)
	sum := Combine(e.Value, []Estimate{e, {Own: 12e-6}}, []float64{1, 1})
	require.InDelta(t, 14.8e-6, sum.U(), 1e-7)
}
