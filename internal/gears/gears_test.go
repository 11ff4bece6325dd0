package gears_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/fault"
	"tautspan/internal/gears"
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

func calculate(t *testing.T, request string) *gears.Response {
	t.Helper()
	r := &gears.Request{}
	require.NoError(t, wire.Read([]byte(request), r))
	answer, err := gears.Calculate(r)
	require.NoError(t, err)
	return answer
}

func find(t *testing.T, answer *gears.Response, ring, sprocket int) gears.Gear {
	t.Helper()
	for _, g := range answer.Gears {
		if g.Ring == ring && g.Sprocket == sprocket {
			return g
		}
	}
	t.Fatalf("no gear %d/%d", ring, sprocket)
	return gears.Gear{}
}

// Values computed independently for our reference values.
func TestCalculate_values(t *testing.T) {
	g := calculate(t, `{"chainrings":[44],"sprockets":[16],"wheel_circumference_mm":2200,"cadence_rpm":90}`).Gears[0]
	assert.InDelta(t, 2.75, g.Ratio, 1e-12)
	assert.InDelta(t, 6.05, g.DevelopmentM, 1e-12)
	assert.InDelta(t, 75.82, g.GearInches, 0.005)
	assert.InDelta(t, 32.67, *g.SpeedKmh, 1e-9)
	assert.InDelta(t, 8.1818, g.Articulation.RingDeg, 5e-5)
	assert.InDelta(t, 22.5, g.Articulation.SprocketDeg, 1e-12)
	assert.Nil(t, g.GainRatio)
	assert.Nil(t, g.ChainAngleDeg)
	assert.Nil(t, g.ChainReaches)
	assert.Nil(t, g.TensionN)

	answer := calculate(t, `{"chainrings":[32],"sprockets":[51,10],"wheel_circumference_mm":2300,"crank_mm":165}`)
	assert.InDelta(t, 0.627451, answer.Gears[0].Ratio, 5e-7)
	assert.InDelta(t, 510, answer.RangePercent, 1e-9)
	assert.InDelta(t, 410, answer.StepsPercent[0], 1e-9)
	assert.InDelta(t, 1.443137/(2*math.Pi*0.165), *answer.Gears[0].GainRatio, 1e-6)
}

// 50/25 and 34/17 are the same gear. The one on larger wheels is kept, until
// angles say that the other runs straighter.
func TestCalculate_duplicates(t *testing.T) {
	answer := calculate(t, `{"chainrings":[34,50],"sprockets":[17,25],"wheel_circumference_mm":2100,"duplicate_percent":0}`)
	assert.Equal(t, &gears.Pair{Ring: 50, Sprocket: 25}, find(t, answer, 34, 17).DuplicateOf)
	assert.Nil(t, find(t, answer, 50, 25).DuplicateOf)
	assert.Zero(t, answer.StepsPercent[1])

	// With the chainrings 4 mm farther in 50/25 is 1.75 mm out of line and 34/17
	// 9.75 mm; 4 mm farther out it is the other way round (by hand).
	for chainline, straighter := range map[string]gears.Pair{"41": {Ring: 50, Sprocket: 25}, "49": {Ring: 34, Sprocket: 17}} {
		lined := calculate(t, `{"chainrings":[34,50],"sprockets":[17,25],"wheel_circumference_mm":2100,"chainstay_mm":410,
			"chainline_mm":`+chainline+`,"rear_chainline_mm":45,"sprocket_spacing_mm":4}`)
		kept := find(t, lined, straighter.Ring, straighter.Sprocket)
		dropped := find(t, lined, 84-straighter.Ring, 42-straighter.Sprocket)
		assert.InDelta(t, math.Atan(1.75/410)*180/math.Pi, *kept.ChainAngleDeg, 1e-12)
		assert.Nil(t, kept.DuplicateOf)
		assert.Equal(t, &straighter, dropped.DuplicateOf)
	}

	near := `{"chainrings":[50,34],"sprockets":[19,28],"wheel_circumference_mm":2100,"duplicate_percent":`
	assert.NotNil(t, find(t, calculate(t, near+`1}`), 34, 19).DuplicateOf, "0.2 % apart")
	assert.Nil(t, find(t, calculate(t, near+`0.1}`), 34, 19).DuplicateOf)
}

