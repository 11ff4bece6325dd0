package care_test

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/care"
	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

func ask(t testing.TB, json string) *care.Response {
	t.Helper()
	var r care.Request
	require.NoError(t, wire.Read([]byte(json), &r))
	answer, err := care.Calculate(&r)
	require.NoError(t, err)
	return answer
}

func codes(notes []words.Note) []string {
	var all []string
	for _, n := range notes {
		all = append(all, n.Code)
	}
	return all
}

const fresh = `"km_since_wiped":10,"km_since_cleaned":10,"km_since_lubricated":10`

func TestCalculate_order(t *testing.T) {
	for _, row := range []struct {
		name, json string
		doNow      []care.Task
		reason     string // among the reasons of all tasks
	}{
		{"fresh", `{"care":"usual","lubricant":"oil",` + fresh + `}`, []care.Task{}, "care_by_distance"},
		{"dirty and dry", `{"care":"usual","lubricant":"oil",` + fresh + `,"dirty":true,"sounds_dry":true}`, []care.Task{care.Clean, care.Lubricate}, "care_dirty"},
		{"dirty alone", `{"care":"clean","lubricant":"liquid_wax",` + fresh + `,"dirty":true}`, []care.Task{care.Clean, care.Lubricate}, "care_after_cleaning"},
		{"squeaks", `{"care":"usual","lubricant":"oil",` + fresh + `,"sounds_dry":true}`, []care.Task{care.Wipe, care.Lubricate}, "care_sounds_dry"},
		{"rain", `{"care":"usual","lubricant":"hot_wax",` + fresh + `,"ridden_wet":true}`, []care.Task{care.Wipe, care.Lubricate}, "care_wet_lubricate"},
		{"rain on a case", `{"care":"enclosed","lubricant":"oil",` + fresh + `,"ridden_wet":true}`, []care.Task{}, "care_by_distance"},
		{"cleaned, not lubricated", `{"care":"usual","lubricant":"oil","km_since_wiped":5,"km_since_cleaned":5,"km_since_lubricated":100}`, []care.Task{care.Wipe, care.Lubricate}, "care_stripped"},
		{"cleaned, lubrication unknown", `{"care":"usual","lubricant":"oil","km_since_cleaned":5}`, []care.Task{care.Wipe, care.Lubricate}, "care_stripped"},
		{"nothing known", `{"care":"usual","lubricant":"oil"}`, []care.Task{care.Clean, care.Lubricate}, "care_unknown"},
		{"nothing known, looks clean", `{"care":"usual","lubricant":"oil","dirty":false}`, []care.Task{care.Wipe, care.Lubricate}, "care_looks_clean"},
		{"looks clean for too long", `{"care":"usual","lubricant":"oil","dirty":false,"km_since_cleaned":900,"km_since_lubricated":10}`, []care.Task{care.Clean, care.Lubricate}, "care_overdue"},
		{"wipe only", `{"care":"usual","lubricant":"oil","km_since_cleaned":120,"km_since_lubricated":110}`, []care.Task{care.Wipe}, "care_due"},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := ask(t, row.json)
			assert.Equal(t, row.doNow, a.DoNow)
			var reasons []string
			for _, p := range a.Tasks {
				reasons = append(reasons, codes(p.Reasons)...)
			}
			assert.Contains(t, reasons, row.reason)
		})
	}
}

// Common practice, no source: oil every 150 to 300 km, wax every 200 to 400 km.
// The classes of care outside a case share these ranges out.
func TestCalculate_intervals(t *testing.T) {
	for lubricant, within := range map[care.Lubricant][2]float64{
		care.Oil: {150, 300}, care.LiquidWax: {200, 400}, care.HotWax: {200, 400},
	} {
		last := within[0]
		for _, class := range []chain.Care{chain.Gritty, chain.Usual, chain.Clean} {
			a := ask(t, `{"care":"`+string(class)+`","lubricant":"`+string(lubricant)+`",`+fresh+`}`)
			every := *a.Tasks[2].IntervalKM
			assert.Equal(t, last, every[0], "%s %s", lubricant, class)
			assert.Less(t, every[0], every[1])
			last = every[1]
			assert.Equal(t, every[0]-10, a.Tasks[2].DueInKM)
		}
		assert.Equal(t, within[1], last, lubricant)
	}
}

