package measure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestScaleChosen(t *testing.T) {
	rows := []struct {
		name string
		r    Reading
		want float64
	}{
		{"smallest that holds it", Reading{Function: DCVolts, Kind: Number, Value: 0.18}, 2},
		{"just on full scale", Reading{Function: DCVolts, Kind: Number, Value: -2}, 2},
		{"next one", Reading{Function: DCVolts, Kind: Number, Value: 2.01}, 20},
		{"as said", Reading{Function: DCVolts, Kind: Number, Value: 0.18, Range: 20}, 20},
		{"as said, roughly", Reading{Function: DCVolts, Kind: Number, Value: 0.18, Range: 2.2}, 2},
		{"wandering over it", Reading{Function: DCVolts, Kind: Wanders, Value: 1.9, Low: 1.6, High: 2.2}, 20},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			s, err := meter20.Scale(r.r)
			require.NoError(t, err)
			require.Equal(t, r.want, s.FullScale)
		})
	}
	m := Meter{Scales: []Scale{{Function: Ohms, FullScale: 200}}}
	s, err := m.Scale(Reading{Function: Continuity, Kind: Number, Value: 1})
	require.NoError(t, err)
	require.Equal(t, 200.0, s.FullScale)
}

func TestNoScale(t *testing.T) {
	m := meter20
	m.Title = "bench meter"
	rows := []struct {
		r    Reading
		want string
	}{
		{Reading{Function: Ohms, Kind: Number, Value: 1}, `the meter "bench meter" has no ohms; choose the meter that was used`},
		{Reading{Function: DCVolts, Kind: Number, Value: 23}, `23 V does not fit a scale of the meter "bench meter", which has dc volts up to 2, 20 V; check the reading and its range`},
		{Reading{Function: DCVolts, Kind: Number, Value: 12, Range: 2}, `12 V does not fit a scale of the meter "bench meter", which has dc volts up to 2, 20 V; check the reading and its range`},
		{Reading{Function: DCVolts, Kind: Number, Value: 1, Range: 200}, `160 V does not fit a scale of the meter "bench meter", which has dc volts up to 2, 20 V; check the reading and its range`},
	}
	for _, r := range rows {
		_, err := m.Estimate(r.r, 23)
		var none *ScaleError
		require.ErrorAs(t, err, &none)
		require.Equal(t, r.want, err.Error())
	}
}

func TestEstimateOfOtherDisplays(t *testing.T) {
	e, err := Meter{}.Estimate(Reading{Function: Ohms, Kind: OverRange}, 23)
	require.NoError(t, err)
	require.True(t, math.IsInf(e.Value, 1))
	require.Zero(t, e.U())

	_, err = meter20.Estimate(Reading{Function: DCVolts, Kind: Flicker}, 23)
	require.ErrorIs(t, err, ErrFlickers)

	// Own parts, by hand: half the last digit written, and half the width of
	// the wander, each over root 3.
	e, err = meter20.Estimate(Reading{Function: DCVolts, Kind: Number, Value: 12.3, Step: 0.1}, 23)
	require.NoError(t, err)
	require.InDelta(t, 0.05/math.Sqrt(3), e.Own, 1e-12)
	e, err = meter20.Estimate(Reading{Function: DCVolts, Kind: Wanders, Value: 12.5, Low: 12.3, High: 12.7, Step: 0.01}, 23)
	require.NoError(t, err)
	require.InDelta(t, 0.2/math.Sqrt(3), e.Own, 1e-12)
	warm, err := meter20.Estimate(Reading{Function: DCVolts, Kind: Number, Value: 12.3, Step: 0.01}, math.NaN())
	require.NoError(t, err)
	require.Zero(t, warm.Own)
}

