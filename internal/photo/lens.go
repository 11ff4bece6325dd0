package photo

import "math"

// lens maps the frame's plane, in mm, to pixels: a homography, then distortion
// along the radius from the picture's middle,
//
//	p = middle + q (1 + k1 r² + k2 r⁴), r = |q| / half the diagonal,
//
// where q is the homography's point less the middle (Brown 1966, radial terms).
type lens struct {
	h              [9]float64 // row by row; millimetres are divided by unitMM
	k1, k2         float64
	middleX, halfY float64
	radius         float64 // half the diagonal, pixels
}

const unitMM = 100

// pixel returns where (x, y) of the plane is in the picture.
func (l *lens) pixel(x, y float64) (u, v float64) {
	x, y = x/unitMM, y/unitMM
	w := l.h[6]*x + l.h[7]*y + l.h[8]
	u, v = (l.h[0]*x+l.h[1]*y+l.h[2])/w, (l.h[3]*x+l.h[4]*y+l.h[5])/w
	r2 := (u*u + v*v) / (l.radius * l.radius)
	stretch := 1 + l.k1*r2 + l.k2*r2*r2
	return l.middleX + u*stretch, l.halfY + v*stretch
}

// mark is one corner of the checks: where it is on the print and in the picture.
type mark struct {
	x, y float64 // mm
	u, v float64 // pixels
	side int     // 0 upper row, 1 lower; of a rule more
	// Where they are not zero, only the place along this direction of the picture
	// was found; that across is a guess.
	ux, uy float64
}

// guessed is how many times less a guessed place across counts.
const guessed = 30

// Expected size of the distortion at the picture's corner, as the fit's prior:
// cameras straighten their pictures, to about this much. Common practice, no
// source.
const (
	k1Prior = 0.03
	k2Prior = 0.01
)

// fitLens finds the lens that puts the marks where they were seen. Pixels count
// with a standard uncertainty of pixelU against the prior of the distortion;
// fixed leaves k2 out. False where no plane fits at all.
func fitLens(marks []mark, width, height int, pixelU float64, fixed bool) (*lens, bool) {
	l := &lens{middleX: float64(width) / 2, halfY: float64(height) / 2}
	l.radius = math.Hypot(l.middleX, l.halfY)
	if !l.flatStart(marks) {
		return nil, false
	}
	start := append(append([]float64{}, l.h[:8]...), 0, 0)
	step := make([]float64, 10)
	for k := range step {
		step[k] = max(1e-6*math.Abs(start[k]), 1e-7)
	}
	step[8], step[9] = 1e-6, 1e-6
	x := descend(start, step, func(x, out []float64) []float64 {
		l.take(x, fixed)
		for _, m := range marks {
			u, v := l.pixel(m.x, m.y)
			along, across := m.split(u-m.u, v-m.v)
			out = append(out, along/pixelU, across/pixelU)
		}
		return append(out, x[8]/k1Prior, x[9]/k2Prior)
	})
	l.take(x, fixed)
	return l, true
}

// split turns a step in the picture into the mark's directions, that across
// divided where it counts less.
func (m *mark) split(du, dv float64) (along, across float64) {
	if m.ux == 0 && m.uy == 0 {
		return du, dv
	}
	return du*m.ux + dv*m.uy, (dv*m.ux - du*m.uy) / guessed
}

func (l *lens) take(x []float64, fixed bool) {
	copy(l.h[:8], x)
	l.k1, l.k2 = x[8], x[9]
	if fixed {
		l.k2 = 0
	}
}

// flatStart is the homography alone, by linear least squares with h[8] = 1.
func (l *lens) flatStart(marks []mark) bool {
	n := newNormal(8)
	l.h[8] = 1
	// Pixels in units of the radius keep the equations well scaled.
	for _, m := range marks {
		x, y := m.x/unitMM, m.y/unitMM
		u, v := (m.u-l.middleX)/l.radius, (m.v-l.halfY)/l.radius
		n.add([]float64{x, y, 1, 0, 0, 0, -u * x, -u * y}, u, 1)
		n.add([]float64{0, 0, 0, x, y, 1, -v * x, -v * y}, v, 1)
	}
	h, ok := solve(n.a, n.b)
	if !ok {
		return false
	}
	for k := range 6 {
		h[k] *= l.radius
	}
	copy(l.h[:], h)
	return true
}

// residuals returns how far, in pixels, each mark was seen from where the lens
// puts it: along and across the frame.
func (l *lens) residuals(marks []mark) (along, across []float64) {
	for _, m := range marks {
		u, v := l.pixel(m.x, m.y)
		u2, v2 := l.pixel(m.x+1, m.y)
		du, dv := u2-u, v2-v
		length := math.Hypot(du, dv)
		along = append(along, ((m.u-u)*du+(m.v-v)*dv)/length)
		if m.ux != 0 || m.uy != 0 {
			across = append(across, 0)
			continue
		}
		across = append(across, ((m.v-v)*du-(m.u-u)*dv)/length)
	}
	return along, across
}

// perMM is how many pixels a millimetre along the frame has at (x, y).
func (l *lens) perMM(x, y float64) float64 {
	u, v := l.pixel(x-0.5, y)
	u2, v2 := l.pixel(x+0.5, y)
	return math.Hypot(u2-u, v2-v)
}

// pose returns the distance along the camera's axis to the frame's middle, mm,
// and the tilts along and across the frame, radians, for a focal length in
// pixels. With K the camera's matrix, K⁻¹H = λ [r1 r2 t] where r1 and r2 are the
// plane's axes seen from the camera, of length 1 (Zhang 2000). Only the third
// row enters the tilts, so a print of the wrong width does not show as tilt.
func (l *lens) pose(focal float64) (distance, tiltAlong, tiltAcross float64) {
	h := l.h
	length := math.Sqrt(h[0]*h[0]/(focal*focal) + h[3]*h[3]/(focal*focal) + h[6]*h[6])
	perMM := length / unitMM
	distance = h[8] / perMM
	along, across := h[6]/unitMM/perMM, h[7]/unitMM/perMM
	return distance, math.Asin(min(max(along, -1), 1)), math.Asin(min(max(across, -1), 1))
}
