package drive_test

import (
	"cmp"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/drive"
	"tautspan/internal/engine"
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

func centre(t *testing.T, request string) *drive.CentreResponse {
	t.Helper()
	r := &drive.CentreRequest{}
	require.NoError(t, wire.Read([]byte(request), r))
	answer, err := drive.Centre(r)
	require.NoError(t, err)
	return answer
}

func option(t *testing.T, options []drive.Option, pitches int) drive.Option {
	t.Helper()
	for _, o := range options {
		if o.Pitches == pitches {
			return o
		}
	}
	t.Fatalf("no option of %d pitches", pitches)
	return drive.Option{}
}

// Distance for a whole number of pitches. 21/63 is Bhandari, Design of Machine
// Elements, ex. 14.3, whose handbook formula is good to 0.02 mm here; the others
// were computed independently from the exact formula for our reference values.
func TestCentre_taut(t *testing.T) {
	for _, row := range []struct {
		request   string
		pitches   int
		centreMM  float64
		tolerance float64
	}{
		{`{"centre_mm":500,"adjust_mm":[-5,5],"chainring":63,"sprocket":21}`, 122, 500.804717, 0.02},
		{`{"centre_mm":415,"adjust_mm":[-5,20],"chainring":44,"sprocket":16}`, 96, 415.2371, 6e-5},
		{`{"centre_mm":415,"adjust_mm":[-5,20],"chainring":44,"sprocket":16}`, 98, 428.0531, 6e-5},
		{`{"centre_mm":410,"chainring":42,"sprocket":16}`, 94, 409.3721, 6e-5},
		{`{"centre_mm":435,"chainring":44,"sprocket":18}`, 100, 434.9714, 6e-5},
		{`{"centre_mm":375,"chainring":21,"sprocket":21}`, 80, 374.65, 1e-9},
	} {
		o := option(t, centre(t, row.request).Options, row.pitches)
		assert.InDelta(t, row.centreMM, o.CentreMM, row.tolerance, row.request)
	}
	pair := centre(t, `{"centre_mm":415,"adjust_mm":[-5,20],"chainring":44,"sprocket":16}`)
	shift := option(t, pair.Options, 98).ShiftMM - option(t, pair.Options, 96).ShiftMM
	assert.InDelta(t, 12.8, shift, 0.05, "one link pair moves the axle about 12.8 mm")
	assert.InDelta(t, 95.963006, pair.ExactPitches, 6e-7)
}

// A centre distance of 415 mm and a play of 15 mm need 0.271 mm of spare chain
// (common practice, computed for our reference values); the straight triangle of
// a run pushed aside gives the same.
func TestPlayMM(t *testing.T) {
	assert.InDelta(t, 0.271, drive.SpareForPlayMM(415, 15), 5e-4)
	assert.InDelta(t, 2*math.Hypot(415.0/2, 15.0/2)-415, drive.SpareForPlayMM(415, 15), 1e-9)
	assert.InDelta(t, 15, drive.PlayMM(415, drive.SpareForPlayMM(415, 15)), 1e-9)
	assert.Zero(t, drive.PlayMM(415, -0.1))
	assert.Zero(t, drive.PlayMM(415, 0))
	assert.Greater(t, drive.PlayMM(415, 0.2), drive.PlayMM(415, 0.1))
}

// Radius rise of a worn chain: 1 % on 11 and on 52 teeth lifts it by 0.225 and
// 1.052 mm (computed independently for our reference values), and the axle moves
// by the same percentage.
func TestCentre_worn(t *testing.T) {
	fresh := centre(t, `{"centre_mm":500,"adjust_mm":[-20,20],"chainring":52,"sprocket":11}`)
	worn := centre(t, `{"centre_mm":500,"adjust_mm":[-20,20],"chainring":52,"sprocket":11,"elongation_percent":1}`)
	assert.InDelta(t, 1.052, worn.Drawing.RingRadiusMM-fresh.Drawing.RingRadiusMM, 5e-4)
	assert.InDelta(t, 0.225, worn.Drawing.SprocketRadiusMM-fresh.Drawing.SprocketRadiusMM, 5e-4)
	assert.InDelta(t, 1.01*option(t, fresh.Options, 112).CentreMM, option(t, worn.Options, 112).CentreMM, 1e-9)
	assert.Less(t, worn.ExactPitches, fresh.ExactPitches)
	assert.Contains(t, codes(worn.Warnings), "past_single_limit")
}

func TestCentre_whenNothingFits(t *testing.T) {
	request := `{"centre_mm":421.5,"adjust_mm":[-2,2],"chainring":44,"sprocket":16`
	even := centre(t, request+`}`)
	assert.Nil(t, even.Pitches)
	assert.Zero(t, even.WearReservePercent)
	assert.Equal(t, []string{"no_count_fits", "half_link_would_fit"}, codes(even.Warnings))
	assert.Equal(t, drive.Tight, option(t, even.Options, 96).State)
	assert.Equal(t, drive.Slack, option(t, even.Options, 98).State)

	odd := centre(t, request+`,"half_link_allowed":true}`)
	require.NotNil(t, odd.Pitches)
	assert.Equal(t, 97, *odd.Pitches)
	assert.True(t, option(t, odd.Options, 97).HalfLink)
	assert.Contains(t, codes(odd.Cautions), "caution_half_link")

	still := centre(t, `{"centre_mm":421.5,"chainring":44,"sprocket":16}`)
	assert.Contains(t, codes(still.Warnings), "new_chain_play")
}

// Where two counts fit, the shorter one leaves more wear reserve and is chosen;
// a half link only where nothing else fits.
func TestCentre_choice(t *testing.T) {
	answer := centre(t, `{"centre_mm":415,"adjust_mm":[-5,20],"chainring":44,"sprocket":16,"half_link_allowed":true}`)
	assert.True(t, option(t, answer.Options, 97).Fits)
	assert.True(t, option(t, answer.Options, 98).Fits)
	assert.Equal(t, 96, *answer.Pitches)
	assert.Equal(t, option(t, answer.Options, 96).WearReservePercent, answer.WearReservePercent)
	assert.Greater(t, answer.WearReservePercent, option(t, answer.Options, 98).WearReservePercent)
}

// An even count is chosen before a half link, though that leaves more reserve.
func TestCentre_evenFirst(t *testing.T) {
	answer := centre(t, `{"centre_mm":421,"adjust_mm":[-1,20],"chainring":44,"sprocket":16,"half_link_allowed":true}`)
	assert.True(t, option(t, answer.Options, 97).Fits)
	assert.Greater(t, option(t, answer.Options, 97).WearReservePercent, option(t, answer.Options, 98).WearReservePercent)
	assert.Equal(t, 98, *answer.Pitches)
	assert.Equal(t, option(t, answer.Options, 98).WearReservePercent, answer.WearReservePercent)
	assert.NotContains(t, codes(answer.Cautions), "caution_half_link")
}

// Where the axle can move freely it is put where the play is the middle of what
// is wanted, however much that is.
func TestCentre_middleOfThePlay(t *testing.T) {
	for _, slack := range []string{"[10,15]", "[0,100]", "[60,100]"} {
		o := option(t, centre(t, `{"centre_mm":415,"adjust_mm":[-30,30],"chainring":52,"sprocket":11,"slack_mm":`+slack+`}`).Options, 98)
		want := map[string]float64{"[10,15]": 12.5, "[0,100]": 50, "[60,100]": 80}[slack]
		assert.InDelta(t, want, o.PlayMM, 1e-7)
		straight := o.Drawing.StraightMM
		spare := 12.7 * (98 - exactPitches(52, 11, (415+o.AxleShiftMM)/12.7))
		assert.InDelta(t, want, math.Sqrt(math.Pow(straight+spare, 2)-straight*straight), 1e-6)
	}
}

// What is said and when. Common practice, no source; 0.15 % is ISO 606 as quoted
// by an industrial maker.
func TestCentre_says(t *testing.T) {
	request := `{"centre_mm":415,"chainring":44,"sprocket":16,"adjust_mm":`
	tight := centre(t, request+`[-2,2]}`)
	require.Equal(t, []string{"reserve_short"}, codes(tight.Warnings))
	assert.Equal(t, "The adjustment is used up at 0.46 % elongation, before the chain reaches its limit of 1.0 %.", tight.Warnings[0].Text())
	assert.Equal(t, []string{"next_centre_tightest", "next_centre_line_up", "next_centre_guard"}, codes(tight.NextSteps))
	assert.Equal(t, []string{"caution_play", "caution_fixed", "caution_closure", "caution_fingers", "caution_guidance"}, codes(tight.Cautions))
	assert.Empty(t, centre(t, request+`[-20,20]}`).Warnings)
	assert.InDelta(t, 0.46, 0.2+centre(t, request+`[-2,2],"elongation_percent":0.2}`).WearReservePercent, 0.005, "taken up or still to come")
	assert.Contains(t, codes(centre(t, request+`[-2,2],"elongation_percent":0.2}`).Warnings), "reserve_short")
	assert.Contains(t, codes(centre(t, request+`[-20,20],"elongation_percent":1}`).Warnings), "past_single_limit")
	assert.NotContains(t, codes(centre(t, request+`[-20,20],"elongation_percent":0.999}`).Warnings), "past_single_limit")

	// 415.12 mm is 0.12 mm less than 96 pitches want; a run of 411 mm with 0.15 %
	// of both runs to spare moves 32 mm: sqrt(1.233 · (822 + 1.233)) (by hand).
	still := centre(t, `{"centre_mm":415.12,"chainring":44,"sprocket":16}`)
	require.Equal(t, []string{"new_chain_play", "reserve_short", "play_cannot_be_set"}, codes(still.Warnings))
	assert.Contains(t, still.Warnings[0].Text(), "up to 0.15 % longer than nominal. With the axle where it is, that alone can give 32 mm of play")
}

// The wrap of the small wheel in Mott, Machine Elements, chain example: 17 and 65
// teeth of 3/4 in, 39.766 pitches apart, 158 degrees (from memory, 157.882
// computed). It stays with the wheel when ring and sprocket change places.
func TestDrawing_wrap(t *testing.T) {
	small := centre(t, `{"centre_mm":757.5423,"chainring":65,"sprocket":17,"pitch_mm":19.05}`).Drawing
	assert.InDelta(t, 157.882, small.SprocketWrapDeg, 5e-4)
	assert.InDelta(t, 360-157.882, small.RingWrapDeg, 5e-4)
	swapped := centre(t, `{"centre_mm":757.5423,"chainring":17,"sprocket":65,"pitch_mm":19.05}`).Drawing
	assert.Equal(t, small.SprocketWrapDeg, swapped.RingWrapDeg)
	assert.Equal(t, small.RingWrapDeg, swapped.SprocketWrapDeg)
	assert.Equal(t, small.LeanDeg, swapped.LeanDeg)
}

// exactPitches is the contract's formula written out for the pair search.
func exactPitches(ring, sprocket int, centre float64) float64 {
	z1, z2 := float64(max(ring, sprocket)), float64(min(ring, sprocket))
	r1, r2 := 0.5/math.Sin(math.Pi/z1), 0.5/math.Sin(math.Pi/z2)
	alpha := math.Asin((r1 - r2) / centre)
	return 2*math.Sqrt(centre*centre-(r1-r2)*(r1-r2)) + z1*(math.Pi+2*alpha)/(2*math.Pi) + z2*(math.Pi-2*alpha)/(2*math.Pi)
}

// Every pair that a plain walk through the search finds is in the answer, in
// order, and no other fits.
func TestCentre_search(t *testing.T) {
	answer := centre(t, `{"centre_mm":409.2,"chainring":44,"sprocket":16,"slack_mm":[8,20],
		"search":{"chainrings":[34,52],"sprockets":[12,24],"ratio":[2,3]}}`)
	want := map[[2]int]float64{}
	for ring := 34; ring <= 52; ring++ {
		for sprocket := 12; sprocket <= 24; sprocket++ {
			if ring < 2*sprocket || ring > 3*sprocket {
				continue
			}
			exact := exactPitches(ring, sprocket, 409.2/12.7)
			excess := 12.7 * (2*math.Ceil(exact/2) - exact)
			straight := 409.2 // a little too long a run: within half a percent of the play
			if play := math.Sqrt((straight+excess)*(straight+excess) - straight*straight); play >= 8.1 && play <= 19.9 {
				want[[2]int{ring, sprocket}] = excess
			}
		}
	}
	require.NotEmpty(t, want)
	fitting := map[[2]int]float64{}
	for i, p := range answer.Pairs {
		if p.Fits {
			fitting[[2]int{p.Ring, p.Sprocket}] = p.ExcessMM
			assert.InDelta(t, exactPitches(p.Ring, p.Sprocket, 409.2/12.7), float64(p.Pitches)-p.ExcessMM/12.7, 1e-9)
			assert.Zero(t, p.Pitches%2)
		}
		if i > 0 {
			assert.False(t, p.Fits && !answer.Pairs[i-1].Fits, "fitting pairs come first")
		}
	}
	assert.Len(t, fitting, len(want))
	for pair, excess := range want {
		assert.InDelta(t, excess, fitting[pair], 1e-6, "%v", pair)
	}
}

// The whole list in order, against a plain walk and sort: all pairs with room for
// both wheels and a ratio asked for, by how far their play is from the middle of
// what is wanted, the first sixteen.
func TestCentre_searchOrder(t *testing.T) {
	type pair struct {
		ring, sprocket int
		off            float64
	}
	var all []pair
	const centreMM = 160.0
	for ring := 34; ring <= 60; ring++ {
		for sprocket := 14; sprocket <= 24; sprocket++ {
			room := chain.PitchRadiusMM(ring, 12.7) + chain.PitchRadiusMM(sprocket, 12.7)
			if ratio := float64(ring) / float64(sprocket); room >= centreMM || ratio < 1.5 || ratio > 4 {
				continue
			}
			rise := chain.PitchRadiusMM(ring, 12.7) - chain.PitchRadiusMM(sprocket, 12.7)
			straight := math.Sqrt(centreMM*centreMM - rise*rise)
			exact := exactPitches(ring, sprocket, centreMM/12.7)
			spare := (2*math.Ceil(exact/2-1e-9) - exact) * 12.7
			play := math.Sqrt(math.Pow(straight+spare, 2) - straight*straight)
			all = append(all, pair{ring, sprocket, math.Abs(play - 11)})
		}
	}
	slices.SortStableFunc(all, func(a, b pair) int { return cmp.Compare(a.off, b.off) })
	answer := centre(t, `{"centre_mm":160,"chainring":44,"sprocket":16,"slack_mm":[8,14],
		"search":{"chainrings":[34,60],"sprockets":[14,24],"ratio":[1.5,4]}}`)
	require.Len(t, answer.Pairs, 16)
	for i, p := range answer.Pairs {
		assert.Equal(t, [2]int{all[i].ring, all[i].sprocket}, [2]int{p.Ring, p.Sprocket}, i)
		assert.InDelta(t, all[i].off, math.Abs(p.PlayMM-11), 1e-6)
		assert.Equal(t, all[i].off <= 3, p.Fits)
	}
	one := centre(t, `{"centre_mm":200,"chainring":44,"sprocket":16,"search":{"chainrings":[48,48],"sprockets":[20,20],"ratio":[2.4,2.4]}}`)
	require.Len(t, one.Pairs, 1, "both ends count")
	touching := centre(t, `{"centre_mm":160,"chainring":44,"sprocket":16,"search":{"chainrings":[60,60],"sprockets":[24,24]}}`)
	assert.Empty(t, touching.Pairs)
}

func TestCentre_bad(t *testing.T) {
	for _, row := range []struct {
		name, request, field string
		code                 fault.Code
	}{
		{"reversed play", `{"centre_mm":415,"chainring":44,"sprocket":16,"slack_mm":[15,10]}`, "slack_mm", fault.Contradiction},
		{"reversed adjustment", `{"centre_mm":415,"chainring":44,"sprocket":16,"adjust_mm":[5,-5]}`, "adjust_mm", fault.Contradiction},
		{"wheels touch", `{"centre_mm":120,"chainring":44,"sprocket":16}`, "centre_mm", fault.Contradiction},
		{"adjusted till they touch", `{"centre_mm":160,"adjust_mm":[-60,0],"chainring":44,"sprocket":16}`, "adjust_mm", fault.Contradiction},
		{"search too large", `{"centre_mm":415,"chainring":44,"sprocket":16,"search":{"chainrings":[20,60],"sprockets":[9,30]}}`, "search", fault.OutOfRange},
		{"search just too large", `{"centre_mm":415,"chainring":44,"sprocket":16,"search":{"chainrings":[30,72],"sprockets":[12,18]}}`, "search", fault.OutOfRange}, // 43 · 7
		{"half a sprocket tooth", `{"centre_mm":415,"chainring":44,"sprocket":16,"search":{"chainrings":[40,44],"sprockets":[9,13.5]}}`, "search.sprockets", fault.WrongType},
		{"half a tooth", `{"centre_mm":415,"chainring":44,"sprocket":16,"search":{"chainrings":[40.5,44],"sprockets":[9,30]}}`, "search.chainrings", fault.WrongType},
		{"search reversed", `{"centre_mm":415,"chainring":44,"sprocket":16,"search":{"chainrings":[40,44],"sprockets":[19,13]}}`, "search.sprockets", fault.Contradiction},
		{"search without end", `{"centre_mm":415,"chainring":44,"sprocket":16,"search":{"chainrings":[40,44]}}`, "search.sprockets", fault.MissingField},
		{"elongation", `{"centre_mm":415,"chainring":44,"sprocket":16,"elongation_percent":3.1}`, "elongation_percent", fault.OutOfRange},
		{"no chainring", `{"centre_mm":415,"sprocket":16}`, "chainring", fault.MissingField},
		{"zero pitch", `{"centre_mm":415,"chainring":44,"sprocket":16,"pitch_mm":0}`, "pitch_mm", fault.OutOfRange},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := engine.Call("centre", []byte(row.request))
			var f *fault.Error
			require.True(t, errors.As(err, &f))
			assert.Equal(t, row.field, f.Field)
			assert.Equal(t, row.code, f.Code)
		})
	}
}

