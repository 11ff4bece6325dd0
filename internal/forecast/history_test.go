package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"tautspan/internal/chain"
)

// Where every law is normal, what earlier chains say of the next is known in
// closed form: a bike's mu has precision 1/v + n/t after n log rates of variance
// t = chainSD² + s² about it, and the two kinds of bike weigh as their evidence
// does (normal conjugacy, any textbook of Bayesian statistics). gonum's normal law
// is the oracle; the grid of rates is 0.15 wide in the logarithm.
func TestRatePrior_closedForm(t *testing.T) {
	const s = 0.3
	m := math.Log(medianRate(chain.Usual)) + prudence
	for _, ys := range [][]float64{nil, {0.4}, {-0.9, -0.7}, {1.4, 1.2, 1.5}} {
		earlier := make([]rateLaw, len(ys))
		for c, y := range ys {
			for i := range earlier[c] {
				earlier[c][i] = math.Exp(-math.Pow(logRateAt(i)-m-y, 2) / (2 * s * s))
			}
		}
		got := ratePrior(chain.Usual, earlier)

		var want rateLaw
		for _, bike := range []struct{ weight, sd float64 }{{0.9, 0.6}, {0.1, 1}} {
			mean, variance, noise, weight := 0.0, bike.sd*bike.sd, 0.35*0.35+s*s, bike.weight
			for _, y := range ys {
				weight *= distuv.Normal{Mu: mean, Sigma: math.Sqrt(variance + noise)}.Prob(y)
				gain := variance / (variance + noise)
				mean, variance = mean+gain*(y-mean), variance*(1-gain)
			}
			law := distuv.Normal{Mu: m + mean, Sigma: math.Sqrt(variance + 0.35*0.35)}
			for i := range want {
				want[i] += weight * law.Prob(logRateAt(i))
			}
		}
		want.normalise()
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-3, "%v at %v", ys, rateAt(i))
		}
	}
}

// A finished chain's likelihood times a prior is the posterior of that chain:
// Bayes' rule, with the filter's two ways of adding up over bias nodes.
func TestRateLikelihood_isBayes(t *testing.T) {
	prior := ratePrior(chain.Usual, nil)
	for name, marks := range map[string][]Mark{
		"one":    {Exact(2000, 0.5, 0.06)},
		"gauges": {Between(900, math.Inf(-1), 0.5, RollerPlay), Between(2500, 0.5, 0.75, RollerPlay)},
		"shared": {Exact(700, 0.2, 0.1).Sharing("screen", 0.09), Exact(1500, 0.5, 0.1).Sharing("screen", 0.09)},
	} {
		likelihood := rateLikelihood(marks, 0.75, 0)
		want, most := rateLaw{}, 0.0
		for i := range want {
			want[i] = prior[i] * likelihood[i]
			most = max(most, likelihood[i])
		}
		want.normalise()
		assert.Equal(t, 1.0, most, name)
		c := newCourse(marks, mostEpochs, newLattice(0.75, reachOf(marks)), 0)
		got := update(c, &prior, marks[len(marks)-1].KM/1000).rate
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-4, "%s at %v", name, rateAt(i))
		}
	}
}

func TestLogSum(t *testing.T) {
	assert.InDelta(t, math.Log(0.5), logSum(math.Log(0.2), math.Log(0.3)), 1e-15)
	assert.InDelta(t, math.Log(0.5), logSum(math.Log(0.3), math.Log(0.2)), 1e-15)
	none := math.Inf(-1)
	assert.Equal(t, -2.0, logSum(none, -2))
	assert.Equal(t, -2.0, logSum(-2, none))
	assert.Equal(t, none, logSum(none, none))
	assert.InDelta(t, -1000+math.Ln2, logSum(-1000, -1000), 1e-12)
}
