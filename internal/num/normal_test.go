package num_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat/distuv"

	"tautspan/internal/num"
)

// Oracle: gonum stat/distuv, unit normal.
func TestNormalCDF_gonum(t *testing.T) {
	for z := -8.0; z <= 8; z += 0.125 {
		assert.InEpsilon(t, distuv.UnitNormal.CDF(z), num.NormalCDF(z), 1e-12, "z = %v", z)
	}
	assert.Equal(t, 1.0, num.NormalCDF(math.Inf(1)))
	assert.Equal(t, 0.0, num.NormalCDF(math.Inf(-1)))
	assert.True(t, math.IsNaN(num.NormalCDF(math.NaN())))
}

// JCGM 106:2012 Table 1: coverage z for conformity probabilities, two decimals
// (from memory, and computed digits agree).
func TestNormalQuantile_JCGM106Table1(t *testing.T) {
	for _, row := range []struct{ p, z float64 }{
		{0.80, 0.84}, {0.90, 1.28}, {0.95, 1.64}, {0.99, 2.33}, {0.999, 3.09},
	} {
		assert.InDelta(t, row.z, num.NormalQuantile(row.p), 0.0051)
	}
}

func TestNormalQuantile_invertsCDF(t *testing.T) {
	for p := 0.001; p < 1; p += 0.001 {
		assert.InDelta(t, p, num.NormalCDF(num.NormalQuantile(p)), 1e-13)
	}
	assert.True(t, math.IsNaN(num.NormalQuantile(1.5)))
}
