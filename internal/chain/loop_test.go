package chain_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
)

// f4 of DIN 8195 and ISO 10823: a = f4 p (2X - z1 - z2), f4 by
// m = (X - z1)/(z2 - z1). The table is from memory and was recomputed, all rows
// within 1.5e-5. It holds for any pair of wheels; a small and a large one keep
// them from touching at small m.
func TestLoop_Centre_f4Table(t *testing.T) {
	const z1, z2 = 9, 120
	for _, row := range []struct{ m, f4 float64 }{
		{13, .24991}, {10, .24986}, {7, .24970}, {6, .24958}, {4.8, .24931}, {4.6, .24925}, {4.0, .24896},
		{3.4, .24849}, {3.2, .24825}, {2.8, .24758}, {2.7, .24735}, {2.4, .24643}, {2.1, .24493}, {2.00, .24421},
		{1.85, .24281}, {1.80, .24222}, {1.66, .24013}, {1.54, .23758}, {1.50, .23648}, {1.42, .23381},
		{1.40, .23301}, {1.34, .23022}, {1.28, .22662}, {1.26, .22520}, {1.20, .21990},
	} {
		x := z1 + row.m*(z2-z1)
		centre, err := chain.NewLoop(z1, z2).Centre(x)
		require.NoError(t, err)
		assert.InDelta(t, row.f4, centre/(2*x-z1-z2), 2e-5, "m = %v", row.m)
	}
	// Equal wheels, where m has no meaning: a = p (X - z)/2.
	centre, err := chain.NewLoop(21, 21).Centre(80)
	require.NoError(t, err)
	assert.InDelta(t, 374.65, 12.7*centre, 1e-9)
}

// f3 = ((z2-z1)/2pi)² of the handbook form X = 2C + (z1+z2)/2 + f3/C, which the
// exact length approaches as the wheels move apart.
func TestLoop_Pitches_f3Table(t *testing.T) {
	const far = 2000.0
	for difference, f3 := range map[int]float64{
		5: 0.6333, 10: 2.5330, 15: 5.6993, 20: 10.1321, 26: 17.1233, 28: 19.8590, 30: 22.7973,
		35: 31.0296, 36: 32.8281, 40: 40.5285, 48: 58.3610, 60: 91.1891,
	} {
		z1, z2 := 40, 40+difference
		x := chain.NewLoop(z1, z2).Pitches(far)
		assert.InDelta(t, f3, (x-2*far-float64(z1+z2)/2)*far, 3e-5*f3+1e-4, "difference %d", difference)
	}
}

// Bicycle lengths in pitches, computed independently for our reference values.
// std is the handbook formula, whose error stays under 6e-3 here; belt is the
// length of a smooth belt on the pitch circles, which must not be taken for the
// length of a chain.
func TestLoop_Pitches_bicycles(t *testing.T) {
	for _, row := range []struct {
		a, b               int
		centreMM           float64
		std, belt, polygon float64
	}{
		{16, 44, 415, 95.962062, 96.030485, 95.963006},
		{17, 42, 500, 108.642276, 108.708923, 108.642617},
		{11, 53, 410, 97.951001, 98.039073, 97.955999},
		{10, 52, 435, 100.808465, 100.903269, 100.812640},
		{32, 51, 435, 110.270907, 110.312406, 110.271080},
		{34, 34, 405, 97.779528, 97.827956, 97.779528},
	} {
		x := chain.NewLoop(row.a, row.b).Pitches(row.centreMM / 12.7)
		assert.InDelta(t, row.polygon, x, 6e-7, "%d/%d", row.a, row.b)
		assert.InDelta(t, x, chain.NewLoop(row.b, row.a).Pitches(row.centreMM/12.7), 0, "either order")
		assert.InDelta(t, row.std, x, 6e-3)
		assert.Greater(t, row.belt-x, 0.04, "the smooth belt is too long")
	}
}

