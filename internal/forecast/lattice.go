package forecast

import (
	"math"

	"tautspan/internal/chain"
	"tautspan/internal/num"
)

// lattice is the grid the filter works on, n nodes in even steps of h percent of
// smooth wear y; see speedUp. The limit lies on node limitNode. The last node
// holds everything beyond it as well, so that probabilities always sum to one.
type lattice struct {
	h         float64
	n         int
	limitNode int
}

const (
	finestSteps = 80 // from 0 to the limit; 120 comes no nearer to brute force
	mostNodes   = 256
	pastLimit   = 1.6 // how far past the limit the lattice reaches at least
)

// newLattice returns a lattice from 0 to at least top percent of elongation.
func newLattice(limit, top float64) lattice {
	end := smooth(max(top, pastLimit*limit), limit)
	steps := finestSteps
	if int(math.Ceil(end/limit*float64(steps)))+2 > mostNodes {
		steps = max(8, int(limit/end*(mostNodes-2)))
	}
	h := limit / float64(steps)
	return lattice{h: h, n: int(math.Ceil(end/h)) + 2, limitNode: steps}
}

func (l lattice) limit() float64 { return l.h * float64(l.limitNode) }

// at returns the elongation of node k, percent; halves are the cells' edges.
func (l lattice) at(k float64) float64 { return elongationAt(l.h*k, l.limit()) }

// elongationAt returns the elongation that smooth wear y stands for, for a chain
// with the given limit L: x = L ((1+c)^(y/L) - 1)/c, c = speedUp. At 0 and at L
// the two are the same, and dx/dy is proportional to 1 + c x/L.
func elongationAt(y, limit float64) float64 {
	return limit * math.Expm1(y/limit*math.Log1p(speedUp)) / speedUp
}

// smooth is the inverse of elongationAt.
func smooth(x, limit float64) float64 {
	return limit * math.Log1p(speedUp*x/limit) / math.Log1p(speedUp)
}

// newChain fills f with the distribution of a new chain's elongation.
func (l lattice) newChain(f []float64) {
	clear(f)
	sum := 0.0
	for k := range f {
		lo, hi := max(0, l.at(float64(k)-0.5)), min(chain.NewTolerancePercent, l.at(float64(k)+0.5))
		if hi <= lo {
			break
		}
		f[k] = num.NormalCDF((hi-newMeanPercent)/newSDPercent) - num.NormalCDF((lo-newMeanPercent)/newSDPercent)
		sum += f[k]
	}
	for k := range f {
		f[k] /= sum
	}
}

// span is the part of a distribution that is not negligible: nodes lo to hi-1.
type span struct{ lo, hi int }

// negligible is the probability at either end of a distribution that the filter
// leaves out of its sums.
const negligible = 1e-9

// trim sets negligible ends of f to zero and returns the span that is left; f is
// zero outside within.
func trim(f []float64, within span) span {
	sum := 0.0
	for within.lo < within.hi-1 && sum+f[within.lo] < negligible {
		sum += f[within.lo]
		f[within.lo] = 0
		within.lo++
	}
	sum = 0
	for within.lo < within.hi-1 && sum+f[within.hi-1] < negligible {
		sum += f[within.hi-1]
		f[within.hi-1] = 0
		within.hi--
	}
	return within
}

// advance sets out to the distribution after the increment p on top of in, both
// of the lattice's length, in being zero outside s. What would run off the far
// end gathers on the last node. reversed is scratch of the same length.
func advance(out, in []float64, s span, p *increment, reversed []float64) span {
	m := len(p.mass)
	reversed = reversed[:m]
	for i, v := range p.mass {
		reversed[m-1-i] = v
	}
	last := len(out) - 1
	end := min(s.hi+m-1, last)
	clear(out)
	sum := 0.0
	for j := s.lo; j < end; j++ {
		from, to := max(s.lo, j-m+1), min(s.hi, j+1)
		out[j] = dot(in[from:to], reversed[m-1-j+from:])
		sum += out[j]
	}
	total := 0.0
	for _, v := range in[s.lo:s.hi] {
		total += v
	}
	out[end] = max(0, total-sum)
	return span{s.lo, end + 1}
}

// retreat sets out[i], for i in s, to the mean of g after the increment p from
// node i: the mirror image of advance.
func retreat(out, g []float64, s span, p *increment) {
	last := len(g) - 1
	for i := s.lo; i < s.hi; i++ {
		m := min(len(p.mass), last-i)
		out[i] = dot(p.mass[:m], g[i:]) + max(0, 1-p.upTo[m])*g[last]
	}
}

// dot is the sum of a[i] b[i] over a; b is at least as long. Four running sums
// keep the processor's multipliers busy: it is where a forecast's time goes.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float64
	for len(a) >= 8 && len(b) >= 8 {
		s0 += a[0]*b[0] + a[4]*b[4]
		s1 += a[1]*b[1] + a[5]*b[5]
		s2 += a[2]*b[2] + a[6]*b[6]
		s3 += a[3]*b[3] + a[7]*b[7]
		a, b = a[8:], b[8:]
	}
	for i, v := range a {
		s0 += v * b[i]
	}
	return s0 + s1 + s2 + s3
}
