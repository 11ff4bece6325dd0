package forecast

import (
	"math"
	"slices"

	"tautspan/internal/order"
)

// SlipKind is a usual slip of the pen.
type SlipKind string

// The slips looked for.
const (
	NoSlip        SlipKind = "none"           // none fits
	TenTimes      SlipKind = "ten_times"      // the decimal point one place too far right
	TenthPart     SlipKind = "tenth_part"     // one place too far left
	DigitsSwapped SlipKind = "digits_swapped" // two neighbouring digits swapped
	UnitsMixed    SlipKind = "units_mixed"    // mm entered for percent, or percent for mm
	PitchesOff    SlipKind = "pitches_off"    // miscounted by one or two pitches
)

// Slip is what a reading would have been without one slip.
type Slip struct {
	Kind    SlipKind
	Entered float64 // the number as it should have been entered
	Percent float64 // the elongation it gives
}

// SetAside is a reading that does not go with the others: the model takes it
// for a blunder and all but leaves it out. It is offered back, never dropped.
type SetAside struct {
	Index       int     // in the list of marks given
	Probability float64 // that it is a blunder, given all readings
	Fits        Slip    // the slip that makes it fit; NoSlip when none does
	// Low and High are where the other readings put the elongation at that
	// distance, percent: the central 90 %.
	Low, High float64
}

// setAside finds the marks that are more likely blunders than not:
//
//	P(blunder | all) = E[blunder / likelihood(x)],  x given all marks
//
// and looks for the slip that would make each fit. A slip fits when it is
// likelier than leaving the reading a blunder.
func (p *posterior) setAside() []SetAside {
	found := []SetAside{}
	without := make([]float64, p.lattice.n*len(p.biases))
	for e := range p.epochs {
		for _, i := range p.epochs[e].marks {
			probability := p.withoutMark(&p.marks[i], e, without)
			if probability <= 0.5 {
				continue
			}
			s := SetAside{Index: i, Probability: probability}
			s.Fits = p.bestSlip(&p.marks[i], without)
			s.Low, s.High = p.central90(without)
			found = append(found, s)
		}
	}
	order.By(found, func(a, b SetAside) int { return a.Index - b.Index })
	return found
}

// lastAside tells whether a reading set aside may be the true one, see Answer.
func (q *Question) lastAside(found []SetAside) bool {
	last := 0.0 // distance of the last reading that stands
	for i := range q.Marks {
		if !slices.ContainsFunc(found, func(s SetAside) bool { return s.Index == i }) {
			last = max(last, q.Marks[i].KM)
		}
	}
	return slices.ContainsFunc(found, func(s SetAside) bool {
		m := &q.Marks[s.Index]
		return m.KM >= last && s.Fits.Kind == NoSlip && m.past(q.Limit) > q.Risk
	})
}

// withoutMark sets without to the distribution of x at epoch e given all marks
// but m, over bias and lattice nodes, and returns the probability that m is a
// blunder.
func (p *posterior) withoutMark(m *Mark, e int, without []float64) float64 {
	n := p.lattice.n
	blunder := 0.0
	for b, node := range p.biases {
		for k, v := range p.smoothedAt(e, b) {
			ratio := 0.0
			if v > 0 {
				ratio = v / m.likelihood(p.lattice.at(float64(k)), node, p.lattice.h)
			}
			without[b*n+k] = ratio
			blunder += ratio * m.blunder()
		}
	}
	scaleToOne(without)
	return min(1, blunder)
}

func (p *posterior) bestSlip(m *Mark, without []float64) Slip {
	best, most := Slip{Kind: NoSlip}, m.blunder()
	if m.Slips == nil {
		return best
	}
	for _, s := range m.Slips() {
		mended := *m
		mended.percent = s.Percent
		fit := 0.0
		for k := range without {
			if without[k] > 0 {
				fit += without[k] * mended.good(p.lattice.at(float64(k%p.lattice.n)), p.biases[k/p.lattice.n], p.lattice.h)
			}
		}
		if fit*(1-blunderPart) > most*slipOdds {
			best, most = s, fit*(1-blunderPart)/slipOdds
		}
	}
	return best
}

// slipOdds is how much likelier a mended reading must be than a blunder: a slip
// is offered as the likely truth, so a bare coincidence is not enough.
const slipOdds = 20

func (p *posterior) central90(without []float64) (lo, hi float64) {
	x := make([]float64, p.lattice.n)
	for k, v := range without {
		x[k%len(x)] += v
	}
	return p.lattice.quantile(x, 0.05), p.lattice.quantile(x, 0.95)
}

// MistypedNumbers returns what v may have been before the decimal point slipped
// or two neighbouring digits were swapped, v taken as written with up to three
// decimals. Percent is left for the caller to fill in.
func MistypedNumbers(v float64) []Slip {
	made := []Slip{{Kind: TenTimes, Entered: v / 10}, {Kind: TenthPart, Entered: v * 10}}
	scaled := int(math.Round(min(math.Abs(v), 1e9) * 1000))
	for place := 1; place <= scaled/10; place *= 10 {
		low, high := scaled/place%10, scaled/place/10%10
		if low != high {
			swapped := scaled + (high-low)*place - (high-low)*place*10
			made = append(made, Slip{Kind: DigitsSwapped, Entered: math.Copysign(float64(swapped)/1000, v)})
		}
	}
	return made
}
