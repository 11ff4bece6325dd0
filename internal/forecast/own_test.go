package forecast

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Which instrument's own error is kept apart: the one whose shared part squared
// over the rest, summed over its readings, is the largest above a half; a gauge's
// roller play before any (by hand: a third for each "a", 1.78 for "b").
func TestWithOneBias(t *testing.T) {
	a, b := Exact(100, 0.3, 0.1).Sharing("a", 0.05), Exact(200, 0.3, 0.1).Sharing("b", 0.08)
	later := a
	later.KM = 300
	gauge := Between(400, math.Inf(-1), 0.5, RollerPlay)
	for name, row := range map[string]struct {
		marks []Mark
		nodes []biasNode
		owns  []float64
	}{
		"too little":   {[]Mark{a}, withoutBias, []float64{0}},
		"enough":       {[]Mark{a, later}, ownError, []float64{0.05, 0.05}},
		"the larger":   {[]Mark{a, b, later}, ownError, []float64{0, 0.08, 0}},
		"a gauge":      {[]Mark{b, gauge}, rollerPlay, []float64{0, 0}},
		"nothing told": {[]Mark{Exact(100, 0.3, 0.1)}, withoutBias, []float64{0}},
	} {
		taken, nodes := withOneBias(row.marks, epochs(row.marks, mostEpochs))
		assert.Equal(t, row.nodes, nodes, name)
		for i := range taken {
			assert.Equal(t, row.owns[i], taken[i].own, "%s %d", name, i)
		}
	}
}
