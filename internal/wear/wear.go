package wear

import (
	"math"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/words"
)

// Calculate returns what one reading means. Errors are *fault.Error naming the
// field of the request: a derailleur without rear_sprockets, a span given twice
// or not at all, text that is no length, gauge steps that contradict each other.
func Calculate(r *Request) (*Response, error) {
	limit, err := r.limit()
	if err != nil {
		return nil, err
	}
	m, err := r.Reading.measure(r.PitchMM)
	if err != nil {
		return nil, fault.Under("reading", err)
	}
	u := m.u()
	interval := m.interval95()
	answer := &Response{
		Elongation: m.estimate, Correction: m.correction,
		StandardUncertainty: u, Interval95: &interval,
		Limit: limit, ProbabilityPast: m.above(limit),
		WornSinceNew:    m.estimate - chain.NewTolerancePercent/2,
		WornUncertainty: math.Hypot(u, rectangular(chain.NewTolerancePercent/2)),
	}
	for _, c := range m.components {
		answer.Budget = append(answer.Budget, BudgetLine{c.source, c.u, c.note})
	}
	answer.Verdict = m.decide(limit, answer.ProbabilityPast, r.Drive)
	answer.explain(r, m)
	return answer, nil
}

func (r *Request) limit() (float64, error) {
	sprockets := 0
	if r.RearSprockets != nil {
		sprockets = *r.RearSprockets
	} else if r.Drive == chain.Derailleur {
		return 0, fault.New(fault.MissingField, "rear_sprockets",
			"a derailleur drive needs the number of rear sprockets, because the limit depends on it; allowed is 1 to 14")
	}
	if r.LimitPercent != nil {
		return *r.LimitPercent, nil
	}
	return chain.DefaultLimitPercent(r.Drive, sprockets), nil
}

// measure turns a reading of any kind into a measurement, for a chain of the
// given pitch.
func (r *Reading) measure(pitchMM float64) (*measurement, error) {
	m, err := r.measureKind(pitchMM)
	if err == nil {
		m.unbias(r.BiasPercent)
	}
	return m, err
}

func (r *Reading) measureKind(pitchMM float64) (*measurement, error) {
	nominalMM := float64(r.Pitches) * pitchMM
	switch r.Kind {
	case Rule:
		return r.measureRule(nominalMM)
	case Compare:
		return r.measureCompare(nominalMM)
	case Gauge:
		return r.measureGauge()
	case Caliper:
		return r.measureCaliper(nominalMM)
	case Screen:
		return r.measureScreen(nominalMM)
	case Photo:
		return r.measurePhoto(nominalMM)
	}
	panic("wear: unknown kind of reading")
}

// explain adds the reasons, the next steps and the cautions.
func (a *Response) explain(r *Request, m *measurement) {
	a.Reasons = append(a.Reasons,
		words.N("elongation_is", words.V("elongation", a.Elongation, 2), words.V("half", (a.Interval95[1]-a.Interval95[0])/2, 2)),
		words.N("limit_is", words.V("limit", a.Limit, 2)))
	guessed := m.openHigh && a.ProbabilityPast <= planProbability
	switch {
	case a.Verdict == MeasureAgain:
		a.doubt(&r.Reading, m)
	case !guessed:
		a.Reasons = append(a.Reasons, chance(a.ProbabilityPast))
	}
	a.Reasons = append(a.Reasons, m.notes...)
	next := func(when bool, codes ...string) {
		for _, code := range codes {
			if when {
				a.NextSteps = append(a.NextSteps, words.N(code))
			}
		}
	}
	switch isSpan := m.nominalMM > 0; {
	case isSpan && a.Verdict != MeasureAgain && a.Interval95[1] < 0:
		a.Reasons = append(a.Reasons, words.N("reads_short"))
		next(true, "next_pull_straight")
	case isSpan && a.Verdict == Ride && a.Elongation < chain.NewTolerancePercent && r.Reading.Kind != Compare:
		a.Reasons = append(a.Reasons, words.N("new_may_be_long", words.V("most", chain.NewTolerancePercent, 2)))
	}
	next(guessed, "next_larger_step")
	next(a.Verdict == Plan && a.StandardUncertainty > a.Limit/4, "measure_finer")
	for _, code := range nextSteps[a.Verdict] {
		if code == "next_change" && a.Elongation >= stopPercent {
			code = "next_stop"
		}
		next(true, code)
	}
	for _, code := range cautions[a.Verdict] {
		a.Cautions = append(a.Cautions, words.N(code))
	}
}

// doubt says why a reading cannot be believed, and what to do if it must be: a
// chain that does read past any limit has had its day.
func (a *Response) doubt(r *Reading, m *measurement) {
	again, tooLong := "next_measure_again", m.estimate > HighestPercent
	if r.Kind == Gauge && tooLong {
		again = "next_gauge_again"
		a.Reasons = append(a.Reasons, words.N("not_a_chain_gauge"))
	} else {
		a.Reasons = append(a.Reasons, words.N("not_a_chain"))
	}
	if fits := m.fittingCount(r.Pitches); fits > 0 {
		a.Reasons = append(a.Reasons, words.N("count_again",
			words.V("counted", float64(r.Pitches), 0), words.V("fits", fits, 0)))
	}
	a.NextSteps = append(a.NextSteps, words.N(again))
	if tooLong {
		a.NextSteps = append(a.NextSteps, words.N("next_if_again"))
		a.Cautions = append(a.Cautions, words.N("caution_part"))
	}
}

// fittingCount returns the count of pitches that would make the reading that of a
// chain, 0 where none would.
func (m *measurement) fittingCount(counted int) float64 {
	length := float64(counted) * (1 + m.estimate/100) // in pitches
	fits := math.Round(length)
	if percent := 100 * (length/fits - 1); m.nominalMM > 0 && percent >= LowestPercent && percent <= HighestPercent {
		return fits
	}
	return 0
}

// chance puts the probability of being past the limit in words that never claim
// certainty.
func chance(probability float64) words.Note {
	switch {
	case probability < 0.01:
		return words.N("probability_small")
	case probability > 0.99:
		return words.N("probability_large")
	}
	return words.N("probability_is", words.V("percent", 100*probability, 0))
}

var nextSteps = map[Verdict][]string{
	Ride:             {"next_three_places", "next_check_again"},
	Plan:             {"next_three_places", "next_get_chain", "next_check_soon"},
	Change:           {"next_three_places", "next_change", "next_skip_test"},
	ChangeAndInspect: {"next_change", "next_inspect", "next_skip_test"},
	MeasureAgain:     {"next_do_not_rely"},
}

var cautions = map[Verdict][]string{
	Ride:             {"caution_damage", "caution_stricter", "caution_guidance"},
	Plan:             {"caution_damage", "caution_stricter", "caution_guidance"},
	Change:           {"caution_damage", "caution_part", "caution_closure", "caution_fingers", "caution_guidance"},
	ChangeAndInspect: {"caution_skip", "caution_damage", "caution_part", "caution_closure", "caution_fingers", "caution_guidance"},
	MeasureAgain:     {"caution_damage", "caution_guidance"},
}
