package photo

import (
	"cmp"
	"iter"
	"math"
	"slices"

	"tautspan/internal/photo/raster"
)

// The rule, mm: a mark each millimetre. Its edge is put where the frame's window
// would end.
const (
	ruleEdgeMM = windowMM / 2
	leastBand  = 2.2 // how long its shortest marks may be
	mostBand   = 7.0
	leastRule  = 165 // marks: 12 pitches and a rest
	bandMarks  = 40  // so many are taken together to find where they end
)

// rowParts are the lines across the marks on which each is found, parts of
// their length from the edge.
var rowParts = [4]float64{0.2, 0.4, 0.6, 0.8}

// findRules goes through the rows of marks beside which a chain could lie: a rule
// may have one on either edge. First is the one with the most to see beside it,
// so that the other need seldom be looked at.
func findRules(g *raster.Gray) iter.Seq[*frame] {
	return func(yield func(*frame) bool) {
		paths := findPaths(findGrains(g), 3)
		slices.SortStableFunc(paths, func(a, b path) int { return cmp.Compare(b.beside(g), a.beside(g)) })
		for _, p := range paths {
			t := p.follow(g)
			if lo, hi, _, ok := t.ends(g); ok { // now that the marks' middle is known, follow that
				p = t.path
				p.x, p.y = p.at(0, (lo[0]+hi[0])/2)
				p.turn += (lo[1] + hi[1]) / 2
				t = p.follow(g)
			}
			if len(t.at) < leastRule {
				continue
			}
			if f, ok := t.frame(g); ok && !yield(f) {
				return
			}
		}
	}
}

// frame finds every mark on several rows and the lens that explains them.
func (t *track) frame(g *raster.Gray) (*frame, bool) {
	lo, hi, up, ok := t.ends(g)
	if !ok {
		return nil, false
	}
	f := &frame{lo: -float64(len(t.at)/2) + 1, rule: true}
	f.hi = -f.lo
	for side, part := range rowParts {
		for k, s := range t.at {
			edge, long := lo[0]+lo[1]*s, hi[0]+hi[1]*s-lo[0]-lo[1]*s
			if !up {
				edge, long = hi[0]+hi[1]*s, -long
			}
			from, to := max(0, k-5), min(len(t.at)-1, k+5)
			step := (t.at[to] - t.at[from]) / float64(to-from)
			b := edge + part*long
			off, strength := t.phase(g, s, b, step, 1.6, 0.08*math.Abs(long))
			if strength < weakPart*t.level || math.Abs(off) > 0.35*step {
				continue
			}
			m := mark{x: float64(k) - float64(len(t.at)/2), y: ruleEdgeMM + part*math.Abs(long)/step, side: side}
			if up { // seen along x, y must run to the left
				m.x = -m.x
			}
			m.u, m.v = t.path.at(s+off, b)
			m.ux, m.uy = t.ux, t.uy
			f.marks = append(f.marks, m)
		}
	}
	return f, f.fit(g)
}

// ends fits lines through where the marks end on either side, across = c[0] + c[1] s.
func (t *track) ends(g *raster.Gray) (lo, hi [2]float64, up, ok bool) {
	low, high := newNormal(2), newNormal(2)
	votes, n := 0, 0
	for from := 0; from+bandMarks <= len(t.at); from += bandMarks / 2 {
		b, ok := t.bandOf(g, from, from+bandMarks)
		step := t.at[from+1] - t.at[from]
		if wide := (b.hi - b.lo) / step; !ok || wide < leastBand || wide > mostBand {
			continue
		}
		s := t.at[from+bandMarks/2]
		low.add([]float64{1, s}, b.lo, 1)
		high.add([]float64{1, s}, b.hi, 1)
		n++
		if b.up {
			votes++
		}
	}
	if n < 3 {
		return lo, hi, false, false
	}
	a, okLow := solve(low.a, low.b)
	b, okHigh := solve(high.a, high.b)
	if !okLow || !okHigh {
		return lo, hi, false, false
	}
	return [2]float64{a[0], a[1]}, [2]float64{b[0], b[1]}, 2*votes > n, true
}
