package forecast

import (
	"math"
	"slices"

	"tautspan/internal/num"
)

// What is wrong with readings. Common practice, no source.
const (
	// A measured reading is a blunder two times in a hundred; it may then be
	// anything, 0.4 per percent over the two and a half percent in question.
	blunderPart    = 0.02
	blunderDensity = 0.4
	// A gauge is misread once in a hundred; each of three answers is then as
	// likely as another.
	misreadPart = 0.01
	misreadMass = 1.0 / 3
	// understated is how much larger a true standard uncertainty is than stated.
	understated = 1.2
	// gaugeU is the standard uncertainty of where a step drops, percent.
	gaugeU = 0.05
)

// biasNode is one possible bias of the instrument and its weight: play in
// percent, and how many standard uncertainties its own error is off.
type biasNode struct{ play, own, weight float64 }

var (
	withoutBias = []biasNode{{weight: 1}}
	// rollerPlay is the play of two rollers pushed apart, over the usual length
	// of a gauge. Common practice, no source.
	rollerPlay = []biasNode{{play: 0, weight: 0.40}, {play: 0.05, weight: 0.20}, {play: 0.10, weight: 0.25}, {play: 0.15, weight: 0.15}}
	// ownError is a standard normal error by three nodes (Gauss-Hermite).
	ownError = []biasNode{{weight: 2.0 / 3}, {own: -math.Sqrt(3), weight: 1.0 / 6}, {own: math.Sqrt(3), weight: 1.0 / 6}}
)

// good returns how likely the mark is at elongation x for an instrument of that
// bias when it is no blunder: a density per percent for a measured value, a
// probability for an interval. A measured value finer than floor (the lattice
// cannot tell more) counts as that fine.
func (m *Mark) good(x float64, b biasNode, floor float64) float64 {
	if m.interval {
		if m.bias == RollerPlay {
			x += b.play
		}
		return normalBetween(m.lo, m.hi, x, gaugeU)
	}
	u := math.Sqrt(m.u*m.u - m.own*m.own)
	return normalDensity(m.percent-x-understated*b.own*m.own, max(understated*u, floor))
}

// blunder returns how likely the mark is when it is one, its prior included.
func (m *Mark) blunder() float64 {
	if m.interval {
		return misreadPart * misreadMass
	}
	return blunderPart * blunderDensity
}

// likelihood returns how likely the mark is at elongation x and bias b.
func (m *Mark) likelihood(x float64, b biasNode, floor float64) float64 {
	part := blunderPart
	if m.interval {
		part = misreadPart
	}
	return (1-part)*m.good(x, b, floor) + m.blunder()
}

// normalBetween returns the probability that a normal variable lies between lo
// and hi; from the far tail it is computed without loss.
func normalBetween(lo, hi, mean, sd float64) float64 {
	lo, hi = (lo-mean)/sd, (hi-mean)/sd
	if lo > 0 {
		lo, hi = -hi, -lo
	}
	return num.NormalCDF(hi) - num.NormalCDF(lo)
}

// evidence holds, for every epoch, bias node and lattice node, how likely the
// epoch's marks are, scaled so that the largest of an epoch is one.
type evidence struct {
	values []float64
	biases int
	nodes  int
}

func (e *evidence) at(epoch, bias int) []float64 {
	from := (epoch*e.biases + bias) * e.nodes
	return e.values[from : from+e.nodes]
}

// leastEvidence is the logarithm at which evidence against a node stops
// counting, so that even absurd readings leave something to normalise.
const leastEvidence = -500

// gather computes the evidence of marks grouped into epochs. Products are sums
// of logarithms, because a hundred readings would fall below any number.
func gather(marks []Mark, groups []epoch, bs []biasNode, l lattice) *evidence {
	e := &evidence{values: make([]float64, len(groups)*len(bs)*l.n), biases: len(bs), nodes: l.n}
	logs := newLogLikelihoods(bs, l)
	for g := range groups {
		rows := e.values[g*len(bs)*l.n : (g+1)*len(bs)*l.n] // of all biases
		for _, i := range groups[g].marks {
			for k, v := range logs.of(&marks[i]) {
				rows[k] += v
			}
		}
		most := slices.Max(rows)
		for k := range rows {
			rows[k] = math.Exp(max(rows[k]-most, leastEvidence))
		}
	}
	return e
}

// logLikelihoods makes the logarithm of one mark's likelihood over all bias and
// lattice nodes. Answers of a gauge repeat, so theirs are kept.
type logLikelihoods struct {
	biases  []biasNode
	lattice lattice
	x       []float64 // elongation of each node
	scratch []float64
	kept    map[answerKey][]float64
}

type answerKey struct {
	lo, hi float64
	bias   Bias
}

func newLogLikelihoods(bs []biasNode, l lattice) *logLikelihoods {
	t := &logLikelihoods{bs, l, make([]float64, l.n), make([]float64, l.n*len(bs)), map[answerKey][]float64{}}
	for k := range t.x {
		t.x[k] = l.at(float64(k))
	}
	return t
}

// of returns the table of one mark; it holds until the next call.
func (t *logLikelihoods) of(m *Mark) []float64 {
	if !m.interval {
		t.fill(t.scratch, m)
		return t.scratch
	}
	key := answerKey{m.lo, m.hi, m.bias}
	if t.kept[key] == nil {
		t.kept[key] = make([]float64, len(t.scratch))
		t.fill(t.kept[key], m)
	}
	return t.kept[key]
}

func (t *logLikelihoods) fill(table []float64, m *Mark) {
	for b, node := range t.biases {
		row := table[b*t.lattice.n : (b+1)*t.lattice.n]
		if b > 0 && m.bias == NoBias && m.own == 0 {
			copy(row, table)
			continue
		}
		for k, x := range t.x {
			row[k] = math.Log(m.likelihood(x, node, t.lattice.h))
		}
	}
}
