package drive

import "math"

// SagMM returns how far below its taut line, at mid-span, a run straightMM long
// hangs when it holds spareMM more chain (0 or more), taking the hanging chain
// for a parabola: the depth h = k s/4 whose arc is s + spare, with
//
//	arc = s/2 (sqrt(1 + k²) + asinh(k)/k).
//
// A catenary of the same arc hangs less deep by under 2 % while the spare is below
// a third of the run. It is for drawing; the play felt by hand is PlayMM.
// Source: arc length of a parabola, standard calculus.
func SagMM(straightMM, spareMM float64) float64 {
	if spareMM <= 0 {
		return 0
	}
	stretch := 1 + spareMM/straightMM
	lo, hi := 0.0, 2*stretch // arc > s k/2, so the answer lies below
	for range 60 {
		k := (lo + hi) / 2
		if (math.Sqrt(1+k*k)+math.Asinh(k)/k)/2 < stretch {
			lo = k
		} else {
			hi = k
		}
	}
	return straightMM * (lo + hi) / 8
}