// The whole table of intervals in km. Lubricating outside a case is common
// practice, no source; the rest is from memory.
func TestCalculate_table(t *testing.T) {
	type row [3][2]float64 // wipe, clean, lubricate
	for class, want := range map[chain.Care]map[care.Lubricant]row{
		chain.Gritty:   {care.Oil: {{50, 80}, {300, 500}, {150, 200}}, care.HotWax: {{50, 80}, {300, 500}, {200, 270}}},
		chain.Usual:    {care.Oil: {{100, 150}, {500, 800}, {200, 250}}, care.LiquidWax: {{100, 150}, {500, 800}, {270, 330}}},
		chain.Clean:    {care.Oil: {{150, 250}, {800, 1200}, {250, 300}}, care.FactoryGrease: {{150, 250}, {800, 1200}, {330, 400}}},
		chain.Enclosed: {care.Oil: {{600, 1200}, {3000, 5000}, {600, 1200}}, care.LiquidWax: {{600, 1200}, {3000, 5000}, {800, 1600}}},
	} {
		for lubricant, intervals := range want {
			a := ask(t, `{"care":"`+string(class)+`","lubricant":"`+string(lubricant)+`",`+fresh+`,"km_per_week":70}`)
			for i, task := range []care.Task{care.Wipe, care.Clean, care.Lubricate} {
				p := a.Tasks[i]
				assert.Equal(t, task, p.Task)
				assert.Equal(t, intervals[i], *p.IntervalKM, "%s %s %s", class, lubricant, task)
				assert.InDelta(t, intervals[i][0]-10, p.DueInKM, 1e-9)
				assert.InDelta(t, (intervals[i][0]-10)/10, *p.DueInDays, 1e-9)
			}
		}
	}
}

// A task is due from the first end of its interval and overdue from the second;
// a chain that looks clean may go to the second.
func TestCalculate_states(t *testing.T) {
	for _, row := range []struct {
		km, look string
		state    care.State
		reason   string
	}{
		{"499", "", care.NotDue, "499 km since the last time; due from 500 km, at the latest at 800 km."},
		{"500", "", care.Due, "500 km since the last time; due since 500 km, at the latest at 800 km."},
		{"800", "", care.Overdue, "800 km since the last time; it was due by 800 km."},
		{"799", `,"dirty":false`, care.NotDue, "due from 800 km"},
		{"800", `,"dirty":false`, care.Overdue, "it was due by 800 km"},
		{"10", `,"dirty":true`, care.Due, "The chain is dirty."},
	} {
		clean := ask(t, `{"care":"usual","lubricant":"oil","km_since_cleaned":`+row.km+`,"km_since_lubricated":10`+row.look+`}`).Tasks[1]
		assert.Equal(t, row.state, clean.State, row)
		said := ""
		for _, n := range clean.Reasons {
			said += n.Text()
		}
		assert.Contains(t, said, row.reason)
		assert.Equal(t, row.look == `,"dirty":false`, slices.Contains(codes(clean.Reasons), "care_looks_clean"))
	}
	over := ask(t, `{"care":"usual","lubricant":"oil","km_since_cleaned":900,"km_since_lubricated":10,"dirty":true}`).Tasks[1]
	assert.Equal(t, care.Overdue, over.State, "dirt does not make it less so")
}