// Offsets of a set of three sprockets 4 mm apart, one chainring in line with the
// middle one: by hand.
func TestCalculate_chainAngle(t *testing.T) {
	answer := calculate(t, `{"chainrings":[40],"sprockets":[11,13,15],"wheel_circumference_mm":2100,"chainstay_mm":400,"sprocket_spacing_mm":4}`)
	assert.Zero(t, *find(t, answer, 40, 13).ChainAngleDeg)
	assert.InDelta(t, math.Atan(0.01)*180/math.Pi, *find(t, answer, 40, 11).ChainAngleDeg, 1e-12)
	assert.InDelta(t, math.Atan(0.01)*180/math.Pi, *find(t, answer, 40, 15).ChainAngleDeg, 1e-12)
	assert.Contains(t, codes(answer.Notes), "chainlines_equal")

	// 4 mm farther out in front, the chainring stands over the smallest sprocket,
	// which is the outermost.
	out := calculate(t, `{"chainrings":[40],"sprockets":[11,13,15],"wheel_circumference_mm":2100,"chainstay_mm":400,
		"sprocket_spacing_mm":4,"chainline_mm":49,"rear_chainline_mm":45}`)
	assert.Zero(t, *find(t, out, 40, 11).ChainAngleDeg)
	assert.InDelta(t, math.Atan(0.02)*180/math.Pi, *find(t, out, 40, 15).ChainAngleDeg, 1e-12)

	// Two chainrings: the larger is the outer one, so crossed pairs run crooked.
	two := calculate(t, `{"chainrings":[34,50],"sprockets":[11,13,15],"wheel_circumference_mm":2100,"chainstay_mm":400,"sprocket_spacing_mm":4}`)
	assert.Less(t, *find(t, two, 50, 11).ChainAngleDeg, *find(t, two, 50, 15).ChainAngleDeg)
	assert.Less(t, *find(t, two, 34, 15).ChainAngleDeg, *find(t, two, 34, 11).ChainAngleDeg)
	// By hand: half of 7.5 mm out in front, 4 mm out behind.
	assert.InDelta(t, math.Atan(0.25/400)*180/math.Pi, *find(t, two, 50, 11).ChainAngleDeg, 1e-12)
	assert.InDelta(t, math.Atan(7.75/400)*180/math.Pi, *find(t, two, 50, 15).ChainAngleDeg, 1e-12)
}

// 32/51 at 435 mm is 110.271080 pitches long (computed independently for our
// reference values) and needs one more at least.
func TestCalculate_chainReaches(t *testing.T) {
	request := `{"chainrings":[32],"sprockets":[11,51],"wheel_circumference_mm":2300,"chainstay_mm":435,"longest_pitches":`
	short := calculate(t, request+`111}`)
	assert.False(t, *find(t, short, 32, 51).ChainReaches)
	assert.True(t, *find(t, short, 32, 11).ChainReaches)
	assert.Contains(t, codes(short.Warnings), "gears_out_of_reach")
	assert.Contains(t, codes(short.Cautions), "caution_too_short")
	assert.Equal(t, "Gears that a chain of 111 pitches does not reach: 1. Do not shift into them.", short.Warnings[0].Text())
	long := calculate(t, request+`112}`)
	assert.True(t, *find(t, long, 32, 51).ChainReaches)
	assert.Empty(t, long.Warnings)
	assert.Equal(t, []string{"caution_width", "caution_guidance"}, codes(long.Cautions))

	// Equal wheels need 2C + z: 2·40 + 34 = 114 pitches, and 115 with the one to spare.
	level := `{"chainrings":[34],"sprockets":[34],"wheel_circumference_mm":2300,"chainstay_mm":508,"longest_pitches":`
	assert.True(t, *calculate(t, level+`115}`).Gears[0].ChainReaches)
	assert.False(t, *calculate(t, level+`114}`).Gears[0].ChainReaches)
}

func TestCalculate_wheel(t *testing.T) {
	tyre := calculate(t, `{"chainrings":[44],"sprockets":[16],"etrto":"37-622"}`)
	assert.InDelta(t, math.Pi*696, tyre.CircumferenceMM, 1e-9)
	assert.Contains(t, tyre.Notes[0].Text(), "The circumference of 2187 mm is computed")
	rolled := calculate(t, `{"chainrings":[44],"sprockets":[16],"wheel_circumference_mm":2187}`)
	assert.NotContains(t, codes(rolled.Notes), "circumference_computed")
}

func TestCalculate_tension(t *testing.T) {
	request := `{"chainrings":[52],"sprockets":[11],"wheel_circumference_mm":2100,"cadence_rpm":60,"power_w":`
	inside := calculate(t, request+`100}`)
	assert.InDelta(t, 151.3313, *inside.Gears[0].TensionN, 5e-5)
	// 98.6 and 81 %: the university's release of 19 August 1999; 305 and 76.2 N:
	// from memory of an abstract.
	assert.Contains(t, inside.Notes[0].Text(), "81 to 98.6 % of the power came through, at chain pulls of 76 and 305 N")
	assert.Contains(t, codes(inside.Notes), "tension_average")
	assert.NotContains(t, codes(calculate(t, `{"chainrings":[52],"sprockets":[11],"wheel_circumference_mm":2100}`).Notes), "tension_average")
	assert.NotContains(t, codes(inside.Notes), "tension_not_measured")
	assert.Contains(t, codes(calculate(t, request+`400}`).Notes), "tension_not_measured")
	assert.Contains(t, codes(calculate(t, request+`40}`).Notes), "tension_not_measured")
}