// Generated drives: each option is the inverse of the length, what fits has the
// wanted play within the adjustment, and the wear reserve is exactly what the
// adjustment takes up.
func TestCentre_properties(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 3))
	for range 1000 {
		r := &drive.CentreRequest{
			CentreMM: 390 + 200*random.Float64(), PitchMM: 12.7, ElongationPercent: 1.5 * random.Float64(),
			Chainring: 28 + random.IntN(28), Sprocket: 9 + random.IntN(22), HalfLinkAllowed: random.IntN(2) == 0,
			AdjustMM: &[2]float64{-20 * random.Float64(), 20 * random.Float64()},
			SlackMM:  &[2]float64{10 * random.Float64(), 10 + 10*random.Float64()},
		}
		answer, err := drive.Centre(r)
		require.NoError(t, err)
		require.GreaterOrEqual(t, len(answer.Options), 2)
		pitch := r.PitchMM * (1 + r.ElongationPercent/100)
		for _, o := range answer.Options {
			require.InDelta(t, float64(o.Pitches), exactPitches(r.Chainring, r.Sprocket, o.CentreMM/pitch), 1e-9)
			require.InDelta(t, o.CentreMM-r.CentreMM, o.ShiftMM, 1e-9)
			if !r.HalfLinkAllowed {
				require.Zero(t, o.Pitches%2)
			}
			if !o.Fits {
				continue
			}
			require.GreaterOrEqual(t, o.PlayMM, r.SlackMM[0]-1e-5)
			require.LessOrEqual(t, o.PlayMM, r.SlackMM[1]+1e-5)
			require.GreaterOrEqual(t, o.AxleShiftMM, r.AdjustMM[0]-1e-9)
			require.LessOrEqual(t, o.AxleShiftMM, r.AdjustMM[1]+1e-9)

			later := *r
			later.ElongationPercent = r.ElongationPercent + o.WearReservePercent
			require.True(t, stillFits(t, &later, o.Pitches), "with all of the reserve used up")
			later.ElongationPercent += 1e-4
			require.False(t, stillFits(t, &later, o.Pitches), "and no further")
		}
	}
}

func stillFits(t *testing.T, r *drive.CentreRequest, pitches int) bool {
	t.Helper()
	answer, err := drive.Centre(r)
	require.NoError(t, err)
	for _, o := range answer.Options {
		if o.Pitches == pitches {
			return o.Fits
		}
	}
	return false
}

func BenchmarkCentre(b *testing.B)               { benchmark(b, "centre", "horizontal-dropout") }
func BenchmarkCentre_search(b *testing.B)        { benchmark(b, "centre", "vertical-dropout-search") }
func BenchmarkCentre_largestSearch(b *testing.B) { benchmark(b, "centre", "largest-search") }
