package chain_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/chain"
)

func TestFamilies_rows(t *testing.T) {
	classes := map[chain.Class]bool{}
	for _, f := range chain.Families() {
		assert.False(t, classes[f.Class], "%s stands twice", f.Class)
		classes[f.Class] = true
		assert.NotEmpty(t, f.Source, f.Class)
		assert.NotEmpty(t, f.Closures, f.Class)
		assert.NotEmpty(t, f.Drives, f.Class)
		assert.NotEmpty(t, f.RearSprockets, f.Class)
		if f.WidthKnown() {
			assert.Less(t, f.InnerWidthMM[0], f.InnerWidthMM[1], f.Class)
			assert.Less(t, f.InnerWidthMM[1], f.OuterWidthMM[0], f.Class)
			assert.Less(t, f.OuterWidthMM[0], f.OuterWidthMM[1], f.Class)
		}
	}
}

// A press-in or half link where it does not belong can part: half links only in
// 1/8 and 3/32 in single chains, no clip in a derailleur chain. Common practice.
func TestFamilies_closures(t *testing.T) {
	for _, f := range chain.Families() {
		derailleur := slices.Contains(f.Drives, chain.Derailleur)
		half := f.Class == chain.Single3to32 || f.Class == chain.Single1to8
		assert.Equal(t, half, slices.Contains(f.Closures, chain.HalfLink), f.Class)
		assert.Equal(t, !derailleur, slices.Contains(f.Closures, chain.SpringClip), f.Class)
		for _, c := range f.Closures {
			assert.Contains(t, chain.Closures(), c)
		}
	}
}

// Inch forms: 1/8 in = 3.175, 3/32 = 2.381, 11/128 = 2.183, 5/32 = 3.969,
// 3/16 = 4.763 mm (computed from the exact inch).
func TestFamilies_innerWidths(t *testing.T) {
	want := map[chain.Class]float64{
		chain.Single1to8: 3.175, chain.Single3to32: 2.381, chain.Derailleur7to8: 2.381,
		chain.Derailleur9: 2.183, chain.Derailleur13: 2.183, chain.Cargo5to32: 3.969, chain.Cargo3to16: 4.763,
	}
	for _, f := range chain.Families() {
		if w, listed := want[f.Class]; listed {
			assert.InDelta(t, w, f.InnerWidthMM[0], 5e-4, f.Class)
		}
	}
}

// Every derailleur bike of 1 to 13 sprockets has exactly one family.
func TestFamily_Fits(t *testing.T) {
	for n := 1; n <= 14; n++ {
		yes := 0
		for _, f := range chain.Families() {
			if f.Fits(chain.Derailleur, n) == chain.FitYes {
				yes++
			}
		}
		if n <= 13 {
			assert.Equal(t, 1, yes, "%d sprockets", n)
		} else {
			assert.Zero(t, yes)
		}
	}
	for _, row := range []struct {
		class     chain.Class
		drive     chain.Drive
		sprockets int
		fit       chain.Fit
	}{
		{chain.Derailleur9, chain.Derailleur, 9, chain.FitYes},
		{chain.Derailleur9, chain.Derailleur, 10, chain.FitNo},
		{chain.Derailleur9, chain.Derailleur, 0, chain.FitUnknown},
		{chain.Derailleur13, chain.Derailleur, 14, chain.FitUnknown},
		{chain.Single1to8, chain.Derailleur, 8, chain.FitNo},
		{chain.Single1to8, chain.Single, 1, chain.FitYes},
		{chain.Single1to8, chain.Hub, 0, chain.FitYes},
		{chain.Single3to32, chain.Hub, 1, chain.FitUnknown},
		{chain.Derailleur7to8, chain.Single, 1, chain.FitUnknown},
		{chain.Derailleur11, chain.Single, 1, chain.FitNo},
		{chain.Cargo3to16, chain.Single, 1, chain.FitUnknown},
		{chain.Pitch10MM, chain.Single, 1, chain.FitNo},
		{chain.Pitch1Inch, chain.Derailleur, 5, chain.FitNo},
	} {
		for _, f := range chain.Families() {
			if f.Class == row.class {
				assert.Equal(t, row.fit, f.Fits(row.drive, row.sprockets), "%v", row)
			}
		}
	}
}
