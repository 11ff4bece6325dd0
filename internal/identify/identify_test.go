package identify_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/identify"
	"tautspan/internal/wire"
)

func ask(t testing.TB, json string) *identify.Response {
	t.Helper()
	var r identify.Request
	require.NoError(t, wire.Read([]byte(json), &r))
	answer, err := identify.Calculate(&r)
	require.NoError(t, err)
	return answer
}

// Outer widths: two general cycling pages (6 to 13 sprockets), common practice
// (5, single 1/8), a catalogue (size 083, 12.9 mm). Inner: handbook and inch
// fractions. Widths are read with the usual caliper uncertainty.
func TestCalculate_names(t *testing.T) {
	for _, row := range []struct {
		json  string
		class chain.Class
		least float64 // probability at least
	}{
		{`{"outer_width_mm":7.9,"inner_width_mm":2.4,"drive":"derailleur","rear_sprockets":5}`, chain.Derailleur5to6, 0.9},
		{`{"outer_width_mm":7.8,"drive":"derailleur","rear_sprockets":6}`, chain.Derailleur5to6, 0.9},
		{`{"outer_width_mm":7.2}`, chain.Derailleur7to8, 0.8},
		{`{"outer_width_mm":7.1,"drive":"derailleur","rear_sprockets":7}`, chain.Derailleur7to8, 0.95},
		{`{"outer_width_mm":7.3,"drive":"derailleur","rear_sprockets":8}`, chain.Derailleur7to8, 0.9},
		{`{"outer_width_mm":6.6}`, chain.Derailleur9, 0.95},
		{`{"outer_width_mm":6.0}`, chain.Derailleur10, 0.9},
		{`{"outer_width_mm":5.6}`, chain.Derailleur11, 0.9},
		{`{"outer_width_mm":5.2}`, chain.Derailleur12, 0.8},
		{`{"outer_width_mm":4.9}`, chain.Derailleur13, 0.9},
		{`{"outer_width_mm":9.0,"inner_width_mm":3.3}`, chain.Single1to8, 0.95},
		{`{"outer_width_mm":8.3,"inner_width_mm":2.4,"drive":"single"}`, chain.Single3to32, 0.9},
		{`{"outer_width_mm":12.9,"inner_width_mm":4.88}`, chain.Cargo3to16, 0.95},
		{`{"inner_width_mm":4.0}`, chain.Cargo5to32, 0.9},
		{`{"pitch_mm":10.02}`, chain.Pitch10MM, 0.95},
		{`{"pitch_mm":25.45}`, chain.Pitch1Inch, 0.95},
		{`{"span_mm":159.5,"pitches":10}`, chain.Pitch5to8Inch, 0.95},
		{`{"drive":"derailleur","rear_sprockets":11}`, chain.Derailleur11, 0.25},
	} {
		t.Run(row.json, func(t *testing.T) {
			a := ask(t, row.json)
			require.NotEmpty(t, a.Candidates)
			assert.False(t, a.NoneFit)
			assert.Equal(t, row.class, a.Candidates[0].Class)
			assert.GreaterOrEqual(t, a.Candidates[0].Probability, row.least)
		})
	}
}

// A reading between two families leaves both standing, about even.
func TestCalculate_neighbours(t *testing.T) {
	for _, row := range []struct {
		json string
		a, b chain.Class
	}{
		{`{"outer_width_mm":5.79}`, chain.Derailleur10, chain.Derailleur11},
		{`{"outer_width_mm":5.39}`, chain.Derailleur11, chain.Derailleur12},
		{`{"outer_width_mm":5.08}`, chain.Derailleur12, chain.Derailleur13},
		{`{"outer_width_mm":6.35}`, chain.Derailleur9, chain.Derailleur10},
		{`{"outer_width_mm":8.6,"drive":"single"}`, chain.Single1to8, chain.Single3to32},
		{`{"outer_width_mm":11.2}`, chain.Cargo3to16, chain.Cargo5to32},
	} {
		a := ask(t, row.json)
		got := map[chain.Class]float64{}
		for _, c := range a.Candidates {
			got[c.Class] = c.Probability
		}
		assert.Greater(t, got[row.a], 0.12, "%s %v", row.json, got)
		assert.Greater(t, got[row.b], 0.12, "%s %v", row.json, got)
		assert.Less(t, a.Candidates[0].Probability, 0.9, row.json)
	}
}

// The bike tips the balance between neighbours, but never against a width.
func TestCalculate_bikeTips(t *testing.T) {
	assert.Equal(t, chain.Derailleur10, ask(t, `{"outer_width_mm":5.79,"rear_sprockets":10}`).Candidates[0].Class)
	assert.Equal(t, chain.Derailleur11, ask(t, `{"outer_width_mm":5.79,"rear_sprockets":11}`).Candidates[0].Class)

	wrong := ask(t, `{"outer_width_mm":6.65,"drive":"derailleur","rear_sprockets":11}`).Candidates[0]
	assert.Equal(t, chain.Derailleur9, wrong.Class)
	require.NotNil(t, wrong.Fits)
	assert.False(t, *wrong.Fits)
}

