package forecast

import "math"

// SlipKind is a usual slip of the pen.
type SlipKind string

// The slips looked for.
const (
	NoSlip        SlipKind = ""               // none fits
	TenTimes      SlipKind = "ten_times"      // the decimal point one place too far right
	TenthPart     SlipKind = "tenth_part"     // one place too far left
	DigitsSwapped SlipKind = "digits_swapped" // two neighbouring digits swapped
	MMForPercent  SlipKind = "mm_for_percent" // growth in mm entered as percent
	PitchesOff    SlipKind = "pitches_off"    // miscounted by one or two pitches
)

// Slip is what a reading would have been without one slip.
type Slip struct {
	Kind    SlipKind
	Percent float64
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
func (p *posterior) setAside(marks []Mark) []SetAside {
	found := []SetAside{}
	without := make([]float64, p.lattice.n*len(p.biases))
	for e := range p.epochs {
		for _, i := range p.epochs[e].marks {
			probability := p.withoutMark(&marks[i], e, without)
			if probability <= 0.5 {
				continue
			}
			s := SetAside{Index: i, Probability: probability}
			s.Fits = p.bestSlip(&marks[i], without)
			s.Low, s.High = p.central90(without)
			found = append(found, s)
		}
	}
	return found
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
				ratio = v / m.likelihood(p.lattice.at(float64(k)), node.percent, p.lattice.h)
			}
			without[b*n+k] = ratio
			blunder += ratio * m.blunder()
		}
	}
	scaleToOne(without)
	return blunder
}

func (p *posterior) bestSlip(m *Mark, without []float64) Slip {
	best, most := Slip{}, m.blunder()
	for _, s := range m.Slips {
		mended := *m
		mended.percent = s.Percent
		fit := 0.0
		for k := range without {
			if without[k] > 0 {
				fit += without[k] * mended.good(p.lattice.at(float64(k%p.lattice.n)), 0, p.lattice.h)
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

// PercentSlips returns the slips possible in an elongation entered as a bare
// number of percent; nominalMM is the span it was measured over, 0 if unknown.
func PercentSlips(percent, nominalMM float64) []Slip {
	slips := []Slip{{TenTimes, percent / 10}, {TenthPart, percent * 10}}
	for _, v := range SwappedDigits(percent) {
		slips = append(slips, Slip{DigitsSwapped, v})
	}
	if nominalMM > 0 {
		slips = append(slips, Slip{MMForPercent, 100 * percent / nominalMM})
	}
	return slips
}

// SwappedDigits returns the numbers that swapping two neighbouring digits of v,
// as written with up to three decimals, can make.
func SwappedDigits(v float64) []float64 {
	scaled := int(math.Round(math.Abs(v) * 1000))
	made := []float64{}
	for place := 1; place <= scaled/10; place *= 10 {
		low, high := scaled/place%10, scaled/place/10%10
		if low == high {
			continue
		}
		swapped := scaled + (high-low)*place + (low-high)*place*10
		made = append(made, math.Copysign(float64(swapped)/1000, v))
	}
	return made
}
