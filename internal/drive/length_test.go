package drive_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"os"
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

// length reads a request as every door does and answers it.
func length(t *testing.T, request string) *drive.LengthResponse {
	t.Helper()
	r := readLength(t, request)
	answer, err := drive.Length(r)
	require.NoError(t, err)
	return answer
}

func readLength(t *testing.T, request string) *drive.LengthRequest {
	t.Helper()
	r := &drive.LengthRequest{}
	require.NoError(t, wire.Read([]byte(request), r))
	return r
}

// The rule in inches, 2C + F/4 + R/4 + 1 rounded up to the whole inch: worked
// examples of common workshop practice. The first is printed as 53.5 in =
// 135.89 cm; the others were computed by hand.
func TestLength_ruleOfThumb(t *testing.T) {
	for _, row := range []struct {
		centreIn       float64
		ring, sprocket int
		exactIn        float64
		inches         int
	}{
		{16.25, 52, 28, 53.5, 54},
		{17, 44, 32, 54.0, 54}, // stands at the whole inch and must not be rounded past it
		{16.5, 50, 34, 55.0, 55},
		{17.125, 32, 51, 56.0, 56},
	} {
		answer, err := drive.Length(&drive.LengthRequest{ChainstayMM: row.centreIn * 25.4, Chainrings: []int{row.ring},
			Sprockets: []int{row.sprocket}, AddPitches: 2, PitchMM: 12.7})
		require.NoError(t, err)
		assert.Equal(t, drive.RuleOfThumbFormula, answer.Methods[1].Name)
		assert.InDelta(t, 2*row.exactIn, answer.Methods[1].ExactPitches, 1e-9)
		assert.Equal(t, 2*row.inches, answer.Methods[1].Pitches)
	}
}

// A metric form of the rule multiplies by 0.157 where 2/12.7 belongs. At a 420,
// 44/28 it gives 103.94 and so 104; the rule itself gives 104.14 and so 106. At
// a 435, 32/51 they give 112 and 114.
func TestLength_ruleOfThumb_truncatedFactor(t *testing.T) {
	for _, row := range []struct {
		centreMM       float64
		ring, sprocket int
		exact          float64
		pitches        int
	}{
		{420, 44, 28, 104.1417, 106},
		{435, 32, 51, 112.0039, 114},
	} {
		answer, err := drive.Length(&drive.LengthRequest{ChainstayMM: row.centreMM, Chainrings: []int{row.ring},
			Sprockets: []int{row.sprocket}, AddPitches: 2, PitchMM: 12.7})
		require.NoError(t, err)
		assert.InDelta(t, row.exact, answer.Methods[1].ExactPitches, 1e-4)
		assert.Equal(t, row.pitches, answer.Methods[1].Pitches)
	}
}

// Exact lengths computed independently for our reference values, and rounded up
// to an even count plus one link pair by hand.
func TestLength_largeLargePlus(t *testing.T) {
	answer := length(t, `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51]}`)
	assert.InDelta(t, 110.271080, answer.ExactLargeLarge, 6e-7)
	assert.Equal(t, drive.Method{Name: drive.LargeLargePlus, ExactPitches: answer.ExactLargeLarge, Pitches: 114}, answer.Methods[0])

	answer = length(t, `{"chainstay_mm":430,"longest_chainstay_mm":435,"chainrings":[32],"sprockets":[10,51]}`)
	assert.InDelta(t, 110.271080, answer.ExactLargeLarge, 6e-7, "the suspension where it is longest")
	assert.Less(t, answer.Combinations[1].ExactPitches, answer.ExactLargeLarge, "the combinations at rest")
	assert.InDelta(t, answer.Combinations[1].SparePitchesLongest, float64(answer.Pitches)-answer.ExactLargeLarge, 1e-9)
}

