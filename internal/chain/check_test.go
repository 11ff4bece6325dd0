package chain_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
)

func TestCheckTeeth(t *testing.T) {
	assert.NoError(t, chain.CheckTeeth([]int{50, 34}, "chainrings"))
	var f *fault.Error
	require.True(t, errors.As(chain.CheckTeeth([]int{50, 34, 50}, "chainrings"), &f))
	assert.Equal(t, "chainrings[2]", f.Field)
	assert.Equal(t, fault.Contradiction, f.Code)
	assert.Contains(t, f.Message, "50 teeth")
}

// Wheels of 52 and 36 teeth touch at the sum of their pitch radii,
// half the sum of the printed pitch diameters 420.68 and 291.43 mm for one inch
// (gear-works reference page), 178.03 mm for half an inch.
func TestLoop_CheckRoom(t *testing.T) {
	l := chain.NewLoop(52, 36)
	assert.InDelta(t, 178.0275, l.LeastCentre()*12.7, 0.005)
	assert.NoError(t, l.CheckRoom(178.04, 12.7, "centre_mm"))
	var f *fault.Error
	require.True(t, errors.As(l.CheckRoom(178.02, 12.7, "centre_mm"), &f))
	assert.Equal(t, "centre_mm", f.Field)
	assert.Contains(t, f.Message, "at 178.02 mm")
	assert.Contains(t, f.Message, "allowed is 179 mm")
	assert.Error(t, l.CheckRoom(l.LeastCentre()*12.7, 12.7, "centre_mm"), "touching is too near")
}

// 1/2 in is 12.7 mm exactly; a new chain may be 0 to 0.15 % long (ISO 606 as
// quoted by an industrial maker); half an inch to spare: common practice.
func TestConstants(t *testing.T) {
	assert.Equal(t, 12.7, chain.PitchMM)
	assert.Equal(t, 0.15, chain.NewTolerancePercent)
	assert.Equal(t, 1.0, chain.LeastSparePitches)
}
