package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/wear"
)

// Interval-censored likelihood of 1423 microprocessors read out at fixed hours.
// Source of the data: W. Nelson, Accelerated Testing, 1990 (recalled; the counts
// add up to 1423, and the log likelihood, which R 4.2.2 survival 3.5.3 gives as
// -104.1208276 at lognormal mu 26.61312, sigma 9.301179, is reproduced).
func TestNormalBetween_microprocessors(t *testing.T) {
	never := math.Inf(1)
	logL, units := 0.0, 0
	for _, row := range []struct {
		from, to float64 // hours
		n        int
	}{
		{0, 6, 6}, {6, 12, 2}, {24, 48, 2}, {24, never, 1}, {48, 168, 1}, {48, never, 839},
		{168, 500, 1}, {168, never, 150}, {500, 1000, 2}, {500, never, 149},
		{1000, 2000, 1}, {1000, never, 147}, {2000, never, 122},
	} {
		units += row.n
		logL += float64(row.n) * math.Log(normalBetween(math.Log(row.from), math.Log(row.to), 26.61312, 9.301179))
	}
	assert.Equal(t, 1423, units)
	assert.InDelta(t, -104.1208276, logL, 1e-6)
}

// Interval-censored likelihood of 94 patients' months to a change, in two groups
// of treatment. Source of the data: Finkelstein and Wolfe, Biometrics 41, 1985,
// in the copy that the R package MLEcens carries. Expected: the same sum in
// Python 3 with math.erfc, at lognormal mu 3.547580, in the second group
// -0.417810 more, sigma 0.883021. (A figure of -146.9521677 seen for these
// parameters belongs to a table that differs; it could not be found.)
func TestNormalBetween_breastRetraction(t *testing.T) {
	never := math.Inf(1)
	logL, patients := 0.0, 0
	for group, rows := range [][][2]float64{{
		{45, never}, {6, 10}, {0, 7}, {46, never}, {46, never}, {7, 16}, {17, never}, {7, 14}, {37, 44}, {0, 8},
		{4, 11}, {15, never}, {11, 15}, {22, never}, {46, never}, {46, never}, {25, 37}, {46, never}, {26, 40},
		{46, never}, {27, 34}, {36, 44}, {46, never}, {36, 48}, {37, never}, {40, never}, {17, 25}, {46, never},
		{11, 18}, {38, never}, {5, 12}, {37, never}, {0, 5}, {18, never}, {24, never}, {36, never}, {5, 11}, {19, 35},
		{17, 25}, {24, never}, {32, never}, {33, never}, {19, 26}, {37, never}, {34, never}, {36, never},
	}, {
		{8, 12}, {0, 22}, {24, 31}, {17, 27}, {17, 23}, {24, 30}, {16, 24}, {13, never}, {11, 13}, {16, 20}, {18, 25},
		{17, 26}, {32, never}, {23, never}, {44, 48}, {14, 17}, {0, 5}, {5, 8}, {12, 20}, {11, never}, {33, 40},
		{31, never}, {13, 39}, {19, 32}, {34, never}, {13, never}, {16, 24}, {35, never}, {15, 22}, {11, 17}, {22, 32},
		{10, 35}, {30, 34}, {13, never}, {10, 17}, {8, 21}, {4, 9}, {11, never}, {14, 19}, {4, 8}, {34, never},
		{30, 36}, {18, 24}, {16, 60}, {35, 39}, {21, never}, {11, 20}, {48, never},
	}} {
		for _, months := range rows {
			patients++
			logL += math.Log(normalBetween(math.Log(months[0]), math.Log(months[1]), 3.547580-0.417810*float64(group), 0.883021))
		}
	}
	assert.Equal(t, 94, patients)
	assert.InDelta(t, -146.62258230758812, logL, 1e-9)
}

// The far tail keeps its digits. Source: Phi(-10) = 7.619853e-24 (from memory,
// computed digits agree).
func TestNormalBetween_farTail(t *testing.T) {
	assert.InEpsilon(t, 7.619853e-24, normalBetween(10, math.Inf(1), 0, 1), 1e-6)
	assert.InEpsilon(t, 7.619853e-24, normalBetween(math.Inf(-1), -10, 0, 1), 1e-6)
	assert.Equal(t, 1.0, normalBetween(math.Inf(-1), math.Inf(1), 3, 1))
}

