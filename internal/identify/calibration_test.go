package identify_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/identify"
)

// Of the answers given with probability p, a part p is right: half-inch chains
// are made up (equally often from each family, widths anywhere in its range and
// a little beyond, readings off by the usual caliper's uncertainty), and the
// claims counted in ten classes. The tolerance is four standard deviations of
// the count and half a percent for what the answer leaves out.
func TestCalculate_calibrated(t *testing.T) {
	source := rand.New(rand.NewPCG(41, 8))
	var families []chain.Family
	for _, f := range chain.Families() {
		if f.WidthKnown() {
			families = append(families, f)
		}
	}
	draw := func(width [2]float64, stray, u float64) *float64 {
		v := width[0] + (width[1]-width[0])*source.Float64() + math.Hypot(stray, u)*source.NormFloat64()
		return &v
	}
	var claimed, right, spread, count [10]float64
	answered := 0
	for range 10000 {
		f := families[source.IntN(len(families))]
		r := identify.Request{Outer: draw(f.OuterWidthMM, 0.07, 0.05), Inner: draw(f.InnerWidthMM, 0.05, 0.08)}
		a, err := identify.Calculate(&r)
		require.NoError(t, err)
		if a.NoneFit {
			continue
		}
		answered++
		for _, c := range a.Candidates {
			bin := min(9, int(10*c.Probability))
			claimed[bin] += c.Probability
			spread[bin] += c.Probability * (1 - c.Probability)
			count[bin]++
			if c.Class == f.Class {
				right[bin]++
			}
		}
	}
	assert.Greater(t, answered, 9800)
	for bin := range count {
		tolerance := 4*math.Sqrt(spread[bin]) + 0.005*count[bin]
		assert.InDelta(t, claimed[bin], right[bin], tolerance, "claims of %d0 %%: %v", bin, count[bin])
		t.Logf("%3d %%: %6.0f claims, %8.1f expected right, %6.0f right", 10*bin, count[bin], claimed[bin], right[bin])
	}
	assert.False(t, slices.Contains(count[:], 0))
}
