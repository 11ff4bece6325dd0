// Package drive answers how long a chain must be: the calculation length for
// derailleur drives, and the calculation centre for drives with a fixed
// distance between the axles (single, hub gear, fixed).
//
// Lengths of chain are in pitches, one pin-to-pin step each; two pitches, an
// inner and an outer link, are a link pair. A chain closes only with an even
// count, or with any count where a half link is used. The geometry itself is
// chain.Loop.
package drive

import (
	"math"
	"strconv"

	"tautspan/internal/chain"
	"tautspan/internal/wire"
)

// Ranges of the requests, wide enough for folding bicycles, tandems and
// recumbents and for the textbook examples (our choice).
const (
	leastCentreMM = 100
	mostCentreMM  = 3000
	mostPitches   = 1000
)

// rounding forgives the last bits of a length that stands exactly at a count.
const rounding = 1e-9

// step is by how many pitches counts that close differ: 2, or 1 where half
// links are allowed.
func step(halfLinks bool) int {
	if halfLinks {
		return 1
	}
	return 2
}

// closable returns the smallest count of pitches that closes and is not less
// than exact.
func closable(exact float64, halfLinks bool) int {
	s := step(halfLinks)
	return s * int(math.Ceil(exact/float64(s)-rounding))
}

// closableBelow returns the largest count that closes and is not more than
// exact.
func closableBelow(exact float64, halfLinks bool) int {
	s := step(halfLinks)
	return s * int(math.Floor(exact/float64(s)+rounding))
}

func shown(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// pitchField declares the chain's pitch.
func pitchField(o *wire.Object, p *float64) {
	o.Number("pitch_mm", p).Between(8, 26).Default("12.7").Doc("pin-to-pin pitch", "mm")
}

// Drawing is one drive to scale: two pitch circles, the taut chain, and how far
// one run of it hangs when it holds all the spare chain.
type Drawing struct {
	CentreMM         float64
	RingRadiusMM     float64
	SprocketRadiusMM float64
	StraightMM       float64
	LeanDeg          float64
	RingWrapDeg      float64
	SprocketWrapDeg  float64
	SagMM            float64
}

// newDrawing returns the drawing of a ring and a sprocket on axles centreMM
// apart, which must leave room for them, with a chain of the given count. A
// count too short to go round is drawn taut.
func newDrawing(ring, sprocket int, centreMM, pitchMM float64, pitches int) Drawing {
	loop := chain.NewLoop(ring, sprocket)
	d := Drawing{
		CentreMM:         centreMM,
		RingRadiusMM:     chain.PitchRadiusMM(ring, pitchMM),
		SprocketRadiusMM: chain.PitchRadiusMM(sprocket, pitchMM),
		StraightMM:       pitchMM * loop.Straight(centreMM/pitchMM),
		LeanDeg:          loop.LeanRad(centreMM/pitchMM) * 180 / math.Pi,
	}
	lean := d.LeanDeg
	if ring < sprocket {
		lean = -lean
	}
	d.RingWrapDeg, d.SprocketWrapDeg = 180+2*lean, 180-2*lean
	d.SagMM = SagMM(d.StraightMM, pitchMM*(float64(pitches)-loop.Pitches(centreMM/pitchMM)))
	return d
}

// Fields declares the drawing's JSON.
func (d *Drawing) Fields(o *wire.Object) {
	o.Number("centre_mm", &d.CentreMM).Required().Doc("distance between the axles drawn", "mm")
	o.Number("ring_radius_mm", &d.RingRadiusMM).Required().Doc("pitch circle of the chainring, p/(2 sin(pi/z))", "mm")
	o.Number("sprocket_radius_mm", &d.SprocketRadiusMM).Required().Doc("pitch circle of the sprocket", "mm")
	o.Number("straight_mm", &d.StraightMM).Required().Doc("one straight run from wheel to wheel", "mm")
	o.Number("lean_deg", &d.LeanDeg).Required().Doc("angle between a straight run and the line through the axles", "degrees")
	o.Number("ring_wrap_deg", &d.RingWrapDeg).Required().Doc("part of the chainring the chain lies on", "degrees")
	o.Number("sprocket_wrap_deg", &d.SprocketWrapDeg).Required().Doc("part of the sprocket the chain lies on", "degrees")
	o.Number("sag_mm", &d.SagMM).Required().Doc("how far below its straight line one run hangs at mid-span when it holds all the spare chain, without a derailleur", "mm")
}