// The answers a gauge can give share all probability.
func TestMark_gaugeAnswersSumToOne(t *testing.T) {
	open := math.Inf(1)
	for x := 0.0; x < 1.5; x += 0.05 {
		sum := 0.0
		for _, m := range []Mark{Between(0, -open, 0.5, RollerPlay), Between(0, 0.5, 0.75, RollerPlay), Between(0, 0.75, open, RollerPlay)} {
			sum += m.likelihood(x, biasNode{play: 0.1}, 0.01)
		}
		assert.InDelta(t, 1, sum, 1e-12)
	}
}

// How likely a reading is, by the formulas of the model written out and computed
// apart: 0.98 N(y; x, (1.2 u)²) + 0.02 · 0.4 and 0.99 [Phi((hi-x-b)/0.05) -
// Phi((lo-x-b)/0.05)] + 0.01/3. The constants are common practice, no source.
func TestMark_likelihood(t *testing.T) {
	value, gauge := Exact(0, 0.3, 0.05), Between(0, 0.5, 0.75, RollerPlay)
	shared := value.Sharing("screen", 0.03)
	for _, row := range []struct {
		mark     Mark
		x, floor float64
		node     biasNode
		want     float64
	}{
		{value, 0.3, 0, biasNode{}, 6.524057},
		{value, 0.2, 0, biasNode{}, 1.632793},
		{value, 0.3, 0.1, biasNode{}, 3.917634}, // no finer than the lattice
		{gauge, 0.5, 0, biasNode{}, 0.498333},
		{gauge, 0.5, 0, biasNode{play: 0.05}, 0.836233},
		{Between(0, 0.5, 0.75, NoBias), 0.5, 0, biasNode{play: 0.05}, 0.498333}, // its play is none of this one's
		{shared, 0.2, 0, biasNode{own: math.Sqrt(3)}, 5.996575},
	} {
		assert.InDelta(t, row.want, row.mark.likelihood(row.x, row.node, row.floor), 2e-6, "%+v", row)
	}
	assert.Equal(t, 0.008, value.blunder())
	assert.InDelta(t, 1.0/300, gauge.blunder(), 1e-15)
}

// The three nodes of an instrument's own error have the first moments of the
// standard normal law: 1, 0, 1, 0, 3 (Gauss-Hermite). The play's are those that
// package wear takes off and puts into its budget.
func TestBiasNodes(t *testing.T) {
	moments := [5]float64{}
	for _, n := range ownError {
		for k := range moments {
			moments[k] += n.weight * math.Pow(n.own, float64(k))
		}
	}
	for k, want := range [5]float64{1, 0, 1, 0, 3} {
		assert.InDelta(t, want, moments[k], 1e-12)
	}
	weight, mean, square := 0.0, 0.0, 0.0
	for _, n := range rollerPlay {
		weight, mean, square = weight+n.weight, mean+n.weight*n.play, square+n.weight*n.play*n.play
	}
	assert.InDelta(t, 1, weight, 1e-12)
	assert.InDelta(t, wear.OpposedPlayPercent, mean, 1e-12)
	assert.InDelta(t, wear.OpposedPlayUPercent, math.Sqrt(square-mean*mean), 5e-5)
	assert.Equal(t, wear.GaugeUPercent, gaugeU)
}

// With distances known to 30 % the gamma process varies as if 1/3 were 1/3 +
// 0.3²/2: the shape is 2.643172 per 1000 km (computed).
func TestShapeFor(t *testing.T) {
	assert.InDelta(t, 3, shapeFor(0), 1e-12)
	assert.InDelta(t, 2.643172, shapeFor(0.3), 1e-6)
}

func TestEpochs(t *testing.T) {
	ms := []Mark{Exact(900, 0.3, 0.1), Exact(300, 0.1, 0.1), Exact(900, 0.2, 0.1), Exact(300, 0.1, 0.1)}
	got := epochs(ms, mostEpochs)
	assert.Equal(t, []epoch{{at: 0.3, marks: []int{1}}, {at: 0.9, marks: []int{2, 0}}}, got, "sorted, grouped, the repeat dropped")
	many := []Mark{}
	for i := range 500 {
		many = append(many, Exact(float64(i*i), 0.1, 0.1))
	}
	got = epochs(many, mostEpochs)
	assert.LessOrEqual(t, len(got), mostEpochs)
	width, n := many[499].KM/1000/mostEpochs, 0
	for _, e := range got {
		for _, i := range e.marks {
			assert.LessOrEqual(t, math.Abs(many[i].KM/1000-e.at), width, "no mark moves farther than a part is wide")
			n++
		}
	}
	assert.Equal(t, 500, n)
}
