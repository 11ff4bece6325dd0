package forecast

import (
	"math"

	"tautspan/internal/order"
)

// How far below the best row, in log weight, a row is still worth the work.
const (
	worthForward  = 12.0 // e^-12 is six parts in a million
	worthBackward = 7.0  // a row lighter than 0.1 % cannot make a blunder
)

// mostEpochs is how many distances are kept apart; above it they are merged.
const mostEpochs = 32

// posterior is what is known of one chain now.
type posterior struct {
	*course
	joint    []float64 // probability of (rate, node), rate by rate
	rate     rateLaw
	smoothed []float64 // per epoch and bias: distribution of x given all marks
}

// at returns the joint distribution's row of one rate.
func (p *posterior) at(rate int) []float64 {
	n := p.lattice.n
	return p.joint[rate*n : (rate+1)*n]
}

// smoothedAt returns the distribution of x at an epoch, given all marks, for
// one bias node; over the bias nodes it sums to one.
func (p *posterior) smoothedAt(epoch, bias int) []float64 {
	n := p.lattice.n
	from := (epoch*len(p.biases) + bias) * n
	return p.smoothed[from : from+n]
}

// update returns the posterior at now (1000 km) of a chain with the given prior
// over rates. Rows are worked from the likeliest outwards, so that most of the
// others can be given up early.
func update(c *course, prior *rateLaw, now float64) *posterior {
	n := c.lattice.n
	p := &posterior{course: c,
		joint:    make([]float64, rates*n),
		smoothed: make([]float64, len(c.epochs)*len(c.biases)*n)}
	ds := now
	if len(c.epochs) > 0 {
		ds = max(0, now-c.epochs[len(c.epochs)-1].at)
	}
	r := newRunner(c)
	best := math.Inf(-1)
	for _, i := range rowOrder(c, prior) {
		for b, node := range c.biases {
			logPrior := math.Log(prior[i] * node.weight)
			logW := logPrior + r.forward(rateAt(i), b, best-worthForward-logPrior)
			if !(logW >= best-worthForward) {
				continue
			}
			if logW > best {
				p.scale(math.Exp(best - logW))
				best = logW
			}
			p.add(r, i, b, ds, math.Exp(logW-best), logW >= best-worthBackward)
		}
	}
	p.normalise()
	return p
}

// add puts one finished row into the sums with weight w.
func (p *posterior) add(r *runner, rate, bias int, ds, w float64, withBackward bool) {
	row := p.at(rate)
	for k, v := range r.ahead(rateAt(rate), ds) {
		row[k] += w * v
	}
	if !withBackward {
		return
	}
	r.backward(rateAt(rate), bias, func(e int, s span, f []float64) {
		sum := p.smoothedAt(e, bias)[s.lo:s.hi]
		for k := range sum {
			sum[k] += w * f[s.lo+k]
		}
	})
}

func (p *posterior) scale(by float64) {
	for i := range p.joint {
		p.joint[i] *= by
	}
	for i := range p.smoothed {
		p.smoothed[i] *= by
	}
}

func (p *posterior) normalise() {
	scaleToOne(p.joint)
	for i := range p.rate {
		for _, v := range p.at(i) {
			p.rate[i] += v
		}
	}
	width := len(p.biases) * p.lattice.n
	for e := range p.epochs {
		scaleToOne(p.smoothed[e*width : (e+1)*width])
	}
}

func scaleToOne(f []float64) {
	sum := 0.0
	for _, v := range f {
		sum += v
	}
	for i := range f {
		f[i] /= sum
	}
}

// rowOrder lists the rates that have a prior at all by distance from a first
// guess: the likeliest slope from new to the last epoch's best node, or the
// prior's own peak.
func rowOrder(c *course, prior *rateLaw) []int {
	guess := peak(prior[:])
	if last := len(c.epochs) - 1; last >= 0 && c.epochs[last].at > 0 {
		slope := (c.lattice.h*float64(peak(c.evidence.at(last, 0))) - newMeanPercent) / c.epochs[last].at
		slope = min(max(slope, slowestRate), fastestRate)
		guess = (guess + int(math.Round(math.Log(slope/slowestRate)/logRateStep))) / 2
	}
	rows := []int{}
	for i, w := range prior {
		if w > 0 {
			rows = append(rows, i)
		}
	}
	order.By(rows, func(a, b int) int { return abs(a-guess) - abs(b-guess) })
	return rows
}

func peak(f []float64) int {
	best := 0
	for i, v := range f {
		if v > f[best] {
			best = i
		}
	}
	return best
}

func abs(i int) int { return max(i, -i) }