func TestCalculate_noneFit(t *testing.T) {
	for _, row := range []struct {
		json    string
		nearest chain.Class
	}{
		{`{"outer_width_mm":20}`, chain.Cargo3to16},
		{`{"outer_width_mm":4.2}`, chain.Derailleur13},
		{`{"inner_width_mm":7.85,"outer_width_mm":16.6,"roller_mm":7.95}`, chain.Cargo3to16}, // size 08A, a catalogue
		{`{"pitch_mm":14.5}`, chain.Pitch5to8Inch},
		{`{"pitch_mm":12.2}`, chain.Derailleur5to6},
	} {
		a := ask(t, row.json)
		assert.True(t, a.NoneFit, row.json)
		assert.Empty(t, a.Candidates, row.json)
		require.NotNil(t, a.Nearest, row.json)
		assert.Equal(t, row.nearest, a.Nearest.Class, row.json)
		assert.NotEmpty(t, a.Nearest.Why)
		assert.NotEmpty(t, a.Cautions)
	}
	// A narrow outside with a wide inside is no chain of the table.
	assert.True(t, ask(t, `{"outer_width_mm":5.6,"inner_width_mm":3.3}`).NoneFit)
}

// A roller alone moves no half-inch family against another; common practice.
func TestCalculate_rollerAlone(t *testing.T) {
	for _, json := range []string{`{"roller_mm":7.75}`, `{"roller_mm":7.65,"roller_standard_uncertainty_mm":0.005}`, `{"roller_mm":8.51}`} {
		a := ask(t, json)
		for _, c := range a.Candidates {
			assert.Less(t, c.Probability, 0.1, json)
		}
		assert.Contains(t, codes(a), "identify_caution_roller")
	}
	with := ask(t, `{"outer_width_mm":5.79,"roller_mm":7.7}`).Candidates
	without := ask(t, `{"outer_width_mm":5.79}`).Candidates
	assert.InDelta(t, without[0].Probability, with[0].Probability, 1e-3)
}

func codes(a *identify.Response) []string {
	var all []string
	for _, n := range append(a.Cautions, a.NextSteps...) {
		all = append(all, n.Code)
	}
	return all
}

// Worn chains read long: up to 3 % is still half an inch.
func TestCalculate_wornPitch(t *testing.T) {
	for _, span := range []string{"304.8", "306.3", "307.8", "312"} {
		a := ask(t, `{"span_mm":`+span+`,"pitches":24,"outer_width_mm":6.6}`)
		require.False(t, a.NoneFit, span)
		assert.Equal(t, chain.Derailleur9, a.Candidates[0].Class, span)
	}
	assert.Contains(t, codes(ask(t, `{"span_mm":307.8,"pitches":24}`)), "identify_next_wear")
	assert.Contains(t, codes(ask(t, `{"pitch_mm":25.4}`)), "identify_next_count")
}

func TestCalculate_fits(t *testing.T) {
	yes, no := true, false
	for _, row := range []struct {
		json string
		fits *bool
	}{
		{`{"outer_width_mm":6.6,"drive":"derailleur","rear_sprockets":9}`, &yes},
		{`{"outer_width_mm":6.6,"rear_sprockets":9}`, &yes},
		{`{"outer_width_mm":6.6,"rear_sprockets":10}`, &no},
		{`{"outer_width_mm":6.6}`, nil},
		{`{"outer_width_mm":6.6,"drive":"derailleur"}`, nil},
		{`{"outer_width_mm":6.6,"drive":"derailleur","rear_sprockets":14}`, nil},
		{`{"outer_width_mm":9,"inner_width_mm":3.3,"drive":"hub"}`, &yes},
		{`{"outer_width_mm":9,"inner_width_mm":3.3,"rear_sprockets":1}`, &yes},
		{`{"outer_width_mm":9,"inner_width_mm":3.3,"drive":"derailleur","rear_sprockets":8}`, &no},
		{`{"outer_width_mm":8,"inner_width_mm":2.4,"drive":"single"}`, nil},
		{`{"pitch_mm":10,"drive":"single"}`, &no},
		{`{"pitch_mm":25.4}`, nil},
	} {
		assert.Equal(t, row.fits, ask(t, row.json).Candidates[0].Fits, row.json)
	}
}

