package cost_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/cost"
	"tautspan/internal/fault"
	"tautspan/internal/forecast"
	"tautspan/internal/wire"
)

func ask(t testing.TB, json string) *cost.Response {
	t.Helper()
	var r cost.Request
	require.NoError(t, wire.Read([]byte(json), &r))
	answer, err := cost.Calculate(&r)
	require.NoError(t, err)
	return answer
}

const example = `{"prices":{"chain":3500,"sprockets":6000,"chainring":5000},"currency":"EUR","rate_percent_per_1000_km":0.15`

// The example computed before the project began with a separate prototype, and
// checked there by simulation: R 0.15, prices 35, 60, 50.
func TestCalculate_example(t *testing.T) {
	a := ask(t, example+`}`)
	require.Len(t, a.Policies, 3+1+5)
	for i, want := range []float64{1755, 1532, 1572, 1498} {
		assert.InDelta(t, want, a.Policies[i].CostPer1000KM, 0.5, i)
	}
	three := a.Policies[5]
	assert.Equal(t, cost.Rotation, three.Kind)
	assert.Equal(t, 3.0, three.Chains)
	assert.InDelta(t, 1187, three.CostPer1000KM, 0.5)
	assert.InDelta(t, 4, a.Policies[0].Chains, 1e-12)
	assert.InDelta(t, 1.2, a.Policies[2].Chains, 1e-12)
	assert.Equal(t, cost.Rotation, a.Best.Kind)
}

// The cheapest limit is the least on a fine grid, and the flat range is where
// the grid stays within 2 % of it.
func TestCalculate_cheapestLimit(t *testing.T) {
	a := ask(t, example+`}`)
	at := func(x float64) float64 {
		var r cost.Request
		require.NoError(t, wire.Read([]byte(example+`}`), &r))
		r.ChangeAtPercent = []float64{x}
		got, err := cost.Calculate(&r)
		require.NoError(t, err)
		return got.Policies[0].CostPer1000KM
	}
	least, where := math.Inf(1), 0.0
	for x := 0.1; x < 3; x += 0.001 {
		if c := at(x); c < least {
			least, where = c, x
		}
	}
	assert.InDelta(t, where, a.CheapestLimitPercent, 0.001)
	assert.InDelta(t, 1.02*least, at(a.FlatRangePercent[0]), 1e-3)
	assert.InDelta(t, 1.02*least, at(a.FlatRangePercent[1]), 1e-3)
	assert.Less(t, a.FlatRangePercent[0], a.CheapestLimitPercent)
	assert.Greater(t, a.FlatRangePercent[1], a.CheapestLimitPercent)
}

func TestCalculate_spread(t *testing.T) {
	a := ask(t, example+`,"rate_range_percent_per_1000_km":[0.1,0.3]}`)
	for _, p := range a.Policies {
		assert.InDelta(t, p.CostPer1000KM*0.1/0.15, p.LowPer1000KM, 1e-9)
		assert.InDelta(t, p.CostPer1000KM*0.3/0.15, p.HighPer1000KM, 1e-9)
	}
	for _, p := range ask(t, example+`}`).Policies {
		assert.Equal(t, p.CostPer1000KM, p.LowPer1000KM)
		assert.Equal(t, p.CostPer1000KM, p.HighPer1000KM)
	}
}

const noRate = `{"prices":{"chain":3500,"sprockets":6000,"chainring":5000},"currency":"EUR"`

// Cost is proportional to the rate, so a forecast must give what its own
// harmonic mean and 5 and 95 % points give as numbers.
func TestCalculate_forecast(t *testing.T) {
	for name, body := range map[string]string{
		"care alone": `{"limit_percent":0.75,"care":"usual"}`,
		"readings": `{"drive":"derailleur","rear_sprockets":11,"care":"clean","readings":[
			{"at_km":1200,"reading":{"kind":"rule","pitches":24,"span_mm":305.3}},
			{"at_km":2500,"reading":{"kind":"rule","pitches":24,"span_mm":305.8}}],"now_km":2600}`,
	} {
		t.Run(name, func(t *testing.T) {
			var f forecast.Request
			require.NoError(t, wire.Read([]byte(body), &f))
			rate, err := forecast.Calculate(&f)
			require.NoError(t, err)
			require.Greater(t, rate.MeanRate, rate.Rate.P05)
			require.Less(t, rate.MeanRate, rate.Rate.P95)

			a, unit := ask(t, noRate+`,"forecast":`+body+`}`), ask(t, noRate+`,"rate_percent_per_1000_km":1}`)
			assert.Equal(t, rate.MeanRate, a.RatePercent)
			for i, p := range a.Policies {
				assert.InEpsilon(t, unit.Policies[i].CostPer1000KM*rate.MeanRate, p.CostPer1000KM, 1e-12)
				assert.InEpsilon(t, unit.Policies[i].CostPer1000KM*rate.Rate.P05, p.LowPer1000KM, 1e-12)
				assert.InEpsilon(t, unit.Policies[i].CostPer1000KM*rate.Rate.P95, p.HighPer1000KM, 1e-12)
			}
		})
	}
}