// handbookShort is by how many pitches the handbook formula
// X = 2C + (z1+z2)/2 + f3/C falls short of the exact length: the next term of
// its series, f3²/(12 C³), left out there.
func handbookShort(a, b int, centre float64) float64 {
	f3 := math.Pow(float64(a-b)/(2*math.Pi), 2)
	return f3 * f3 / (12 * math.Pow(centre, 3))
}

// Textbook lengths, printed from the handbook formula.
func TestLoop_Pitches_textbooks(t *testing.T) {
	for _, row := range []struct {
		source       string
		a, b         int
		centre, want float64
		tolerance    float64
	}{
		{"Bhandari, Design of Machine Elements, ex. 14.3", 21, 63, 500 / 12.7, 121.875097, 1e-4},
		{"Bhandari, ex. 14.6 (a)", 21, 80, 40, 132.704369, 3e-4},
		{"Mott, Machine Elements, chain example (from memory)", 17, 65, 40, 122.459025, 1e-4},
		{"Shigley, ex. 17-5 (from memory)", 17, 34, 25, 75.792818, 1e-4},
	} {
		x := chain.NewLoop(row.a, row.b).Pitches(row.centre)
		assert.InDelta(t, row.want, x-handbookShort(row.a, row.b, row.centre), row.tolerance, row.source)
	}
}

// Textbook centre distances, printed from the handbook formula, and exact ones
// computed independently for our reference values.
func TestLoop_Centre_workedExamples(t *testing.T) {
	for _, row := range []struct {
		source    string
		a, b      int
		pitches   float64
		pitchMM   float64
		centreMM  float64
		handbook  bool
		tolerance float64
	}{
		{"Bhandari, Design of Machine Elements, ex. 14.3", 21, 63, 122, 12.7, 500.804717, true, 2e-3},
		{"Bhandari, ex. 14.6 (a)", 21, 80, 132, 19.05, 755.098993, true, 8e-3},
		{"Mott, Machine Elements, chain example (from memory)", 17, 65, 122, 19.05, 29.825 * 25.4, true, 0.02},
		{"Shigley, ex. 17-5 (from memory), in pitches", 17, 34, 76, 1, 25.104199, true, 1e-4},
		{"16/44", 16, 44, 96, 12.7, 415.2371, false, 6e-5},
		{"16/44", 16, 44, 98, 12.7, 428.0531, false, 6e-5},
		{"16/42", 16, 42, 94, 12.7, 409.3721, false, 6e-5},
		{"18/44", 18, 44, 100, 12.7, 434.9714, false, 6e-5},
		{"21/21", 21, 21, 80, 12.7, 374.65, false, 1e-9},
	} {
		centre, err := chain.NewLoop(row.a, row.b).Centre(row.pitches)
		require.NoError(t, err)
		got := row.pitchMM * centre
		if row.handbook { // a shorter formula gives a longer distance, half as much
			got += row.pitchMM * handbookShort(row.a, row.b, centre) / 2
		}
		assert.InDelta(t, row.centreMM, got, row.tolerance, row.source)
	}
}

// A paper fragment prints 114.305 pitches for 20/63 teeth at C = 36, and 35.8447
// for 114 pitches. Its own comparison values, 114.8 and 35.6, are right.
func TestLoop_misprintedExample(t *testing.T) {
	loop := chain.NewLoop(20, 63)
	x := loop.Pitches(36)
	assert.InDelta(t, 114.8, x, 0.06)
	assert.Greater(t, math.Abs(114.305-x), 0.4)
	centre, err := loop.Centre(114)
	require.NoError(t, err)
	assert.InDelta(t, 35.6, centre, 0.02)
	assert.Greater(t, math.Abs(35.8447-centre), 0.2)
}

