package chain_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"tautspan/internal/chain"
)

// Pitch diameters for a one-inch pitch in mm, printed to 0.01, from a
// gear-works reference page ("Pitch diameter of roller chain wheels"); and for
// unit pitch, the form of ISO 606 annex A. Printed ISO tables may truncate, so
// the second is held to 1e-6 against our own reference computation only.
func TestPitchRadiusMM_publishedTable(t *testing.T) {
	for _, row := range []struct {
		teeth      int
		inch, unit float64
	}{
		{9, 74.26, 2.923804}, {10, 82.20, 3.236068}, {11, 90.16, 3.549466}, {12, 98.14, 3.863703},
		{13, 106.14, 4.178581}, {14, 114.15, 4.493959}, {15, 122.17, 4.809734}, {16, 130.20, 5.125831},
		{17, 138.23, 5.442191}, {18, 146.27, 5.758770}, {19, 154.32, 6.075534}, {20, 162.37, 6.392453},
		{21, 170.42, 6.709506}, {22, 178.48, 7.026674}, {24, 194.60, 7.661298}, {25, 202.66, 7.978730},
		{26, 210.72, 8.296230}, {28, 226.86, 8.931404}, {30, 243.00, 9.566772}, {32, 259.14, 10.202297},
		{34, 275.28, 10.837951}, {36, 291.43, 11.473713}, {38, 307.58, 12.109566}, {40, 323.74, 12.745495},
		{42, 339.89, 13.381490}, {44, 356.05, 14.017542}, {46, 372.20, 14.653644}, {48, 388.36, 15.289788},
		{50, 404.52, 15.925971}, {52, 420.68, 16.562188}, {53, 428.76, 16.880307}, {56, 453.00, 17.834707},
		{60, 485.33, 19.107323}, {100, 808.64, 31.836225},
	} {
		assert.InDelta(t, row.inch, 2*chain.PitchRadiusMM(row.teeth, 25.4), 0.005+1e-9, "%d teeth, one inch", row.teeth)
		assert.InDelta(t, row.unit, 2*chain.PitchRadiusMM(row.teeth, 1), 6e-7, "%d teeth, unit pitch", row.teeth)
	}
}

// Printed results of a textbook: Bhandari, Design of Machine Elements, ch. 14
// (open companion), and Mott, Machine Elements (from memory, recomputed).
func TestPitchRadiusMM_textbooks(t *testing.T) {
	for _, row := range []struct {
		pitch     float64
		teeth     int
		diameter  float64
		tolerance float64
	}{
		{19.05, 17, 103.673741, 5e-7},
		{19.05, 34, 206.462975, 5e-7},
		{19.05, 21, 127.816092, 5e-7},
		{19.05, 80, 485.228971, 5e-7},
		{0.75, 17, 4.082, 5e-4},
		{0.75, 65, 15.524, 5e-4},
		{19.05, 25, 152.0, 0.05}, // Khurmi, from memory, recomputed
		{19.05, 72, 436.7, 0.05},
	} {
		assert.InDelta(t, row.diameter, 2*chain.PitchRadiusMM(row.teeth, row.pitch), row.tolerance, "%d teeth", row.teeth)
	}
	assert.Panics(t, func() { chain.PitchRadiusMM(2, 12.7) })
	assert.InDelta(t, 1/math.Sqrt(3), chain.PitchRadiusMM(3, 1), 1e-15) // an equilateral triangle
}

// 360/z, computed independently for our list of reference values.
func TestArticulationDeg(t *testing.T) {
	for teeth, degrees := range map[int]float64{
		9: 40, 10: 36, 11: 32.7273, 12: 30, 13: 27.6923, 14: 25.7143, 16: 22.5, 18: 20,
		21: 17.1429, 28: 12.8571, 32: 11.25, 44: 8.1818, 52: 6.9231,
	} {
		assert.InDelta(t, degrees, chain.ArticulationDeg(teeth), 5e-5, "%d teeth", teeth)
	}
	assert.Panics(t, func() { chain.ArticulationDeg(0) })
	assert.Equal(t, 360.0, chain.ArticulationDeg(1))
}
