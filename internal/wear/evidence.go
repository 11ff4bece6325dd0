package wear

import "math"

// Evidence is a reading without a verdict, for a model that weighs many of them:
// either a value with its standard uncertainty or an interval. Percentages are
// of pitch.
type Evidence struct {
	Interval bool // Lo and Hi hold; otherwise Percent and UPercent

	Percent  float64 // best estimate, known bias subtracted
	UPercent float64 // its standard uncertainty, > 0
	// AgainstNew is true where Percent is growth beside a new chain. What that
	// chain's own length adds is then neither in Percent nor in UPercent.
	AgainstNew bool

	Lo, Hi  float64 // as the gauge sees it, its known bias subtracted; infinite where nothing was tried
	Opposed bool    // the gauge adds roller play, which is not subtracted here
}

// newChainSource names the budget's line for the new chain hung beside.
const newChainSource = "new_chain"

// Evidence returns what the reading says of a chain of the given pitch (mm,
// > 0). Errors are *fault.Error naming the reading's field: a span given twice
// or not at all, text that is no length, gauge steps that contradict each other.
func (r *Reading) Evidence(pitchMM float64) (Evidence, error) {
	if r.Kind == Gauge {
		lo, hi, openLow, openHigh, err := r.GaugeInterval()
		if openLow {
			lo = math.Inf(-1)
		}
		if openHigh {
			hi = math.Inf(1)
		}
		bias := 0.0
		if r.BiasPercent != nil {
			bias = *r.BiasPercent
		}
		return Evidence{Interval: true, Lo: lo - bias, Hi: hi - bias, Opposed: r.BearsOn == OpposedRollers}, err
	}
	m, err := r.measure(pitchMM)
	if err != nil {
		return Evidence{}, err
	}
	sum := 0.0
	for _, c := range m.components {
		if c.source != newChainSource {
			sum += c.u * c.u
		}
	}
	return Evidence{Percent: m.estimate, UPercent: math.Sqrt(sum), AgainstNew: r.Kind == Compare}, nil
}
