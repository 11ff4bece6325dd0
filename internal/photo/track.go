package photo

import (
	"math"

	"tautspan/internal/photo/raster"
)

// track is a rule's marks counted along a path: at[k] is how far along it mark k
// stands, pixels; weak where it was not seen.
type track struct {
	path
	at    []float64
	weak  []bool
	level float64 // how strong a mark usually is
}

const (
	weakPart  = 0.35 // of the usual strength
	mostGap   = 45   // marks that may be missing in a row
	mostMarks = 600
)

// phase looks at the levels around s on a line b across the path, over reach
// steps to either side. It returns how far the nearest mark, dark, lies from s
// and how strong the marks are.
func (p *path) phase(g *raster.Gray, s, b, step, reach, thick float64) (off, strength float64) {
	re, im, sum := 0.0, 0.0, 0.0
	n := int(reach*step + 0.5)
	levels := [96]float64{}
	n = min(n, len(levels)/2-1)
	mean := 0.0
	for i := -n; i <= n; i++ {
		v := 0.0
		for k := -1.0; k <= 1; k++ {
			x, y := p.at(s+float64(i), b+k*thick)
			v += levelAt(g, x, y)
		}
		w := 0.5 + 0.5*math.Cos(math.Pi*float64(i)/float64(n+1))
		levels[i+n] = v
		mean, sum = mean+w*v, sum+w
	}
	mean /= sum
	for i := -n; i <= n; i++ {
		w := 0.5 + 0.5*math.Cos(math.Pi*float64(i)/float64(n+1))
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / step)
		re, im = re+w*(levels[i+n]-mean)*cos, im+w*(levels[i+n]-mean)*sin
	}
	return math.Atan2(-im, -re) / (2 * math.Pi) * step, math.Hypot(re, im) / sum
}

// follow counts the marks both ways from the path's start.
func (p *path) follow(g *raster.Gray) *track {
	t := &track{path: *p}
	off, strength := p.phase(g, 0, 0, p.step, 4, 1.5)
	t.level = strength
	forth, weakForth := t.walk(g, off, 1)
	back, weakBack := t.walk(g, off, -1)
	for i := len(back) - 1; i >= 0; i-- {
		t.at, t.weak = append(t.at, back[i]), append(t.weak, weakBack[i])
	}
	t.at, t.weak = append(append(t.at, off), forth...), append(append(t.weak, false), weakForth...)
	return t
}

// walk goes from mark to mark: each is looked for where the last ones say it is.
func (t *track) walk(g *raster.Gray, from, way float64) (at []float64, weak []bool) {
	s, step, gap := from, t.step, 0
	for len(at) < mostMarks/2 && gap <= mostGap {
		s += way * step
		if x, y := t.path.at(s, 0); x < 2 || y < 2 || x > float64(g.Width)-2 || y > float64(g.Height)-2 {
			break
		}
		off, strength := t.phase(g, s, 0, step, 2.5, 1.5)
		missing := strength < weakPart*t.level || math.Abs(off) > 0.3*step
		if missing {
			gap++
		} else {
			gap = 0
			s += 0.5 * off
			step += 0.05 * way * off
			t.level += 0.05 * (strength - t.level)
		}
		at, weak = append(at, s), append(weak, missing)
	}
	last := len(at) - gap
	return at[:max(last, 0)], weak[:max(last, 0)]
}

// band is where the marks begin and end across the path, pixels, and whether
// the longer ones, each fifth, go on beyond the end at hi.
type band struct {
	lo, hi float64
	up     bool
}

// bandOf looks how strong the marks from k on are at each distance from the path.
func (t *track) bandOf(g *raster.Gray, from, to int) (band, bool) {
	step := (t.at[to-1] - t.at[from]) / float64(to-1-from)
	n := int(6*step) + 1
	strong := make([]float64, 2*n+1)
	fifth := func(b float64) float64 {
		re, im := 0.0, 0.0
		for k := from; k < to; k++ {
			x, y := t.path.at(t.at[k], b)
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 5)
			v := levelAt(g, x, y)
			re, im = re+v*cos, im+v*sin
		}
		return math.Hypot(re, im)
	}
	for i := range strong {
		b := float64(i - n)
		for k := from; k < to; k++ {
			x, y := t.path.at(t.at[k], b) // dark on the mark, bright between it and the next
			u, v := t.path.at(t.at[k]+step/2, b)
			strong[i] += levelAt(g, u, v) - levelAt(g, x, y)
		}
	}
	top := 0.0
	for i := n - int(step); i <= n+int(step); i++ {
		top = max(top, strong[i])
	}
	out := band{}
	edge := func(way int) (float64, bool) {
		for i := n; i >= 1 && i < len(strong)-1; i += way {
			if a, b := strong[i], strong[i+way]; a >= top/2 && b < top/2 {
				return float64(i-n) + float64(way)*(a-top/2)/(a-b), true
			}
		}
		return 0, false
	}
	var below, above bool
	out.lo, below = edge(-1)
	out.hi, above = edge(1)
	if !below || !above {
		return out, false
	}
	inward, outward := 0.0, 0.0
	for _, far := range []float64{0.5, 0.8, 1.1} {
		inward, outward = inward+fifth(out.hi+far*step), outward+fifth(out.lo-far*step)
	}
	out.up = inward > outward
	return out, true
}
