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
	stretch := spareMM / straightMM
	k := math.Sqrt(6 * stretch) // arc = s (1 + k²/6 - k⁴/40 …), so not above the answer
	if k < 0.01 {
		return straightMM * k / 4 // the next term is 8 parts in a million
	}
	// The arc is convex in k: after the first, Newton's steps run down to the answer.
	for range 20 {
		root, part := math.Sqrt(1+k*k), math.Asinh(k)/k
		step := ((root+part)/2 - 1 - stretch) * 2 * k / (root - part)
		k -= step
		if math.Abs(step) < 1e-10*k {
			break
		}
	}
	return straightMM * k / 4
}
