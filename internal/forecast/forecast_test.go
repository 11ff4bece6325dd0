package forecast

import (
	"math"
	"math/rand/v2"
	"testing"

	"tautspan/internal/chain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func answer(t *testing.T, q Question) *Answer {
	t.Helper()
	if q.Risk == 0 {
		q.Risk = 0.1
	}
	a, err := Forecast(q)
	require.NoError(t, err)
	return a
}

// Neither the order of the readings nor sending one twice changes a bit.
func TestForecast_orderAndRepeats(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for range 6 {
		r := worlds[1].draw(rng)
		want := answer(t, r.q)
		q := r.q
		q.Marks = append(append([]Mark{}, q.Marks...), q.Marks[rng.IntN(len(q.Marks))])
		rng.Shuffle(len(q.Marks), func(i, j int) { q.Marks[i], q.Marks[j] = q.Marks[j], q.Marks[i] })
		got := answer(t, q)
		want.SetAside, got.SetAside = nil, nil // their indices follow the list
		assert.Equal(t, want, got)
	}
	// One comparison is not yet enough for the new chain's length to be kept
	// apart; the same one twice is still one.
	once := Question{Limit: 1, Care: chain.Usual, NowKM: 1000, Marks: []Mark{Compared(1000, 0.3, 0.03)}}
	twice := once
	twice.Marks = append(twice.Marks, once.Marks...)
	assert.Equal(t, answer(t, once), answer(t, twice))
}

// A larger reading never makes the chain younger, as long as it is believable.
func TestForecast_monotoneInWear(t *testing.T) {
	last := Answer{KMToLimit: Quantiles{P50: math.Inf(1)}}
	for y := 0.1; y < 0.85; y += 0.05 {
		a := answer(t, Question{Limit: 0.75, Care: chain.Usual, NowKM: 1500, Marks: []Mark{Exact(500, 0.15, 0.1), Exact(1400, y, 0.1)}})
		assert.Greater(t, a.Elongation.P50, last.Elongation.P50, "%v", y)
		assert.Less(t, a.KMToLimit.P50, last.KMToLimit.P50, "%v", y)
		assert.GreaterOrEqual(t, a.PastLimitNow, last.PastLimitNow, "%v", y)
		last = *a
	}
}

// Harder care, a lower limit and more risk each move the answer the right way.
func TestForecast_directions(t *testing.T) {
	at := func(limit float64, c chain.Care, risk float64) *Answer {
		return answer(t, Question{Limit: limit, Care: c, NowKM: 500, Risk: risk})
	}
	for i, c := range chain.Cares()[1:] {
		assert.Less(t, at(0.75, c, 0.1).KMToLimit.P50, at(0.75, chain.Cares()[i], 0.1).KMToLimit.P50)
	}
	assert.Less(t, at(0.5, chain.Usual, 0.1).KMToLimit.P50, at(0.75, chain.Usual, 0.1).KMToLimit.P50)
	assert.Less(t, at(0.75, chain.Usual, 0.02).CheckAgainKM, at(0.75, chain.Usual, 0.1).CheckAgainKM)
}

// Probabilities sum to one, quantiles are in order, the next check is where the
// risk says, and it is zero exactly when the chain is past it already.
func TestForecast_isALaw(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	for range 12 {
		r := worlds[1].draw(rng)
		p := r.q.posterior()
		left := newRemaining(p)
		sum := left.past
		for _, w := range left.weights {
			sum += w
		}
		assert.InDelta(t, 1, sum, 1e-9)
		a := answer(t, r.q)
		for _, q := range []Quantiles{a.Elongation, a.KMToLimit, a.Rate} {
			assert.True(t, 0 <= q.P05 && q.P05 <= q.P25 && q.P25 <= q.P50 && q.P50 <= q.P75 && q.P75 <= q.P95, "%+v", q)
		}
		if a.PastLimitNow >= r.q.Risk {
			assert.Zero(t, a.CheckAgainKM)
		} else {
			assert.InDelta(t, r.q.Risk, left.reached(a.CheckAgainKM/1000), 1e-4)
		}
		for i := 1; i < len(a.Curve); i++ {
			last, next := a.Curve[i-1], a.Curve[i]
			assert.True(t, next.P05 >= last.P05 && next.P50 >= last.P50 && next.P95 >= last.P95, "wear does not heal: %+v %+v", last, next)
		}
	}
}

