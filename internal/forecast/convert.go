package forecast

import (
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/wear"
)

// marks turns readings into evidence. Errors name the reading.
func marks(readings []ReadingAt, pitchMM float64) ([]Mark, error) {
	made := make([]Mark, len(readings))
	for i := range readings {
		r := &readings[i]
		e, err := r.Reading.Evidence(pitchMM)
		if err != nil {
			return nil, fault.Under("readings["+strconv.Itoa(i)+"].reading", err)
		}
		made[i] = markOf(r.AtKM, r.Reading.Kind, e)
		made[i].Slips = func() []Slip { return slipsIn(&r.Reading, pitchMM) }
	}
	return made, nil
}

func markOf(km float64, by wear.Kind, e wear.Evidence) Mark {
	switch {
	case e.Interval && e.Opposed:
		return Between(km, e.Lo, e.Hi, RollerPlay)
	case e.Interval:
		return Between(km, e.Lo, e.Hi, NoBias)
	case e.AgainstNew:
		return Compared(km, e.Percent, e.UPercent)
	}
	return Exact(km, e.Percent, e.UPercent).Sharing(string(by), e.SharedPercent)
}

// slipsIn returns the reading without one slip of each kind: in the number that
// was entered, in the count of pitches, or mm and percent mixed up.
func slipsIn(r *wear.Reading, pitchMM float64) []Slip {
	if r.Kind == wear.Gauge {
		return nil
	}
	slips := []Slip{}
	try := func(s Slip, change func(mended *wear.Reading)) {
		mended := *r
		change(&mended)
		if e, err := mended.Evidence(pitchMM); err == nil && mended.Pitches > 0 {
			m := markOf(0, r.Kind, e)
			s.Percent = m.percent
			slips = append(slips, s)
		}
	}
	for _, s := range mistyped(r) {
		try(s, func(mended *wear.Reading) { enter(mended, s.Entered) })
	}
	for _, by := range []int{-2, -1, 1, 2} {
		try(Slip{Kind: PitchesOff, Entered: float64(r.Pitches + by)}, func(mended *wear.Reading) { mended.Pitches += by })
	}
	if r.Kind == wear.Compare {
		mm := r.GrowthMM / 100 * float64(r.Pitches) * pitchMM // entered as percent
		try(Slip{Kind: UnitsMixed, Entered: mm}, func(mended *wear.Reading) { mended.GrowthMM = mm })
	}
	return slips
}

// mistyped returns the slips in the one number the reading rests on, if that
// was entered as a bare number of mm.
func mistyped(r *wear.Reading) []Slip {
	switch {
	case r.Kind == wear.Rule && r.SpanMM != nil:
		return MistypedNumbers(*r.SpanMM)
	case r.Kind == wear.Compare:
		return MistypedNumbers(r.GrowthMM)
	case r.Kind == wear.Caliper:
		return MistypedNumbers(r.InsideMM)
	}
	return nil
}

func enter(r *wear.Reading, mm float64) {
	switch r.Kind {
	case wear.Rule:
		r.SpanMM = &mm
	case wear.Compare:
		r.GrowthMM = mm
	case wear.Caliper:
		r.InsideMM = mm
	}
}
