package identify

import (
	"cmp"

	"tautspan/internal/chain"
	"tautspan/internal/order"
)

// leastShown is the probability below which a candidate is left out.
const leastShown = 0.005

// Calculate returns the families that explain the readings, most likely first,
// with probabilities that sum to one. When no family explains every reading
// within three standard uncertainties, none is offered and the nearest is named.
// Errors are *fault.Error naming the field: nothing given, a pitch given twice
// or by halves, an uncertainty without its reading, readings that cannot all be
// true.
func Calculate(r *Request) (*Response, error) {
	e, err := r.evidence()
	if err != nil {
		return nil, err
	}
	answer := &Response{Candidates: []Candidate{}}
	if !e.anyExplains() {
		answer.NoneFit = true
		nearest := e.candidate(e.nearest(), 0)
		answer.Nearest = &nearest
	} else {
		for _, w := range shown(e.posterior()) {
			answer.Candidates = append(answer.Candidates, e.candidate(w.family, w.p))
		}
	}
	answer.Comb = e.comb(answer.Candidates)
	answer.advise(e)
	return answer, nil
}

func (e *evidence) anyExplains() bool {
	families := chain.Families()
	for i := range families {
		if e.explains(&families[i]) {
			return true
		}
	}
	return false
}

// nearest is the family that misses by least.
func (e *evidence) nearest() *chain.Family {
	families := chain.Families()
	best := &families[0]
	for i := range families {
		f := &families[i]
		if e.considers(f) && e.worstMiss(f) < e.worstMiss(best) {
			best = f
		}
	}
	return best
}

// weighed is a family with its probability.
type weighed struct {
	family *chain.Family
	p      float64
}

// posterior returns every family by falling probability; they sum to one.
func (e *evidence) posterior() []weighed {
	families := chain.Families()
	all := make([]weighed, len(families))
	for i := range families {
		all[i] = weighed{&families[i], e.weight(&families[i])}
	}
	normalise(all)
	order.By(all, func(a, b weighed) int { return cmp.Compare(b.p, a.p) })
	return all
}

// shown keeps what is worth showing. The runner-up of the same pitch always is,
// so that two neighbours never become a certainty.
func shown(all []weighed) []weighed {
	keep := 1
	for keep < len(all) && all[keep].p >= leastShown {
		keep++
	}
	if keep == 1 && all[1].family.PitchMM == all[0].family.PitchMM {
		keep = 2
	}
	normalise(all[:keep])
	return all[:keep]
}

func normalise(all []weighed) {
	sum := 0.0
	for _, w := range all {
		sum += w.p
	}
	for i := range all {
		all[i].p /= sum
	}
}
