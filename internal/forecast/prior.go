package forecast

import (
	"math"

	"tautspan/internal/chain"
)

// medianRate returns the median wear rate of a care class in percent per
// 1000 km: 0.75 % lasts about 8800, 5000, 2700 and 1400 km. Common practice, no
// source. It panics on an unknown class.
func medianRate(care chain.Care) float64 {
	switch care {
	case chain.Enclosed:
		return 0.085
	case chain.Clean:
		return 0.15
	case chain.Usual:
		return 0.28
	case chain.Gritty:
		return 0.55
	}
	panic("forecast: unknown care class: " + string(care))
}

// The prior. Common practice, no source, except where one is named.
const (
	// A new chain is 0 to +0.15 % long (ISO 606 as quoted by an industrial
	// maker); most are near the short end. A little of it is running in.
	newMeanPercent = 0.04
	newSDPercent   = 0.035

	// log R = log median + bike + chain. One bike in ten has its care misjudged.
	bikeSD        = 0.6
	misjudgedSD   = 1.0
	misjudgedPart = 0.1
	chainSD       = 0.35

	// The class median is taken a tenth faster than it is said to be: what is said
	// comes from chains that lasted.
	prudence = 0.1

	// nu, per 1000 km: over 1000 km the wear of one chain at one rate varies by
	// 1/sqrt(3), 58 %, with weather, season and load.
	nu = 3.0

	// speedUp is how much faster a chain wears at its limit than when new, as a
	// part: the hard skin of pins and bushes wears slowly, what is below it fast
	// (handbooks and wear tests say so, but give no number for this range).
	// It, nu, prudence and the widths above are set so that the forecast holds in
	// both simulated worlds (world_test.go): one that wears steadily, at the said
	// rates, and one that breaks these rules.
	speedUp = 0.6
)

// The grid of rates, percent per 1000 km, even in the logarithm.
const (
	rates       = 38
	slowestRate = 0.012
	fastestRate = 3.2
)

var logRateStep = math.Log(fastestRate/slowestRate) / (rates - 1)

func rateAt(i int) float64 { return slowestRate * math.Exp(float64(i)*logRateStep) }

func logRateAt(i int) float64 { return math.Log(slowestRate) + float64(i)*logRateStep }

// rateLaw is a distribution over the grid of rates; it sums to one.
type rateLaw [rates]float64

func (w *rateLaw) normalise() {
	sum := 0.0
	for _, v := range w {
		sum += v
	}
	for i := range w {
		w[i] /= sum
	}
}

// normalDensity is the normal probability density at d from the mean.
func normalDensity(d, sd float64) float64 {
	return math.Exp(-d*d/(2*sd*sd)) / (sd * math.Sqrt(2*math.Pi))
}
