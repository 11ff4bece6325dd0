package num

import "math"

// NormalCDF returns the standard normal cumulative distribution function
// Phi(z) = erfc(-z/sqrt 2)/2, accurate in both tails. z is any real number or
// infinity; NaN gives NaN. Source: definition, checked against gonum.
func NormalCDF(z float64) float64 {
	return 0.5 * math.Erfc(-z/math.Sqrt2)
}

// NormalQuantile returns the z for which NormalCDF(z) = p, 0 <= p <= 1; the
// ends give minus and plus infinity and anything outside gives NaN.
// Source: inverse of the definition above, checked against gonum.
func NormalQuantile(p float64) float64 {
	return -math.Sqrt2 * math.Erfcinv(2*p)
}
