package drive_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"

	"tautspan/internal/drive"
)

// The arc of the parabola y = 4h x (s-x)/s² is measured with gonum's
// Gauss-Legendre quadrature of sqrt(1 + y'²) and must be s + spare.
func TestSagMM_arc(t *testing.T) {
	for _, row := range []struct{ s, spare float64 }{
		{400, 0.01}, {400, 0.27}, {400, 5}, {407.6, 26}, {395, 123.5}, {380, 300}, {120, 240},
	} {
		h := drive.SagMM(row.s, row.spare)
		arc := quad.Fixed(func(x float64) float64 {
			return math.Hypot(1, 4*h*(row.s-2*x)/(row.s*row.s))
		}, 0, row.s, 200, quad.Legendre{}, 0)
		assert.InDelta(t, row.s+row.spare, arc, 1e-6, "%v", row)
	}
	// Of a flat parabola the arc is s (1 + 8/3 (h/s)²) (handbook series).
	for _, spare := range []float64{1e-9, 0.001, 0.006} {
		assert.InEpsilon(t, math.Sqrt(3*400*spare/8), drive.SagMM(400, spare), 1e-5)
	}
}

// A catenary of the same arc, by bisection of s + spare = 2a sinh(s/2a).
func TestSagMM_catenary(t *testing.T) {
	for _, spare := range []float64{1, 20, 80, 130} {
		const s = 400.0
		lo, hi := 1.0, 1e7
		for range 200 {
			if a := (lo + hi) / 2; 2*a*math.Sinh(s/2/a) > s+spare {
				lo = a
			} else {
				hi = a
			}
		}
		hang := lo * (math.Cosh(s/2/lo) - 1)
		h := drive.SagMM(s, spare)
		assert.Greater(t, hang, 0.98*h, "%v", spare)
		assert.Less(t, hang, h, "%v", spare)
	}
}

func TestSagMM_taut(t *testing.T) {
	assert.Zero(t, drive.SagMM(400, 0))
	assert.Zero(t, drive.SagMM(400, -3))
}

// A drawing must hold the whole chain: the straight run, the hanging one (its
// arc by gonum's quadrature) and what lies on the wheels, counted in pitches,
// are the count. The wrapped part is teeth times angle over the full turn.
func TestDrawing_holdsTheChain(t *testing.T) {
	whole := func(d drive.Drawing, ring, sprocket int, pitchMM float64) float64 {
		h, s := d.SagMM, d.StraightMM
		arc := quad.Fixed(func(x float64) float64 { return math.Hypot(1, 4*h*(s-2*x)/(s*s)) }, 0, s, 200, quad.Legendre{}, 0)
		return (s+arc)/pitchMM + float64(ring)*d.RingWrapDeg/360 + float64(sprocket)*d.SprocketWrapDeg/360
	}
	a := length(t, `{"chainstay_mm":410,"longest_chainstay_mm":420,"chainrings":[50,34],"sprockets":[11,19,28]}`)
	assert.InDelta(t, a.Pitches, whole(a.Drawing, 50, 28, 12.7), 1e-6)
	for _, c := range a.Combinations {
		assert.InDelta(t, a.Pitches, whole(c.Drawing, c.Ring, c.Sprocket, 12.7), 1e-6, "%d/%d", c.Ring, c.Sprocket)
	}
	fixed := centre(t, `{"centre_mm":415,"adjust_mm":[-5,15],"chainring":44,"sprocket":16,"elongation_percent":0.4,"slack_mm":[10,15]}`)
	require.NotNil(t, fixed.Pitches)
	best := option(t, fixed.Options, *fixed.Pitches)
	assert.InDelta(t, best.Pitches, whole(best.Drawing, 44, 16, 12.7*1.004), 1e-6)
	assert.Zero(t, fixed.Drawing.SagMM)
}
