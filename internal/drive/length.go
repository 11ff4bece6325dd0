package drive

import (
	"slices"

	"tautspan/internal/chain"
	"tautspan/internal/words"
)

// The model of what a derailleur takes up. Common practice, no source.
const (
	// ReservePitches is the most that the workshop rule leaves in the largest
	// pair: 1 in (2 pitches) added, and up to 2 from rounding up to a count that
	// closes. Capacities are stated for chains cut that way, so a cage takes
	// this up on top of its capacity.
	ReservePitches = 4.0
	// PitchesPerTooth of capacity: a wheel that is one tooth smaller frees half
	// a pitch, because the chain lies on half of it.
	PitchesPerTooth = 0.5
	// MostCapacityTeeth is about what the longest cages take up. It bounds what
	// can be called slack while the capacity of the cage is not known.
	MostCapacityTeeth = 47
)

// wideSprocket is the largest sprocket from which drives with one chainring
// often need more than the workshop rule (common practice, no source).
const wideSprocket = 42

// Length returns how long the chain of a derailleur drive must be. Errors are
// *fault.Error naming the field: a longest distance below the one at rest, a
// tooth count given twice, wheels that would touch.
//
// The recommendation is the larger of the methods, and never leaves less than
// chain.LeastSparePitches in the largest pair at the longest distance.
func Length(r *LengthRequest) (*LengthResponse, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	ring, sprocket := slices.Max(r.Chainrings), slices.Max(r.Sprockets)
	exact := chain.NewLoop(ring, sprocket).Pitches(r.longestMM() / r.PitchMM)
	answer := &LengthResponse{
		Methods:             r.methods(exact, ring, sprocket),
		ExactLargeLarge:     exact,
		CapacityNeededTeeth: spread(r.Chainrings) + spread(r.Sprockets),
	}
	answer.Pitches = closable(exact+chain.LeastSparePitches, r.HalfLinkAllowed)
	for _, m := range answer.Methods {
		answer.Pitches = max(answer.Pitches, m.Pitches)
	}
	answer.HalfLink = answer.Pitches%2 == 1
	answer.LengthMM = float64(answer.Pitches) * r.PitchMM
	answer.cutFrom(r.StockPitches)
	answer.judge(r)
	answer.Drawing = newDrawing(ring, sprocket, r.longestMM(), r.PitchMM, answer.JudgedPitches)
	answer.explain(r)
	return answer, nil
}

// methods returns what each method asks for, for the largest pair. An odd
// add_pitches without a half link is rounded up to a count that closes.
func (r *LengthRequest) methods(exact float64, ring, sprocket int) []Method {
	plus := closable(exact, r.HalfLinkAllowed) + r.AddPitches
	// 2C + F/4 + R/4 + 1 in inches of two pitches each (common practice).
	rule := 2*r.longestMM()/r.PitchMM + float64(ring+sprocket)/2 + 2
	return []Method{
		{LargeLargePlus, exact, closable(float64(plus), r.HalfLinkAllowed)},
		{RuleOfThumbFormula, rule, closable(rule, false)},
	}
}

// spread is the difference between the largest and the smallest wheel.
func spread(teeth []int) int { return slices.Max(teeth) - slices.Min(teeth) }

// cutFrom says how to cut the recommended count from the stock chain. An odd
// stock chain has a half link in it already.
func (a *LengthResponse) cutFrom(stock *int) {
	if stock == nil {
		return
	}
	remove := *stock - a.Pitches
	a.RemovePitches = &remove
	have, want := *stock/2, a.Pitches/2
	a.Cut = &Cut{
		KeepPairs:       min(have, want),
		HalfLinks:       a.Pitches % 2,
		RemovePairs:     max(0, have-want),
		RemoveHalfLinks: max(0, *stock%2-a.Pitches%2),
		MissingPairs:    max(0, want-have),
	}
}

// judge fills in the combinations and whether the cage's capacity is enough.
func (a *LengthResponse) judge(r *LengthRequest) {
	a.JudgedPitches = a.Pitches
	if r.FittedPitches != nil {
		a.JudgedPitches = *r.FittedPitches
	}
	capacity := r.capacityTeeth()
	if capacity != nil {
		ok := a.CapacityNeededTeeth <= *capacity
		a.CapacityOK = &ok
	}
	a.Combinations = make([]Combination, 0, len(r.Chainrings)*len(r.Sprockets))
	for _, ring := range r.Chainrings {
		for _, sprocket := range r.Sprockets {
			loop := chain.NewLoop(ring, sprocket)
			c := Combination{Ring: ring, Sprocket: sprocket, ExactPitches: loop.Pitches(r.ChainstayMM / r.PitchMM)}
			c.SparePitches = float64(a.JudgedPitches) - c.ExactPitches
			c.SparePitchesLongest = float64(a.JudgedPitches) - loop.Pitches(r.longestMM()/r.PitchMM)
			c.Drawing = newDrawing(ring, sprocket, r.ChainstayMM, r.PitchMM, a.JudgedPitches)
			c.decide(capacity)
			a.Combinations = append(a.Combinations, c)
		}
	}
}

// capacityTeeth returns the cage's capacity, nil where it is not known.
func (r *LengthRequest) capacityTeeth() *int {
	if r.Derailleur == nil {
		return nil
	}
	return r.Derailleur.CapacityTeeth
}

// TakeUpPitches returns how much spare chain a cage of the given capacity in
// teeth can take up: half a pitch a tooth, and the reserve on top.
func TakeUpPitches(capacityTeeth int) float64 {
	return PitchesPerTooth*float64(capacityTeeth) + ReservePitches
}

// decide sets the state: tight by the spare chain at the longest distance,
// slack by that at rest, where the cage has most to take up. While the capacity
// is not known, slack is only what no cage takes up.
func (c *Combination) decide(capacity *int) {
	takeUp := TakeUpPitches(MostCapacityTeeth)
	if capacity != nil {
		takeUp = TakeUpPitches(*capacity)
		percent := 100 * c.SparePitches / takeUp
		c.CagePercent = &percent
	}
	switch {
	case c.SparePitchesLongest < chain.LeastSparePitches-rounding:
		c.State = Tight
	case c.SparePitches > takeUp+rounding:
		c.State = Slack
	default:
		c.State = OK
	}
}

// explain adds the warnings, the next steps and the cautions.
func (a *LengthResponse) explain(r *LengthRequest) {
	a.Warnings = append(a.warnMethods(r), a.warnFit(r)...)
	for _, code := range []string{"next_length_wrap", "next_length_large", "next_length_small", "next_length_road"} {
		a.NextSteps = append(a.NextSteps, words.N(code))
	}
	cautions := []string{"caution_too_short", "caution_closure", "caution_fingers", "caution_guidance"}
	if r.LongestChainstayMM == nil {
		cautions = append([]string{"caution_suspension"}, cautions...)
	}
	if a.HalfLink {
		cautions = append([]string{"caution_half_link"}, cautions...)
	}
	for _, code := range cautions {
		a.Cautions = append(a.Cautions, words.N(code))
	}
}