func TestAverage(t *testing.T) {
	a := Estimate{Value: 12.2, Gain: map[string]float64{"s": 0.03}, Counts: map[string]float64{"s": 0.01}, Own: 0.04}
	b := a
	b.Value = 12.3
	four := Average([]Estimate{a, b, a, b})
	require.InDelta(t, 12.25, four.Value, 1e-12)
	require.InDelta(t, 0.03, four.Gain["s"], 1e-12)
	require.InDelta(t, 0.01, four.Counts["s"], 1e-12)
	// Scatter by hand: s = 0.05 x sqrt(4/3), over 2; more than 0.04/2.
	require.InDelta(t, 0.05*math.Sqrt(4.0/3)/2, four.Own, 1e-12)
	require.InDelta(t, 0.02, Average([]Estimate{a, a, a, a}).Own, 1e-12)
	require.True(t, math.IsInf(Average([]Estimate{a, {Value: math.Inf(1)}}).Value, 1))
	require.True(t, math.IsNaN(Average(nil).Value))
}

func TestSpreadEdges(t *testing.T) {
	cuts := []float64{1, 2}
	require.Equal(t, []float64{0, 1, 0}, Spread(Estimate{Value: 1}, cuts), "on a cut, without uncertainty: above it")
	require.Equal(t, []float64{1, 0, 0}, Spread(Estimate{Value: 0.999}, cuts))
	require.Equal(t, []float64{0, 0, 1}, Spread(Estimate{Value: math.Inf(1), Own: 3}, cuts))
	require.Equal(t, []float64{1, 0, 0}, Spread(Estimate{Value: math.Inf(-1)}, cuts))
	require.Equal(t, []float64{1}, Spread(Estimate{Value: 5, Own: 1}, nil))
	require.True(t, math.IsNaN(Spread(Estimate{Value: math.NaN()}, cuts)[1]))
	require.True(t, math.IsNaN(Spread(Estimate{Value: 1}, []float64{math.NaN()})[0]))
	p := Spread(Estimate{Value: 2, Own: 1}, []float64{2, 1})
	require.Equal(t, []float64{0.5, 0, 0.5}, p, "a cut below the one before it leaves no room")
}

func TestJudge(t *testing.T) {
	// By hand from the normal distribution: 1.645 u is 95 %.
	cuts := []float64{10, 11}
	rows := []struct {
		name   string
		e      Estimate
		cuts   []float64
		groups []int
		want   Answer
		band   int
		p      float64
	}{
		{"well below", Estimate{Value: 9, Own: 0.1}, cuts, nil, Called, 0, 1},
		{"in the middle", Estimate{Value: 10.5, Own: 0.1}, cuts, nil, Called, 1, 1},
		{"near a cut", Estimate{Value: 9.95, Own: 0.1}, cuts, nil, TooClose, 0, 0.6915},
		{"middle band narrower than the meter sees", Estimate{Value: 10.5, Own: 0.5}, cuts, nil, CantTell, 1, 0.6827},
		{"low and middle lead to the same place", Estimate{Value: 9.95, Own: 0.1}, cuts, []int{7, 7, 8}, Called, 0, 1},
		{"both outer bands lead to the same place", Estimate{Value: 10.9, Own: 0.5}, cuts, []int{1, 2, 1}, CantTell, 1, 0.5433},
		{"outer bands together", Estimate{Value: 10.95, Own: 2}, cuts, []int{1, 2, 1}, TooClose, 2, 0.8074},
		{"over range", Estimate{Value: math.Inf(1)}, cuts, nil, Called, 2, 1},
		{"not a number", Estimate{Value: math.NaN()}, cuts, nil, CantTell, 0, 0},
		{"groups that don't match count as none", Estimate{Value: 9.95, Own: 0.1}, cuts, []int{1}, TooClose, 0, 0.6915},
		{"no cuts", Estimate{Value: 3, Own: 9}, nil, nil, Called, 0, 1},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			j := Judge(r.e, r.cuts, r.groups)
			require.Equal(t, r.want, j.Answer)
			require.Equal(t, r.band, j.Band)
			require.InDelta(t, r.p, j.Probability, 5e-5)
		})
	}
}

