package wear

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/words"
)

// Root sum of squares, published worked examples.
func TestMeasurement_u(t *testing.T) {
	for _, row := range []struct {
		source     string
		components []float64
		u          float64
		tolerance  float64
	}{
		{"JCGM 100:2008 H.1 end gauge, nm (seen in a national laboratory's tests)", []float64{25, 9.7, 2.9, 16.6}, 31.7, 0.05},
		{"JCGM 100:2008 H.1 difference term (same)", []float64{5.8, 3.9, 6.7}, 9.7, 0.05},
		{"JCGM 101:2008 9.2.3, four of unit uncertainty (seen)", []float64{1, 1, 1, 1}, 2.0, 1e-12},
		{"NPL guide 11 string, mm (from memory, computed digits agree)", []float64{2.5, 0.3, 5.8, 0.7}, 6.4, 0.05},
	} {
		m := &measurement{}
		for _, u := range row.components {
			m.add("part", u, words.Note{})
		}
		assert.InDelta(t, row.u, m.u(), row.tolerance, row.source)
	}
}

// JCGM 100:2008 4.3.7 as a EURACHEM extract prints it: a rectangle of
// half-width 1.5 has u 0.87.
func TestRectangular(t *testing.T) {
	assert.InDelta(t, 0.87, rectangular(1.5), 0.005)
}

// A known bias is a correction (JCGM 100:2008, 3.2.4): the value moves by it,
// the uncertainty stays. The figures are computed.
func TestReading_bias(t *testing.T) {
	span := 306.5
	ask := func(bias *float64) *Response {
		answer, err := Calculate(&Request{Drive: chain.Single, PitchMM: 12.7,
			Reading: Reading{Kind: Rule, Pitches: 24, SpanMM: &span, BiasPercent: bias}})
		require.NoError(t, err)
		return answer
	}
	plain, long, short := ask(nil), ask(ptr(0.1)), ask(ptr(-0.1))
	assert.InDelta(t, plain.Elongation-0.1, long.Elongation, 1e-12)
	assert.InDelta(t, 0.1, long.Correction, 1e-12)
	assert.InDelta(t, plain.Elongation+0.1, short.Elongation, 1e-12)
	assert.Equal(t, plain.StandardUncertainty, long.StandardUncertainty)
	assert.Greater(t, short.ProbabilityPast, plain.ProbabilityPast)
	assert.Contains(t, long.Reasons, words.N("bias_subtracted", words.V("bias", 0.1, 3)))
	assert.Contains(t, short.Reasons, words.N("bias_added", words.V("bias", 0.1, 3)))
}

// What a gauge's steps stand for moves with its bias, for the verdict and for
// the forecast alike; roller play is corrected besides.
func TestReading_biasOfGauge(t *testing.T) {
	r := Reading{Kind: Gauge, Steps: []Step{{0.5, true}, {0.75, false}}, BearsOn: OpposedRollers, BiasPercent: ptr(0.05)}
	m, err := r.measure(12.7)
	require.NoError(t, err)
	assert.InDelta(t, 0.625-OpposedPlayPercent-0.05, m.estimate, 1e-12)
	assert.InDelta(t, OpposedPlayPercent+0.05, m.correction, 1e-12)
	e, err := r.Evidence(12.7)
	require.NoError(t, err)
	assert.InDelta(t, 0.45, e.Lo, 1e-12)
	assert.InDelta(t, 0.70, e.Hi, 1e-12)
}

func ptr(v float64) *float64 { return &v }
