package num

import "math"

// gammaAccuracy ends the series and the continued fraction below.
const gammaAccuracy = 1e-15

// GammaQ returns the regularised upper incomplete gamma function
// Q(a, x) = 1/Gamma(a) · integral of t^(a-1) e^-t from x to infinity: the
// probability that a gamma variable of shape a and scale 1 is above x, accurate
// where it is small. Range: a > 0 and finite, x >= 0; NaN otherwise. Q(a, 0) = 1
// and Q(a, inf) = 0. Source: NIST Digital Library of Mathematical Functions
// 8.11.4 (series, for x < a+1) and 8.9.2 (continued fraction); checked against
// gonum.
func GammaQ(a, x float64) float64 {
	switch {
	case !(a > 0) || !(x >= 0) || math.IsInf(a, 1):
		return math.NaN()
	case x == 0:
		return 1
	case math.IsInf(x, 1):
		return 0
	}
	lg, _ := math.Lgamma(a)
	front := math.Exp(a*math.Log(x) - x - lg) // x^a e^-x / Gamma(a)
	if x < a+1 {
		return 1 - min(1, front*gammaSeries(a, x))
	}
	return min(1, front*gammaFraction(a, x))
}

// gammaSeries is the sum of x^n / (a (a+1) ... (a+n)) over n = 0, 1, ...
func gammaSeries(a, x float64) float64 {
	term := 1 / a
	sum := term
	for n := a + 1; term > sum*gammaAccuracy; n++ {
		term *= x / n
		sum += term
	}
	return sum
}

// gammaFraction is 1/(x+1-a- 1(1-a)/(x+3-a- 2(2-a)/(x+5-a- ...))), evaluated
// from the front by the modified Lentz method. For x >= a+1 every denominator
// stays positive.
func gammaFraction(a, x float64) float64 {
	b := x + 1 - a
	c := math.Inf(1)
	d := 1 / b
	f := d
	for i := 1.0; i < 1e6; i++ {
		top := i * (a - i)
		b += 2
		d = 1 / (b + top*d)
		c = b + top/c
		step := c * d
		f *= step
		if math.Abs(step-1) < gammaAccuracy {
			break
		}
	}
	return f
}
