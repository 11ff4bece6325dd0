package forecast

import (
	"math"
	"strconv"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/words"
)

// Calculate says when the chain will reach its limit. Errors are *fault.Error
// naming the field: neither a limit nor a drive, now before a reading, a reading
// that wear.Reading.Evidence refuses.
func Calculate(r *Request) (*Response, error) {
	q, err := r.question()
	if err != nil {
		return nil, err
	}
	a, err := Forecast(*q)
	if err != nil {
		return nil, err
	}
	answer := &Response{Answer: *a, LimitPercent: q.Limit, Drawn: drawn(q.Marks)}
	for _, marks := range q.Earlier {
		answer.DrawnEarlier = append(answer.DrawnEarlier, DrawnChain{drawn(marks)})
	}
	if r.KMPerWeek != nil {
		days := int(7 * a.CheckAgainKM / *r.KMPerWeek)
		answer.CheckAgainDays = &days
	}
	for _, s := range a.SetAside {
		answer.Aside = append(answer.Aside, line(s, q.Marks[s.Index].KM))
	}
	answer.explain(r, q)
	return answer, nil
}

func (r *Request) question() (*Question, error) {
	limit, err := r.limit()
	if err != nil {
		return nil, err
	}
	q := &Question{Limit: limit, Care: r.Care, DistanceSD: r.DistanceSD, Risk: r.Risk}
	if q.Care == "" {
		q.Care = chain.Usual
	}
	if q.Marks, err = marks(r.Readings, r.PitchMM); err != nil {
		return nil, err
	}
	for i, c := range r.Earlier {
		earlier, err := marks(c.Readings, r.PitchMM)
		if err != nil {
			return nil, fault.Under("earlier_chains["+strconv.Itoa(i)+"]", err)
		}
		q.Earlier = append(q.Earlier, earlier)
	}
	if r.NowKM != nil {
		q.NowKM = *r.NowKM
		return q, nil
	}
	for i := range q.Marks {
		q.NowKM = max(q.NowKM, q.Marks[i].KM)
	}
	return q, nil
}

func (r *Request) limit() (float64, error) {
	sprockets := 0
	if r.RearSprockets != nil {
		sprockets = *r.RearSprockets
	}
	switch {
	case r.LimitPercent != nil:
		return *r.LimitPercent, nil
	case r.Drive == "":
		return 0, fault.New(fault.MissingField, "limit_percent",
			"a limit is needed: give limit_percent (0.1 to 3), or drive with rear_sprockets for the usual one")
	case r.Drive == chain.Derailleur && r.RearSprockets == nil:
		return 0, fault.New(fault.MissingField, "rear_sprockets",
			"a derailleur drive needs the number of rear sprockets, because the limit depends on it; allowed is 1 to 14")
	}
	return chain.DefaultLimitPercent(r.Drive, sprockets), nil
}

func line(s SetAside, km float64) AsideLine {
	l := AsideLine{SetAside: s}
	values := []words.Value{words.V("km", km, 0), words.V("low", s.Low, 2), words.V("high", s.High, 2)}
	if s.Fits.Kind != NoSlip {
		l.FitsEntered, l.FitsPercent = &s.Fits.Entered, &s.Fits.Percent
		values = append(values, words.V("entered", s.Fits.Entered, decimals(s.Fits.Entered)), words.V("fits", s.Fits.Percent, 2))
	}
	l.Why = words.N("aside_"+string(s.Fits.Kind), values...)
	return l
}

// decimals is how many of up to three decimals v needs.
func decimals(v float64) int {
	for d, scale := 0, 1.0; d < 3; d, scale = d+1, scale*10 {
		if math.Abs(v*scale-math.Round(v*scale)) < 1e-6 {
			return d
		}
	}
	return 3
}

// twoFigures rounds km down to two figures: no forecast is surer than that, and
// a distance not to be gone past is never rounded up.
func twoFigures(km float64) float64 {
	step := math.Pow(10, math.Max(0, math.Floor(math.Log10(math.Max(km, 1)))-1))
	return step * math.Floor(km/step)
}

func (a *Response) explain(r *Request, q *Question) {
	note := func(code string, values ...words.Value) { a.Notes = append(a.Notes, words.N(code, values...)) }
	if len(q.Marks) == 0 {
		note("forecast_prior_only")
	}
	if r.Care == "" {
		note("forecast_care_assumed")
	}
	counted := func(code string, n int) {
		switch {
		case n == 1:
			note(code + "_one")
		case n > 1:
			note(code, words.V("count", float64(n), 0))
		}
	}
	counted("forecast_earlier", len(q.Earlier))
	counted("forecast_set_aside", len(a.SetAside))
	if len(epochs(q.Marks, len(q.Marks)+1)) > mostEpochs {
		note("forecast_merged", words.V("most", mostEpochs, 0))
	}
	if a.Beyond {
		note("forecast_beyond", words.V("top", a.Elongation.P95, 1))
	}
	switch {
	case a.LastAside && a.PastLimitNow < r.Risk:
		note("forecast_last_aside")
	case a.CheckAgainKM == 0 && a.PastLimitNow > 0.99: // never 100 %: nothing measured is certain
		note("forecast_now_large")
	case a.CheckAgainKM == 0:
		note("forecast_now", words.V("percent", 100*a.PastLimitNow, 0))
	default:
		note("forecast_check", words.V("km", twoFigures(a.CheckAgainKM), 0), words.V("percent", 100*r.Risk, 0))
	}
	note("forecast_origin")
	for _, code := range []string{"caution_damage", "caution_part", "caution_stricter", "caution_guidance"} {
		a.Cautions = append(a.Cautions, words.N(code))
	}
}
