package photo

import (
	"math"

	"tautspan/internal/words/photowords"
)

// Standard uncertainties of the budget that the picture itself does not show.
// Our guesses of how well paper lies on plates; no source.
const (
	pixelEndU = 0.1  // pixels, of each end
	heightU   = 0.2  // mm, marks over or under where their thickness puts them over the rims
	wedgeU    = 0.25 // mm, one end of the print or rule over the other
	ruleMM    = 0.1  // half-width of what a plain steel rule may be off over the span
	focalU    = 0.08 // part of the focal length, and so of the distance
)

// weigh adds the budget, and the figure where it is certain enough.
func (s *sight) weigh(distance, tiltAlong float64) {
	f := s.frame
	first, last := s.rivets[0], s.rivets[len(s.rivets)-1]
	span := last.x - first.x
	sum := 0.0
	calibration := BudgetLine{Source: "calibration"}
	if f.rule {
		calibration.U, calibration.Note = ruleMM/math.Sqrt(3)/span, photowords.Text("budget_rule")
	} else {
		calibration.U = s.request.CheckLineUMM / *s.request.CheckLineMM
	}
	for _, line := range []BudgetLine{
		{Source: "localisation", U: s.fit.u / s.fit.pitch},
		{Source: "resolution", U: math.Sqrt2 * pixelEndU / f.lens.perMM(0, 0) / span},
		{Source: "marks", U: f.marksU()},
		{Source: "lens", U: f.otherLens(s.picture.Width, s.picture.Height, first, last) / span},
		calibration,
		{Source: "height", U: math.Hypot(heightU, focalU**s.request.ThickMM) / distance},
		{Source: "tilt", U: wedgeU / frameMM * math.Abs(math.Tan(tiltAlong))},
	} {
		line.U *= 100
		if line.Note == "" {
			line.Note = photowords.Text("budget_" + line.Source)
		}
		sum += line.U * line.U
		s.answer.Budget = append(s.answer.Budget, line)
	}
	u, e := math.Sqrt(sum), s.elongation()
	if !(u <= mostU) {
		s.refuse(map[bool]string{false: "uncertain", true: "rule_uncertain"}[f.rule])
		return
	}
	s.answer.Elongation, s.answer.U = &e, &u
}

// marksU is how well the marks show the scale along the rivets, as a part of it.
// Each row of them is off by its scatter and by a tenth of a pixel at either
// end; rows that lie on one side only are carried on to where the rivets are, by
// the variance of a fitted line there, 1/rows + mean²/spread. A bend is seen as
// what a height z does at x from the middle, x z/h, most at the ends, while the
// scale is off by z/h.
func (f *frame) marksU() float64 {
	sum, n := [len(rowParts)]float64{}, [len(rowParts)]float64{}
	for _, m := range f.marks {
		sum[m.side], n[m.side] = sum[m.side]+m.y, n[m.side]+1
	}
	mean, rows, spread := 0.0, 0.0, 0.0
	for i := range n {
		if n[i] > 0 {
			mean, rows = mean+sum[i]/n[i], rows+1
		}
	}
	mean /= rows
	for i := range n {
		if n[i] > 0 {
			spread += (sum[i]/n[i] - mean) * (sum[i]/n[i] - mean)
		}
	}
	lever := math.Sqrt(1/rows + mean*mean/spread)
	row := math.Hypot(f.pixelU*math.Sqrt(12*rows/float64(len(f.marks))), math.Sqrt2*pixelEndU) / f.lens.perMM(0, 0)
	return math.Hypot(lever*row, 2*f.bend) / (f.hi - f.lo)
}

// otherLens is how much the distance from a to b would change, mm, with a lens
// of one term only.
func (f *frame) otherLens(width, height int, a, b rivet) float64 {
	other, ok := fitLens(f.marks, width, height, f.pixelU, true)
	if !ok {
		return 0
	}
	ax, _ := other.plane(f.lens.pixel(a.x, a.y))
	bx, _ := other.plane(f.lens.pixel(b.x, b.y))
	return math.Abs((bx - ax) - (b.x - a.x))
}

// plane is the inverse of pixel, by Newton's method from the frame's middle.
func (l *lens) plane(u, v float64) (x, y float64) {
	for range 20 {
		u0, v0 := l.pixel(x, y)
		ux, vx := l.pixel(x+0.01, y)
		uy, vy := l.pixel(x, y+0.01)
		a, b, c, d := (ux-u0)/0.01, (uy-u0)/0.01, (vx-v0)/0.01, (vy-v0)/0.01
		det := a*d - b*c
		dx, dy := (d*(u-u0)-b*(v-v0))/det, (a*(v-v0)-c*(u-u0))/det
		x, y = x+dx, y+dy
		if math.Abs(dx)+math.Abs(dy) < 1e-9 {
			break
		}
	}
	return x, y
}
