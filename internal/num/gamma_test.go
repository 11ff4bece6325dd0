package num_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"tautspan/internal/num"
)

// Oracle: gonum mathext.GammaIncRegComp.
func TestGammaQ_gonum(t *testing.T) {
	for _, a := range []float64{1e-3, 0.02, 0.3, 1, 2.5, 7, 30, 110, 400, 2500} {
		for _, ratio := range []float64{1e-6, 0.01, 0.2, 0.7, 0.9, 0.99, 1, 1.01, 1.1, 1.5, 3, 12} {
			x := a * ratio
			want := mathext.GammaIncRegComp(a, x)
			assert.InDelta(t, want, num.GammaQ(a, x), 2e-11, "Q(%v, %v)", a, x)
			if x > a+1 && want > 1e-290 {
				assert.InEpsilon(t, want, num.GammaQ(a, x), 1e-9, "tail Q(%v, %v)", a, x)
			}
		}
	}
}

// Printed chi-square table (upper 5 % and 1 % points, three decimals; from
// memory, computed digits agree): chi-square with n degrees of freedom is a
// gamma variable of shape n/2 and scale 2.
func TestGammaQ_chiSquareTable(t *testing.T) {
	for _, row := range []struct{ n, p, point float64 }{
		{1, 0.05, 3.841}, {2, 0.05, 5.991}, {5, 0.05, 11.070}, {10, 0.05, 18.307}, {30, 0.05, 43.773},
		{1, 0.01, 6.635}, {10, 0.01, 23.209}, {30, 0.01, 50.892},
	} {
		slope := distuv.ChiSquared{K: row.n}.Prob(row.point) // what half a unit in the last place does
		assert.InDelta(t, row.p, num.GammaQ(row.n/2, row.point/2), 0.0006*slope)
	}
}

func TestGammaQ_ends(t *testing.T) {
	assert.Equal(t, 1.0, num.GammaQ(3, 0))
	assert.Equal(t, 0.0, num.GammaQ(3, math.Inf(1)))
	for _, bad := range [][2]float64{{0, 1}, {-1, 1}, {1, -1}, {math.NaN(), 1}, {1, math.NaN()}, {math.Inf(1), 1}} {
		assert.True(t, math.IsNaN(num.GammaQ(bad[0], bad[1])), "Q(%v, %v)", bad[0], bad[1])
	}
}

// Q falls with x and rises with a.
func TestGammaQ_monotone(t *testing.T) {
	for a := 0.05; a < 60; a *= 1.3 {
		last := 2.0
		for x := 0.01; x < 200; x *= 1.2 {
			q := num.GammaQ(a, x)
			assert.LessOrEqual(t, q, last+1e-15)
			assert.LessOrEqual(t, q, num.GammaQ(a*1.01, x)+1e-15)
			last = q
		}
	}
}

func BenchmarkGammaQ(b *testing.B) {
	for i := range b.N {
		num.GammaQ(20+float64(i%7), 22)
	}
}
