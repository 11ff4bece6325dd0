package photo

import (
	"math"

	"tautspan/internal/photo/raster"
)

// window is the strip of the frame's plane around its middle line, seen straight
// from above: pixel (i, j) shows the plane at (x0 + i cell, y0 + j cell).
type window struct {
	plane
	x0, y0 float64
}

const (
	cellMM  = 0.1
	halfMM  = 5.0 // half the strip's width
	marginY = windowMM/2 - 0.3
)

// rectify samples the strip between the outermost marks. A cubic through four
// levels each way (Catmull and Rom 1974) keeps edges where they are.
func rectify(g *raster.Gray, f *frame) *window {
	wide, high := int((f.hi-f.lo)/cellMM)+1, int(2*halfMM/cellMM)+1
	w := &window{*newPlane(wide, high), f.lo, -halfMM}
	const knot = 16 // the lens is smooth: between knots its map is a line
	for j := range high {
		y := w.y0 + float64(j)*cellMM
		u1, v1 := f.lens.pixel(w.x0, y)
		for i := 0; i < wide; i += knot {
			u0, v0 := u1, v1
			u1, v1 = f.lens.pixel(w.x0+float64(i+knot)*cellMM, y)
			for k := range min(knot, wide-i) {
				part := float64(k) / knot
				w.pix[j*wide+i+k] = cubicAt(g, u0+(u1-u0)*part, v0+(v1-v0)*part)
			}
		}
	}
	return w
}

// cubicAt is the level at (u, v); pixels' middles have half-integer coordinates.
// Outside the picture it is the nearest edge's.
func cubicAt(g *raster.Gray, u, v float64) float32 {
	u, v = u-0.5, v-0.5
	i, j := int(math.Floor(u)), int(math.Floor(v))
	wu, wv := cubicWeights(float32(u-float64(i))), cubicWeights(float32(v-float64(j)))
	sum := float32(0)
	for b, wb := range wv {
		y := min(max(j-1+b, 0), g.Height-1)
		line := float32(0)
		if i >= 1 && i+2 < g.Width {
			p := g.Pix[y*g.Stride+i-1 : y*g.Stride+i+3]
			line = wu[0]*float32(p[0]) + wu[1]*float32(p[1]) + wu[2]*float32(p[2]) + wu[3]*float32(p[3])
		} else {
			for a, wa := range wu {
				line += wa * float32(g.At(min(max(i-1+a, 0), g.Width-1), y))
			}
		}
		sum += wb * line
	}
	return sum
}

func cubicWeights(t float32) [4]float32 {
	t2, t3 := t*t, t*t*t
	return [4]float32{(-t3 + 2*t2 - t) / 2, (3*t3 - 5*t2 + 2) / 2, (-3*t3 + 4*t2 + t) / 2, (t3 - t2) / 2}
}

// at is the level at (x, y) of the plane, between the four nearest pixels.
func (w *window) at(x, y float64) float64 {
	fx, fy := (x-w.x0)/cellMM, (y-w.y0)/cellMM
	i := min(max(int(fx), 0), w.width-2)
	j := min(max(int(fy), 0), w.height-2)
	fx, fy = fx-float64(i), fy-float64(j)
	p := w.pix[j*w.width+i:]
	top := float64(p[0])*(1-fx) + float64(p[1])*fx
	p = p[w.width:]
	return top*(1-fy) + (float64(p[0])*(1-fx)+float64(p[1])*fx)*fy
}
