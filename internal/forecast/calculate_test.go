package forecast_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/forecast"
	"tautspan/internal/wear"
)

func ruleMM(km, span float64) forecast.ReadingAt {
	return forecast.ReadingAt{AtKM: km, Reading: wear.Reading{Kind: wear.Rule, Pitches: 24, SpanMM: &span}}
}

func request(now float64, readings ...forecast.ReadingAt) *forecast.Request {
	limit := 0.75
	return &forecast.Request{LimitPercent: &limit, Care: chain.Usual, PitchMM: 12.7, Risk: 0.1, NowKM: &now, Readings: readings}
}

// The unit a span was read in makes no difference: 12 1/16 in are 306.3875 mm.
func TestCalculate_units(t *testing.T) {
	mm, err := forecast.Calculate(request(1500, ruleMM(1000, 306.3875)))
	require.NoError(t, err)
	inch, text := "12 1/16", "306,3875 mm"
	for _, r := range []wear.Reading{
		{Kind: wear.Rule, Pitches: 24, SpanIn: &inch},
		{Kind: wear.Rule, Pitches: 24, SpanText: &text},
	} {
		got, err := forecast.Calculate(request(1500, forecast.ReadingAt{AtKM: 1000, Reading: r}))
		require.NoError(t, err)
		assert.InEpsilon(t, mm.KMToLimit.P50, got.KMToLimit.P50, 1e-9)
		assert.InEpsilon(t, mm.Elongation.P95, got.Elongation.P95, 1e-9)
	}
}

// Slips of the pen come back as the number that should have been entered.
func TestCalculate_slips(t *testing.T) {
	compare := func(km, growth float64) forecast.ReadingAt {
		return forecast.ReadingAt{AtKM: km, Reading: wear.Reading{Kind: wear.Compare, Pitches: 48, GrowthMM: growth}}
	}
	wrongCount := ruleMM(1000, 305.6)
	wrongCount.Reading.Pitches = 23
	for _, row := range []struct {
		name     string
		readings []forecast.ReadingAt
		kind     forecast.SlipKind
		entered  float64
	}{
		{"digits", []forecast.ReadingAt{ruleMM(500, 305.2), ruleMM(1000, 350.6), ruleMM(1500, 306), ruleMM(2000, 306.3)}, forecast.DigitsSwapped, 305.6},
		{"point", []forecast.ReadingAt{compare(500, 0.7), compare(1000, 15), compare(1500, 2.2), compare(2000, 2.8)}, forecast.TenTimes, 1.5},
		{"pitches", []forecast.ReadingAt{ruleMM(500, 305.2), wrongCount, ruleMM(1500, 306), ruleMM(2000, 306.3)}, forecast.PitchesOff, 24},
	} {
		t.Run(row.name, func(t *testing.T) {
			a, err := forecast.Calculate(request(2000, row.readings...))
			require.NoError(t, err)
			require.Len(t, a.Aside, 1)
			assert.Equal(t, 1, a.Aside[0].Index)
			assert.Equal(t, row.kind, a.Aside[0].Fits.Kind)
			require.NotNil(t, a.Aside[0].FitsEntered)
			assert.InDelta(t, row.entered, *a.Aside[0].FitsEntered, 1e-9)
			assert.Contains(t, a.Aside[0].Why.Text(), map[string]string{
				"digits": ": 305.6, that is 0.26 %.", "point": ": 1.5, that is 0.29 %.", "pitches": "was 24 pitches, that is 0.26 %."}[row.name])
		})
	}
}

func TestCalculate_daysAndNotes(t *testing.T) {
	r := request(0)
	r.Care = ""
	week := 100.0
	r.KMPerWeek = &week
	a, err := forecast.Calculate(r)
	require.NoError(t, err)
	require.NotNil(t, a.CheckAgainDays)
	assert.Equal(t, int(a.CheckAgainKM*7/100), *a.CheckAgainDays)
	codes := map[string]bool{}
	for _, n := range append(a.Notes, a.Cautions...) {
		codes[n.Code] = true
		assert.NotContains(t, n.Text(), "{")
	}
	for _, code := range []string{"forecast_prior_only", "forecast_care_assumed", "forecast_origin", "caution_guidance"} {
		assert.True(t, codes[code], code)
	}
}

func TestCalculate_errors(t *testing.T) {
	noLimit := request(100)
	noLimit.LimitPercent = nil
	noSprockets := request(100)
	noSprockets.LimitPercent, noSprockets.Drive = nil, "derailleur"
	earlier := request(100)
	earlier.Earlier = []forecast.EarlierChain{{Readings: []forecast.ReadingAt{{AtKM: 5, Reading: wear.Reading{Kind: wear.Rule, Pitches: 24}}}}}
	for _, row := range []struct {
		field string
		r     *forecast.Request
	}{
		{"limit_percent", noLimit},
		{"rear_sprockets", noSprockets},
		{"now_km", request(900, ruleMM(1000, 305))},
		{"readings[1].reading.span_mm", request(900, ruleMM(100, 305), forecast.ReadingAt{AtKM: 200, Reading: wear.Reading{Kind: wear.Rule, Pitches: 24}})},
		{"earlier_chains[0].readings[0].reading.span_mm", earlier},
	} {
		_, err := forecast.Calculate(row.r)
		var f *fault.Error
		require.True(t, errors.As(err, &f), row.field)
		assert.Equal(t, row.field, f.Field)
	}
}

