package forecast

import (
	"math"

	"tautspan/internal/chain"
)

// How finely, and how far, log rates of bikes are summed over, and how many
// distances of a finished chain are kept apart.
const (
	bikeStep         = 0.1
	bikeReach        = 3.0
	mostEarlierEpoch = 12
)

// ratePrior returns what is known of a chain's rate before its own readings:
// its care class and the likelihoods over the rate grid that earlier chains of
// the same bike and care left.
//
// With m the log median of the class, the bike's mu is a mixture of N(0, bikeSD^2)
// and N(0, misjudgedSD^2), each chain's log rate N(m + mu, chainSD^2). Given mu
// the chains are independent, so they combine in one sum over mu.
func ratePrior(care chain.Care, earlier []rateLaw) rateLaw {
	m := math.Log(medianRate(care)) + prudence
	var prior rateLaw
	for mu := -bikeReach; mu <= bikeReach+bikeStep/2; mu += bikeStep {
		w := (1-misjudgedPart)*normalDensity(mu, bikeSD) + misjudgedPart*normalDensity(mu, misjudgedSD)
		law := chainLaw(m + mu)
		for c := range earlier {
			w *= expected(&law, &earlier[c])
		}
		for i := range prior {
			prior[i] += w * law[i]
		}
	}
	prior.normalise()
	return prior
}

// chainLaw is the distribution of one chain's rate over the grid, for a bike
// whose log median rate is given.
func chainLaw(logMedian float64) rateLaw {
	var law rateLaw
	for i := range law {
		law[i] = normalDensity(logRateAt(i)-logMedian, chainSD)
	}
	law.normalise()
	return law
}

func expected(law, likelihood *rateLaw) float64 {
	sum := 0.0
	for i := range law {
		sum += law[i] * likelihood[i]
	}
	return sum
}

// rateLikelihood returns how likely a finished chain's marks are at each rate,
// scaled so that the largest is one.
func rateLikelihood(marks []Mark, limit, distanceSD float64) rateLaw {
	c := newCourse(marks, mostEarlierEpoch, newLattice(limit, reachOf(marks)), distanceSD)
	r := newRunner(c)
	var logs [rates]float64
	best := math.Inf(-1)
	for i := range logs {
		logs[i] = math.Inf(-1)
		for b, node := range c.biases {
			l := math.Log(node.weight)
			logs[i] = logSum(logs[i], l+r.forward(rateAt(i), b, best-worthForward-l))
		}
		best = max(best, logs[i])
	}
	var likelihood rateLaw
	for i := range likelihood {
		likelihood[i] = math.Exp(logs[i] - best)
	}
	return likelihood
}

// logSum returns log(e^a + e^b).
func logSum(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	if math.IsInf(b, -1) {
		return a
	}
	return a + math.Log1p(math.Exp(b-a))
}
