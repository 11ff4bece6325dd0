package forecast

import "math"

// course is what the filter runs along: one chain's epochs on a lattice.
type course struct {
	lattice  lattice
	marks    []Mark
	epochs   []epoch
	evidence *evidence
	biases   []biasNode
	shape    float64 // of the gamma process, per 1000 km, distances as known
}

// shapeFor returns the process's shape per 1000 km when distances themselves
// have the relative standard deviation d: 1/nu becomes 1/nu + d^2/2.
func shapeFor(d float64) float64 { return 1 / (1/nu + d*d/2) }

// newCourse prepares marks for the filter, merging above most epochs.
func newCourse(marks []Mark, most int, l lattice, distanceSD float64) *course {
	c := &course{lattice: l, epochs: epochs(marks, most), shape: shapeFor(distanceSD)}
	c.marks, c.biases = withOneBias(marks, c.epochs)
	c.evidence = gather(c.marks, c.epochs, c.biases, l)
	return c
}

// runner carries one row, a rate with a bias, along a course. It is scratch
// space, used again for every row.
type runner struct {
	*course
	law       increment
	reversed  []float64
	newChain  []float64
	filtered  []float64 // per epoch: distribution of x given marks so far
	spans     []span
	now, next []float64 // two distributions to work with
}

func newRunner(c *course) *runner {
	n := c.lattice.n
	space := make([]float64, n*(len(c.epochs)+4))
	cut := func() []float64 { part := space[:n:n]; space = space[n:]; return part }
	r := &runner{course: c, reversed: cut(), newChain: cut(), now: cut(), next: cut(), filtered: space, spans: make([]span, len(c.epochs))}
	c.lattice.newChain(r.newChain)
	return r
}

func (r *runner) at(epoch int) []float64 {
	n := r.lattice.n
	return r.filtered[epoch*n : (epoch+1)*n]
}

// step makes the increment law from epoch e-1 (or from new) to epoch e.
func (r *runner) step(e int, rate float64) *increment {
	from := 0.0
	if e > 0 {
		from = r.epochs[e-1].at
	}
	r.law.set(r.epochs[e].at-from, rate, r.shape, r.lattice.h, r.lattice.n)
	return &r.law
}

// forward filters all epochs at one rate and bias node and returns the log
// likelihood, up to a constant common to all rows. It gives up and returns
// -infinity as soon as it is certain to end below floor.
func (r *runner) forward(rate float64, bias int, floor float64) float64 {
	logL := 0.0
	from, s := r.newChain, span{0, r.lattice.n}
	for e := range r.epochs {
		s = trim(from, s)
		f := r.at(e)
		s = advance(f, from, s, r.step(e, rate), r.reversed)
		sum := 0.0
		for k, v := range r.evidence.at(e, bias)[s.lo:s.hi] {
			f[s.lo+k] *= v
			sum += f[s.lo+k]
		}
		if logL += math.Log(sum); !(logL >= floor) {
			return math.Inf(-1)
		}
		for k := s.lo; k < s.hi; k++ {
			f[k] /= sum
		}
		r.spans[e], from = s, f
	}
	return logL
}

// backward follows forward and multiplies each epoch's filtered distribution by
// how likely everything after it is, so that it becomes the distribution given
// all marks; visit sees each one, latest first.
func (r *runner) backward(rate float64, bias int, visit func(e int, s span, smoothed []float64)) {
	after, next := r.now, r.next
	for k := range after {
		after[k] = 1
	}
	for e := len(r.epochs) - 1; e >= 0; e-- {
		f, s := r.at(e), r.spans[e]
		sum := 0.0
		for k := s.lo; k < s.hi; k++ {
			f[k] *= after[k]
			sum += f[k]
		}
		for k := s.lo; k < s.hi; k++ {
			f[k] /= sum
		}
		visit(e, s, f)
		if e == 0 {
			return
		}
		for k, v := range r.evidence.at(e, bias) {
			after[k] *= v / sum // sum keeps the scale near one
		}
		clear(next)
		retreat(next, after, r.spans[e-1], r.step(e, rate))
		after, next = next, after
	}
}

// ahead returns the distribution after a further distance ds (1000 km) past the
// last epoch. It is overwritten by the next row.
func (r *runner) ahead(rate, ds float64) []float64 {
	from, s := r.newChain, span{0, r.lattice.n}
	if len(r.epochs) > 0 {
		from, s = r.at(len(r.epochs)-1), r.spans[len(r.epochs)-1]
	}
	if ds == 0 {
		copy(r.now, from)
		return r.now
	}
	r.law.set(ds, rate, r.shape, r.lattice.h, r.lattice.n)
	advance(r.now, from, s, &r.law, r.reversed)
	return r.now
}
