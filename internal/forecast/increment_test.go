package forecast

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"
)

// The increment law has the mean, variance and skewness of the gamma law it
// stands for. Source: cumulants of a gamma of shape a and scale c, a c, a c^2 and
// 2 a c^3 (handbook).
func TestIncrement_cumulants(t *testing.T) {
	for _, ds := range []float64{0.01, 0.3, 2} {
		for _, rate := range []float64{0.06, 0.28, 1.1} {
			const h, shape = 0.01, 4.0
			var p increment
			p.set(ds, rate, shape, h, 4000)
			sum, mean, m2, m3 := 0.0, 0.0, 0.0, 0.0
			for n, v := range p.mass {
				sum += v
				mean += v * h * float64(n)
			}
			for n, v := range p.mass {
				d := h*float64(n) - mean
				m2 += v * d * d
				m3 += v * d * d * d
			}
			a, c := shape*ds, rate/shape
			assert.InDelta(t, 1, sum, 2e-12)
			assert.InEpsilon(t, a*c, mean, 1e-7)
			assert.InEpsilon(t, a*c*c, m2, 1e-6)
			assert.InEpsilon(t, 2*a*c*c*c, m3, 1e-5)
		}
	}
}

// Oracle: gonum's gamma law at the edges of the lattice's cells, for a step that
// is small against the scale of the increment.
func TestIncrement_gammaLaw(t *testing.T) {
	const ds, rate, shape, h = 1.5, 0.6, 4.0, 0.002
	var p increment
	p.set(ds, rate, shape, h, 4000)
	gamma := distuv.Gamma{Alpha: shape * ds, Beta: shape / rate}
	for k := 1; k < len(p.mass); k += 25 {
		assert.InDelta(t, gamma.CDF((float64(k)-0.5)*h), p.upTo[k], 2e-5, "x = %v", float64(k)*h)
	}
}

// Two increments after each other are one increment, to the last digits: the
// law is infinitely divisible, as wear is.
func TestIncrement_divisible(t *testing.T) {
	for _, rate := range []float64{0.02, 0.28, 2} {
		var a, b, both increment
		a.set(0.4, rate, 4, 0.01, 300)
		b.set(0.9, rate, 4, 0.01, 300)
		both.set(1.3, rate, 4, 0.01, 300)
		for n, want := range both.mass {
			got := 0.0
			for k := 0; k <= n && k < len(a.mass); k++ {
				if n-k < len(b.mass) {
					got += a.mass[k] * b.mass[n-k]
				}
			}
			assert.InDelta(t, want, got, 3e-12)
		}
	}
}

// A law that starts far below the smallest number is the one it should be.
func TestIncrement_lifted(t *testing.T) {
	var p increment
	p.set(400, 0.02, 4, 0.01, 2000) // Poisson with mean 800: e^-800 is no number
	poisson := distuv.Poisson{Lambda: 800}
	for _, k := range []int{700, 800, 900} {
		assert.InEpsilon(t, poisson.Prob(float64(k)), p.mass[k], 1e-6)
	}
}

// advance and retreat are adjoint, and advance loses nothing.
func TestLattice_advanceRetreat(t *testing.T) {
	l := newLattice(0.75, 1.2)
	f, g, out, back, scratch := make([]float64, l.n), make([]float64, l.n), make([]float64, l.n), make([]float64, l.n), make([]float64, l.n)
	l.newChain(f)
	for k := range g {
		g[k] = 1 / (1 + float64(k))
	}
	for _, rate := range []float64{0.03, 0.3, 3} {
		var p increment
		p.set(1, rate, nu, l.h, l.n)
		advance(out, f, span{0, l.n}, &p, scratch)
		retreat(back, g, span{0, l.n}, &p)
		sum := 0.0
		for _, v := range out {
			sum += v
		}
		assert.InDelta(t, 1, sum, 1e-12)
		assert.InDelta(t, dot(f, back), dot(out, g), 1e-11)
	}
}

// The two scales are inverse, agree at zero and at the limit, and the slope at
// the limit is 1 + speedUp times the slope when new.
func TestSmooth(t *testing.T) {
	const limit, d = 0.75, 1e-6
	for x := 0.0; x < 3; x += 0.1 {
		assert.InDelta(t, x, elongationAt(smooth(x, limit), limit), 1e-12)
	}
	assert.InDelta(t, limit, smooth(limit, limit), 1e-12)
	atNew := elongationAt(d, limit) / d
	atLimit := (elongationAt(limit+d, limit) - limit) / d
	assert.InDelta(t, 1+speedUp, atLimit/atNew, 1e-4)
}
