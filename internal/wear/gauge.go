package wear

import (
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/words"
)

// What a gauge adds, in percent of pitch. Common practice, no source.
const (
	// GaugeUPercent is the standard uncertainty of where a step drops: its
	// making, its own wear and the pressure of the hand.
	GaugeUPercent = 0.05
	// OpposedPlayPercent and OpposedPlayUPercent are the mean and standard
	// deviation of the roller play that a gauge bearing on opposed rollers adds:
	// 0, 0.05, 0.10 and 0.15 % with weights 0.40, 0.20, 0.25 and 0.15.
	OpposedPlayPercent  = 0.0575
	OpposedPlayUPercent = 0.0554
	// openPercent is how wide an interval is taken to be when it has no other
	// end: nothing above was tried.
	openPercent = 0.5
	// newLowPercent is the shortest a sound chain is taken to be.
	newLowPercent = 0.0
)

// GaugeInterval returns the elongation, in percent as the gauge sees it, between
// the largest step that dropped and the smallest that did not. Where one side
// was not tried, openLow or openHigh is true and that end is an assumption: 0
// below, 0.5 above the largest step that dropped. Steps that contradict each
// other, or stand twice with different answers, are a *fault.Error on steps.
func (r *Reading) GaugeInterval() (lo, hi float64, openLow, openHigh bool, err error) {
	lo, hi, openLow, openHigh = newLowPercent, 0, true, true
	for _, s := range r.Steps {
		if s.Drops && s.Percent >= lo {
			lo, openLow = s.Percent, false
		}
		if !s.Drops && (openHigh || s.Percent < hi) {
			hi, openHigh = s.Percent, false
		}
	}
	if !openLow && !openHigh && lo >= hi {
		return 0, 0, false, false, fault.New(fault.Contradiction, "steps",
			"the step of "+shown(lo)+" % drops but the step of "+shown(hi)+
				" % does not: a chain that takes a larger step takes every smaller one; try both again")
	}
	if openHigh {
		hi = lo + openPercent
	}
	return lo, hi, openLow, openHigh, nil
}

func (r *Reading) measureGauge() (*measurement, error) {
	lo, hi, openLow, openHigh, err := r.GaugeInterval()
	if err != nil {
		return nil, err
	}
	m := &measurement{estimate: (lo + hi) / 2, halfWidth: (hi - lo) / 2, openHigh: openHigh}
	m.add("steps", rectangular(m.halfWidth), words.N("budget_steps", words.V("lo", lo, 2), words.V("hi", hi, 2)))
	m.add("gauge", GaugeUPercent, words.N("budget_gauge"))
	switch {
	case openHigh:
		m.notes = append(m.notes, words.N("gauge_open_high", words.V("lo", lo, 2)))
	case openLow:
		m.notes = append(m.notes, words.N("gauge_open_low", words.V("hi", hi, 2)))
	}
	if r.BearsOn == OpposedRollers {
		m.correct(OpposedPlayPercent)
		m.add("roller_play", OpposedPlayUPercent, words.N("budget_gauge_play"))
	}
	return m, nil
}

func shown(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
