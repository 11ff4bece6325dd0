package gears

import (
	"math"

	"tautspan/internal/chain"
	"tautspan/internal/units"
)

// DevelopmentM returns how far the bicycle goes with one turn of the cranks, in
// metres: ratio times circumference (16 CFR 1512.5 uses the same measure).
func DevelopmentM(ratio, circumferenceMM float64) float64 { return ratio * circumferenceMM / 1000 }

// GearInches returns the diameter in inches of the wheel that would go as far
// without gearing: ratio times circumference / pi (trade term).
func GearInches(ratio, circumferenceMM float64) float64 {
	return ratio * circumferenceMM / math.Pi / units.MillimetresPerInch
}

// GainRatio returns how far the bicycle goes for each unit of the pedal's way
// round: ratio times wheel radius / crank length, a pure number.
func GainRatio(ratio, circumferenceMM, crankMM float64) float64 {
	return ratio * circumferenceMM / (2 * math.Pi * crankMM)
}

// SpeedKmh returns the speed at a cadence in turns a minute.
func SpeedKmh(developmentM, cadenceRpm float64) float64 { return developmentM * cadenceRpm * 60 / 1000 }

// TensionN returns the pull in the upper run in newtons, averaged over a turn of
// the cranks, from the power in watts at a cadence in turns a minute above 0 on a
// chainring: F = 2P/(omega d) with d the pitch circle. At the mean chain speed it
// would be larger by (pi/z)/sin(pi/z), 0.06 % at 52 teeth. A hard push peaks at
// about twice the average.
func TensionN(powerW, cadenceRpm float64, ringTeeth int, pitchMM float64) float64 {
	omega := 2 * math.Pi * cadenceRpm / 60
	return powerW / (omega * chain.PitchRadiusMM(ringTeeth, pitchMM) / 1000)
}

// ChainAngleDeg returns how far out of line the chain runs, in degrees, 0 or
// more: atan(|offset| / chainstay), offset being the distance between the planes
// of chainring and sprocket.
func ChainAngleDeg(offsetMM, chainstayMM float64) float64 {
	return math.Atan(math.Abs(offsetMM)/chainstayMM) * 180 / math.Pi
}

// Laboratory results on clean derailleur drives: Spicer, Richardson, Ehrlich,
// Bernstein, Fukuda and Terada, Effects of Frictional Loss on Bicycle Chain Drive
// Efficiency, J. Mech. Des. 123 (2001) 598-605. The efficiencies are as the
// university's release of 19 August 1999 states them; the pulls at which they
// were measured are from memory of an abstract and agree with 52 teeth at 60
// turns a minute and 200 and 50 W. The table between them is not published in
// full, and a line through the two passes 100 %: nothing is interpolated.
const (
	WorstEfficiencyPercent = 81.0
	BestEfficiencyPercent  = 98.6
	WorstEfficiencyN       = 76.2
	BestEfficiencyN        = 305.0
)