// One blunder among good readings is found, the slip that made it is offered
// back, and the forecast stays close to the one without it.
func TestForecast_slipsFound(t *testing.T) {
	good := []Mark{Exact(400, 0.14, 0.05), Exact(800, 0.26, 0.05), Exact(1200, 0.38, 0.05), Exact(1600, 0.47, 0.05)}
	clean := answer(t, Question{Limit: 0.75, Care: chain.Usual, NowKM: 1600, Marks: good})
	assert.Empty(t, clean.SetAside)
	for _, row := range []struct {
		read float64
		kind SlipKind
	}{
		{2.6, TenTimes}, {0.62, DigitsSwapped}, {0.79, UnitsMixed}, {5, NoSlip},
	} {
		marks := append([]Mark{}, good...)
		marks[1] = Exact(800, row.read, 0.05)
		marks[1].Slips = func() []Slip { return percentSlips(row.read) }
		a := answer(t, Question{Limit: 0.75, Care: chain.Usual, NowKM: 1600, Marks: marks})
		require.Len(t, a.SetAside, 1, "%v", row.read)
		s := a.SetAside[0]
		assert.Equal(t, 1, s.Index)
		assert.Equal(t, row.kind, s.Fits.Kind, "%v", row.read)
		assert.True(t, s.Low < 0.27 && s.High > 0.25, "%+v", s)
		if row.kind != NoSlip {
			assert.InDelta(t, 0.26, s.Fits.Percent, 0.01)
		}
		assert.InDelta(t, clean.Elongation.P50, a.Elongation.P50, 0.03)
	}
}

// A last reading past the limit that does not go with the others, and that no
// slip explains, may be the true one: the next check is now, however much worse it
// reads. A later reading that stands settles it. Our rule, for safety.
func TestForecast_lastReadingAside(t *testing.T) {
	ask := func(marks ...Mark) *Answer {
		return answer(t, Question{Limit: 0.5, Care: chain.Clean, NowKM: 700, Marks: append([]Mark{
			Exact(200, 0.04, 0.08), Exact(300, 0.05, 0.08), Exact(400, 0.06, 0.08)}, marks...)})
	}
	for percent := 0.55; percent < 4; percent += 0.15 {
		a := ask(Exact(500, percent, 0.08))
		assert.Zero(t, a.CheckAgainKM, "%v", percent)
		assert.Equal(t, len(a.SetAside) > 0, a.LastAside, "%v", percent)
	}
	assert.Zero(t, ask(Between(500, 0.75, math.Inf(1), NoBias)).CheckAgainKM)
	assert.Zero(t, ask(Exact(400, 1.5, 0.08)).CheckAgainKM, "of three places the worst counts")
	for name, marks := range map[string][]Mark{
		"settled":         {Exact(500, 1.5, 0.08), Exact(600, 0.08, 0.08)},
		"below the limit": {Exact(500, 0.35, 0.03), Exact(500, 0.06, 0.03), Exact(500, 0.05, 0.03)},
		"too short":       {Exact(500, -1, 0.08)},
		"a slip":          {{KM: 500, percent: 1.5, u: 0.08, Slips: func() []Slip { return []Slip{{TenTimes, 0.07, 0.07}} }}},
		"a gauge settled": {Between(500, 0.75, math.Inf(1), NoBias), Between(650, math.Inf(-1), 0.5, NoBias), Exact(650, 0.1, 0.05)},
	} {
		a := ask(marks...)
		assert.NotEmpty(t, a.SetAside, name)
		assert.False(t, a.LastAside, name)
		assert.Positive(t, a.CheckAgainKM, name)
	}
}

// The curve is the same law as the answer: each of its points is what a forecast
// at that distance says of the elongation then, up to the coarser lattice. Twelve
// even steps reach a fifth past the median distance to the limit, or 200 km.
func TestForecast_curve(t *testing.T) {
	for _, q := range []Question{
		{Limit: 0.75, Care: chain.Usual, NowKM: 1500, Marks: []Mark{Exact(500, 0.15, 0.05), Exact(1400, 0.3, 0.05)}},
		{Limit: 0.5, Care: chain.Clean, NowKM: 300},
		{Limit: 1, Care: chain.Gritty, NowKM: 900, Marks: []Mark{Between(800, 0.5, 0.75, RollerPlay)}},
		{Limit: 0.5, Care: chain.Usual, NowKM: 3000, Marks: []Mark{Exact(2900, 0.9, 0.05)}},
	} {
		a := answer(t, q)
		require.Len(t, a.Curve, 13)
		assert.Equal(t, Point{q.NowKM, a.Elongation.P05, a.Elongation.P50, a.Elongation.P95}, a.Curve[0])
		horizon := max(200, 1.2*a.KMToLimit.P50)
		for i, c := range a.Curve[1:] {
			assert.InDelta(t, q.NowKM+float64(i+1)*horizon/12, c.KM, 1e-6)
			then := q
			then.NowKM = c.KM
			want := answer(t, then).Elongation
			assert.InDelta(t, want.P05, c.P05, 0.015, "%v", c.KM)
			assert.InDelta(t, want.P50, c.P50, 0.01*(1+want.P50), "%v", c.KM)
			if want.P95 < 3*q.Limit { // both scales end somewhere
				assert.InDelta(t, want.P95, c.P95, 0.03*(1+want.P95), "%v", c.KM)
			}
		}
	}
}

