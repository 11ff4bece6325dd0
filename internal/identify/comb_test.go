package identify_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
)

// The 95 % factor is 1.96 of JCGM 100 table G.2 (reference value); the usual
// uncertainty of an outer width is ours.
func TestCalculate_comb(t *testing.T) {
	a := ask(t, `{"outer_width_mm":5.79,"outer_width_standard_uncertainty_mm":0.1}`)
	require.NotNil(t, a.Comb.Interval95MM)
	assert.Equal(t, 5.79, *a.Comb.ReadingMM)
	assert.InDelta(t, 5.79-0.196, a.Comb.Interval95MM[0], 1e-5)
	assert.InDelta(t, 5.79+0.196, a.Comb.Interval95MM[1], 1e-5)

	known, sum := 0, 0.0
	for _, f := range chain.Families() {
		if f.WidthKnown() {
			known++
		}
	}
	require.Len(t, a.Comb.Families, known)
	for i, row := range a.Comb.Families {
		sum += row.Probability
		assert.NotEmpty(t, row.Name)
		assert.Less(t, row.OuterWidthMM[0], row.OuterWidthMM[1])
		if i > 0 {
			assert.GreaterOrEqual(t, row.OuterWidthMM[0], a.Comb.Families[i-1].OuterWidthMM[0])
		}
	}
	assert.InDelta(t, 1, sum, 1e-12)
}

func TestCalculate_combWithoutWidth(t *testing.T) {
	a := ask(t, `{"drive":"single"}`)
	assert.Nil(t, a.Comb.ReadingMM)
	assert.Nil(t, a.Comb.Interval95MM)
	assert.NotEmpty(t, a.Comb.Families)

	none := ask(t, `{"outer_width_mm":20}`)
	for _, row := range none.Comb.Families {
		assert.Zero(t, row.Probability)
	}
}