// Capacity as (big ring - small ring) + (big - small sprocket): examples of
// common workshop practice.
func TestLength_capacity(t *testing.T) {
	for _, row := range []struct {
		request string
		needed  int
	}{
		{`{"chainstay_mm":410,"chainrings":[50,34],"sprockets":[11,28],"derailleur":{"capacity_teeth":33}}`, 33},
		{`{"chainstay_mm":430,"chainrings":[30,46],"sprockets":[34,11],"derailleur":{"capacity_teeth":39}}`, 39},
		{`{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51],"derailleur":{"capacity_teeth":41}}`, 41},
	} {
		answer := length(t, row.request)
		assert.Equal(t, row.needed, answer.CapacityNeededTeeth)
		require.NotNil(t, answer.CapacityOK)
		assert.True(t, *answer.CapacityOK)
		for _, c := range answer.Combinations {
			assert.Equal(t, drive.OK, c.State, "a cage that is just large enough, a chain cut by the rule: %+v", c)
			assert.Less(t, *c.CagePercent, 100.0)
		}
	}
	short := length(t, `{"chainstay_mm":410,"chainrings":[50,34],"sprockets":[11,28],"derailleur":{"capacity_teeth":25}}`)
	assert.False(t, *short.CapacityOK)
	assert.Contains(t, codes(short.Warnings), "capacity_short")
	assert.Equal(t, drive.Slack, short.Combinations[2].State, "34/11")

	unknown := length(t, `{"chainstay_mm":410,"chainrings":[50,34],"sprockets":[11,28],"derailleur":{"max_sprocket":25}}`)
	assert.Nil(t, unknown.CapacityOK)
	assert.Nil(t, unknown.Combinations[0].CagePercent)
	assert.Subset(t, codes(unknown.Warnings), []string{"capacity_unknown", "sprocket_too_large"})
}

// What a cage takes up: half a pitch a tooth, for the chain lies on half
// of a wheel, and 4 pitches that the workshop rule leaves. Common practice.
func TestTakeUpPitches(t *testing.T) {
	assert.Equal(t, 20.5, drive.TakeUpPitches(33))
	assert.Equal(t, 4.0, drive.TakeUpPitches(0))
	answer := length(t, `{"chainstay_mm":410,"chainrings":[50,34],"sprockets":[11,28],"derailleur":{"capacity_teeth":33}}`)
	c := answer.Combinations[2]
	assert.InDelta(t, 100*c.SparePitches/20.5, *c.CagePercent, 1e-9)
}

// With nothing added and wheels far apart in size both methods can fall short of
// one pitch to spare: 58/11 at 386 mm takes 97.1378 pitches exactly (the
// contract's formula written out), and both say 98.
func TestLength_raised(t *testing.T) {
	answer := length(t, `{"chainstay_mm":386,"chainrings":[58],"sprockets":[11],"add_pitches":0}`)
	assert.InDelta(t, exactPitches(58, 11, 386/12.7), answer.ExactLargeLarge, 1e-9)
	assert.Equal(t, []int{98, 98}, []int{answer.Methods[0].Pitches, answer.Methods[1].Pitches})
	assert.Equal(t, 100, answer.Pitches)
	assert.InDelta(t, 1270, answer.LengthMM, 1e-9)
	assert.Contains(t, codes(answer.Warnings), "reserve_raised")
	assert.NotContains(t, codes(length(t, `{"chainstay_mm":386,"chainrings":[58],"sprockets":[11]}`).Warnings), "reserve_raised")
}

// What is warned of and when. Common practice, no source.
func TestLength_warns(t *testing.T) {
	const oneRing, twoRings = `{"chainstay_mm":435,"chainrings":[32],`, `{"chainstay_mm":435,"chainrings":[50,34],`
	const unknown = "capacity_unknown"
	for _, row := range []struct {
		request string
		said    []string
	}{
		{oneRing + `"sprockets":[10,51]}`, []string{"one_ring_wide", unknown}},
		{oneRing + `"sprockets":[11,42]}`, []string{"one_ring_wide", unknown}},
		{oneRing + `"sprockets":[11,41]}`, []string{unknown}},
		{twoRings + `"sprockets":[11,42]}`, []string{unknown}},
		{oneRing + `"sprockets":[11,41],"add_pitches":4}`, []string{"methods_differ", unknown}},
		{oneRing + `"sprockets":[11,41],"add_pitches":1}`, []string{"added_rounded", unknown}},
		{oneRing + `"sprockets":[11,41],"add_pitches":1,"half_link_allowed":true}`, []string{"methods_differ", unknown}},
		{oneRing + `"sprockets":[11,41],"stock_pitches":106}`, []string{"stock_short", unknown}},
		{oneRing + `"sprockets":[11,41],"stock_pitches":108}`, []string{unknown}},
		{oneRing + `"sprockets":[11,41],"derailleur":{"capacity_teeth":30,"max_sprocket":41}}`, []string{}},
		{oneRing + `"sprockets":[11,41],"derailleur":{"capacity_teeth":29,"max_sprocket":40}}`, []string{"capacity_short", "sprocket_too_large"}},
	} {
		a := length(t, row.request)
		assert.Equal(t, row.said, codes(a.Warnings), "%s %d %+v", row.request, a.Pitches, a.Methods)
	}
	short := length(t, oneRing+`"sprockets":[11,41],"stock_pitches":104}`)
	assert.Contains(t, short.Warnings[0].Text(), "The stock chain of 104 pitches is 4 too short.")

	rigid := length(t, oneRing+`"sprockets":[11,41]}`)
	assert.Equal(t, []string{"next_length_wrap", "next_length_large", "next_length_small", "next_length_road"}, codes(rigid.NextSteps))
	assert.Equal(t, []string{"caution_suspension", "caution_too_short", "caution_closure", "caution_fingers", "caution_guidance"}, codes(rigid.Cautions))
	sprung := length(t, oneRing+`"sprockets":[11,41],"longest_chainstay_mm":445}`)
	assert.Equal(t, []string{"caution_too_short", "caution_closure", "caution_fingers", "caution_guidance"}, codes(sprung.Cautions))
}

