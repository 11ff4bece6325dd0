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

// Widths over the pins: 5 to 13 sprockets and sizes 083 (12.9 mm, two catalogues)
// and 084 (14.8 mm, from memory) as our list of reference values has them; 1/8 in
// common practice, the rest from memory. Inner widths reach to what a handbook or
// two catalogues print: 3.30 mm for 1/8 in, 4.88 mm for 083. Pitches computed.
func TestFamilies_widths(t *testing.T) {
	outer := map[chain.Class][2]float64{
		chain.Derailleur5to6: {7.8, 8.0}, chain.Derailleur7to8: {7.0, 7.3}, chain.Derailleur9: {6.5, 6.8},
		chain.Derailleur10: {5.84, 6.2}, chain.Derailleur11: {5.46, 5.74}, chain.Derailleur12: {5.15, 5.3},
		chain.Derailleur13: {4.9, 5.0}, chain.Single3to32: {7.3, 8.6}, chain.Single1to8: {8.6, 10.2},
		chain.Cargo5to32: {9.4, 11.5}, chain.Cargo3to16: {11, 14.8},
	}
	pitch := map[chain.Class]float64{chain.Pitch10MM: 10, chain.Pitch5to8Inch: 15.875, chain.Pitch1Inch: 25.4}
	inner := map[chain.Class]float64{chain.Single1to8: 3.30, chain.Cargo3to16: 4.88}
	for _, f := range chain.Families() {
		assert.Equal(t, outer[f.Class], f.OuterWidthMM, f.Class)
		assert.Equal(t, outer[f.Class][1] > 0, f.WidthKnown(), f.Class)
		if w, odd := pitch[f.Class]; odd {
			assert.Equal(t, w, f.PitchMM, f.Class)
			assert.Equal(t, []int{1}, f.RearSprockets, f.Class)
		} else {
			assert.Equal(t, 12.7, f.PitchMM, f.Class)
		}
		if w, listed := inner[f.Class]; listed {
			assert.InDelta(t, w, f.InnerWidthMM[1], 0.006, f.Class)
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
		{chain.Single1to8, chain.Derailleur, 0, chain.FitNo},
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
