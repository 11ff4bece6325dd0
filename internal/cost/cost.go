package cost

import (
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/forecast"
	"tautspan/internal/words"
)

// Calculate compares changing at limits, never, and in rotation. Errors are
// *fault.Error naming the field: a currency that is not a code, no wear rate or
// two, whatever forecast.Calculate refuses, counts of chains no damage law passes
// through.
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

// rate returns the stated rate, or the forecast's harmonic mean and spread.
func (r *Request) rate() (wearRate, error) {
	switch {
	case r.Forecast != nil && r.RatePercent != nil:
		return wearRate{}, fault.New(fault.Contradiction, "forecast", "give the wear rate once: rate_percent_per_1000_km or forecast")
	case r.Forecast != nil && r.RateRangePercent != nil:
		return wearRate{}, fault.New(fault.Contradiction, "rate_range_percent_per_1000_km", "a forecast brings its own range; leave this out")
	case r.Forecast != nil:
		f, err := forecast.Calculate(r.Forecast)
		if err != nil {
			return wearRate{}, fault.Under("forecast", err)
		}
		return wearRate{f.MeanRate, f.Rate.P05, f.Rate.P95}, nil
	case r.RatePercent == nil:
		return wearRate{}, fault.New(fault.MissingField, "rate_percent_per_1000_km",
			"the wear rate is required, as a number from 0.005 to 5 percent per 1000 km or as a forecast")
	}
	return r.statedRate()
}

func (r *Request) statedRate() (wearRate, error) {
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
	if r.Forecast != nil && len(r.Forecast.Readings) == 0 {
		assume("cost_from_care")
	} else if r.Forecast != nil {
		assume("cost_from_readings", words.V("count", float64(len(r.Forecast.Readings)), 0))
	}
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
