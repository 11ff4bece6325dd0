package photo

import (
	"math"
	"slices"

	"tautspan/internal/photo/raster"
)

// The printed frame, mm.
const (
	checkMM    = 5.0   // side of a check
	rowMM      = 9.6   // from the middle line to a row's corners: rows 19.2 apart
	windowMM   = 7.0   // width of the window
	frameMM    = 260.0 // length of the window and of the rows
	columns    = 51    // corners in a row
	leastMarks = 2 * leastColumns
)

// frame is the marks found in a picture and the lens that explains them.
type frame struct {
	marks  []mark
	lens   *lens
	pixelU float64 // standard deviation of a mark about the lens, pixels
	bend   float64 // largest lasting departure from a plane, mm
	lo, hi float64 // first and last column, mm
	rule   bool    // a rule's marks, not the print's
}

// findFrame looks for the marks, coarse in a reduced picture, then fine.
func findFrame(g *raster.Gray) (*frame, bool) {
	k := max(1, int(math.Round(float64(max(g.Width, g.Height))/workSide)))
	upper, lower, ok := findRows(findSaddles(reduce(g, k)))
	if !ok {
		return nil, false
	}
	lo := min(upper.places[0], lower.places[0])
	hi := max(upper.places[len(upper.places)-1], lower.places[len(lower.places)-1])
	if hi-lo+1 > columns || hi-lo+1 < leastColumns {
		return nil, false
	}
	coarse := []mark{}
	for side, r := range []row{upper, lower} {
		for i, s := range r.at {
			coarse = append(coarse, newMark(r.places[i]-lo, hi-lo, side, s.x*float64(k), s.y*float64(k)))
		}
	}
	first, ok := fitLens(coarse, g.Width, g.Height, 1, true)
	if !ok {
		return nil, false
	}
	f := &frame{lo: float64(lo-hi) / 2 * checkMM, hi: float64(hi-lo) / 2 * checkMM}
	for side := range 2 {
		for place := range hi - lo + 1 {
			m := newMark(place, hi-lo, side, 0, 0)
			u, v := first.pixel(m.x, m.y)
			if m.u, m.v, ok = refineCorner(g, u, v, 0.42*checkMM*first.perMM(m.x, m.y)); ok {
				f.marks = append(f.marks, m)
			}
		}
	}
	return f, f.fit(g)
}

func newMark(place, last, side int, u, v float64) mark {
	return mark{x: (float64(place) - float64(last)/2) * checkMM, y: rowMM * float64(1-2*side), u: u, v: v, side: side}
}

// fit finds the lens, leaving out marks that stand far from it: dirt, glare.
func (f *frame) fit(g *raster.Gray) bool {
	f.pixelU = 0.3
	for range 4 {
		if len(f.marks) < leastMarks {
			return false
		}
		l, ok := fitLens(f.marks, g.Width, g.Height, f.pixelU, false)
		if !ok {
			return false
		}
		f.lens = l
		along, across := l.residuals(f.marks)
		size := make([]float64, len(along))
		for i := range size {
			size[i] = math.Hypot(along[i], across[i])
		}
		f.pixelU = max(0.02, median(size)/f.medianOfSigma())
		kept := []mark{}
		for i, m := range f.marks {
			if size[i] < max(5*f.pixelU, 0.3) {
				kept = append(kept, m)
			}
		}
		done := len(kept) == len(f.marks)
		f.marks = kept
		if done {
			break
		}
	}
	f.bend = f.lasting()
	return len(f.marks) >= leastMarks
}

// medianOfSigma is the median distance of marks from where they are, over their
// standard deviation: of a Rayleigh law, or of a normal one along a rule only.
func (f *frame) medianOfSigma() float64 {
	if f.rule {
		return 0.6745
	}
	return 1.1774
}

// lasting is the largest mean, in mm, of the residuals of some neighbours in a
// row: noise does not last, a bent print does.
func (f *frame) lasting() float64 {
	const together = 7
	along, across := f.lens.residuals(f.marks)
	worst := 0.0
	for i := range f.marks[:max(0, len(f.marks)-together+1)] {
		if f.marks[i].side != f.marks[i+together-1].side {
			continue
		}
		a, c := 0.0, 0.0
		for k := i; k < i+together; k++ {
			a, c = a+along[k]/together, c+across[k]/together
		}
		worst = max(worst, math.Hypot(a, c)/f.lens.perMM(f.marks[i].x, f.marks[i].y))
	}
	return worst
}

func median(values []float64) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	return (sorted[(len(sorted)-1)/2] + sorted[len(sorted)/2]) / 2
}
