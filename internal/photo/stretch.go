package photo

import "math"

// stretchFit is the chain as its clear rivets show it.
type stretchFit struct {
	pitch   float64 // mm, mean of whole links
	u       float64 // its standard uncertainty from the rivets' scatter, mm
	scatter float64 // standard deviation of a rivet about the fit, mm
	angle   float64 // of the chain to the frame, radians
	bow     float64 // largest departure from a straight line, mm
	clear   int
	worst   int     // the rivet farthest from the fit
	miss    float64 // how far, along and across, mm
}

// strayMM is how far from the fit a rivet is no longer believed.
const strayMM = 0.35

// settle fits the chain and takes rivets that stray for unclear, the farthest
// first, until none strays or a third is gone.
func settle(rivets []rivet) (kept []rivet, fit stretchFit, ok bool) {
	for range len(rivets)/3 + 1 {
		kept = wholeLinks(rivets)
		if fit, ok = fitStretch(kept); !ok || fit.miss < strayMM {
			return kept, fit, ok
		}
		kept[fit.worst].clear = false
	}
	return kept, fit, false
}

// fitStretch fits a straight line through the clear rivets and then their
// places along it: position = start + place · pitch. Every second rivet has a
// start of its own, so that only whole links, from one rivet to the next but
// one, are measured; a half link's length enters nowhere. False below 6.
func fitStretch(rivets []rivet) (stretchFit, bool) {
	fit := stretchFit{}
	line, along := newNormal(2), newNormal(3)
	for _, v := range rivets {
		if v.clear {
			fit.clear++
			line.add([]float64{1, v.x}, v.y, 1)
		}
	}
	if fit.clear < 6 {
		return fit, false
	}
	y, ok := solve(line.a, line.b)
	if !ok {
		return fit, false
	}
	fit.angle = math.Atan(y[1])
	sin, cos := math.Sincos(fit.angle)
	for _, v := range rivets {
		if v.clear {
			fit.bow = max(fit.bow, math.Abs(v.y-y[0]-y[1]*v.x)*cos)
			along.add(placeRow(v.place), v.x*cos+(v.y-y[0])*sin, 1)
		}
	}
	inverse := [][]float64{}
	for i := range along.a {
		inverse = append(inverse, append([]float64{}, along.a[i]...))
	}
	x, ok := solve(along.a, along.b)
	if !ok {
		return fit, false
	}
	sum := 0.0
	for i, v := range rivets {
		if v.clear {
			row := placeRow(v.place)
			miss := v.x*cos + (v.y-y[0])*sin - row[0]*x[0] - row[1]*x[1] - row[2]*x[2]
			sum += miss * miss
			miss = math.Hypot(miss, (v.y-y[0]-y[1]*v.x)*cos)
			if miss > fit.miss {
				fit.worst, fit.miss = i, miss
			}
		}
	}
	fit.scatter = math.Sqrt(sum / float64(fit.clear-3))
	unit, _ := solve(inverse, []float64{0, 0, 1})
	fit.pitch, fit.u = x[2], fit.scatter*math.Sqrt(unit[2])
	return fit, true
}

func placeRow(place int) []float64 {
	if place%2 == 0 {
		return []float64{1, 0, float64(place)}
	}
	return []float64{0, 1, float64(place)}
}