// What was assumed and what is no advice is said. Common practice, no source.
func TestCalculate_says(t *testing.T) {
	said := func(a *cost.Response) (texts, codes []string) {
		for _, n := range a.Assumptions {
			texts, codes = append(texts, n.Text()), append(codes, n.Code)
		}
		for _, n := range a.Cautions {
			codes = append(codes, n.Code)
		}
		return texts, codes
	}
	a := ask(t, example+`,"rate_range_percent_per_1000_km":[0.1,0.3]}`)
	texts, codes := said(a)
	assert.Equal(t, []string{
		"The chain wears by 0.150 % per 1000 km.",
		"Low and high are the cost at 0.100 and 0.300 % per 1000 km; nine rates in ten lie between.",
		"A set of sprockets outlives 4.0 chains when every chain is changed at 0.50 %.",
		"A set of sprockets outlives 1.2 chains when every chain is changed at 1.00 %.",
		"A chainring outlives 2.5 sets of sprockets.",
		"A new chain reads 0.03 % long.",
	}, texts[:6])
	assert.Contains(t, texts[7], strconv.FormatFloat(a.FlatRangePercent[0], 'f', 2, 64)+" to "+strconv.FormatFloat(a.FlatRangePercent[1], 'f', 2, 64))
	assert.Subset(t, codes, []string{"cost_together", "cost_flat", "cost_origin", "cost_not_safety", "cost_past_limit", "caution_stricter", "caution_guidance"})

	// Cheap chains spare dear sprockets: then a limit is best.
	single := ask(t, `{"prices":{"chain":100,"sprockets":50000,"chainring":0},"currency":"EUR","rate_percent_per_1000_km":0.15,"rotation_max":1}`)
	assert.Equal(t, cost.Limit, single.Best.Kind)
	_, codes = said(single)
	assert.NotContains(t, codes, "cost_past_limit")
	assert.Contains(t, codes, "cost_no_spread")
	assert.NotContains(t, codes, "cost_spread")

	_, codes = said(ask(t, noRate+`,"forecast":{"limit_percent":0.75,"care":"usual"}}`))
	assert.Contains(t, codes, "cost_from_care")
	assert.NotContains(t, codes, "cost_from_readings")
	texts, codes = said(ask(t, noRate+`,"forecast":{"limit_percent":0.75,"readings":[{"at_km":900,"reading":{"kind":"rule","pitches":24,"span_mm":305}}]}}`))
	assert.NotContains(t, codes, "cost_from_care")
	assert.Equal(t, "The rate comes from a forecast with readings taken: 1.", texts[1])
}

// The ends of the scale: no chain goes past 3 % (general limit, two industrial
// makers), no limit below 0.1 % is looked at, and counts of chains may lie up to
// where sprockets suffer in proportion to elongation: 4·(0.5-0.03)/(1-0.03) =
// 1.93814 at 1.0 % for 4 at 0.5 %, down to its cube, 4·0.124973/0.999973 = 0.49991
// (computed).
func TestCalculate_ends(t *testing.T) {
	hard := ask(t, example+`,"chains_per_sprockets":[{"at_percent":0.5,"chains":50},{"at_percent":1,"chains":24}]}`)
	assert.Equal(t, cost.Never, hard.Policies[3].Kind)
	assert.Equal(t, 3.0, hard.Policies[3].ChangeAtPercent)
	dear := ask(t, `{"prices":{"chain":1,"sprockets":100000000,"chainring":0},"currency":"EUR","rate_percent_per_1000_km":0.15}`)
	assert.Equal(t, 0.1, dear.CheapestLimitPercent)
	near := ask(t, `{"prices":{"chain":100,"sprockets":100000,"chainring":0},"currency":"EUR","rate_percent_per_1000_km":0.15}`)
	assert.Greater(t, near.CheapestLimitPercent, 0.12)
	assert.Equal(t, 0.1, near.FlatRangePercent[0], "still within 2 % where the scale begins")
	for _, row := range []struct {
		chains string
		good   bool
	}{{"1.938", true}, {"1.939", false}, {"0.4999", false}, {"0.5", true}} {
		var r cost.Request
		require.NoError(t, wire.Read([]byte(example+`,"chains_per_sprockets":[{"at_percent":0.5,"chains":4},{"at_percent":1,"chains":`+row.chains+`}]}`), &r))
		_, err := cost.Calculate(&r)
		assert.Equal(t, row.good, err == nil, row.chains)
	}
}