func TestCalculate_bad(t *testing.T) {
	for _, row := range []struct {
		name, request, field string
		code                 fault.Code
	}{
		{"wheel twice", `{"chainrings":[44],"sprockets":[16],"wheel_circumference_mm":2200,"etrto":"37-622"}`, "etrto", fault.Contradiction},
		{"no wheel", `{"chainrings":[44],"sprockets":[16]}`, "wheel_circumference_mm", fault.MissingField},
		{"no tyre", `{"chainrings":[44],"sprockets":[16],"etrto":"big"}`, "etrto", fault.Unreadable},
		{"long text", `{"chainrings":[44],"sprockets":[16],"etrto":"000000000000000000037-622"}`, "etrto", fault.OutOfRange},
		{"power alone", `{"chainrings":[44],"sprockets":[16],"etrto":"37-622","power_w":100}`, "cadence_rpm", fault.MissingField},
		{"rear chain line alone", `{"chainrings":[44],"sprockets":[16],"etrto":"37-622","rear_chainline_mm":45}`, "chainline_mm", fault.MissingField},
		{"sprocket twice", `{"chainrings":[44],"sprockets":[16,16],"etrto":"37-622"}`, "sprockets[1]", fault.Contradiction},
		{"chainring twice", `{"chainrings":[44,34,44],"sprockets":[16],"etrto":"37-622"}`, "chainrings[2]", fault.Contradiction},
		{"wheels touch", `{"chainrings":[52],"sprockets":[40],"etrto":"37-622","chainstay_mm":180}`, "chainstay_mm", fault.Contradiction},
		{"negative wheel", `{"chainrings":[44],"sprockets":[16],"wheel_circumference_mm":-1}`, "wheel_circumference_mm", fault.OutOfRange},
		{"standing still", `{"chainrings":[44],"sprockets":[16],"etrto":"37-622","cadence_rpm":0}`, "cadence_rpm", fault.OutOfRange},
		{"no sprockets", `{"chainrings":[44],"sprockets":[],"etrto":"37-622"}`, "sprockets", fault.OutOfRange},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := engine.Call("gears", []byte(row.request))
			var f *fault.Error
			require.True(t, errors.As(err, &f))
			assert.Equal(t, row.field, f.Field)
			assert.Equal(t, row.code, f.Code)
		})
	}
}

// Generated bicycles: gears are in order, steps multiply up to the range, and a
// duplicate always points at a gear that is none and lies within the percentage.
func TestCalculate_properties(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 4))
	for range 2000 {
		wheel := 1500 + 1000*random.Float64()
		r := &gears.Request{WheelCircumferenceMM: &wheel, DuplicatePercent: 3 * random.Float64(), PitchMM: 12.7,
			Chainrings: random.Perm(30)[:1+random.IntN(3)], Sprockets: random.Perm(40)[:1+random.IntN(13)]}
		for i := range r.Chainrings {
			r.Chainrings[i] += 22
		}
		for i := range r.Sprockets {
			r.Sprockets[i] += 9
		}
		answer, err := gears.Calculate(r)
		require.NoError(t, err)
		require.Len(t, answer.Gears, len(r.Chainrings)*len(r.Sprockets))
		product := 100.0
		for _, step := range answer.StepsPercent {
			require.GreaterOrEqual(t, step, 0.0)
			product *= 1 + step/100
		}
		require.InEpsilon(t, answer.RangePercent, product, 1e-9)
		for _, g := range answer.Gears {
			if g.DuplicateOf == nil {
				continue
			}
			original := find(t, answer, g.DuplicateOf.Ring, g.DuplicateOf.Sprocket)
			require.Nil(t, original.DuplicateOf)
			apart := 100 * math.Abs(math.Max(g.Ratio, original.Ratio)/math.Min(g.Ratio, original.Ratio)-1)
			require.LessOrEqual(t, apart, r.DuplicatePercent+1e-6)
		}
	}
}

func codes(notes []words.Note) []string {
	all := []string{}
	for _, n := range notes {
		all = append(all, n.Code)
	}
	return all
}

func BenchmarkCalculate(b *testing.B) {
	request, err := os.ReadFile("../../testdata/engine/gears/two-rings.request.json")
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := engine.Call("gears", request); err != nil {
			b.Fatal(err)
		}
	}
}
