package chain

import (
	"errors"
	"math"
)

// ErrNoRoom is returned where two wheels would touch each other or lie inside
// one another.
var ErrNoRoom = errors.New("the two wheels do not fit side by side at this distance")

// LeastSparePitches is what a derailleur drive must have beyond the taut loop in
// any pair it is shifted into, or the cage is pulled straight: half of what the
// workshop rule of one inch adds at least. Common practice, no source.
const LeastSparePitches = 1.0

// Loop is a closed chain laid taut round two wheels, without a tensioner. All
// its lengths are in pitches of the chain that is on it.
type Loop struct {
	mean       float64 // half the sum of the teeth: the wrapped part of equal wheels
	difference float64 // teeth of the larger less those of the smaller wheel
	rise       float64 // difference of the pitch radii
	clearance  float64 // sum of the pitch radii
}

// NewLoop returns the loop round wheels of a and b teeth, in either order. It
// panics unless both have 3 teeth or more.
func NewLoop(a, b int) Loop {
	ra, rb := PitchRadiusMM(a, 1), PitchRadiusMM(b, 1)
	return Loop{
		mean:       float64(a+b) / 2,
		difference: math.Abs(float64(a - b)),
		rise:       math.Abs(ra - rb),
		clearance:  ra + rb,
	}
}

// LeastCentre returns the distance between the axles, in pitches, at which the
// two pitch circles touch. Every other method needs a distance beyond it.
func (l Loop) LeastCentre() float64 { return l.clearance }

// Straight returns the length of one straight run in pitches for axles centre
// pitches apart: sqrt(C² - (R-r)²).
func (l Loop) Straight(centre float64) float64 {
	return math.Sqrt(centre*centre - l.rise*l.rise)
}

// LeanRad returns the angle in radians between a straight run and the line
// through the axles: asin((R-r)/C).
func (l Loop) LeanRad(centre float64) float64 { return math.Asin(l.rise / centre) }

// Pitches returns the exact length of the loop in pitches, a real number, for
// axles centre pitches apart (more than LeastCentre; NaN where they are so near
// that there is no straight run):
//
//	X = 2 sqrt(C² - (R-r)²) + (Z+z)/2 + (Z-z) asin((R-r)/C)/pi
//
// The straight runs are tangents of the pitch circles; the wrapped part is
// counted in pitches, because every link on a wheel spans exactly one tooth. It
// is the mean over all positions of the two wheels; as they turn, the length of
// the real polygon swings about it by some 0.004 pitch. The length of a smooth
// belt on the same circles is longer by 0.04 to 0.09 pitch and is not the
// length of a chain. Checked against the hull of two real polygons.
func (l Loop) Pitches(centre float64) float64 {
	return 2*l.Straight(centre) + l.mean + l.difference*l.LeanRad(centre)/math.Pi
}

// Centre returns the distance between the axles in pitches at which a chain of
// the given length in pitches is taut: the inverse of Pitches. It returns
// ErrNoRoom where the chain is so short that the wheels would touch, or is not
// a finite length.
func (l Loop) Centre(pitches float64) (float64, error) {
	if !(pitches > l.Pitches(l.clearance)) || math.IsInf(pitches, 1) {
		return 0, ErrNoRoom
	}
	// Pitches is convex and rises by about 2 per pitch of distance, and this
	// start is not below the answer: Newton's steps run down to it from above.
	centre := max((pitches-l.mean)/2, l.clearance)
	for range 50 {
		step := (l.Pitches(centre) - pitches) / l.slope(centre)
		centre -= step
		if math.Abs(step) < 1e-13*centre {
			break
		}
	}
	return centre, nil
}

// slope is the derivative of Pitches by the distance.
func (l Loop) slope(centre float64) float64 {
	return (2*centre - l.difference*l.rise/(math.Pi*centre)) / l.Straight(centre)
}
