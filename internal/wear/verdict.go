package wear

import "tautspan/internal/chain"

// Verdict is what to do, from the mildest to the strictest.
type Verdict string

// The verdicts.
const (
	Ride             Verdict = "ride"
	Plan             Verdict = "plan"
	Change           Verdict = "change"
	ChangeAndInspect Verdict = "change_and_inspect"
	MeasureAgain     Verdict = "measure_again"
)

// Bounds of the verdicts. Common practice, no source; the two probabilities
// are our decision rule in the sense of JCGM 106:2012.
const (
	// planProbability of being past the limit asks for a change to be planned.
	planProbability = 0.1
	// changeProbability asks for the change.
	changeProbability = 0.5
	// inspectBeyond percent past the limit, the sprockets have suffered.
	inspectBeyond = 0.25
	// inspectDerailleur percent, they have on any derailleur drive.
	inspectDerailleur = 1.0
	// HighestPercent and LowestPercent bound what a chain can read; beyond
	// them the pitches were miscounted or the number mistyped.
	HighestPercent = 3.0
	LowestPercent  = -0.5
	// stopPercent is where a chain is past what handbooks allow any drive, 1.5 to
	// 2.0 % (The Complete Guide to Chain, 2.2.4): not even the way home.
	stopPercent = 1.5
	// rounding forgives the last bits of a span that stands exactly at a bound.
	rounding = 1e-9
)

// decide returns the verdict for a limit in percent and the probability of being
// past it. It is never kinder than that or than the best estimate. Where a gauge's
// largest step dropped, nothing measured bounds the chain from above, and the
// probability rests on an assumption: then it is never Ride.
func (m *measurement) decide(limit, probability float64, drive chain.Drive) Verdict {
	estimate := m.estimate
	switch {
	case estimate > HighestPercent+rounding || estimate < LowestPercent-rounding:
		return MeasureAgain
	case estimate >= limit+inspectBeyond-rounding,
		drive == chain.Derailleur && estimate > inspectDerailleur+rounding:
		return ChangeAndInspect
	case estimate >= limit-rounding, probability >= changeProbability:
		return Change
	case probability > planProbability, m.openHigh:
		return Plan
	}
	return Ride
}
