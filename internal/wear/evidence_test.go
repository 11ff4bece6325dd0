package wear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/wear"
)

// A reading as evidence agrees with the same reading as a verdict.
func TestReading_Evidence(t *testing.T) {
	span, print := 306.3, 0.05
	growth := wear.Reading{Kind: wear.Compare, Pitches: 24, GrowthMM: 1.5}
	// What every reading with one instrument has in common, percent; computed:
	// 0.1/sqrt(3) mm of 304.8; 0.056 of 101.6; 0.1 % of 127.6 mm, of 127; as stated.
	shared := map[string]float64{"rule": 0.0189420, "caliper": 0.0551181, "screen": 0.1004724, "photo": 0.05}
	for name, r := range map[string]wear.Reading{
		"rule":    {Kind: wear.Rule, Pitches: 24, SpanMM: &span},
		"caliper": {Kind: wear.Caliper, Pitches: 8, InsideMM: 94.4, RollerMM: 7.75},
		"screen":  {Kind: wear.Screen, Pitches: 10, SpanPx: 1276, PxPerMM: 10, PxPerMMStandardUncertainty: 0.01},
		"photo":   {Kind: wear.Photo, Pitches: 18, ElongationPercent: 0.62, StandardUncertaintyPercent: 0.07, SharedUncertaintyPercent: &print},
	} {
		t.Run(name, func(t *testing.T) {
			e, err := r.Evidence(12.7)
			require.NoError(t, err)
			a, err := wear.Calculate(&wear.Request{Drive: chain.Hub, PitchMM: 12.7, Reading: r})
			require.NoError(t, err)
			assert.Equal(t, a.Elongation, e.Percent)
			assert.InDelta(t, a.StandardUncertainty, e.UPercent, 1e-15)
			assert.False(t, e.Interval || e.AgainstNew)
			assert.InDelta(t, shared[name], e.SharedPercent, 1e-7)
		})
	}
	t.Run("compare leaves the new chain's length out", func(t *testing.T) {
		e, err := growth.Evidence(12.7)
		require.NoError(t, err)
		a, err := wear.Calculate(&wear.Request{Drive: chain.Hub, PitchMM: 12.7, Reading: growth})
		require.NoError(t, err)
		assert.True(t, e.AgainstNew)
		assert.InDelta(t, a.StandardUncertainty, math.Hypot(e.UPercent, chain.NewTolerancePercent/math.Sqrt(3)), 1e-12)
	})
	t.Run("no span", func(t *testing.T) {
		r := wear.Reading{Kind: wear.Rule, Pitches: 24}
		_, err := r.Evidence(12.7)
		assert.ErrorContains(t, err, "span_mm")
	})
	t.Run("gauge", func(t *testing.T) {
		g := wear.Reading{Kind: wear.Gauge, BearsOn: wear.OpposedRollers, Steps: []wear.Step{{Percent: 0.5, Drops: true}}}
		e, err := g.Evidence(12.7)
		require.NoError(t, err)
		assert.Equal(t, wear.Evidence{Interval: true, Lo: 0.5, Hi: math.Inf(1), Opposed: true}, e)
		g.Steps = append(g.Steps, wear.Step{Percent: 0.4, Drops: false})
		_, err = g.Evidence(12.7)
		assert.ErrorContains(t, err, "steps")
	})
}
