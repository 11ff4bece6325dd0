package num

import (
	"errors"
	"math"
)

// ErrNoBracket says that a function has the same sign at both ends of the
// interval in which Root was to find its zero.
var ErrNoBracket = errors.New("num: no change of sign between the two ends")

// Root returns an x between lo and hi at which the continuous function f is
// zero, to within tolerance (> 0, in the unit of x). It draws the chord through
// the two ends of the bracket, halves the value of an end that stays put (the
// Illinois rule), and bisects whenever three steps have not halved the bracket:
// fast where f is smooth, and never slower than three times bisection. It
// returns ErrNoBracket when f(lo) and f(hi) are both above or both below zero.
// Source: M. Dowell and P. Jarratt, BIT 11 (1971) 168-174 (from memory).
func Root(f func(float64) float64, lo, hi, tolerance float64) (float64, error) {
	flo, fhi := f(lo), f(hi)
	switch {
	case flo == 0:
		return lo, nil
	case fhi == 0:
		return hi, nil
	case (flo > 0) == (fhi > 0) || math.IsNaN(flo) || math.IsNaN(fhi):
		return 0, ErrNoBracket
	}
	width, kept := hi-lo, 0
	for step := 1; hi-lo > tolerance && step < 300; step++ {
		x := hi - fhi*(hi-lo)/(fhi-flo)
		if step%3 == 0 {
			if hi-lo > width/2 {
				x = lo + (hi-lo)/2
			}
			width = hi - lo
		}
		if x = min(max(x, lo+tolerance/4), hi-tolerance/4); !(x > lo && x < hi) {
			break
		}
		fx := f(x)
		switch {
		case fx == 0:
			return x, nil
		case (fx > 0) == (flo > 0):
			lo, flo = x, fx
			if kept > 0 {
				fhi /= 2
			}
			kept = 1
		default:
			hi, fhi = x, fx
			if kept < 0 {
				flo /= 2
			}
			kept = -1
		}
	}
	return lo + (hi-lo)/2, nil
}