// random returns a request that Calculate answers.
func random(t *testing.T, source *rand.Rand) *cost.Request {
	for {
		rate := 0.01 * math.Pow(200, source.Float64())
		r := &cost.Request{
			Prices:   cost.Prices{Chain: 1 + source.IntN(20000), Sprockets: source.IntN(50000), Chainring: source.IntN(50000)},
			Currency: "CHF", SetsPerRing: 0.5 + 5*source.Float64(), RatePercent: &rate, RotationMax: 1 + source.IntN(20),
			ChainCounts: []cost.ChainCount{
				{AtPercent: 0.3 + 0.5*source.Float64(), Chains: 0.5 + 8*source.Float64()},
				{AtPercent: 0.9 + 0.6*source.Float64(), Chains: 0.2 + 4*source.Float64()},
			},
		}
		if _, err := cost.Calculate(r); err == nil {
			return r
		}
	}
}

// Generated: every cost is finite and positive, best is the least, dearer parts
// and faster wear never cost less, a bigger rotation retires its chains earlier.
func TestCalculate_properties(t *testing.T) {
	source := rand.New(rand.NewPCG(5, 8))
	for range 1000 {
		r := random(t, source)
		a, err := cost.Calculate(r)
		require.NoError(t, err)
		_, err = wire.Write(a)
		require.NoError(t, err)
		last := math.Inf(1)
		for _, p := range a.Policies {
			require.Greater(t, p.CostPer1000KM, 0.0)
			require.LessOrEqual(t, a.Best.CostPer1000KM, p.CostPer1000KM)
			if p.Kind == cost.Rotation {
				require.LessOrEqual(t, p.ChangeAtPercent, last)
				last = p.ChangeAtPercent
			}
		}
		require.LessOrEqual(t, a.FlatRangePercent[0], a.CheapestLimitPercent)
		require.GreaterOrEqual(t, a.FlatRangePercent[1], a.CheapestLimitPercent)

		dearer, faster := *r, *r
		dearer.Prices = cost.Prices{Chain: r.Prices.Chain + 100, Sprockets: r.Prices.Sprockets + 10, Chainring: r.Prices.Chainring + 1}
		rate := *r.RatePercent * 1.3
		faster.RatePercent = &rate
		for _, more := range []*cost.Request{&dearer, &faster} {
			b, err := cost.Calculate(more)
			require.NoError(t, err)
			for i := range a.Policies {
				require.Greater(t, b.Policies[i].CostPer1000KM, a.Policies[i].CostPer1000KM)
			}
		}
	}
}

