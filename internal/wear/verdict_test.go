package wear

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/words"
)

// The bounds of the verdicts, from either side. The rules are our contract's:
// more than 10 % plans, 50 % or a best estimate at the limit changes, 0.25 %
// beyond it or more than 1.0 % on a derailleur asks for the sprockets too, and
// beyond 3 % or below -0.5 % it is no chain.
func TestMeasurement_decide(t *testing.T) {
	const bit = 1e-6
	for _, row := range []struct {
		estimate, limit, probability float64
		drive                        chain.Drive
		verdict                      Verdict
	}{
		{0.3, 0.5, 0.1, chain.Derailleur, Ride},
		{0.3, 0.5, 0.1 + bit, chain.Derailleur, Plan},
		{0.4, 0.5, 0.5 - bit, chain.Derailleur, Plan},
		{0.4, 0.5, 0.5, chain.Derailleur, Change},
		{0.5 - bit, 0.5, 0.4, chain.Derailleur, Plan},
		{0.5 - 1e-12, 0.5, 0.4, chain.Derailleur, Change},
		{0.5, 0.5, 0, chain.Hub, Change},
		{0.75 - bit, 0.5, 1, chain.Hub, Change},
		{0.75 - 1e-12, 0.5, 1, chain.Hub, ChangeAndInspect},
		{1, 1, 0.5, chain.Derailleur, Change},
		{1 + bit, 1, 0.5, chain.Derailleur, ChangeAndInspect},
		{1 + bit, 1, 0.5, chain.Single, Change},
		{1 + bit, 3, 0, chain.Derailleur, ChangeAndInspect},
		{3, 3, 0.5, chain.Hub, Change},
		{3 + bit, 3, 0.5, chain.Hub, MeasureAgain},
		{-0.5, 0.5, 0, chain.Hub, Ride},
		{-0.5 - bit, 0.5, 0, chain.Hub, MeasureAgain},
	} {
		m := &measurement{estimate: row.estimate}
		assert.Equal(t, row.verdict, m.decide(row.limit, row.probability, row.drive), row)
	}
}

func codesOf(t *testing.T, r *Response) []string {
	t.Helper()
	var codes []string
	for _, n := range slices.Concat(r.Reasons, r.NextSteps, r.Cautions) {
		codes = append(codes, n.Code)
	}
	return codes
}

// A gauge whose largest step dropped says nothing of how far the chain has gone
// beyond it: knowing less must never be kinder. Our rule; a chain that takes
// 0.5 % and stays out at 1.5 % is changed.
func TestCalculate_nothingLargerTried(t *testing.T) {
	answer := func(limit float64, steps ...Step) *Response {
		a, err := Calculate(&Request{Drive: chain.Single, PitchMM: 12.7, LimitPercent: &limit,
			Reading: Reading{Kind: Gauge, Steps: steps, BearsOn: SameSide}})
		require.NoError(t, err)
		return a
	}
	open := answer(1, Step{0.5, true})
	assert.Equal(t, Plan, open.Verdict)
	assert.Contains(t, codesOf(t, open), "gauge_open_high")
	assert.Equal(t, "next_larger_step", open.NextSteps[0].Code)
	assert.NotContains(t, codesOf(t, open), "probability_is", "the chance rests on an assumption")
	assert.NotContains(t, codesOf(t, open), "probability_small")
	assert.Equal(t, Change, answer(1, Step{0.5, true}, Step{1.5, false}).Verdict)

	closed := answer(1, Step{0.5, true}, Step{0.75, false})
	assert.Equal(t, Ride, closed.Verdict)
	assert.NotContains(t, codesOf(t, closed), "gauge_open_high")
	assert.NotContains(t, codesOf(t, closed), "gauge_open_low")
	assert.NotContains(t, codesOf(t, closed), "next_larger_step")
	assert.Contains(t, codesOf(t, answer(1, Step{0.5, false})), "gauge_open_low")

	worse := answer(0.8, Step{0.75, true})
	assert.Equal(t, Change, worse.Verdict)
	assert.Contains(t, codesOf(t, worse), "probability_is")

	strictness := []Verdict{Ride, Plan, Change, ChangeAndInspect}
	for _, limit := range []float64{0.3, 0.5, 0.75, 1, 2} {
		for lo := 0.05; lo < 2; lo += 0.05 {
			asked := slices.Index(strictness, answer(limit, Step{lo, true}).Verdict)
			for hi := lo + 0.05; hi <= lo+0.5; hi += 0.05 {
				known := slices.Index(strictness, answer(limit, Step{lo, true}, Step{hi, false}).Verdict)
				assert.GreaterOrEqual(t, asked, known, "%v %v %v", limit, lo, hi)
			}
		}
	}
}

