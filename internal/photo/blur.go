package photo

import (
	"math"

	"tautspan/internal/photo/raster"
)

// blur is the standard deviation, mm, of the spread of the checks' edges: a
// step of height c spread by a Gaussian of standard deviation s rises by at most
// c / (s √(2π)) a millimetre. Edges along and across the frame are taken apart,
// since a moving camera blurs one way; the worse median counts.
func (f *frame) blur(g *raster.Gray) float64 {
	var along, across []float64
	for x := f.lo; x < f.hi; x += checkMM {
		for side := -1.0; side <= 1; side += 2 {
			if s, ok := f.spread(g, x, side*(rowMM-checkMM/2), 1, 0); ok {
				along = append(along, s)
			}
			if s, ok := f.spread(g, x+checkMM/2, side*rowMM, 0, 1); ok {
				across = append(across, s)
			}
		}
	}
	if len(along) == 0 || len(across) == 0 {
		return checkMM
	}
	return max(median(along), median(across))
}

// spread is the spread of the edge at (x, y), crossed in the direction (dx, dy)
// and averaged along itself against noise. False where there is no contrast.
func (f *frame) spread(g *raster.Gray, x, y, dx, dy float64) (float64, bool) {
	const n, lines, step = 20, 3, 0.1
	profile := [2*n + 1]float64{}
	for i := range profile {
		t := float64(i-n) * step
		for k := -lines; k <= lines; k++ {
			across := float64(k) * 0.4
			u, v := f.lens.pixel(x+t*dx+across*dy, y+t*dy+across*dx)
			profile[i] += float64(cubicAt(g, u, v)) / (2*lines + 1)
		}
	}
	height := math.Abs(profile[2*n] - profile[0])
	if height < 30 {
		return 0, false
	}
	steepest := 0.0
	for i := 2; i < len(profile)-2; i++ {
		steepest = max(steepest, math.Abs(profile[i+2]-profile[i-2])/(4*step))
	}
	return height / (steepest * math.Sqrt(2*math.Pi)), true
}
