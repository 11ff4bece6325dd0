package forecast

import "math"

// increment is the law of the wear between two distances, in steps of the
// lattice: mass[n] is the probability of n steps. What lies beyond the last
// entry is less than incrementTail, or off the lattice.
type increment struct {
	mass []float64
	upTo []float64  // upTo[n] is the sum of the first n
	key  [4]float64 // what it was made for
}

// incrementTail is the probability left out at the far end of an increment.
const incrementTail = 1e-12

// set makes the law for a distance ds (1000 km), a rate (percent per 1000 km),
// the process's shape per 1000 km and a lattice step h (percent), at most n
// entries long. An increment just like the last one is not made again.
//
// The gamma increment has shape a = shape ds and scale 1/beta lattice steps,
// beta = shape h / rate. On the lattice it becomes a Poisson(d1) plus a negative
// binomial(r, q) with the same mean, variance and skewness:
//
//	D = 2 - 3 beta + 2 beta^2       d1 = a/D
//	r = 4 a (1-beta)^3 / D^2        1-q = 2 beta (1-beta) / (2-beta)
//
// Both are infinitely divisible, so two increments after each other are one
// increment, as they must be. The probabilities follow from
// p0 = (1-q)^r e^-d1 and p(n+1) = [q (n+r) p(n) + d1 (p(n) - q p(n-1))]/(n+1).
// From beta = 0.95 on, where a rate is too slow for the lattice to see more, it
// is a Poisson of the same mean. Source: own derivation, checked against the
// cumulants of the gamma distribution.
func (p *increment) set(ds, rate, shape, h float64, n int) {
	key := [4]float64{ds, rate, shape, h}
	if key == p.key && len(p.mass) > 0 {
		return
	}
	p.key = key
	d1, r, q := lawParameters(shape*ds, shape*h/rate)
	logFirst := -d1
	if r > 0 {
		logFirst += r * math.Log1p(-q)
	}
	p.fill(logFirst, d1, r, q, n)
}

func lawParameters(a, beta float64) (d1, r, q float64) {
	if beta >= 0.95 {
		return a / beta, 0, 0
	}
	d := 2 - 3*beta + 2*beta*beta
	return a / d, 4 * a * math.Pow(1-beta, 3) / (d * d), d / (2 - beta)
}

// fill runs the recursion from exp(logFirst). A start below the smallest number
// is lifted by powers of 1e200 and lowered again as the terms grow.
func (p *increment) fill(logFirst, d1, r, q float64, n int) {
	const lift = 1e200
	logLift := math.Log(lift)
	lifts := 0
	for ; logFirst < -logLift; lifts++ {
		logFirst += logLift
	}
	p.mass, p.upTo = p.mass[:0], append(p.upTo[:0], 0)
	last, this, sum := 0.0, math.Exp(logFirst), 0.0
	for i := range n {
		if lifts > 0 && this > 1 {
			last, this, lifts = last/lift, this/lift, lifts-1
		}
		v := this
		if lifts > 0 {
			v = 0 // below 1e-200
		}
		p.mass = append(p.mass, v)
		sum += v
		p.upTo = append(p.upTo, sum)
		if sum > 1-incrementTail {
			return
		}
		k := float64(i)
		last, this = this, (q*(k+r)*this+d1*(this-q*last))/(k+1)
	}
}
