package drive_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"tautspan/internal/chain"
	"tautspan/internal/drive"
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// between draws from a range and, one time in four, one of its ends.
func between(random *rand.Rand, lo, hi float64) float64 {
	switch random.IntN(8) {
	case 0:
		return lo
	case 1:
		return hi
	}
	return lo + (hi-lo)*random.Float64()
}

func teeth(random *rand.Rand) int {
	return int(between(random, chain.LeastTeeth, chain.MostTeeth))
}

// sorted draws [lo, hi] in order.
func sorted(random *rand.Rand, lo, hi float64) *[2]float64 {
	a, b := between(random, lo, hi), between(random, lo, hi)
	return &[2]float64{min(a, b), max(a, b)}
}

// Over the whole of what the requests allow, every answer is either finite
// numbers or an error that names a field.
func TestCentre_wholeRange(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 5))
	answered := 0
	for range 4000 {
		r := &drive.CentreRequest{
			CentreMM: between(random, 100, 3000), AdjustMM: sorted(random, -100, 100), SlackMM: sorted(random, 0, 100),
			Chainring: teeth(random), Sprocket: teeth(random), PitchMM: between(random, 8, 26),
			ElongationPercent: between(random, 0, 3), HalfLinkAllowed: random.IntN(2) == 0,
		}
		answer, err := drive.Centre(r)
		if err != nil {
			requireField(t, err)
			continue
		}
		answered++
		_, err = wire.Write(answer)
		require.NoError(t, err, "%+v", r)
		for _, o := range answer.Options {
			if o.Fits {
				require.InDelta(t, (r.SlackMM[0]+r.SlackMM[1])/2, o.PlayMM, (r.SlackMM[1]-r.SlackMM[0])/2+1e-5, "%+v", r)
			}
		}
	}
	require.Greater(t, answered, 1000)
}

func TestLength_wholeRange(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 6))
	answered := 0
	for range 4000 {
		stock, capacity, longest := 2+random.IntN(999), random.IntN(151), between(random, 100, 3000)
		r := &drive.LengthRequest{
			ChainstayMM: between(random, 100, 3000), Chainrings: []int{teeth(random)}, Sprockets: []int{teeth(random)},
			Derailleur: &drive.Derailleur{CapacityTeeth: &capacity}, AddPitches: random.IntN(13),
			HalfLinkAllowed: random.IntN(2) == 0, StockPitches: &stock, FittedPitches: &stock, PitchMM: between(random, 8, 26),
		}
		if random.IntN(2) == 0 {
			r.LongestChainstayMM = &longest
		}
		answer, err := drive.Length(r)
		if err != nil {
			requireField(t, err)
			continue
		}
		answered++
		_, err = wire.Write(answer)
		require.NoError(t, err, "%+v", r)
		// Cut and stock balance: what is kept, with what is missing, is the answer.
		require.Equal(t, answer.Pitches, 2*(answer.Cut.KeepPairs+answer.Cut.MissingPairs)+answer.Cut.HalfLinks)
		require.Equal(t, stock/2, answer.Cut.KeepPairs+answer.Cut.RemovePairs)
	}
	require.Greater(t, answered, 1000)
}

func requireField(t *testing.T, err error) {
	t.Helper()
	var f *fault.Error
	require.True(t, errors.As(err, &f))
	require.NotEmpty(t, f.Field)
}