// How each task is done, and why in this order. Common practice, no source.
func TestCalculate_says(t *testing.T) {
	for _, row := range []struct {
		json           string
		steps, reasons []string
	}{
		{`{"care":"usual","lubricant":"oil",` + fresh + `}`, []string{"care_how_wipe"}, []string{"care_nothing_due"}},
		{`{"care":"usual","lubricant":"oil",` + fresh + `,"sounds_dry":true}`, []string{"care_how_wipe", "care_how_oil"}, []string{"care_wipe_first"}},
		{`{"care":"usual","lubricant":"oil",` + fresh + `,"dirty":true}`, []string{"care_how_clean", "care_how_oil"}, []string{"care_clean_first", "care_lubricate_at_once"}},
		{`{"care":"usual","lubricant":"liquid_wax",` + fresh + `,"dirty":true}`, []string{"care_how_clean", "care_how_liquid_wax"}, []string{"care_clean_first", "care_lubricate_at_once"}},
		{`{"care":"usual","lubricant":"hot_wax",` + fresh + `,"dirty":true}`, []string{"care_how_clean_wax", "care_how_hot_wax"}, []string{"care_clean_first", "care_lubricate_at_once"}},
		{`{"care":"usual","lubricant":"factory_grease",` + fresh + `,"ridden_wet":true}`, []string{"care_how_wipe", "care_how_factory_grease"}, []string{"care_wipe_first"}},
	} {
		a := ask(t, row.json)
		assert.Equal(t, row.steps, codes(a.Steps), row.json)
		assert.Equal(t, row.reasons, codes(a.Reasons), row.json)
		if len(a.DoNow) > 0 {
			assert.Equal(t, a.DoNow[0], a.NextTask)
			assert.Zero(t, a.NextInKM)
		}
	}
	wet := ask(t, `{"care":"usual","lubricant":"oil",`+fresh+`,"ridden_wet":true}`)
	assert.Contains(t, codes(wet.Tasks[0].Reasons), "care_wet_wipe")
	assert.Equal(t, care.Due, wet.Tasks[0].State)
	cased := ask(t, `{"care":"enclosed","lubricant":"oil",`+fresh+`,"ridden_wet":true}`)
	assert.NotContains(t, codes(cased.Tasks[0].Reasons), "care_wet_wipe")
}

func TestCalculate_next(t *testing.T) {
	a := ask(t, `{"care":"usual","lubricant":"oil","km_since_wiped":30,"km_since_cleaned":160,"km_since_lubricated":150,"km_per_week":70}`)
	assert.Equal(t, care.Lubricate, a.NextTask)
	assert.Equal(t, 50.0, a.NextInKM)
	require.NotNil(t, a.NextInDays)
	assert.InDelta(t, 5, *a.NextInDays, 1e-12)
	assert.Nil(t, ask(t, `{"care":"usual","lubricant":"oil",`+fresh+`}`).NextInDays)
}

// What can hurt is said where the work is advised.
func TestCalculate_cautions(t *testing.T) {
	dirty := codes(ask(t, `{"care":"gritty","lubricant":"hot_wax","dirty":true}`).Cautions)
	for _, code := range []string{"care_caution_brakes", "care_caution_solvent", "care_caution_acid", "care_caution_hot", "caution_closure", "caution_fingers", "caution_guidance"} {
		assert.Contains(t, dirty, code)
	}
	oil := codes(ask(t, `{"care":"usual","lubricant":"oil",`+fresh+`,"sounds_dry":true}`).Cautions)
	assert.Contains(t, oil, "care_caution_brakes")
	assert.NotContains(t, oil, "care_caution_hot")
}

// random returns any request the ranges allow.
func random(source *rand.Rand) *care.Request {
	some := func(most float64) *float64 {
		if source.IntN(3) == 0 {
			return nil
		}
		v := most * source.Float64()
		return &v
	}
	lubricants := []care.Lubricant{care.Oil, care.LiquidWax, care.HotWax, care.FactoryGrease}
	r := &care.Request{
		Care: chain.Cares()[source.IntN(4)], Lubricant: lubricants[source.IntN(4)],
		KMSinceWiped: some(2000), KMSinceCleaned: some(6000), KMSinceLubricated: some(2000),
		RiddenWet: source.IntN(2) == 0, SoundsDry: source.IntN(2) == 0, KMPerWeek: some(5000),
	}
	if source.IntN(2) == 0 {
		dirty := source.IntN(2) == 0
		r.Dirty = &dirty
	}
	return r
}