// Whatever is read, probabilities sum to one and fall, every candidate is fully
// described, and the answer can be written.
func TestCalculate_properties(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 9))
	some := func(lo, hi float64) *float64 {
		if random.IntN(2) == 0 {
			return nil
		}
		v := lo + (hi-lo)*random.Float64()
		return &v
	}
	for range 3000 {
		sprockets := 1 + random.IntN(14)
		r := identify.Request{Outer: some(4.5, 16), Inner: some(1.9, 6), Pitch: some(9, 26), Roller: some(5, 9), RearSprockets: &sprockets}
		if r.Outer != nil {
			r.OuterU = some(0.001, 5)
		}
		a, err := identify.Calculate(&r)
		if err != nil {
			continue
		}
		require.Equal(t, a.NoneFit, len(a.Candidates) == 0)
		require.Equal(t, a.NoneFit, a.Nearest != nil)
		sum, last := 0.0, 1.0
		for _, c := range a.Candidates {
			sum += c.Probability
			require.LessOrEqual(t, c.Probability, last)
			last = c.Probability
			require.NotEmpty(t, c.Name)
			require.NotEmpty(t, c.Why)
			require.NotEmpty(t, c.Closures)
			require.NotEmpty(t, c.Source)
		}
		if !a.NoneFit {
			require.InDelta(t, 1, sum, 1e-12)
		}
		_, err = wire.Write(a)
		require.NoError(t, err)
	}
}

// The coarser the caliper, the less sure the answer.
func TestCalculate_uncertaintyBlurs(t *testing.T) {
	last := 1.0
	for _, u := range []string{"0.01", "0.05", "0.1", "0.2", "0.5", "1"} {
		p := ask(t, `{"outer_width_mm":6.0,"outer_width_standard_uncertainty_mm":`+u+`}`).Candidates[0].Probability
		assert.Less(t, p, last, u)
		last = p
	}
	assert.Less(t, last, 0.5)
}

func TestCalculate_bad(t *testing.T) {
	for _, row := range []struct {
		name, json string
		code       fault.Code
		field      string
	}{
		{"nothing", `{}`, fault.MissingField, "outer_width_mm"},
		{"typo", `{"outer_widht_mm":6.6}`, fault.UnknownField, "outer_widht_mm"},
		{"negative width", `{"outer_width_mm":-6.6}`, fault.OutOfRange, "outer_width_mm"},
		{"huge width", `{"inner_width_mm":1e308}`, fault.OutOfRange, "inner_width_mm"},
		{"text", `{"outer_width_mm":"6.6"}`, fault.WrongType, "outer_width_mm"},
		{"pitch out of range", `{"pitch_mm":27}`, fault.OutOfRange, "pitch_mm"},
		{"zero uncertainty", `{"outer_width_mm":6,"outer_width_standard_uncertainty_mm":0}`, fault.OutOfRange, "outer_width_standard_uncertainty_mm"},
		{"uncertainty alone", `{"outer_width_mm":6,"inner_width_standard_uncertainty_mm":0.1}`, fault.Contradiction, "inner_width_standard_uncertainty_mm"},
		{"span without pitches", `{"span_mm":127}`, fault.MissingField, "pitches"},
		{"pitches without span", `{"pitches":10}`, fault.MissingField, "span_mm"},
		{"zero pitches", `{"span_mm":127,"pitches":0}`, fault.OutOfRange, "pitches"},
		{"miscounted", `{"span_mm":127,"pitches":20}`, fault.Contradiction, "span_mm"},
		{"pitch twice", `{"span_mm":127,"pitches":10,"pitch_mm":12.7}`, fault.Contradiction, "pitch_mm"},
		{"inner beyond outer", `{"outer_width_mm":6.6,"inner_width_mm":6.6}`, fault.Contradiction, "inner_width_mm"},
		{"roller beyond pitch", `{"roller_mm":13,"pitch_mm":12.7}`, fault.Contradiction, "roller_mm"},
		{"single with nine", `{"drive":"single","rear_sprockets":9}`, fault.Contradiction, "rear_sprockets"},
		{"unknown drive", `{"drive":"belt"}`, fault.NotAllowed, "drive"},
		{"15 sprockets", `{"rear_sprockets":15}`, fault.OutOfRange, "rear_sprockets"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var r identify.Request
			err := wire.Read([]byte(row.json), &r)
			if err == nil {
				_, err = identify.Calculate(&r)
			}
			var f *fault.Error
			require.True(t, errors.As(err, &f), "an error was expected")
			assert.Equal(t, row.code, f.Code)
			assert.Equal(t, row.field, f.Field)
			assert.NotEmpty(t, f.Message)
		})
	}
}

func BenchmarkCalculate(b *testing.B) {
	var r identify.Request
	require.NoError(b, wire.Read([]byte(`{"outer_width_mm":5.79,"inner_width_mm":2.2,"pitch_mm":12.75,"roller_mm":7.7,"drive":"derailleur","rear_sprockets":11}`), &r))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := identify.Calculate(&r); err != nil {
			b.Fatal(err)
		}
	}
}
