package wear

import (
	"math"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/words"
)

// Half-widths and standard uncertainties of the budget, in mm where not said
// otherwise. Common practice, no source, except where one is named.
const (
	ruleResolutionMM    = 0.5
	compareResolutionMM = 1.0
	caliperResolutionMM = 0.01

	alignmentMM    = 0.1   // each end: sighting the pin and laying the rule along the chain
	ruleAccuracyMM = 0.1   // a plain steel rule over one span
	hangAlignMM    = 0.25  // two chains hung from one nail: first pins level
	tensionPercent = 0.03  // a chain pulled straight by hand, not at its measuring load
	rollerMM       = 0.05  // diameter of the rollers at the two places
	screenReadMM   = 0.43  // one naive reading against a screen, both ends (our simulation)
	playMM         = 0.058 // typical play of two rollers together, see OpposedPlayPercent
	playUMM        = 0.056
	playShare      = 0.2 // uncertainty of a play the rider states, as a part of it
)

// rectangular is the standard uncertainty of a rectangular distribution of the
// given half-width (JCGM 100:2008, 4.3.7).
func rectangular(halfWidth float64) float64 { return halfWidth / math.Sqrt(3) }

// bothEnds is the standard uncertainty of a difference of two readings made to
// the resolution r: each is rectangular with half-width r/2 (JCGM 100:2008,
// F.2.2.1), so r/sqrt(12) twice, r/sqrt(6) together.
func bothEnds(r float64) float64 { return r / math.Sqrt(6) }

// fromSpan makes a measurement out of a span in mm over n pitches.
func fromSpan(spanMM float64, nominalMM float64) *measurement {
	return &measurement{estimate: 100 * (spanMM/nominalMM - 1), nominalMM: nominalMM}
}

func (r *Reading) measureRule(nominalMM float64) (*measurement, error) {
	span, err := r.spanMM()
	if err != nil {
		return nil, err
	}
	resolution, err := r.resolutionMM(ruleResolutionMM)
	if err != nil {
		return nil, err
	}
	m := fromSpan(span, nominalMM)
	if m.replaced(r.StandardUncertaintyMM) {
		return m, nil
	}
	m.addMM("resolution", bothEnds(resolution), words.N("budget_resolution", words.V("resolution", resolution, 3)))
	m.addMM("alignment", math.Sqrt2*rectangular(alignmentMM), words.N("budget_alignment", words.V("half", alignmentMM, 1)))
	m.addMM("rule_accuracy", rectangular(ruleAccuracyMM), words.N("budget_rule", words.V("half", ruleAccuracyMM, 1)))
	m.addTension()
	return m, nil
}

// measureCompare takes the growth beside a new chain. The new chain may itself
// be up to 0.15 % long, which hides that much wear; it is not known how much,
// so nothing is subtracted and the whole root mean square of the offset about
// zero, 0.15/sqrt(3), goes into the budget (JCGM 100:2008, F.2.4.5).
func (r *Reading) measureCompare(nominalMM float64) (*measurement, error) {
	resolution, err := r.resolutionMM(compareResolutionMM)
	if err != nil {
		return nil, err
	}
	m := &measurement{estimate: 100 * r.GrowthMM / nominalMM, nominalMM: nominalMM}
	m.notes = append(m.notes, words.N("compare_hides", words.V("most", chain.NewTolerancePercent, 2)))
	if m.replaced(r.StandardUncertaintyMM) {
		return m, nil
	}
	m.addMM("resolution", bothEnds(resolution), words.N("budget_resolution", words.V("resolution", resolution, 3)))
	m.addMM("alignment", rectangular(hangAlignMM), words.N("budget_hang", words.V("half", hangAlignMM, 2)))
	m.add(newChainSource, chain.NewTolerancePercent/math.Sqrt(3), words.N("budget_new_chain", words.V("most", chain.NewTolerancePercent, 2)))
	m.addTension()
	return m, nil
}

// measureCaliper takes the inside distance of two rollers pushed apart: pin
// distance = inside + roller diameter - play of both rollers.
func (r *Reading) measureCaliper(nominalMM float64) (*measurement, error) {
	resolution, err := r.resolutionMM(caliperResolutionMM)
	if err != nil {
		return nil, err
	}
	m := fromSpan(r.InsideMM+r.RollerMM, nominalMM)
	m.addMM("resolution", bothEnds(resolution), words.N("budget_resolution", words.V("resolution", resolution, 3)))
	m.addMM("roller", rectangular(rollerMM), words.N("budget_roller", words.V("half", rollerMM, 2)))
	play, u := playMM, playUMM
	if r.RollerPlayMM != nil {
		play, u = *r.RollerPlayMM, playShare**r.RollerPlayMM
	}
	m.correct(100 * play / nominalMM)
	m.addMM("roller_play", u, words.N("budget_play", words.V("play", play, 3)))
	m.addTension()
	return m, nil
}

func (r *Reading) measureScreen(nominalMM float64) (*measurement, error) {
	m := fromSpan(r.SpanPx/r.PxPerMM, nominalMM)
	relative := r.PxPerMMStandardUncertainty / r.PxPerMM
	m.addMM("calibration", relative*r.SpanPx/r.PxPerMM, words.N("budget_calibration", words.V("percent", 100*relative, 2)))
	readMM := screenReadMM
	if r.StandardUncertaintyPx != nil {
		readMM = *r.StandardUncertaintyPx / r.PxPerMM
	}
	m.addMM("reading", readMM, words.N("budget_screen", words.V("mm", readMM, 3)))
	m.addTension()
	return m, nil
}

// measurePhoto takes what internal/photo found; its own budget went with the
// picture, and only the pull on the chain is added.
func (r *Reading) measurePhoto(nominalMM float64) (*measurement, error) {
	m := &measurement{estimate: r.ElongationPercent, nominalMM: nominalMM}
	u, shared, rest := r.StandardUncertaintyPercent, 0.0, "budget_photo"
	if r.SharedUncertaintyPercent != nil {
		shared = *r.SharedUncertaintyPercent
		if shared > u {
			return nil, fault.New(fault.Contradiction, "shared_standard_uncertainty_percent",
				"a part is larger than the whole; allowed is at most standard_uncertainty_percent, "+shown(u))
		}
		m.add("calibration", shared, words.N("budget_print"))
		rest = "budget_picture"
	}
	m.add("photo", math.Sqrt(u*u-shared*shared), words.N(rest))
	m.addTension()
	return m, nil
}
