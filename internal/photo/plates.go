package photo

import "math"

// The round ends of the outer plates lie about 4.2 mm around their rivets, on
// the side away from the plate's other rivet. mm.
const (
	leastEndMM = 3.4
	mostEndMM  = 5.0
	endStepMM  = 0.1
	endN       = 17
	sameEndMM  = 0.4 // upper and lower part of an end lie at one radius, within this
	certain    = 4.5 // standard errors by which an end must stand out
	leastRise  = 1.5 // levels a millimetre
)

// plateEnds says whether round ends of plates stand around the rivets, on
// alternating sides, both above and below the middle line: a chain has them; a
// scalloped edge and a strip with holes do not. Where they lie is not measured.
func plateEnds(w *window, rivets []rivet) bool {
	for first := range 2 {
		up, upAt := endEdge(w, rivets, first, 1)
		down, downAt := endEdge(w, rivets, first, -1)
		if up*down > 0 && min(math.Abs(up), math.Abs(down)) > certain && math.Abs(upAt-downAt) <= sameEndMM {
			return true
		}
	}
	return false
}

// endEdge looks at the quarter above (half 1) or below (half -1) on the outer
// side of each rivet, where the outer side is the right for every second one
// from first. It returns the radius at which the level changes most surely from
// rivet to rivet, and by how many standard errors.
func endEdge(w *window, rivets []rivet, first int, half float64) (sure, at float64) {
	slopes := [endN][]float64{}
	for i, v := range rivets {
		if !v.clear {
			continue
		}
		side := float64(1 - 2*((i+first)%2))
		for k := range endN {
			r := leastEndMM + float64(k)*endStepMM
			if s, ok := w.outward(v.x, v.y, r, side, half); ok {
				slopes[k] = append(slopes[k], s)
			}
		}
	}
	for k, s := range slopes {
		if len(s) < 6 {
			continue
		}
		mid := median(s)
		off := make([]float64, len(s))
		for i := range s {
			off[i] = math.Abs(s[i] - mid)
		}
		// 1.4826 times the median deviation estimates a standard deviation;
		// a median's standard error is 1.2533 times that over √n.
		t := mid / (1.4826*1.2533*median(off)/math.Sqrt(float64(len(s))) + leastRise/certain)
		if math.Abs(t) > math.Abs(sure) {
			sure, at = t, leastEndMM+float64(k)*endStepMM
		}
	}
	return sure, at
}

// outward is the mean slope of the level away from (x, y) at the radius r, over
// the part of the quarter that lies in the window; levels a millimetre.
func (w *window) outward(x, y, r, side, half float64) (slope float64, ok bool) {
	sum, n := 0.0, 0.0
	for degrees := 8.0; degrees <= 56; degrees += 3 {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		const d = 0.25
		if far := y + half*(r+d)*sin; math.Abs(far) > marginY {
			continue
		}
		out := w.at(x+side*(r+d)*cos, y+half*(r+d)*sin)
		in := w.at(x+side*(r-d)*cos, y+half*(r-d)*sin)
		sum += (out - in) / (2 * d)
		n++
	}
	return sum / max(n, 1), n >= 5
}
