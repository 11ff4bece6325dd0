package photo

import (
	"cmp"
	"math"
	"slices"

	"tautspan/internal/photo/raster"
)

// A rule's marks are found by their grain: small cells whose levels change along
// one direction only, up and down alike, and over and over at one step.
const (
	blockPx     = 6    // side of a block; a cell is 2 × 2 blocks
	leastGrain  = 14   // levels squared, by which the one direction stands out
	leastAlike  = 0.25 // of the gradients' power that lies in it
	mostLean    = 0.08 // of it that a slope from one side to the other makes
	mostGrains  = 4000 // the strongest are looked at
	leastStepPx = 3
	mostStepPx  = 13
	leastRepeat = 0.4 // how alike the levels are one step on
)

// grain is a cell that repeats itself.
type grain struct {
	x, y   float64
	ux, uy float64 // the direction it repeats in
	step   float64 // pixels
}

// block holds sums over the gradients in every second line of it.
type block struct{ x, y, xx, xy, yy float32 }

func blocks(g *raster.Gray) (all []block, wide int) {
	wide = (g.Width - 2) / blockPx
	high := (g.Height - 2) / blockPx
	all = make([]block, wide*high)
	for y := 1; y <= high*blockPx; y += 2 { // every second line says enough
		line := g.Pix[y*g.Stride : y*g.Stride+g.Width]
		up, down := g.Pix[(y-1)*g.Stride:], g.Pix[(y+1)*g.Stride:]
		row := all[(y-1)/blockPx*wide:]
		for i := range wide {
			b := &row[i]
			for x := 1 + i*blockPx; x <= (i+1)*blockPx; x++ {
				dx, dy := int32(line[x+1])-int32(line[x-1]), int32(down[x])-int32(up[x])
				b.x, b.y = b.x+float32(dx), b.y+float32(dy)
				b.xx, b.xy, b.yy = b.xx+float32(dx*dx), b.xy+float32(dx*dy), b.yy+float32(dy*dy)
			}
		}
	}
	return all, wide
}

// findGrains returns the cells that repeat, the strongest first.
func findGrains(g *raster.Gray) []grain {
	all, wide := blocks(g)
	type place struct {
		power float32
		at    int32
	}
	found := []place{}
	for i := range len(all) - wide - 1 {
		if i%wide == wide-1 {
			continue
		}
		if power := cell(all, wide, i).power(); power > 0 {
			found = append(found, place{power, int32(i)})
		}
	}
	slices.SortFunc(found, func(a, b place) int { return cmp.Or(cmp.Compare(b.power, a.power), cmp.Compare(a.at, b.at)) })
	kept := []grain{}
	for _, f := range found[:min(len(found), mostGrains)] {
		i, s := int(f.at), cell(all, wide, int(f.at))
		c := grain{x: float64(1 + (i%wide+1)*blockPx), y: float64(1 + (i/wide+1)*blockPx)}
		c.uy, c.ux = math.Sincos(math.Atan2(2*float64(s.xy), float64(s.xx-s.yy)) / 2)
		if c.repeats(g) {
			kept = append(kept, c)
		}
	}
	return kept
}

// cell is the sum of block i with its neighbours to the right and below.
func cell(all []block, wide, i int) (s block) {
	for _, b := range [4]*block{&all[i], &all[i+1], &all[i+wide], &all[i+wide+1]} {
		s = block{s.x + b.x, s.y + b.y, s.xx + b.xx, s.xy + b.xy, s.yy + b.yy}
	}
	return s
}

// power is how far one direction stands out, levels squared; 0 where none does,
// or where the levels only lean.
func (s block) power() float32 {
	const n = 4 * blockPx * blockPx / 2
	apart := float32(math.Sqrt(float64((s.xx-s.yy)*(s.xx-s.yy) + 4*s.xy*s.xy)))
	whole := s.xx + s.yy
	if apart < leastGrain*n || apart < leastAlike*whole || s.x*s.x+s.y*s.y > mostLean*n*whole {
		return 0
	}
	return apart / n
}

// repeats finds the step: the lag at which the levels along the direction are
// most like themselves.
func (c *grain) repeats(g *raster.Gray) bool {
	const n, lines = 56, 2
	level := [n]float64{}
	mean := 0.0
	for i := range level {
		for k := -lines; k <= lines; k++ {
			t, across := float64(i)-n/2, float64(k)
			level[i] += levelAt(g, c.x+t*c.ux-across*c.uy, c.y+t*c.uy+across*c.ux)
		}
		mean += level[i] / n
	}
	alike := [mostStepPx + 2]float64{}
	for lag := range alike {
		ab, aa, bb := 0.0, 1e-9, 1e-9
		for i := range n - lag {
			a, b := level[i]-mean, level[i+lag]-mean
			ab, aa, bb = ab+a*b, aa+a*a, bb+b*b
		}
		alike[lag] = ab / math.Sqrt(aa*bb)
	}
	for lag := leastStepPx; lag <= mostStepPx; lag++ { // the first peak is the step
		a, b, d := alike[lag-1], alike[lag], alike[lag+1]
		if b >= leastRepeat && b > a && b >= d && slices.Min(alike[1:lag]) < 0 {
			c.step = float64(lag) + 0.5*(a-d)/(a-2*b+d)
			return true
		}
	}
	return false
}

// levelAt is the level at (u, v) between the four nearest pixels, the edge's
// outside the picture.
func levelAt(g *raster.Gray, u, v float64) float64 {
	u, v = min(max(u-0.5, 0), float64(g.Width)-1.001), min(max(v-0.5, 0), float64(g.Height)-1.001)
	i, j := int(u), int(v)
	fu, fv := u-float64(i), v-float64(j)
	p := g.Pix[j*g.Stride+i:]
	top := float64(p[0])*(1-fu) + float64(p[1])*fu
	p = p[g.Stride:]
	return top*(1-fv) + (float64(p[0])*(1-fu)+float64(p[1])*fu)*fv
}
