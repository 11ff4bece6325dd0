package gears_test

import (
	"errors"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/gears"
)

// Circumferences pi (bead + 2 width) for ISO 5775 sizes, computed independently
// for our reference values and printed to 0.1 mm.
func TestParseTyre_OK(t *testing.T) {
	for _, row := range []struct {
		text          string
		tyre          gears.Tyre
		circumference float64
	}{
		{"25-622", gears.Tyre{WidthMM: 25, BeadMM: 622}, 2111.2},
		{"28-622", gears.Tyre{WidthMM: 28, BeadMM: 622}, 2130.0},
		{"32-622", gears.Tyre{WidthMM: 32, BeadMM: 622}, 2155.1},
		{" 40 - 622 ", gears.Tyre{WidthMM: 40, BeadMM: 622}, 2205.4},
		{"54–559", gears.Tyre{WidthMM: 54, BeadMM: 559}, 2095.4},
		{"058-584", gears.Tyre{WidthMM: 58, BeadMM: 584}, 2199.1},
		{"0010-0080", gears.Tyre{WidthMM: 10, BeadMM: 80}, 314.2}, // the smallest and the largest, computed
		{"150-700", gears.Tyre{WidthMM: 150, BeadMM: 700}, 3141.6},
	} {
		tyre, err := gears.ParseTyre(row.text)
		require.NoError(t, err, row.text)
		assert.Equal(t, row.tyre, tyre)
		assert.InDelta(t, row.circumference, tyre.CircumferenceMM(), 0.05+1e-9, row.text)
	}
}

func TestParseTyre_refuses(t *testing.T) {
	for _, row := range []struct {
		text string
		code fault.Code
	}{
		{"", fault.Unreadable}, {"-", fault.Unreadable}, {"37", fault.Unreadable}, {"37-", fault.Unreadable},
		{"-622", fault.Unreadable}, {"37--622", fault.Unreadable}, {"37-622-1", fault.Unreadable}, {"3.7-622", fault.Unreadable},
		{"+37-622", fault.Unreadable}, {"37x622", fault.Unreadable}, {"28 x 1.40", fault.Unreadable}, {"1e1-622", fault.Unreadable},
		{"37-99999", fault.Unreadable}, {"37-00622", fault.Unreadable}, {"３７-622", fault.Unreadable}, {"37-622\x00", fault.Unreadable}, {"3 7-622", fault.Unreadable},
		{"622-37", fault.OutOfRange}, {"0-622", fault.OutOfRange}, {"37-0", fault.OutOfRange}, {"9-622", fault.OutOfRange},
		{"151-622", fault.OutOfRange}, {"37-701", fault.OutOfRange}, {"37-79", fault.OutOfRange},
	} {
		_, err := gears.ParseTyre(row.text)
		var f *fault.Error
		require.True(t, errors.As(err, &f), "%q", row.text)
		assert.Equal(t, row.code, f.Code, "%q", row.text)
		assert.Contains(t, f.Message, "37-622", "the error shows what is allowed")
	}
}

// FuzzParseTyre holds that any text is a tyre within the stated sizes, which
// written out reads as itself, or an error.
func FuzzParseTyre(f *testing.F) {
	for _, seed := range []string{"37-622", " 54 – 559", "622-37", "37-622-", "0-0", "--"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		tyre, err := gears.ParseTyre(text)
		if err != nil {
			var known *fault.Error
			require.True(t, errors.As(err, &known))
			return
		}
		require.True(t, tyre.WidthMM >= 10 && tyre.WidthMM <= 150 && tyre.BeadMM >= 80 && tyre.BeadMM <= 700, "%q", text)
		again, err := gears.ParseTyre(strconv.Itoa(tyre.WidthMM) + "-" + strconv.Itoa(tyre.BeadMM))
		require.NoError(t, err)
		require.Equal(t, tyre, again)
	})
}
