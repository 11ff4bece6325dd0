package cost

import (
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/words"
)

// Calculate compares changing at limits, never, and in rotation. Errors are
// *fault.Error naming the field: a currency that is not a code, no wear rate or
// two, counts of chains no damage law passes through.
func Calculate(r *Request) (*Response, error) {
	if strings.Trim(r.Currency, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return nil, fault.New(fault.NotAllowed, "currency", "a currency is the three capital letters of ISO 4217, such as EUR")
	}
	rate, err := r.rate()
	if err != nil {
		return nil, err
	}
	counts := r.ChainCounts
	if counts == nil {
		counts = []ChainCount{{0.5, 4}, {1.0, 1.2}}
	}
	law, err := fit(counts)
	if err != nil {
		return nil, err
	}
	m := &model{float64(r.Prices.Chain), float64(r.Prices.Sprockets), float64(r.Prices.Chainring), r.SetsPerRing, law}
	answer := &Response{Policies: m.policies(r, rate), Currency: r.Currency, RatePercent: rate.mean}
	answer.Best = answer.Policies[0]
	for _, p := range answer.Policies {
		if p.CostPer1000KM < answer.Best.CostPer1000KM {
			answer.Best = p
		}
	}
	cheapest, span := m.cheapestLimit()
	answer.CheapestLimitPercent, answer.FlatRangePercent = cheapest, &span
	answer.explain(r, rate, counts)
	return answer, nil
}

// wearRate is in percent per 1000 km: the harmonic mean, which long-run cost
// asks for because cost per distance is price over mean distance, and the 5 and
// 95 % points.
type wearRate struct{ mean, low, high float64 }

func (r *Request) rate() (wearRate, error) {
	if r.RatePercent == nil {
		return wearRate{}, fault.New(fault.MissingField, "rate_percent_per_1000_km",
			"the wear rate is required; allowed is 0.005 to 5 percent per 1000 km")
	}
	rate := wearRate{*r.RatePercent, *r.RatePercent, *r.RatePercent}
	if span := r.RateRangePercent; span != nil {
		rate.low, rate.high = span[0], span[1]
	}
	if rate.mean < rate.low || rate.mean > rate.high {
		return wearRate{}, fault.New(fault.Contradiction, "rate_range_percent_per_1000_km", "the range must hold the rate itself")
	}
	return rate, nil
}

func (m *model) policies(r *Request, rate wearRate) []Policy {
	limits := r.ChangeAtPercent
	if limits == nil {
		limits = []float64{0.5, 0.75, 1.0}
	}
	var all []Policy
	for _, x := range limits {
		all = append(all, rate.policy(Limit, x, 1/m.wear.at(x), m.limit(x)))
	}
	x, price := m.never()
	all = append(all, rate.policy(Never, x, 1, price))
	for n := 2; n <= r.RotationMax; n++ {
		x, price := m.rotation(n)
		all = append(all, rate.policy(Rotation, x, float64(n), price))
	}
	return all
}

func (w wearRate) policy(kind Kind, x, chains float64, price perPercent) Policy {
	p := float64(price)
	return Policy{kind, x, chains, p * w.mean, p * w.low, p * w.high}
}

func (a *Response) explain(r *Request, rate wearRate, counts []ChainCount) {
	assume := func(code string, values ...words.Value) {
		a.Assumptions = append(a.Assumptions, words.N(code, values...))
	}
	assume("cost_rate", words.V("rate", rate.mean, 3))
	if rate.low == rate.high {
		assume("cost_no_spread")
	} else {
		assume("cost_spread", words.V("low", rate.low, 3), words.V("high", rate.high, 3))
	}
	for _, c := range counts {
		assume("cost_chains", words.V("chains", c.Chains, 1), words.V("percent", c.AtPercent, 2))
	}
	assume("cost_rings", words.V("sets", r.SetsPerRing, 1))
	assume("cost_new", words.V("percent", newPercent, 2))
	assume("cost_together")
	assume("cost_flat", words.V("lo", a.FlatRangePercent[0], 2), words.V("hi", a.FlatRangePercent[1], 2))
	assume("cost_origin")

	caution := func(code string) { a.Cautions = append(a.Cautions, words.N(code)) }
	caution("cost_not_safety")
	if a.Best.Kind != Limit {
		caution("cost_past_limit")
	}
	caution("caution_stricter")
	caution("caution_guidance")
}
