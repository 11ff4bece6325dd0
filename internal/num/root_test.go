package num_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/num"
)

// Zeros known in closed form.
func TestRoot_closedForm(t *testing.T) {
	for _, row := range []struct {
		name         string
		f            func(float64) float64
		lo, hi, want float64
	}{
		{"cosine", math.Cos, 0, 3, math.Pi / 2},
		{"falling", func(x float64) float64 { return 2 - x*x }, 0, 9, math.Sqrt2},
		{"flat start", func(x float64) float64 { return math.Pow(x, 9) - 1e-9 }, 0, 4, 0.1},
		{"steep", func(x float64) float64 { return math.Exp(50*x) - 2 }, -1, 1, math.Ln2 / 50},
		{"step", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 0.3},
		{"at the end", func(x float64) float64 { return x - 2 }, 0, 2, 2},
	} {
		t.Run(row.name, func(t *testing.T) {
			calls := 0
			x, err := num.Root(func(x float64) float64 { calls++; return row.f(x) }, row.lo, row.hi, 1e-12)
			require.NoError(t, err)
			assert.InDelta(t, row.want, x, 1e-12)
			assert.Less(t, calls, 140, "three times what bisection needs")
		})
	}
}

func TestRoot_noBracket(t *testing.T) {
	for _, f := range []func(float64) float64{
		func(x float64) float64 { return x*x + 1 },
		func(float64) float64 { return math.NaN() },
	} {
		_, err := num.Root(f, -1, 1, 1e-9)
		assert.ErrorIs(t, err, num.ErrNoBracket)
	}
}