// What is said and when. Common practice, no source.
func TestCalculate_says(t *testing.T) {
	ask := func(limit float64, r Reading) *Response {
		a, err := Calculate(&Request{Drive: chain.Single, PitchMM: 12.7, LimitPercent: &limit, Reading: r})
		require.NoError(t, err)
		return a
	}
	photo := func(percent, u float64) Reading {
		return Reading{Kind: Photo, Pitches: 20, ElongationPercent: percent, StandardUncertaintyPercent: u}
	}
	t.Run("numbers", func(t *testing.T) {
		a := ask(0.6, photo(0.5, 0.1))
		assert.Equal(t, "Elongation is 0.50 %, give or take 0.20 % (95 times in 100).", a.Reasons[0].Text()) // 1.96 · 0.1015
		assert.Equal(t, "The limit for this drive is 0.60 %.", a.Reasons[1].Text())
		assert.Equal(t, "The chance that the chain is past the limit is 16 %.", a.Reasons[2].Text()) // 1 - Phi(0.985)
		assert.Equal(t, "Elongation is 0.00 %, give or take 0.20 % (95 times in 100).", ask(0.6, photo(-0.001, 0.1)).Reasons[0].Text())
	})
	t.Run("never certain", func(t *testing.T) {
		for _, row := range []struct { // 1 % and 99 % lie 2.3263 u from the limit
			percent float64
			code    string
		}{{0.26, "probability_small"}, {0.27, "probability_is"}, {0.73, "probability_is"}, {0.74, "probability_large"}} {
			assert.Contains(t, codesOf(t, ask(0.5, photo(row.percent, 0.1))), row.code)
		}
	})
	t.Run("new chain", func(t *testing.T) {
		assert.Contains(t, codesOf(t, ask(0.75, photo(0.149, 0.05))), "new_may_be_long")
		assert.NotContains(t, codesOf(t, ask(0.75, photo(0.151, 0.05))), "new_may_be_long")
		assert.NotContains(t, codesOf(t, ask(0.15, photo(0.1, 0.05))), "new_may_be_long", "only where riding on is fine")
		gauge := Reading{Kind: Gauge, Steps: []Step{{0.2, false}}, BearsOn: SameSide}
		assert.NotContains(t, codesOf(t, ask(0.75, gauge)), "new_may_be_long")
	})
	t.Run("coarse", func(t *testing.T) {
		assert.Contains(t, codesOf(t, ask(0.75, photo(0.6, 0.19))), "measure_finer")
		assert.NotContains(t, codesOf(t, ask(0.75, photo(0.6, 0.18))), "measure_finer")
		assert.NotContains(t, codesOf(t, ask(0.75, photo(0.8, 0.3))), "measure_finer", "a change is not put off")
	})
	t.Run("slack", func(t *testing.T) {
		slack := ask(0.75, photo(-0.25, 0.1))
		assert.Contains(t, codesOf(t, slack), "reads_short")
		assert.Equal(t, "next_pull_straight", slack.NextSteps[0].Code)
		assert.NotContains(t, codesOf(t, slack), "new_may_be_long", "that would be a comfort")
		assert.NotContains(t, codesOf(t, ask(0.75, photo(-0.15, 0.1))), "reads_short", "within its doubt it may be new")
	})
	t.Run("beyond belief", func(t *testing.T) {
		long := ask(1, photo(3.4, 0.1))
		assert.Subset(t, codesOf(t, long), []string{"not_a_chain", "next_measure_again", "next_if_again", "next_do_not_rely", "caution_part"})
		assert.NotContains(t, codesOf(t, long), "reads_short")
		assert.NotContains(t, codesOf(t, long), "count_again", "20.68 pitches are 3.4 % too long for 20 and 1.5 % too short for 21")
		assert.Contains(t, ask(1, photo(5.6, 0.1)).Reasons, words.N("count_again", words.V("counted", 20, 0), words.V("fits", 21, 0))) // 21.12
		few := photo(4.9, 0.1)
		few.Pitches = 1
		assert.NotContains(t, codesOf(t, ask(1, few)), "count_again")
		few.ElongationPercent = -5
		assert.NotContains(t, codesOf(t, ask(1, few)), "count_again")
		short := codesOf(t, ask(1, photo(-0.6, 0.1)))
		assert.Contains(t, short, "not_a_chain")
		assert.NotContains(t, short, "next_if_again")
		assert.NotContains(t, short, "reads_short")
		assert.NotContains(t, short, "caution_part")
		step := codesOf(t, ask(1, Reading{Kind: Gauge, Steps: []Step{{2.9, true}}, BearsOn: SameSide}))
		assert.Subset(t, step, []string{"not_a_chain_gauge", "next_gauge_again", "next_if_again"})
		assert.NotContains(t, step, "next_measure_again", "nothing was counted")
	})
	t.Run("beside a new chain", func(t *testing.T) {
		assert.Contains(t, codesOf(t, ask(1, Reading{Kind: Compare, Pitches: 100, GrowthMM: 5})), "compare_hides")
		assert.NotContains(t, codesOf(t, ask(1, Reading{Kind: Compare, Pitches: 100, GrowthMM: 1})), "new_may_be_long", "it is longer than new")
	})
	// The Complete Guide to Chain, 2.2.4: 1.5 to 2.0 % is the most allowed.
	t.Run("not even home", func(t *testing.T) {
		for _, row := range []struct {
			limit, percent float64
			code, not      string
		}{{1, 1.49, "next_change", "next_stop"}, {1, 1.5, "next_stop", "next_change"}, {1, 2.99, "next_stop", "next_change"}, {1.6, 1.6, "next_stop", "next_change"}} {
			said := codesOf(t, ask(row.limit, photo(row.percent, 0.05)))
			assert.Contains(t, said, row.code, row)
			assert.NotContains(t, said, row.not, row)
		}
		assert.NotContains(t, codesOf(t, ask(3, photo(1.6, 0.05))), "next_stop")
	})
	t.Run("no bias, no word of it", func(t *testing.T) {
		r := photo(0.5, 0.1)
		r.BiasPercent = ptr(0)
		said := codesOf(t, ask(1, r))
		assert.NotContains(t, said, "bias_added")
		assert.NotContains(t, said, "bias_subtracted")
		bare := Reading{Kind: Caliper, Pitches: 10, InsideMM: 120, RollerMM: 7.75, RollerPlayMM: ptr(0)}
		assert.NotContains(t, codesOf(t, ask(1, bare)), "play_subtracted")
		bare.RollerPlayMM = ptr(0.1)
		assert.Contains(t, codesOf(t, ask(1, bare)), "play_subtracted")
	})
}
