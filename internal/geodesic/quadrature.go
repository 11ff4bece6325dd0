package geodesic

import "math"

// The integrands are analytic within 3.19 rad of the real line, because k² is
// at most 0.00674. Over half a turn each node more divides the error of the
// Gauss–Legendre rule by about 18, and twelve leave less than the roundings;
// over shortArc, 0.01 rad or 64 km, three do. Legs of a ride are short.
const shortArc = 0.01

var shortRule, longRule = gaussLegendre(3), gaussLegendre(12)

// node is where on -1..1 a quadrature looks, and with what weight.
type node struct{ at, weight float64 }

// gaussLegendre finds the n roots x of the Legendre polynomial P_n by Newton's
// method; the weights are 2/((1-x²) P_n'(x)²).
func gaussLegendre(n int) []node {
	rule := make([]node, n)
	for i := range rule {
		x := math.Cos(math.Pi * (float64(i) + 0.75) / (float64(n) + 0.5))
		slope := 0.0
		for range 10 {
			p, before := 1.0, 0.0
			for k := 1.0; k <= float64(n); k++ {
				p, before = ((2*k-1)*x*p-(k-1)*before)/k, p
			}
			slope = float64(n) * (x*p - before) / (x*x - 1)
			x -= p / slope
		}
		rule[i] = node{x, 2 / ((1 - x*x) * slope * slope)}
	}
	return rule
}