// The limit is the one asked for, or the drive's. Common practice, no source.
func TestCalculate_limit(t *testing.T) {
	for _, row := range []struct {
		drive     chain.Drive
		sprockets *int
		limit     *float64
		want      float64
	}{
		{chain.Derailleur, new(int), ptr(0.6), 0.6},
		{chain.Derailleur, nil, ptr(0.6), 0.6},
		{chain.Hub, nil, nil, 1},
		{chain.Single, nil, nil, 1},
	} {
		r := request(100)
		r.Drive, r.RearSprockets, r.LimitPercent = row.drive, row.sprockets, row.limit
		a, err := forecast.Calculate(r)
		require.NoError(t, err)
		assert.Equal(t, row.want, a.LimitPercent)
	}
	for sprockets, want := range map[int]float64{10: 0.75, 11: 0.5} {
		r := request(100)
		r.Drive, r.RearSprockets, r.LimitPercent = chain.Derailleur, &sprockets, nil
		a, err := forecast.Calculate(r)
		require.NoError(t, err)
		assert.Equal(t, want, a.LimitPercent)
	}
}

// What is said of the evidence, and when to check, as text.
func TestCalculate_notes(t *testing.T) {
	said := func(r *forecast.Request) (string, *forecast.Response) {
		a, err := forecast.Calculate(r)
		require.NoError(t, err)
		all := ""
		for _, n := range a.Notes {
			all += n.Text() + " "
		}
		return all, a
	}
	finished := forecast.EarlierChain{Readings: []forecast.ReadingAt{ruleMM(2000, 306.5)}}
	plain := request(1000, ruleMM(1000, 305.3))
	text, a := said(plain)
	for _, never := range []string{"earlier chain", "do not go with", "does not go with", "neighbouring", "scale ends", "no reading", "No care", "Measure"} {
		assert.NotContains(t, text, never)
	}
	var km int
	_, err := fmt.Sscanf(text, "Check again within %d km. By then the chance of being past the limit reaches 10 %%.", &km)
	require.NoError(t, err, text)
	assert.LessOrEqual(t, float64(km), a.CheckAgainKM, "rounded down")
	assert.Greater(t, float64(km), 0.9*a.CheckAgainKM)

	plain.Earlier = []forecast.EarlierChain{finished}
	text, _ = said(plain)
	assert.Contains(t, text, "One earlier chain of this bike is counted in.")
	plain.Earlier = append(plain.Earlier, finished, finished)
	text, _ = said(plain)
	assert.Contains(t, text, "3 earlier chains of this bike are counted in.")

	two := request(4000, ruleMM(500, 305.2), ruleMM(1000, 311), ruleMM(1200, 310.5), ruleMM(1500, 306), ruleMM(2000, 306.3), ruleMM(2300, 306.4), ruleMM(2500, 306.5))
	text, a = said(two)
	require.Len(t, a.Aside, 2)
	assert.Contains(t, text, "2 readings do not go with the others")
	assert.Contains(t, text, fmt.Sprintf("Measure now: the chance that the chain is past its limit is %.0f %% already.", 100*a.PastLimitNow))

	many := []forecast.ReadingAt{}
	for i := range 33 {
		many = append(many, ruleMM(float64(10*i), 304.9))
	}
	text, _ = said(request(400, many...))
	assert.Contains(t, text, "at more than 32 distances")
	text, _ = said(request(400, many[:32]...))
	assert.NotContains(t, text, "at more than")

	unread := request(200000)
	text, a = said(unread)
	assert.True(t, a.Beyond)
	assert.Contains(t, text, "The scale ends at 4.")
}

// A last reading that may be the true one is said to need measuring again, not
// to be looked at in so many km.
func TestCalculate_lastReadingAside(t *testing.T) {
	for last, risky := range map[float64]bool{311.5: false, 308: true} {
		a, err := forecast.Calculate(request(500, ruleMM(200, 304.9), ruleMM(300, 304.9), ruleMM(400, 305), ruleMM(500, last)))
		require.NoError(t, err)
		require.Len(t, a.Aside, 1)
		require.Equal(t, risky, a.PastLimitNow > 0.1)
		codes := map[string]bool{}
		for _, n := range a.Notes {
			codes[n.Code] = true
		}
		assert.True(t, codes["forecast_set_aside_one"])
		assert.Equal(t, !risky, codes["forecast_last_aside"])
		assert.Equal(t, risky, codes["forecast_now"])
		assert.False(t, codes["forecast_check"])
	}
}

// Nothing measured is certain, so no note says 100 %.
func TestCalculate_neverCertain(t *testing.T) {
	a, err := forecast.Calculate(request(3000, ruleMM(1000, 306.5), ruleMM(2000, 308.5), ruleMM(3000, 311)))
	require.NoError(t, err)
	require.Greater(t, a.PastLimitNow, 0.995)
	for _, n := range a.Notes {
		assert.NotContains(t, n.Text(), "100 %")
	}
	assert.Contains(t, a.Notes[0].Text(), "is more than 99 % already")
}