func TestLength_fitted(t *testing.T) {
	request := `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51],"fitted_pitches":`
	short := length(t, request+`110}`)
	assert.Equal(t, 114, short.Pitches, "the recommendation does not follow the chain on the bike")
	assert.Equal(t, drive.Tight, short.Combinations[1].State)
	assert.Equal(t, drive.OK, short.Combinations[0].State)
	assert.Contains(t, codes(short.Warnings), "tight_combinations")

	long := length(t, request+`150}`)
	assert.Equal(t, drive.Slack, long.Combinations[0].State, "no cage takes up so much")
	assert.Contains(t, codes(long.Warnings), "slack_combinations")
}

func TestLength_cut(t *testing.T) {
	for _, row := range []struct {
		name, request  string
		pitches        int
		remove         int
		cut            drive.Cut
		stockIsTooFew  bool
		needsAHalfLink bool
	}{
		{"even from even", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51],"stock_pitches":120}`,
			114, 6, drive.Cut{KeepPairs: 57, RemovePairs: 3}, false, false},
		{"nothing to cut", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51],"stock_pitches":114}`,
			114, 0, drive.Cut{KeepPairs: 57}, false, false},
		{"too short", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51],"stock_pitches":110}`,
			114, -4, drive.Cut{KeepPairs: 55, MissingPairs: 2}, true, false},
		{"even from odd", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51],"stock_pitches":117}`,
			114, 3, drive.Cut{KeepPairs: 57, RemovePairs: 1, RemoveHalfLinks: 1}, false, false},
		{"even from odd, too short", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51],"stock_pitches":113}`,
			114, -1, drive.Cut{KeepPairs: 56, RemoveHalfLinks: 1, MissingPairs: 1}, true, false},
		{"odd from even", `{"chainstay_mm":405.4,"chainrings":[44],"sprockets":[16,20],"half_link_allowed":true,"stock_pitches":112}`,
			99, 13, drive.Cut{KeepPairs: 49, HalfLinks: 1, RemovePairs: 7}, false, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			answer := length(t, row.request)
			assert.Equal(t, row.pitches, answer.Pitches)
			assert.Equal(t, row.remove, *answer.RemovePitches)
			assert.Equal(t, row.cut, *answer.Cut)
			assert.Equal(t, row.stockIsTooFew, slices.Contains(codes(answer.Warnings), "stock_short"))
			assert.Equal(t, row.needsAHalfLink, answer.HalfLink)
			assert.Equal(t, row.needsAHalfLink, slices.Contains(codes(answer.Cautions), "caution_half_link"))
		})
	}
	assert.Nil(t, length(t, `{"chainstay_mm":435,"chainrings":[32],"sprockets":[10,51]}`).RemovePitches)
}

func TestLength_bad(t *testing.T) {
	for _, row := range []struct {
		name, request, field string
		code                 fault.Code
	}{
		{"longest below rest", `{"chainstay_mm":435,"longest_chainstay_mm":434,"chainrings":[32],"sprockets":[11]}`, "longest_chainstay_mm", fault.Contradiction},
		{"ring twice", `{"chainstay_mm":435,"chainrings":[32,32],"sprockets":[11]}`, "chainrings[1]", fault.Contradiction},
		{"sprocket twice", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[11,13,11]}`, "sprockets[2]", fault.Contradiction},
		{"wheels touch", `{"chainstay_mm":150,"chainrings":[52],"sprockets":[36]}`, "chainstay_mm", fault.Contradiction},
		{"no teeth", `{"chainstay_mm":435,"chainrings":[0],"sprockets":[11]}`, "chainrings[0]", fault.OutOfRange},
		{"half a tooth", `{"chainstay_mm":435,"chainrings":[32.5],"sprockets":[11]}`, "chainrings[0]", fault.WrongType},
		{"negative", `{"chainstay_mm":-435,"chainrings":[32],"sprockets":[11]}`, "chainstay_mm", fault.OutOfRange},
		{"huge", `{"chainstay_mm":1e308,"chainrings":[32],"sprockets":[11]}`, "chainstay_mm", fault.OutOfRange},
		{"too many sprockets", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[11,12,13,14,15,16,17,18,19,20,21,22,23,24,25]}`, "sprockets", fault.OutOfRange},
		{"typo", `{"chainstay_mm":435,"chainrings":[32],"sprockets":[11],"derailleur":{"capacity":33}}`, "derailleur.capacity", fault.UnknownField},
		{"nothing", `{}`, "chainstay_mm", fault.MissingField},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := engine.Call("length", []byte(row.request))
			var f *fault.Error
			require.True(t, errors.As(err, &f))
			assert.Equal(t, row.field, f.Field)
			assert.Equal(t, row.code, f.Code)
		})
	}
}

// Generated drives hold what a rider relies on.
func TestLength_properties(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 2))
	for range 3000 {
		r := generated(random)
		answer, err := drive.Length(r)
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(answer.Pitches), answer.ExactLargeLarge+chain.LeastSparePitches)
		require.Len(t, answer.Combinations, len(r.Chainrings)*len(r.Sprockets))
		for _, c := range answer.Combinations {
			require.NotEqual(t, drive.Tight, c.State, "%+v in %+v", c, r)
			require.LessOrEqual(t, c.SparePitchesLongest, c.SparePitches)
		}
		if !r.HalfLinkAllowed {
			require.Zero(t, answer.Pitches%2)
		}
		for _, m := range answer.Methods {
			require.GreaterOrEqual(t, answer.Pitches, m.Pitches)
		}
		require.GreaterOrEqual(t, answer.Methods[0].Pitches, closedUp(answer.ExactLargeLarge, r.HalfLinkAllowed)+r.AddPitches)

		for _, longer := range grown(r) {
			other, err := drive.Length(longer)
			require.NoError(t, err)
			require.GreaterOrEqual(t, other.Pitches, answer.Pitches)
			require.GreaterOrEqual(t, other.ExactLargeLarge, answer.ExactLargeLarge)
		}
	}
}

func closedUp(exact float64, halfLinks bool) int {
	n := int(math.Ceil(exact - 1e-9))
	if !halfLinks {
		n += n % 2
	}
	return n
}

func generated(random *rand.Rand) *drive.LengthRequest {
	r := &drive.LengthRequest{
		ChainstayMM: 380 + 400*random.Float64(), PitchMM: 12.7,
		AddPitches: random.IntN(6), HalfLinkAllowed: random.IntN(2) == 0,
		Derailleur: &drive.Derailleur{},
	}
	longest := r.ChainstayMM + 30*random.Float64()
	r.LongestChainstayMM = &longest
	capacity := random.IntN(60)
	r.Derailleur.CapacityTeeth = &capacity
	r.Chainrings = random.Perm(30)[:1+random.IntN(3)]
	r.Sprockets = random.Perm(44)[:1+random.IntN(13)]
	for i := range r.Chainrings {
		r.Chainrings[i] += 24
	}
	for i := range r.Sprockets {
		r.Sprockets[i] += 9
	}
	return r
}

// grown returns requests that each ask for more in one way.
func grown(r *drive.LengthRequest) []*drive.LengthRequest {
	ring, sprocket, further, more := *r, *r, *r, *r
	ring.Chainrings = append(slices.Clone(r.Chainrings), slices.Max(r.Chainrings)+1)
	sprocket.Sprockets = append(slices.Clone(r.Sprockets), slices.Max(r.Sprockets)+1)
	longest := *r.LongestChainstayMM + 5
	further.LongestChainstayMM = &longest
	more.AddPitches += 2
	return []*drive.LengthRequest{&ring, &sprocket, &further, &more}
}

func BenchmarkLength(b *testing.B) { benchmark(b, "length", "two-rings") }

// benchmark runs a golden request from JSON to JSON.
func benchmark(b *testing.B, calculation, name string) {
	request, err := os.ReadFile("../../testdata/engine/" + calculation + "/" + name + ".request.json")
	require.NoError(b, err)
	require.True(b, json.Valid(request))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := engine.Call(calculation, request); err != nil {
			b.Fatal(err)
		}
	}
}