// The outside check of the exact length: the hull of two real polygons whose
// corners are the pins, turned through one tooth each. Reference minimum, mean
// and maximum were computed elsewhere over the same 24 by 24 positions.
func TestLoop_Pitches_hullOfPolygons(t *testing.T) {
	for _, row := range []struct {
		a, b            int
		centreMM        float64
		lo, mean, hi    float64
		printed, within float64
	}{
		{16, 44, 415, 95.96063, 95.96302, 95.96493, 1.1e-5, 1e-4},
		{11, 53, 410, 97.95303, 97.95603, 97.96033, 1.1e-5, 1e-4},
		{17, 42, 500, 108.64200, 108.64262, 108.64344, 1.1e-5, 1e-4},
		{10, 52, 435, 0, 0, 0, 0, 1e-4},
		{32, 51, 435, 0, 0, 0, 0, 1e-4},
		{34, 34, 405, 0, 0, 0, 0, 1e-4},
		{9, 9, 150, 0, 0, 0, 0, 2e-4}, // far smaller and nearer than on any bicycle
	} {
		centre := row.centreMM / 12.7
		lo, mean, hi := hullPitches(row.a, row.b, centre)
		if row.printed > 0 {
			assert.InDelta(t, row.lo, lo, row.printed, "%d/%d", row.a, row.b)
			assert.InDelta(t, row.mean, mean, row.printed, "%d/%d", row.a, row.b)
			assert.InDelta(t, row.hi, hi, row.printed, "%d/%d", row.a, row.b)
		}
		assert.InDelta(t, mean, chain.NewLoop(row.a, row.b).Pitches(centre), row.within, "%d/%d", row.a, row.b)
	}
}

// hullPitches measures the hull round two regular polygons of unit side over 24
// positions of each: its least, mean and greatest perimeter.
func hullPitches(a, b int, centre float64) (lo, mean, hi float64) {
	const positions = 24
	lo = math.Inf(1)
	for i := range positions {
		for j := range positions {
			points := append(polygon(a, float64(i)/positions, 0), polygon(b, float64(j)/positions, centre)...)
			length := perimeter(hull(points))
			lo, hi = min(lo, length), max(hi, length)
			mean += length / (positions * positions)
		}
	}
	return lo, mean, hi
}

func TestLoop_Centre_tooShort(t *testing.T) {
	loop := chain.NewLoop(16, 44)
	for _, pitches := range []float64{-1, 0, 30, loop.Pitches(loop.LeastCentre()), math.NaN(), math.Inf(1)} {
		_, err := loop.Centre(pitches)
		assert.ErrorIs(t, err, chain.ErrNoRoom, "%v pitches", pitches)
	}
}

// Generated loops: the centre distance is the inverse of the length, and the
// length grows with the distance and with either wheel.
func TestLoop_properties(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 1))
	for range 5000 {
		a := chain.LeastTeeth + random.IntN(chain.MostTeeth-chain.LeastTeeth)
		b := chain.LeastTeeth + random.IntN(chain.MostTeeth-chain.LeastTeeth)
		loop := chain.NewLoop(a, b)
		centre := chain.NewLoop(a+1, b+1).LeastCentre() * (1.001 + 5*random.Float64())
		x := loop.Pitches(centre)
		back, err := loop.Centre(x)
		require.NoError(t, err)
		require.InEpsilon(t, centre, back, 1e-11, "%d/%d at %v", a, b, centre)
		require.Greater(t, loop.Pitches(centre*1.0001), x)
		require.Greater(t, chain.NewLoop(a+1, b).Pitches(centre), x)
		require.Greater(t, chain.NewLoop(a, b+1).Pitches(centre), x)
	}
}

func BenchmarkLoop_Pitches(b *testing.B) {
	for b.Loop() {
		chain.NewLoop(16, 44).Pitches(32.7)
	}
}

func BenchmarkLoop_Centre(b *testing.B) {
	loop := chain.NewLoop(16, 44)
	for b.Loop() {
		_, _ = loop.Centre(96)
	}
}
