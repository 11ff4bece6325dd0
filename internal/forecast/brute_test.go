package forecast

import (
	"math"
	"math/rand/v2"
	"testing"

	"tautspan/internal/chain"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// weighted is one exact path of the model with the weight its marks give it.
type weighted struct{ x, rate, left, w float64 }

// bruteForce draws n exact gamma paths from the prior, by rejection and gonum's
// gamma sampler, and weights each by the likelihood of the marks. It shares
// nothing with the filter but the constants and the likelihood of one mark.
func bruteForce(q *Question, n int, seed uint64) []weighted {
	rng := rand.New(rand.NewPCG(seed, 3))
	groups := epochs(q.Marks, mostEpochs)
	marks, bs := withOneBias(q.Marks, epochs(q.Marks, mostEpochs))
	shape := shapeFor(q.DistanceSD)
	paths := make([]weighted, 0, n)
	for range n {
		sd := bikeSD
		if rng.Float64() < misjudgedPart {
			sd = misjudgedSD
		}
		logRate := math.Log(medianRate(q.Care)) + prudence + sd*rng.NormFloat64() + chainSD*rng.NormFloat64()
		p := weighted{rate: math.Exp(logRate), w: 1}
		for p.x = -1; p.x < 0 || p.x > 0.15; {
			p.x = newMeanPercent + newSDPercent*rng.NormFloat64()
		}
		b := drawBias(bs, rng)
		if len(bs) == len(ownError) {
			b.own = rng.NormFloat64() // not the nodes, but what they stand for
		}
		s := 0.0
		grow := func(to, shape float64) {
			if to > s {
				y := smooth(p.x, q.Limit) + p.rate/shape*distuv.Gamma{Alpha: shape * (to - s), Beta: 1, Src: rng}.Rand()
				p.x, s = elongationAt(y, q.Limit), to
			}
		}
		for _, e := range groups {
			grow(e.at, shape)
			for _, i := range e.marks {
				p.w *= marks[i].likelihood(p.x, b, 0)
			}
		}
		grow(q.NowKM/1000, shape)
		p.left = (q.Limit - smooth(p.x, q.Limit)) / p.rate
		paths = append(paths, p)
	}
	return paths
}

func drawBias(bs []biasNode, rng *rand.Rand) biasNode {
	u := rng.Float64()
	for _, b := range bs {
		if u -= b.weight; u < 0 {
			return b
		}
	}
	return bs[len(bs)-1]
}

// share returns the weighted mean of of and its standard error.
func share(paths []weighted, of func(p *weighted) float64) (mean, se float64) {
	sum, total := 0.0, 0.0
	for i := range paths {
		sum += paths[i].w * of(&paths[i])
		total += paths[i].w
	}
	mean = sum / total
	for i := range paths {
		d := paths[i].w * (of(&paths[i]) - mean) / total
		se += d * d
	}
	return mean, math.Sqrt(se)
}

func isTrue(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// Oracle: importance-weighted simulation of exact gamma paths, continuous in
// elongation, rate and distance. Allowed is four standard errors of the
// simulation, and 0.004 for the grids; 0.025 where three nodes stand for the
// normal law of an instrument's own error.
func TestForecast_bruteForce(t *testing.T) {
	n := 12000
	if *full {
		n = 400000
	}
	open := math.Inf(1)
	for _, row := range []struct {
		name string
		q    Question
	}{
		{"prior alone", Question{Limit: 0.75, Care: chain.Usual, NowKM: 1500}},
		{"one reading", Question{Limit: 0.75, Care: chain.Usual, NowKM: 1200, Marks: []Mark{Exact(1000, 0.35, 0.1)}}},
		{"three readings", Question{Limit: 0.5, Care: chain.Gritty, NowKM: 700,
			Marks: []Mark{Exact(200, 0.15, 0.1), Exact(400, 0.3, 0.1), Exact(700, 0.35, 0.1)}}},
		{"slow and long", Question{Limit: 1, Care: chain.Enclosed, NowKM: 5000, Marks: []Mark{Exact(2500, 0.2, 0.12), Exact(5000, 0.4, 0.12)}}},
		{"gauge on opposed rollers", Question{Limit: 0.75, Care: chain.Usual, NowKM: 1600,
			Marks: []Mark{Between(600, math.Inf(-1), 0.5, RollerPlay), Between(1400, 0.5, 0.75, RollerPlay), Exact(1500, 0.5, 0.12)}}},
		{"gauge open above", Question{Limit: 0.75, Care: chain.Clean, NowKM: 3000, Marks: []Mark{Between(3000, 0.5, open, NoBias)}}},
		{"a blunder among others", Question{Limit: 0.75, Care: chain.Usual, NowKM: 1500,
			Marks: []Mark{Exact(500, 0.2, 0.08), Exact(1000, 1.6, 0.08), Exact(1400, 0.45, 0.08)}}},
		{"an instrument's own error", Question{Limit: 0.75, Care: chain.Usual, NowKM: 1500, Marks: []Mark{
			Exact(300, 0.2, 0.1).Sharing("screen", 0.07), Exact(700, 0.28, 0.1).Sharing("screen", 0.07), Exact(1400, 0.5, 0.1).Sharing("screen", 0.07)}}},
		{"distance uncertain", Question{Limit: 0.75, Care: chain.Usual, NowKM: 1500, DistanceSD: 0.3, Marks: []Mark{Exact(1000, 0.3, 0.08)}}},
	} {
		t.Run(row.name, func(t *testing.T) {
			q := row.q
			q.Risk = 0.1
			a, err := Forecast(q)
			require.NoError(t, err)
			paths, grids := bruteForce(&q, n, 11), 0.004
			if _, bs := withOneBias(q.Marks, epochs(q.Marks, mostEpochs)); len(bs) == len(ownError) {
				grids = 0.025
			}
			near := func(want float64, of func(p *weighted) float64, what string) {
				mean, se := share(paths, of)
				assert.InDelta(t, want, mean, 4*se+grids, what)
				if *full {
					t.Logf("%s: %.4f, simulated %.4f with standard error %.4f", what, want, mean, se)
				}
			}
			near(a.PastLimitNow, func(p *weighted) float64 { return isTrue(p.left <= 0) }, "past now")
			for share, km := range map[float64]float64{0.05: a.KMToLimit.P05, 0.25: a.KMToLimit.P25, 0.5: a.KMToLimit.P50, 0.95: a.KMToLimit.P95} {
				if km > 0 {
					near(share, func(p *weighted) float64 {
						if p.left <= 0 {
							return 1
						}
						return distuv.Gamma{Alpha: nu * km / 1000, Beta: nu}.Survival(p.left)
					}, "distance to the limit")
				}
			}
			for share, x := range map[float64]float64{0.05: a.Elongation.P05, 0.5: a.Elongation.P50, 0.95: a.Elongation.P95} {
				near(share, func(p *weighted) float64 { return isTrue(p.x <= x) }, "elongation")
			}
			for share, rate := range map[float64]float64{0.05: a.Rate.P05, 0.5: a.Rate.P50, 0.95: a.Rate.P95} {
				near(share, func(p *weighted) float64 { return isTrue(p.rate <= rate) }, "rate")
			}
		})
	}
}
