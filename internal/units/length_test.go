package units_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/units"
)

// Expected values follow from the exact inch of 25.4 mm.
func TestParseLength_OK(t *testing.T) {
	for _, row := range []struct {
		text string
		bare units.Unit
		mm   float64
	}{
		{"12 1/16", units.Inch, 306.3875},
		{"12-1/16 in", units.NoUnit, 306.3875},
		{`12 - 1/16"`, units.NoUnit, 306.3875},
		{"12 1⁄16 inches", units.NoUnit, 306.3875},
		{"1/16", units.Inch, 1.5875},
		{`12.06"`, units.NoUnit, 306.324},
		{"12.06″", units.Millimetre, 306.324},
		{"306,4", units.Millimetre, 306.4},
		{"306.4 MM", units.Inch, 306.4},
		{"30.64 cm", units.NoUnit, 306.4},
		{" 256 ", units.Millimetre, 256},
		{".5 in", units.NoUnit, 12.7},
		{"0", units.Millimetre, 0},
		{"12 1 / 16", units.Inch, 306.3875},
		{"0/16", units.Inch, 0},
		{"123456 999998/999999", units.Inch, 25.4 * (123456 + 999998.0/999999)},
		{"0.1234567890123456789", units.Inch, 25.4 * 0.1234567890123456789}, // 20 digits
	} {
		mm, err := units.ParseLength(row.text, row.bare)
		require.NoError(t, err, row.text)
		assert.InDelta(t, row.mm, mm, 1e-9, row.text)
	}
}

func TestParseLength_refuses(t *testing.T) {
	for _, text := range []string{ // in inches, for in mm any fraction is refused
		"", " ", "in", `"`, "/", "1/", "/16", "12 1/0", "12 17/16", "16/16", "-12", "+12", "12 -1/16 mm",
		"1e3", "NaN", "Inf", "0x10", "1,234.5", "1.234,5", "12..5", "12 13", "twelve", "12 1/16 1/32", "1/2/3",
		"12 1/16 cm", "306.4 m", "12 ft", "99999999999999999999999", "1\x002", "12 1/1e1", "１２", "１/2",
		"x 1/16", "12 x/16", "12 1/x", "0/0", "1234567 1/2", "1/1234567", "0.12345678901234567890", "12. 1/16", "1/16 1/32",
	} {
		_, err := units.ParseLength(text, units.Inch)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), "12 1/16 in", "the error says what is accepted: %q", text)
	}
	_, err := units.ParseLength("306.4", units.NoUnit)
	assert.ErrorContains(t, err, "no unit")
	for _, text := range []string{"306 1/2", "306 1/2 mm", "30 1/2 cm"} {
		_, err := units.ParseLength(text, units.Millimetre)
		assert.ErrorContains(t, err, "inches only", text)
	}
}

// FuzzParseLength holds that any text gives a finite length of zero or more, or
// an error.
func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{"12 1/16", "306,4", "30.64 cm", `12-1/16"`, "1/0", "\u00a01\u00a01/2"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		mm, err := units.ParseLength(text, units.Inch)
		if err == nil && (mm < 0 || math.IsNaN(mm) || math.IsInf(mm, 0)) {
			t.Fatalf("%q gave %v", text, mm)
		}
	})
}
