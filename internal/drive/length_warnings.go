package drive

import (
	"slices"

	"tautspan/internal/words"
)

// warnMethods warns about the count itself.
func (a *LengthResponse) warnMethods(r *LengthRequest) (warnings []words.Note) {
	exact, rule := a.Methods[0], a.Methods[1]
	if exact.Pitches != rule.Pitches {
		warnings = append(warnings, words.N("methods_differ", count("exact", exact.Pitches), count("rule", rule.Pitches)))
	}
	if a.Pitches > max(exact.Pitches, rule.Pitches) {
		warnings = append(warnings, words.N("reserve_raised", count("pitches", a.Pitches)))
	}
	if !r.HalfLinkAllowed && r.AddPitches%2 == 1 {
		warnings = append(warnings, words.N("added_rounded", count("added", r.AddPitches)))
	}
	if len(r.Chainrings) == 1 && slices.Max(r.Sprockets) >= wideSprocket {
		warnings = append(warnings, words.N("one_ring_wide"))
	}
	if a.RemovePitches != nil && *a.RemovePitches < 0 {
		warnings = append(warnings, words.N("stock_short", count("stock", *r.StockPitches), count("missing", -*a.RemovePitches)))
	}
	return warnings
}

// warnFit warns about the derailleur and the combinations.
func (a *LengthResponse) warnFit(r *LengthRequest) (warnings []words.Note) {
	capacity, largest := r.capacityTeeth(), slices.Max(r.Sprockets)
	switch {
	case capacity == nil:
		warnings = append(warnings, words.N("capacity_unknown", count("needed", a.CapacityNeededTeeth), count("most", MostCapacityTeeth)))
	case !*a.CapacityOK:
		warnings = append(warnings, words.N("capacity_short", count("needed", a.CapacityNeededTeeth), count("capacity", *capacity)))
	}
	if r.Derailleur != nil && r.Derailleur.MaxSprocket != nil && largest > *r.Derailleur.MaxSprocket {
		warnings = append(warnings, words.N("sprocket_too_large", count("largest", largest), count("most", *r.Derailleur.MaxSprocket)))
	}
	if n := a.inState(Tight); n > 0 {
		warnings = append(warnings, words.N("tight_combinations", count("count", n), count("pitches", a.JudgedPitches), count("needed", a.Pitches)))
	}
	if n := a.inState(Slack); n > 0 {
		warnings = append(warnings, words.N("slack_combinations", count("count", n), count("pitches", a.JudgedPitches)))
	}
	return warnings
}

func (a *LengthResponse) inState(s State) int {
	n := 0
	for i := range a.Combinations {
		if a.Combinations[i].State == s {
			n++
		}
	}
	return n
}

// count is a whole number in a message.
func count(name string, n int) words.Value { return words.V(name, float64(n), 0) }