// Two figures, never more than the distance itself.
func TestTwoFigures(t *testing.T) {
	for km, want := range map[float64]float64{0.4: 0, 9.9: 9, 98.7: 98, 999.9: 990, 1000: 1000, 1239: 1200, 45678: 45000} {
		assert.Equal(t, want, twoFigures(km), "%v", km)
	}
}

// A misread gauge is set aside too, with nothing to offer.
func TestForecast_gaugeMisread(t *testing.T) {
	a := answer(t, Question{Limit: 0.75, Care: chain.Usual, NowKM: 1200, Marks: []Mark{
		Exact(400, 0.1, 0.05), Between(600, 0.75, math.Inf(1), NoBias), Exact(900, 0.2, 0.05), Exact(1200, 0.25, 0.05)}})
	require.Len(t, a.SetAside, 1)
	assert.Equal(t, 1, a.SetAside[0].Index)
	assert.Equal(t, NoSlip, a.SetAside[0].Fits.Kind)
}

// Earlier chains of a bike that eats chains make the next one look shorter, and
// narrower.
func TestForecast_earlierChains(t *testing.T) {
	q := Question{Limit: 0.75, Care: chain.Usual, NowKM: 0}
	alone := answer(t, q)
	for range 2 {
		q.Earlier = append(q.Earlier, []Mark{Exact(500, 0.35, 0.08), Exact(1000, 0.7, 0.08)})
	}
	a := answer(t, q)
	assert.Less(t, a.KMToLimit.P50, 0.7*alone.KMToLimit.P50)
	assert.Less(t, a.Rate.P95/a.Rate.P05, 0.5*alone.Rate.P95/alone.Rate.P05)
}

// Hostile and odd questions get finite answers or an error, never a panic.
func TestForecast_oddities(t *testing.T) {
	same := []Mark{}
	for i := range 600 {
		same = append(same, Exact(0, 2.5+float64(i)/1e4, 0.01))
	}
	for name, q := range map[string]Question{
		"600 absurd readings when new": {Limit: 0.5, Care: chain.Clean, NowKM: 0, Marks: same},
		"absurd then silence":          {Limit: 0.5, Care: chain.Clean, NowKM: 500000, Marks: same},
		"far and unread":               {Limit: 0.1, Care: chain.Gritty, NowKM: 500000},
		"huge value":                   {Limit: 3, Care: chain.Usual, NowKM: 10, Marks: []Mark{Exact(10, 47000, 1e-6)}},
		"below zero":                   {Limit: 3, Care: chain.Usual, NowKM: 10, Marks: []Mark{Exact(10, -99, 0.1)}},
		"gauge that says nothing":      {Limit: 1, Care: chain.Usual, NowKM: 10, Marks: []Mark{Between(10, math.Inf(-1), math.Inf(1), NoBias)}},
		"vague distance":               {Limit: 1, Care: chain.Usual, NowKM: 1e4, DistanceSD: 0.5, Marks: []Mark{Exact(9e3, 0.9, 0.3)}},
	} {
		t.Run(name, func(t *testing.T) {
			a := answer(t, q)
			for _, v := range []float64{a.Elongation.P05, a.Elongation.P95, a.KMToLimit.P05, a.KMToLimit.P95,
				a.Rate.P05, a.Rate.P95, a.MeanRate, a.PastLimitNow, a.CheckAgainKM, a.Curve[len(a.Curve)-1].P95} {
				assert.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v < 0, "%+v", a)
			}
		})
	}
	for _, km := range []float64{math.NaN(), math.Inf(1), -1} {
		_, err := Forecast(Question{Limit: 1, Care: chain.Usual, NowKM: 10, Risk: 0.1, Marks: []Mark{Exact(km, 0.1, 0.1)}})
		assert.Error(t, err)
	}
	_, err := Forecast(Question{Limit: 1, Care: chain.Usual, NowKM: 9, Risk: 0.1, Marks: []Mark{Exact(10, 0.1, 0.1)}})
	assert.ErrorContains(t, err, "10 km")
}
