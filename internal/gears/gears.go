package gears

import (
	"cmp"
	"slices"

	"tautspan/internal/chain"
	"tautspan/internal/order"
	"tautspan/internal/words"
)

// Calculate returns what every pair of chainring and sprocket does, lowest gear
// first. Errors are *fault.Error naming the field: no wheel or two, text that is
// no tyre size, a tooth count given twice, a power without a cadence, wheels that
// would touch.
func Calculate(r *Request) (*Response, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	circumference, err := r.circumferenceMM()
	if err != nil {
		return nil, err
	}
	answer := &Response{CircumferenceMM: circumference, Gears: make([]Gear, 0, len(r.Chainrings)*len(r.Sprockets))}
	for _, ring := range r.Chainrings {
		for _, sprocket := range r.Sprockets {
			answer.Gears = append(answer.Gears, r.gear(Pair{ring, sprocket}, circumference))
		}
	}
	order.By(answer.Gears, func(a, b Gear) int {
		return cmp.Or(cmp.Compare(a.Ratio, b.Ratio), cmp.Compare(a.Ring, b.Ring))
	})
	answer.step()
	markDuplicates(answer.Gears, r.DuplicatePercent)
	answer.explain(r)
	return answer, nil
}

func (r *Request) gear(p Pair, circumference float64) Gear {
	g := Gear{Pair: p, Ratio: float64(p.Ring) / float64(p.Sprocket)}
	g.Articulation = Articulation{chain.ArticulationDeg(p.Ring), chain.ArticulationDeg(p.Sprocket)}
	g.DevelopmentM = DevelopmentM(g.Ratio, circumference)
	g.GearInches = GearInches(g.Ratio, circumference)
	if r.CrankMM != nil {
		gain := GainRatio(g.Ratio, circumference, *r.CrankMM)
		g.GainRatio = &gain
	}
	if r.CadenceRpm != nil {
		speed := SpeedKmh(g.DevelopmentM, *r.CadenceRpm)
		g.SpeedKmh = &speed
	}
	if r.PowerW != nil {
		tension := TensionN(*r.PowerW, *r.CadenceRpm, p.Ring, r.PitchMM)
		g.TensionN = &tension
	}
	if r.anglesKnown() {
		angle := ChainAngleDeg(r.offsetMM(p), *r.ChainstayMM)
		g.ChainAngleDeg = &angle
	}
	if r.ChainstayMM != nil && r.LongestPitches != nil {
		exact := chain.NewLoop(p.Ring, p.Sprocket).Pitches(*r.ChainstayMM / r.PitchMM)
		reaches := exact+chain.LeastSparePitches <= float64(*r.LongestPitches)
		g.ChainReaches = &reaches
	}
	return g
}

func (r *Request) anglesKnown() bool { return r.ChainstayMM != nil && r.SprocketSpacingMM != nil }

// offsetMM returns how much farther out the chainring lies than the sprocket.
// Chainrings are ordered with the largest outermost, sprockets with the smallest.
func (r *Request) offsetMM(p Pair) float64 {
	offset := place(r.Chainrings, p.Ring)*r.ChainringSpacingMM + place(r.Sprockets, p.Sprocket)**r.SprocketSpacingMM
	if r.RearChainlineMM != nil {
		offset += *r.ChainlineMM - *r.RearChainlineMM
	}
	return offset
}

// place returns how many places a wheel is from the middle of its set, positive
// towards the larger ones.
func place(set []int, teeth int) float64 {
	smaller := 0
	for _, z := range set {
		if z < teeth {
			smaller++
		}
	}
	return float64(smaller) - float64(len(set)-1)/2
}

// step fills in the range and the steps of gears in order.
func (a *Response) step() {
	a.StepsPercent = make([]float64, 0, len(a.Gears))
	for i := 1; i < len(a.Gears); i++ {
		a.StepsPercent = append(a.StepsPercent, 100*(a.Gears[i].Ratio/a.Gears[i-1].Ratio-1))
	}
	a.RangePercent = 100 * a.Gears[len(a.Gears)-1].Ratio / a.Gears[0].Ratio
}

// rounding forgives the last bits of two ratios that are just as far apart as
// allowed.
const rounding = 1e-9

// markDuplicates goes through the gears from the kindest to the chain to the
// least kind, keeps each whose ratio no kept gear has within percent, and marks
// the others as duplicates of that one.
func markDuplicates(gears []Gear, percent float64) {
	kindest := make([]*Gear, len(gears))
	for i := range gears {
		kindest[i] = &gears[i]
	}
	order.By(kindest, kinder)
	apart := (1 + percent/100) * (1 + rounding)
	kept := kindest[:0]
	for _, g := range kindest {
		i := slices.IndexFunc(kept, func(k *Gear) bool { return max(g.Ratio/k.Ratio, k.Ratio/g.Ratio) <= apart })
		if i >= 0 {
			g.DuplicateOf = &kept[i].Pair
		} else {
			kept = append(kept, g)
		}
	}
}

// kinder orders gears by how kind they are to the chain: the straighter first if
// the angles are known, then the larger chainring, on which links turn less.
func kinder(a, b *Gear) int {
	straighter := 0
	if a.ChainAngleDeg != nil {
		straighter = cmp.Compare(*a.ChainAngleDeg, *b.ChainAngleDeg)
	}
	return cmp.Or(straighter, cmp.Compare(b.Ring, a.Ring), cmp.Compare(b.Sprocket, a.Sprocket))
}

// explain adds the notes, the warnings and the cautions.
func (a *Response) explain(r *Request) {
	if r.ETRTO != nil {
		a.Notes = append(a.Notes, words.N("circumference_computed", words.V("circumference", a.CircumferenceMM, 0)))
	}
	if r.anglesKnown() && r.RearChainlineMM == nil {
		a.Notes = append(a.Notes, words.N("chainlines_equal"))
	}
	a.Notes = append(a.Notes, words.N("laboratory_range",
		words.V("worst", WorstEfficiencyPercent, 0), words.V("best", BestEfficiencyPercent, 1),
		words.V("low", WorstEfficiencyN, 0), words.V("high", BestEfficiencyN, 0)))
	if r.PowerW != nil {
		a.Notes = append(a.Notes, words.N("tension_average"))
	}
	if a.beyondLaboratory() {
		a.Notes = append(a.Notes, words.N("tension_not_measured"))
	}
	if n := a.outOfReach(); n > 0 {
		a.Warnings = append(a.Warnings, words.N("gears_out_of_reach",
			words.V("pitches", float64(*r.LongestPitches), 0), words.V("count", float64(n), 0)))
		a.Cautions = append(a.Cautions, words.N("caution_too_short"))
	}
	a.Cautions = append(a.Cautions, words.N("caution_width"), words.N("caution_guidance"))
}

// beyondLaboratory tells whether any pull lies outside what was measured.
func (a *Response) beyondLaboratory() bool {
	return slices.ContainsFunc(a.Gears, func(g Gear) bool {
		return g.TensionN != nil && (*g.TensionN < WorstEfficiencyN || *g.TensionN > BestEfficiencyN)
	})
}

func (a *Response) outOfReach() (n int) {
	for i := range a.Gears {
		if reaches := a.Gears[i].ChainReaches; reaches != nil && !*reaches {
			n++
		}
	}
	return n
}
