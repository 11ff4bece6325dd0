package photo

import (
	"math"
	"slices"

	"tautspan/internal/photo/raster"
)

// path is a line of grains across the picture: a parabola, since a lens bends
// lines a little.
type path struct {
	x, y       float64 // where it starts to be counted
	ux, uy     float64 // along it
	bend, turn float64 // across = bend·s² + turn·s
	step       float64 // pixels, near the start
}

// at returns the point s along the path and b across it.
func (p *path) at(s, b float64) (x, y float64) {
	b += p.bend*s*s + p.turn*s
	return p.x + s*p.ux - b*p.uy, p.y + s*p.uy + b*p.ux
}

// Grains of one line.
const (
	mostAcross  = 9.0   // pixels from the line through two of them
	bowPart     = 0.005 // and more by this part of the way
	leastApart  = 150.0 // pixels from one of the two to the other
	leastGrains = 25
	seeds       = 40 // so many are tried as the first of the two,
	partners    = 30 // and so many as the second
)

// findPaths returns up to most lines along which many grains lie, the longest
// first.
func findPaths(grains []grain, most int) []path {
	paths := []path{}
	for len(paths) < most {
		best := []int{}
		for i := range min(seeds, len(grains)) {
			for k := i + 1; k < len(grains); k += 1 + len(grains)/partners {
				if on := alongWith(grains, i, k); len(on) > len(best) {
					best = on
				}
			}
		}
		if len(best) < leastGrains {
			break
		}
		p := newPath(grains, best)
		paths = append(paths, p)
		grains = slices.DeleteFunc(grains, func(c grain) bool {
			s, b := p.of(c.x, c.y)
			return math.Abs(b-p.bend*s*s-p.turn*s) < 2*mostAcross+bowPart*math.Abs(s)
		})
	}
	return paths
}

// alongWith lists the grains on the line through two of them, which must lie
// apart in the direction in which they repeat.
func alongWith(grains []grain, i, k int) (on []int) {
	c := grains[i]
	dx, dy := grains[k].x-c.x, grains[k].y-c.y
	length := math.Hypot(dx, dy)
	if length < leastApart || math.Abs(dx*c.ux+dy*c.uy) < 0.995*length {
		return nil
	}
	c.ux, c.uy = dx/length, dy/length
	for k := range grains {
		o := &grains[k]
		dx, dy := o.x-c.x, o.y-c.y
		along, across := dx*c.ux+dy*c.uy, dy*c.ux-dx*c.uy
		straight := math.Abs(c.ux*o.ux+c.uy*o.uy) > 0.985 // 10°
		if straight && math.Abs(o.step/c.step-1) < 0.2 && math.Abs(across) < mostAcross+bowPart*math.Abs(along) {
			on = append(on, k)
		}
	}
	return on
}

// newPath fits a parabola to the grains listed, then again to those near it.
func newPath(grains []grain, on []int) path {
	first := grains[on[0]]
	p := path{x: first.x, y: first.y, step: first.step}
	p.ux, p.uy = direction(grains, on)
	reach := 2 * mostAcross
	for range 5 {
		n := newNormal(3)
		n.add([]float64{0, 0, 1}, 0, 0.5) // a lens bends by some pixels in a thousand
		for _, k := range on {
			s, b := p.of(grains[k].x, grains[k].y)
			if miss := b - p.bend*s*s - p.turn*s; math.Abs(miss) < reach {
				n.add([]float64{1, s / 1000, s * s / 1e6}, b, 1)
			}
		}
		x, ok := solve(n.a, n.b)
		if !ok {
			break
		}
		p.x, p.y = p.x-x[0]*p.uy, p.y+x[0]*p.ux
		p.turn, p.bend = x[1]/1000, x[2]/1e6
		reach = max(mostAcross*2/3, reach*2/3)
	}
	return p
}

// direction is that of the line through the grains listed.
func direction(grains []grain, on []int) (ux, uy float64) {
	var x, y, xx, xy, yy float64
	n := float64(len(on))
	for _, k := range on {
		x, y = x+grains[k].x/n, y+grains[k].y/n
	}
	for _, k := range on {
		dx, dy := grains[k].x-x, grains[k].y-y
		xx, xy, yy = xx+dx*dx, xy+dx*dy, yy+dy*dy
	}
	uy, ux = math.Sincos(math.Atan2(2*xy, xx-yy) / 2)
	return ux, uy
}

// beside is how much the levels change on the busier side of the path, where a
// chain would lie: 4 to 10 steps, which are millimetres, from it.
func (p *path) beside(g *raster.Gray) float64 {
	busier := 0.0
	for _, side := range [2]float64{1, -1} {
		sum := 0.0
		for far := 4.0; far <= 10; far++ {
			last := 0.0
			for i := -160; i <= 160; i++ {
				x, y := p.at(float64(i)*p.step/2, side*far*p.step)
				v := levelAt(g, x, y)
				if i > -160 {
					sum += math.Abs(v - last)
				}
				last = v
			}
		}
		busier = max(busier, sum)
	}
	return busier
}

// of is the inverse of at without bend and turn.
func (p *path) of(x, y float64) (s, b float64) {
	dx, dy := x-p.x, y-p.y
	return dx*p.ux + dy*p.uy, dy*p.ux - dx*p.uy
}
