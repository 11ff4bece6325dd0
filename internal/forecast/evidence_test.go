package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
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
			sum += m.likelihood(x, 0.1, 0.01)
		}
		assert.InDelta(t, 1, sum, 1e-12)
	}
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
