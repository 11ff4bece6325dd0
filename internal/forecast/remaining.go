package forecast

import (
	"math"

	"tautspan/internal/num"
)

// remaining is the law of the distance to the limit. Where the smooth wear is y
// and the rate R, only z = (limit - y)/R matters: the distance, in 1000 km, the
// chain would last at a steady rate.
type remaining struct {
	past    float64 // probability of being at or past the limit now
	logZ    []float64
	weights []float64 // of each z; with past they sum to one
}

const (
	zBins     = 160
	leastLogZ = -7.5 // about half a km
)

// newRemaining gathers the posterior by z. A lattice node stands for the cell
// around it, so half of the limit's node is past.
func newRemaining(p *posterior) *remaining {
	l := p.lattice
	longest := math.Log(l.limit() / slowestRate)
	step := (longest - leastLogZ) / (zBins - 1)
	r := &remaining{logZ: make([]float64, zBins), weights: make([]float64, zBins)}
	for i := range r.logZ {
		r.logZ[i] = leastLogZ + float64(i)*step
	}
	for i := range p.rate {
		row := p.at(i)
		for _, v := range row[l.limitNode+1:] {
			r.past += v
		}
		r.past += row[l.limitNode] / 2
		r.add(l.h/4, i, row[l.limitNode]/2, step)
		for k, v := range row[:l.limitNode] {
			r.add(l.h*float64(l.limitNode-k), i, v, step)
		}
	}
	return r
}

// add shares weight w at what is left to wear between the two nearest z.
func (r *remaining) add(left float64, rate int, w, step float64) {
	if w == 0 {
		return
	}
	at := max(0, (math.Log(left)-logRateAt(rate)-leastLogZ)/step)
	i := min(int(at), zBins-2)
	part := at - float64(i)
	r.weights[i] += w * (1 - part)
	r.weights[i+1] += w * part
}

// reached returns the probability that the limit is reached within t (1000 km):
// past + sum of w(z) Q(nu t, nu z).
func (r *remaining) reached(t float64) float64 {
	p := r.past
	for i, w := range r.weights {
		if w < 1e-12 {
			continue
		}
		q := num.GammaQ(nu*t, nu*math.Exp(r.logZ[i]))
		if q < 1e-13 {
			break // and smaller for every longer z
		}
		p += w * q
	}
	return p
}

// quantile returns the distance (1000 km) within which the limit is reached
// with probability p, 0 when that is so already.
func (r *remaining) quantile(p float64) float64 {
	if p <= r.past {
		return 0
	}
	f := func(logT float64) float64 { return r.reached(math.Exp(logT)) - p }
	// start where the weights reach p: the answer at a steady rate
	sum, i := r.past, 0
	for ; i < zBins-1 && sum+r.weights[i] < p; i++ {
		sum += r.weights[i]
	}
	lo, hi := r.logZ[i]-0.5, r.logZ[i]+0.5
	for step := 1.0; f(lo) > 0 && lo > leastLogT; step *= 2 {
		lo, hi = lo-step, lo
	}
	for step := 1.0; f(hi) < 0 && hi < mostLogT; step *= 2 {
		lo, hi = hi, hi+step
	}
	logT, err := num.Root(f, lo, hi, 1e-6)
	switch {
	case err == nil:
		return math.Exp(logT)
	case f(lo) > 0:
		return 0 // within a metre
	}
	return math.Exp(hi)
}

// The answers of quantile lie within these: a metre, and a million km.
const (
	leastLogT = -14.0
	mostLogT  = 7.0
)
