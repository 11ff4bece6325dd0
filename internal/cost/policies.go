package cost

import "math"

// model is everything the cost of a policy depends on but the rate. Prices are
// in minor units.
type model struct {
	chain, sprockets, ring float64
	setsPerRing            float64 // rho
	wear                   damage
}

// perPercent is a policy's price of one percent of elongation, in minor units;
// times the rate in percent per 1000 km it is the cost per 1000 km.
type perPercent float64

// limit changes every chain at x percent.
func (m *model) limit(x float64) perPercent {
	set := m.sprockets + m.ring/m.setsPerRing
	return perPercent((m.chain + set*m.wear.at(x)) / (x - newPercent))
}

// never wears out one chain with its sprockets and chainring, to x percent.
func (m *model) never() (x float64, cost perPercent) {
	x = m.wear.reaching(together)
	return x, perPercent((m.chain + m.sprockets + m.ring) / (x - newPercent))
}

// rotation wears out n chains in turn with one set of sprockets, to x percent.
func (m *model) rotation(n int) (x float64, cost perPercent) {
	chains := float64(n)
	x = m.wear.reaching(together / chains)
	total := chains*m.chain + m.sprockets + m.ring*math.Min(1, together/m.setsPerRing)
	return x, perPercent(total / (chains * (x - newPercent)))
}

// leastLimit is where the search for the cheapest limit begins, percent: the
// lowest limit a reading can be judged by.
const leastLimit = 0.1

// flat is how far above the cheapest limit's cost the flat range reaches.
const flat = 1.02

// cheapestLimit returns the limit in percent that costs least and the range
// within 2 % of it, all between leastLimit and where sprockets and chain end
// together. Cost over the limit is convex: a falling hyperbola and rising powers.
func (m *model) cheapestLimit() (x float64, span [2]float64) {
	lo, hi := leastLimit, math.Max(leastLimit, m.wear.reaching(together))
	x = crossing(m.slope, lo, hi)
	ceiling := m.limit(x) * flat
	above := func(v float64) float64 { return float64(m.limit(v) - ceiling) }
	span[0] = crossing(func(v float64) float64 { return -above(v) }, lo, x)
	span[1] = crossing(above, x, hi)
	return x, span
}

// slope has the sign of the slope of the cost of a limit at x: it is
// (x - x0)^2 d/dx of that cost at a rate of one.
func (m *model) slope(x float64) float64 {
	set := m.sprockets + m.ring/m.setsPerRing
	return m.wear.b*set*(2*x*x*x-3*newPercent*x*x+newPercent*newPercent*newPercent)/3 - m.chain
}
