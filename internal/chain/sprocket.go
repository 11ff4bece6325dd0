package chain

import "math"

// Teeth a chainring or a sprocket may have, as every request allows them. The
// smallest are found on folding and small-wheel drives, the largest reach past
// the published tables we check against (our choice of range).
const (
	LeastTeeth = 6
	MostTeeth  = 150
)

// PitchRadiusMM returns the radius of the circle through the pin centres of a
// chain of the given pitch wrapped on a wheel: R = p/(2 sin(pi/z)), in the unit
// of pitchMM (ISO 606, annex A, pitch circle diameters). It panics unless teeth
// is 3 or more, because there is no polygon below.
func PitchRadiusMM(teeth int, pitchMM float64) float64 {
	if teeth < 3 {
		panic("chain: a wheel has at least 3 teeth")
	}
	return pitchMM / (2 * math.Sin(math.Pi/float64(teeth)))
}

// ArticulationDeg returns the angle a link turns by each time it runs on to or
// off a wheel, 360/z degrees. It panics unless teeth is positive.
func ArticulationDeg(teeth int) float64 {
	if teeth < 1 {
		panic("chain: a wheel has at least 1 tooth")
	}
	return 360 / float64(teeth)
}
