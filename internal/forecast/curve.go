package forecast

import "math"

// Point is the elongation, percent, at one distance.
type Point struct {
	KM            float64 // since the chain was new
	P05, P50, P95 float64
}

const (
	curvePoints  = 12   // after the first, which is now
	curveSteps   = 40   // lattice steps from 0 to the limit: it is only drawn
	curvePast    = 4.0  // how far past the limit it can tell, in limits
	worthDrawing = 1e-4 // rates less likely than this are left out
)

// curve returns the elongation from now (1000 km) to horizon ahead, evenly
// spaced. The filter's own lattice would be finer than any picture, so the
// posterior is put on a coarser and longer one first.
func (p *posterior) curve(now, horizon float64) []Point {
	x := p.elongation()
	points := []Point{{1000 * now, p.lattice.quantile(x, 0.05), p.lattice.quantile(x, 0.50), p.lattice.quantile(x, 0.95)}}
	ds := horizon / curvePoints
	coarse := p.lattice.coarser()
	sums := make([]float64, curvePoints*coarse.n)
	buffers := make([]float64, 3*coarse.n)
	state, next, reversed := buffers[:coarse.n], buffers[coarse.n:2*coarse.n], buffers[2*coarse.n:]
	var law increment
	for i, w := range p.rate {
		if w < worthDrawing {
			continue
		}
		coarse.resample(state, p.at(i), p.lattice)
		s := span{0, coarse.n}
		for j := range curvePoints {
			law.set(ds, rateAt(i), nu, coarse.h, coarse.n)
			s = trim(state, s)
			s = advance(next, state, s, &law, reversed)
			state, next = next, state
			sum := sums[j*coarse.n : (j+1)*coarse.n]
			for k := s.lo; k < s.hi; k++ {
				sum[k] += state[k]
			}
		}
	}
	for j := range curvePoints {
		sum := sums[j*coarse.n : (j+1)*coarse.n]
		scaleToOne(sum)
		last := points[j] // the coarser lattice must not make a chain younger
		points = append(points, Point{1000 * (now + float64(j+1)*ds), max(last.P05, coarse.quantile(sum, 0.05)),
			max(last.P50, coarse.quantile(sum, 0.50)), max(last.P95, coarse.quantile(sum, 0.95))})
	}
	return points
}

// coarser returns the lattice to draw on.
func (l lattice) coarser() lattice {
	limit := l.limit()
	end := max(smooth(curvePast*limit, limit), l.h*float64(l.n-1))
	steps := max(8, min(curveSteps, int(limit/end*(mostNodes-2))))
	h := limit / float64(steps)
	return lattice{h: h, n: int(math.Ceil(end/h)) + 2, limitNode: steps}
}

// resample sets out to f of the lattice from, each node's probability shared
// between the two nearest nodes so that the mean stays.
func (l lattice) resample(out, f []float64, from lattice) {
	clear(out)
	for k, v := range f {
		at := from.h * float64(k) / l.h
		i := min(int(at), l.n-2)
		part := min(1, at-float64(i))
		out[i] += v * (1 - part)
		out[i+1] += v * part
	}
}
