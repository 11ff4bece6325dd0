package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/chain"
)

// 0.75 % lasts about 8800, 5000, 2700 and 1400 km. Common practice, no source.
func TestMedianRate(t *testing.T) {
	for care, km := range map[chain.Care]float64{chain.Enclosed: 8800, chain.Clean: 5000, chain.Usual: 2700, chain.Gritty: 1400} {
		assert.InEpsilon(t, km, 1000*0.75/medianRate(care), 0.03, care)
	}
	assert.Panics(t, func() { medianRate("muddy") })
}

// A new chain hung beside adds its own length, 0.04 % with u 0.02 %; it is the
// same chain each time. What an instrument shares is at most 95 % of the whole.
func TestCompared(t *testing.T) {
	m := Compared(0, 0.3, 0.03)
	assert.InDelta(t, 0.34, m.percent, 1e-12)
	assert.InDelta(t, 0.0360555, m.u, 1e-7) // root of 0.03² + 0.02²
	assert.Equal(t, 0.02, m.own)
	assert.InDelta(t, 0.095, Exact(0, 0.3, 0.1).Sharing("screen", 0.1).own, 1e-12)
}

// By one reading alone: half at the limit, 97.7 % two u beyond (printed table of
// the normal law); a gauge is past it as soon as any of its interval is.
func TestMark_past(t *testing.T) {
	for _, row := range []struct {
		mark Mark
		want float64
	}{
		{Exact(0, 0.5, 0.1), 0.5}, {Exact(0, 0.7, 0.1), 0.97725}, {Exact(0, 0.3, 0.1), 0.02275},
		{Between(0, 0.25, 0.5, NoBias), 0}, {Between(0, 0.25, 0.51, NoBias), 1}, {Between(0, 0.1, math.Inf(1), NoBias), 1},
	} {
		assert.InDelta(t, row.want, row.mark.past(0.5), 1e-5, "%+v", row.mark)
	}
}

// A node's probability fills the cell around it, the first from zero on; a rate's
// fills its cell of the logarithm. By hand.
func TestQuantile(t *testing.T) {
	l := lattice{h: 0.01, n: 5, limitNode: 4}
	for _, row := range []struct {
		f     []float64
		p, at float64
	}{
		{[]float64{0, 0.5, 0.5, 0, 0}, 0.25, 1}, {[]float64{0, 0.5, 0.5, 0, 0}, 0.5, 1.5}, {[]float64{0, 0.5, 0.5, 0, 0}, 0.75, 2},
		{[]float64{1, 0, 0, 0, 0}, 0.5, 0.25}, {[]float64{0, 0, 0, 0, 1}, 0.3, 4},
	} {
		assert.InDelta(t, l.at(row.at), l.quantile(row.f, row.p), 1e-12, row)
	}
	w := rateLaw{3: 0.5, 4: 0.5}
	assert.InEpsilon(t, rateAt(3), w.quantile(0.25), 1e-12)
	assert.InEpsilon(t, math.Sqrt(rateAt(3)*rateAt(4)), w.quantile(0.5), 1e-12)
	assert.InEpsilon(t, rateAt(4), w.quantile(0.75), 1e-12)
}
