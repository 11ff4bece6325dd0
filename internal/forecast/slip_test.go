package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/chain"
)

// logEvidence is the log of how likely all marks together are, each at its own
// distance, from forward passes alone.
func logEvidence(marks []Mark, l lattice, prior *rateLaw) float64 {
	c := newCourse(marks, mostEpochs, l, 0)
	r := newRunner(c)
	total := math.Inf(-1)
	for i := range prior {
		for b, node := range c.biases {
			total = logSum(total, math.Log(prior[i]*node.weight)+r.forward(rateAt(i), b, math.Inf(-1)))
		}
	}
	for i := range c.marks { // gather takes each epoch's largest away
		most := math.Inf(-1)
		for _, node := range c.biases {
			for k := range l.n {
				most = max(most, math.Log(c.marks[i].likelihood(l.at(float64(k)), node, l.h)))
			}
		}
		total += most
	}
	return total
}

// P(blunder | all) by the backward pass is what Bayes' rule says: the blunder's
// likelihood times the evidence of the other readings over that of all.
func TestPosterior_withoutMark(t *testing.T) {
	prior := ratePrior(chain.Usual, nil)
	l := newLattice(0.75, 1.6)
	for name, marks := range map[string][]Mark{
		"fine":   {Exact(100, 0.05, 0.03), Exact(150, 0.2, 0.02), Exact(900, 0.18, 0.05), Exact(1500, 0.5, 0.1), Exact(1600, 0.33, 0.02)},
		"gauges": {Exact(400, 0.3, 0.05), Between(800, math.Inf(-1), 0.25, RollerPlay), Between(1200, 0.5, 0.75, RollerPlay), Exact(1300, 0.3, 0.05)},
		"shared": {Exact(400, 0.3, 0.1).Sharing("s", 0.08), Exact(800, 0.1, 0.1).Sharing("s", 0.08), Exact(1200, 0.9, 0.1).Sharing("s", 0.08)},
	} {
		c := newCourse(marks, mostEpochs, l, 0)
		p := update(c, &prior, 1.7)
		all := logEvidence(marks, l, &prior)
		scratch := make([]float64, l.n*len(p.biases))
		for e := range p.epochs {
			i := p.epochs[e].marks[0]
			others := append(append([]Mark{}, c.marks[:i]...), c.marks[i+1:]...)
			want := marks[i].blunder() * math.Exp(logEvidence(others, l, &prior)-all)
			assert.InDelta(t, want, p.withoutMark(&p.marks[i], e, scratch), 2e-3, "%s %d", name, i)
		}
	}
}
