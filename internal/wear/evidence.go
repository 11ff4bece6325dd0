package wear

import (
	"math"
	"slices"
)

// Evidence is a reading without a verdict, for a model that weighs many of them:
// either a value with its standard uncertainty or an interval. Percentages are
// of pitch.
type Evidence struct {
	Interval bool // Lo and Hi hold; otherwise Percent and UPercent

	Percent  float64 // best estimate, known bias subtracted
	UPercent float64 // its standard uncertainty, > 0
	// SharedPercent is the part of UPercent that every reading of this kind with
	// the same instrument has in common: its calibration, or its making.
	SharedPercent float64
	// AgainstNew is true where Percent is growth beside a new chain. What that
	// chain's own length adds is then neither in Percent nor in UPercent.
	AgainstNew bool

	Lo, Hi  float64 // as the gauge sees it, its known bias subtracted; infinite where nothing was tried
	Opposed bool    // the gauge adds roller play, which is not subtracted here
}

// newChainSource names the budget's line for the new chain hung beside.
const newChainSource = "new_chain"

// sharedSources are the budget's lines that stay the same from reading to
// reading: the rule's making, the calibration of screen or print, the play of
// this chain's rollers.
var sharedSources = []string{"rule_accuracy", "calibration", "roller_play"}

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
	sum, shared := 0.0, 0.0
	for _, c := range m.components {
		if c.source != newChainSource {
			sum += c.u * c.u
		}
		if slices.Contains(sharedSources, c.source) {
			shared += c.u * c.u
		}
	}
	return Evidence{Percent: m.estimate, UPercent: math.Sqrt(sum), SharedPercent: math.Sqrt(shared), AgainstNew: r.Kind == Compare}, nil
}
