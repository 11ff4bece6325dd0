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
	reach := f.hi - f.lo
	marks := math.Hypot(f.pixelU/f.lens.perMM(0, 0)*math.Sqrt(12/float64(len(f.marks))), f.bend) / reach
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
		{Source: "marks", U: marks},
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
	if u > mostU {
		s.refuse(map[bool]string{false: "uncertain", true: "rule_uncertain"}[f.rule])
		return
	}
	s.answer.Elongation, s.answer.U = &e, &u
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
