package identify

import (
	"math"
	"slices"

	"tautspan/internal/chain"
	"tautspan/internal/num"
)

// How far real chains stray from the table, mm, standard deviation. Ours. The
// roller's is wide because a few recent narrow families are said to use a larger
// one (common practice, doubtful).
const (
	outerStray  = 0.07
	innerStray  = 0.05
	rollerStray = 0.3
)

// slip is the chance that a reading is worth nothing, ours; the densities are
// flat over what could be measured at all, per mm.
const (
	slip          = 0.02
	rollerSlip    = 0.5
	widthDensity  = 1.0 / 14
	pitchDensity  = 1.0 / 18
	rollerDensity = 1.0 / 17
)

// Priors: an odd pitch is rare, and a chain mostly belongs to the bike it is
// named with, yet a wrong chain is what the question is often about. Ours.
const (
	oddPitchPrior   = 0.2
	otherBikeWeight = 0.25
)

// rollerMM is the usual roller of half-inch chains: 7.6 to 7.75 new (common
// practice), 7.95 at most (size 08A in a catalogue).
var rollerMM = [2]float64{7.55, 7.95}

// shortest and longest are the pitch of a sound chain as a part of nominal: an
// amateur's new chains down to 0.1 % short (low authority), 3 % is the general
// limit of roller chains (two industrial makers).
const (
	shortest = 0.999
	longest  = 1.03
)

// blurred is the likelihood of a reading under a uniform law on [lo, hi] blurred
// by uncertainty and stray, with a slip possible.
func (q *quantity) blurred(lo, hi, stray, slip, flat float64) float64 {
	s := math.Hypot(q.u, stray)
	return (1-slip)*(num.NormalCDF((hi-q.mm)/s)-num.NormalCDF((lo-q.mm)/s))/(hi-lo) + slip*flat
}

// weight is prior times likelihood of the family, up to a common factor.
func (e *evidence) weight(f *chain.Family) float64 {
	if !e.considers(f) {
		return 0
	}
	w := e.prior(f)
	if e.outer != nil {
		w *= widthLikelihood(e.outer, f, f.OuterWidthMM, outerStray)
	}
	if e.inner != nil {
		w *= widthLikelihood(e.inner, f, f.InnerWidthMM, innerStray)
	}
	if e.pitch != nil {
		w *= e.pitch.blurred(shortest*f.PitchMM, longest*f.PitchMM, 0, slip, pitchDensity)
	}
	if e.roller != nil {
		w *= e.rollerLikelihood(f)
	}
	return w
}

func widthLikelihood(q *quantity, f *chain.Family, width [2]float64, stray float64) float64 {
	if !f.WidthKnown() {
		return widthDensity
	}
	return q.blurred(width[0], width[1], stray, slip, widthDensity)
}

// rollerLikelihood is the same for every half-inch family, so that the roller
// never tells them apart.
func (e *evidence) rollerLikelihood(f *chain.Family) float64 {
	if f.PitchMM != chain.PitchMM {
		return rollerDensity
	}
	return e.roller.blurred(rollerMM[0], rollerMM[1], rollerStray, rollerSlip, rollerDensity)
}

func (e *evidence) prior(f *chain.Family) float64 {
	p := 1.0
	if f.PitchMM != chain.PitchMM {
		p = oddPitchPrior
	}
	if !e.madeFor(f) {
		p *= otherBikeWeight
	}
	return p
}

// madeFor reports whether the family is made for the bike, as far as known.
func (e *evidence) madeFor(f *chain.Family) bool {
	if e.drive != "" && !slices.Contains(f.Drives, e.drive) {
		return false
	}
	switch {
	case e.rearSprockets == 0 || e.rearSprockets > lastInTable:
		return true
	case slices.Contains(f.Drives, chain.Derailleur):
		return (e.drive != "" || e.rearSprockets > 1) && f.Fits(chain.Derailleur, e.rearSprockets) == chain.FitYes
	}
	return e.rearSprockets == 1
}

// lastInTable is the largest number of rear sprockets the table knows.
const lastInTable = 13

// farthest is the miss, in standard uncertainties, up to which a reading is
// still explained by a family.
const farthest = 3

// considers reports whether the readings can speak for the family at all: where
// the table does not know its widths, only a pitch can.
func (e *evidence) considers(f *chain.Family) bool { return f.WidthKnown() || e.pitch != nil }

// explains reports whether the family explains every reading.
func (e *evidence) explains(f *chain.Family) bool {
	return e.considers(f) && e.worstMiss(f) <= farthest
}

// worstMiss is the largest miss of the family over all readings, in standard
// uncertainties; what the table does not know cannot be missed.
func (e *evidence) worstMiss(f *chain.Family) float64 {
	worst := 0.0
	if e.outer != nil && f.WidthKnown() {
		worst = max(worst, e.outer.miss(f.OuterWidthMM[0], f.OuterWidthMM[1], outerStray))
	}
	if e.inner != nil && f.WidthKnown() {
		worst = max(worst, e.inner.miss(f.InnerWidthMM[0], f.InnerWidthMM[1], innerStray))
	}
	if e.pitch != nil {
		worst = max(worst, e.pitch.miss(shortest*f.PitchMM, longest*f.PitchMM, 0))
	}
	if e.roller != nil && f.PitchMM == chain.PitchMM {
		worst = max(worst, e.roller.miss(rollerMM[0], rollerMM[1], rollerStray))
	}
	return worst
}