func TestAMeterOfTenthsCantJudgeAWinding(t *testing.T) {
	e := decisions[11].estimate(t) // 0.3 ohm, ±(0.9 % + 3 counts of 0.1 ohm)
	require.Equal(t, CantTell, Judge(e, []float64{0.2, 0.6}, nil).Answer)
}

// drawn is an arbitrary estimate with cuts that rise.
func drawn(t *rapid.T) (Estimate, []float64) {
	e := Estimate{
		Value: rapid.Float64Range(-50, 50).Draw(t, "value"),
		Own:   rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-6, 30)).Draw(t, "own"),
		Gain:  map[string]float64{"s": rapid.Float64Range(-1, 1).Draw(t, "gain")},
	}
	cuts := rapid.SliceOfN(rapid.Float64Range(-60, 60), 0, 6).Draw(t, "cuts")
	return e, rising(cuts)
}

func TestBandsShareAllProbability(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, cuts := drawn(t)
		var sum float64
		for _, p := range Spread(e, cuts) {
			require.GreaterOrEqual(t, p, 0.0)
			sum += p
		}
		require.InDelta(t, 1, sum, 1e-9)
	})
}

func TestEveryExactValueIsInOneBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, cuts := drawn(t)
		v := rapid.OneOf(rapid.Float64Range(-70, 70), rapid.SampledFrom(append(cuts, 0))).Draw(t, "exact")
		in := 0
		for i, p := range Spread(Estimate{Value: v}, cuts) {
			if p != 1 {
				require.Zero(t, p)
				continue
			}
			in++
			require.True(t, i == 0 || v >= cuts[i-1])
			require.True(t, i == len(cuts) || v < cuts[i])
		}
		require.Equal(t, 1, in)
	})
}

func TestAHigherReadingIsNeverInLowerBands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, cuts := drawn(t)
		higher := e
		higher.Value += rapid.Float64Range(0, 20).Draw(t, "more")
		a, b := Spread(e, cuts), Spread(higher, cuts)
		var sumA, sumB float64
		for i := range a {
			sumA, sumB = sumA+a[i], sumB+b[i]
			require.LessOrEqual(t, sumB, sumA+1e-9)
		}
	})
}

func TestCalledMeansInsideTheGuardBands(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.Float64Range(-10, 10).Draw(t, "y")
		u := rapid.Float64Range(0.01, 5).Draw(t, "u")
		limit := rapid.Float64Range(-10, 10).Draw(t, "limit")
		from, _, _ := Accept(limit, math.Inf(1), u, SureAt)
		_, to, _ := Accept(math.Inf(-1), limit, u, SureAt)
		if math.Abs(y-from) < 1e-9 || math.Abs(y-to) < 1e-9 {
			return
		}
		j := Judge(Estimate{Value: y, Own: u}, []float64{limit}, nil)
		require.Equal(t, y > from || y < to, j.Answer == Called)
		require.NotEqual(t, CantTell, j.Answer, "one cut can always be told far from it")
	})
}

func TestOneGroupIsAlwaysCalled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e, cuts := drawn(t)
		j := Judge(e, cuts, make([]int, len(cuts)+1))
		require.Equal(t, Called, j.Answer)
	})
}

func TestUncertaintyOnlyGrows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, _ := drawn(t)
		b, _ := drawn(t)
		b.Gain = map[string]float64{"another": b.Gain["s"]}
		sum := Combine(a.Value+b.Value, []Estimate{a, b}, []float64{1, 1})
		require.GreaterOrEqual(t, sum.U()+1e-12, math.Max(a.U(), b.U()))
		require.InDelta(t, math.Hypot(a.U(), b.U()), sum.U(), 1e-9)
		same := Combine(a.Value, []Estimate{a}, []float64{1})
		require.InDelta(t, a.U(), same.U(), 1e-12)
	})
}