// Generated: a dirty chain is never lubricated before it is cleaned, cleaning is
// always followed by lubricating, a task is due exactly when it is due in 0 km,
// and riding on never puts a task off.
func TestCalculate_properties(t *testing.T) {
	source := rand.New(rand.NewPCG(2, 7))
	for range 5000 {
		r := random(source)
		a, err := care.Calculate(r)
		require.NoError(t, err)
		_, err = wire.Write(a)
		require.NoError(t, err)

		clean, lubricate := slices.Index(a.DoNow, care.Clean), slices.Index(a.DoNow, care.Lubricate)
		if r.Dirty != nil && *r.Dirty {
			require.Equal(t, 0, clean)
		}
		if clean >= 0 {
			require.Greater(t, lubricate, clean)
		}
		for _, p := range a.Tasks {
			require.Equal(t, p.State != care.NotDue, p.DueInKM == 0)
			require.NotEmpty(t, p.Reasons)
			if p.State != care.NotDue && p.Task != care.Wipe {
				require.Contains(t, a.DoNow, p.Task)
			}
			require.GreaterOrEqual(t, p.DueInKM, a.NextInKM)
		}
		require.NotEmpty(t, a.Steps)
		require.NotEmpty(t, a.Cautions)

		b, err := care.Calculate(later(r, 300*source.Float64()))
		require.NoError(t, err)
		for i := range a.Tasks {
			require.LessOrEqual(t, b.Tasks[i].DueInKM, a.Tasks[i].DueInKM)
		}
	}
}

// later is the same chain after more riding.
func later(r *care.Request, km float64) *care.Request {
	moved := *r
	for _, p := range []**float64{&moved.KMSinceWiped, &moved.KMSinceCleaned, &moved.KMSinceLubricated} {
		if *p != nil {
			v := **p + km
			*p = &v
		}
	}
	return &moved
}

func TestRequest_bad(t *testing.T) {
	for _, row := range []struct {
		name, json string
		code       fault.Code
		field      string
	}{
		{"nothing", `{}`, fault.MissingField, "care"},
		{"no lubricant", `{"care":"usual"}`, fault.MissingField, "lubricant"},
		{"unknown care", `{"care":"dusty","lubricant":"oil"}`, fault.NotAllowed, "care"},
		{"unknown lubricant", `{"care":"usual","lubricant":"butter"}`, fault.NotAllowed, "lubricant"},
		{"negative distance", `{"care":"usual","lubricant":"oil","km_since_wiped":-1}`, fault.OutOfRange, "km_since_wiped"},
		{"huge distance", `{"care":"usual","lubricant":"oil","km_since_cleaned":1e9}`, fault.OutOfRange, "km_since_cleaned"},
		{"text", `{"care":"usual","lubricant":"oil","km_since_lubricated":"never"}`, fault.WrongType, "km_since_lubricated"},
		{"null", `{"care":"usual","lubricant":"oil","dirty":null}`, fault.WrongType, "dirty"},
		{"no riding", `{"care":"usual","lubricant":"oil","km_per_week":0}`, fault.OutOfRange, "km_per_week"},
		{"typo", `{"care":"usual","lubricant":"oil","riden_wet":true}`, fault.UnknownField, "riden_wet"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var f *fault.Error
			require.True(t, errors.As(wire.Read([]byte(row.json), &care.Request{}), &f), "an error was expected")
			assert.Equal(t, row.code, f.Code)
			assert.Equal(t, row.field, f.Field)
		})
	}
}

func BenchmarkCalculate(b *testing.B) {
	var r care.Request
	require.NoError(b, wire.Read([]byte(`{"care":"gritty","lubricant":"hot_wax","dirty":true,"ridden_wet":true,"km_per_week":80}`), &r))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := care.Calculate(&r); err != nil {
			b.Fatal(err)
		}
	}
}