func TestCalculate_bad(t *testing.T) {
	const prices = `{"prices":{"chain":3500,"sprockets":6000,"chainring":5000}`
	for _, row := range []struct {
		name, json string
		code       fault.Code
		field      string
	}{
		{"no prices", `{"currency":"EUR","rate_percent_per_1000_km":0.15}`, fault.MissingField, "prices"},
		{"negative price", `{"prices":{"chain":-1,"sprockets":6000,"chainring":5000},"currency":"EUR","rate_percent_per_1000_km":0.15}`, fault.OutOfRange, "prices.chain"},
		{"free chain", `{"prices":{"chain":0,"sprockets":6000,"chainring":5000},"currency":"EUR","rate_percent_per_1000_km":0.15}`, fault.OutOfRange, "prices.chain"},
		{"half a cent", `{"prices":{"chain":3500,"sprockets":60.5,"chainring":5000},"currency":"EUR","rate_percent_per_1000_km":0.15}`, fault.WrongType, "prices.sprockets"},
		{"huge price", `{"prices":{"chain":3500,"sprockets":1e12,"chainring":5000},"currency":"EUR","rate_percent_per_1000_km":0.15}`, fault.OutOfRange, "prices.sprockets"},
		{"no currency", prices + `,"rate_percent_per_1000_km":0.15}`, fault.MissingField, "currency"},
		{"small letters", prices + `,"currency":"eur","rate_percent_per_1000_km":0.15}`, fault.NotAllowed, "currency"},
		{"sign", prices + `,"currency":"E€R","rate_percent_per_1000_km":0.15}`, fault.NotAllowed, "currency"},
		{"long currency", prices + `,"currency":"EURO","rate_percent_per_1000_km":0.15}`, fault.OutOfRange, "currency"},
		{"no rate", prices + `,"currency":"EUR"}`, fault.MissingField, "rate_percent_per_1000_km"},
		{"zero rate", example[:len(example)-4] + `0}`, fault.OutOfRange, "rate_percent_per_1000_km"},
		{"rate outside its range", example + `,"rate_range_percent_per_1000_km":[0.2,0.3]}`, fault.Contradiction, "rate_range_percent_per_1000_km"},
		{"range without rate", prices + `,"currency":"EUR","rate_range_percent_per_1000_km":[0.2,0.3]}`, fault.MissingField, "rate_percent_per_1000_km"},
		{"limit below", example + `,"change_at_percent":[0.05]}`, fault.OutOfRange, "change_at_percent[0]"},
		{"no limits", example + `,"change_at_percent":[]}`, fault.OutOfRange, "change_at_percent"},
		{"rotation of none", example + `,"rotation_max":0}`, fault.OutOfRange, "rotation_max"},
		{"one count", example + `,"chains_per_sprockets":[{"at_percent":0.5,"chains":4}]}`, fault.OutOfRange, "chains_per_sprockets"},
		{"zero chains", example + `,"chains_per_sprockets":[{"at_percent":0.5,"chains":0},{"at_percent":1,"chains":1}]}`, fault.OutOfRange, "chains_per_sprockets[0].chains"},
		{"same elongation", example + `,"chains_per_sprockets":[{"at_percent":0.5,"chains":4},{"at_percent":0.5,"chains":2}]}`, fault.Contradiction, "chains_per_sprockets"},
		{"worn chains spare sprockets", example + `,"chains_per_sprockets":[{"at_percent":0.5,"chains":4},{"at_percent":1,"chains":5}]}`, fault.Contradiction, "chains_per_sprockets"},
		{"steeper than the cube", example + `,"chains_per_sprockets":[{"at_percent":0.5,"chains":40},{"at_percent":1,"chains":1}]}`, fault.Contradiction, "chains_per_sprockets"},
		{"rate and forecast", example + `,"forecast":{"limit_percent":0.75}}`, fault.Contradiction, "forecast"},
		{"range and forecast", noRate + `,"rate_range_percent_per_1000_km":[0.1,0.2],"forecast":{"limit_percent":0.75}}`, fault.Contradiction, "rate_range_percent_per_1000_km"},
		{"forecast without limit", noRate + `,"forecast":{"care":"usual"}}`, fault.MissingField, "forecast.limit_percent"},
		{"now before a reading", noRate + `,"forecast":{"limit_percent":0.75,"now_km":5,"readings":[{"at_km":9,"reading":{"kind":"rule","pitches":24,"span_mm":305}}]}}`, fault.Contradiction, "forecast.now_km"},
		{"bad reading", noRate + `,"forecast":{"limit_percent":0.75,"readings":[{"at_km":9,"reading":{"kind":"rule","pitches":24}}]}}`, fault.MissingField, "forecast.readings[0].reading.span_mm"},
		{"typo", example + `,"rotation_maximum":3}`, fault.UnknownField, "rotation_maximum"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var r cost.Request
			err := wire.Read([]byte(row.json), &r)
			if err == nil {
				_, err = cost.Calculate(&r)
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
	var r cost.Request
	require.NoError(b, wire.Read([]byte(example+`}`), &r))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := cost.Calculate(&r); err != nil {
			b.Fatal(err)
		}
	}
}
