package forecast_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/forecast"
	"tautspan/internal/wear"
)

// A reading is drawn where the calculation wear puts it, with the same 95 %
// range; the 97.5 % point 1.959964 is printed in any table of the normal
// distribution.
func TestCalculate_drawsReadingsWhereWearPutsThem(t *testing.T) {
	span := 305.7
	rule := wear.Reading{Kind: wear.Rule, Pitches: 24, SpanMM: &span, ResolutionMM: ptr(0.5)}
	answer := forecastOf(t, []forecast.ReadingAt{{AtKM: 700, Reading: rule}}, nil)
	judged, err := wear.Calculate(&wear.Request{Drive: chain.Single, PitchMM: chain.PitchMM, Reading: rule})
	require.NoError(t, err)
	require.Len(t, answer.Drawn, 1)
	d := answer.Drawn[0]
	assert.Equal(t, 700.0, d.AtKM)
	assert.InDelta(t, judged.Elongation, *d.Percent, 1e-12)
	assert.InDelta(t, 1.959964*judged.StandardUncertainty, *d.High-*d.Percent, 1e-6)
	assert.InDelta(t, *d.High-*d.Percent, *d.Percent-*d.Low, 1e-12)
}

func TestCalculate_drawsGaugesAsWhatTheyLeaveOpen(t *testing.T) {
	gauge := func(at float64, bears wear.Bearing, steps ...wear.Step) forecast.ReadingAt {
		return forecast.ReadingAt{AtKM: at, Reading: wear.Reading{Kind: wear.Gauge, BearsOn: bears, Steps: steps}}
	}
	half, most := wear.Step{Percent: 0.5}, wear.Step{Percent: 0.75}
	dropped := wear.Step{Percent: 0.5, Drops: true}
	answer := forecastOf(t, []forecast.ReadingAt{
		gauge(900, wear.SameSide, dropped, most),
		gauge(100, wear.SameSide, half, most),
		gauge(950, wear.SameSide, dropped),
		gauge(960, wear.OpposedRollers, dropped, most),
	}, []forecast.EarlierChain{{Readings: []forecast.ReadingAt{gauge(500, wear.SameSide, dropped, most)}}})
	for i, want := range []struct{ at, low, high float64 }{
		{900, 0.5, 0.75},
		{100, math.Inf(-1), 0.5},
		{950, 0.5, math.Inf(1)},
		{960, 0.5 - wear.OpposedPlayPercent, 0.75 - wear.OpposedPlayPercent},
	} {
		d := answer.Drawn[i]
		assert.Nil(t, d.Percent)
		assert.Equal(t, want.at, d.AtKM)
		assertEnd(t, want.low, d.Low)
		assertEnd(t, want.high, d.High)
	}
	require.Len(t, answer.DrawnEarlier, 1)
	assert.Equal(t, 500.0, answer.DrawnEarlier[0].Marks[0].AtKM)
}

func assertEnd(t *testing.T, want float64, got *float64) {
	t.Helper()
	if math.IsInf(want, 0) {
		assert.Nil(t, got)
		return
	}
	require.NotNil(t, got)
	assert.InDelta(t, want, *got, 1e-12)
}

func forecastOf(t *testing.T, readings []forecast.ReadingAt, earlier []forecast.EarlierChain) *forecast.Response {
	t.Helper()
	limit := 0.75
	answer, err := forecast.Calculate(&forecast.Request{LimitPercent: &limit, PitchMM: chain.PitchMM, Care: chain.Usual, Risk: 0.1, Readings: readings, Earlier: earlier})
	require.NoError(t, err)
	return answer
}

func ptr(v float64) *float64 { return &v }
