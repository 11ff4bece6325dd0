package geodesic

import "math"

// enough is the greatest error of the longitude difference that is accepted,
// rad. The circle found is then the exact geodesic to a point at most 1e-15 of
// the earth's radius, 6 nm, away from the wanted one.
const enough = 1e-15

// solve returns the t for circle: where the longitude difference on the sphere
// less the lag is the one on the ellipsoid. With the angle kept by the line
// that is t - lag = angle, and for a far line t + lag = angle; the left side
// rises with t. Secant steps, and bisection where those leave the bracket or
// take long. It is no call of num.Root, because that stops on the width of the
// bracket: for nearly antipodal points 1e-17 rad of t can be hundreds of metres.
func (l *line) solve() float64 {
	low, high := l.angle, l.angle+Flattening*math.Pi
	if l.far {
		low, high = 0, l.angle
	}
	before, missBefore := l.angle, l.miss(l.angle)
	t := before - missBefore
	if math.Abs(missBefore) <= enough {
		return before
	}
	for i := range 200 {
		if !(t > low && t < high) || i > 6 && i%3 == 0 {
			t = low + (high-low)/2
		}
		miss := l.miss(t)
		if math.Abs(miss) <= enough || high-low <= enough*low {
			break
		}
		if miss < 0 {
			low = t
		} else {
			high = t
		}
		step := miss * (t - before) / (miss - missBefore)
		t, before, missBefore = t-step, t, miss
	}
	return t
}

// miss is the left side of the equation less the right one.
func (l *line) miss(t float64) float64 {
	lag := l.circle(t).lag()
	if l.far {
		return t + lag - l.angle
	}
	return t - lag - l.angle
}
