// Package scene draws seeded pictures of a chain under the printed window frame,
// as a phone might take them: perspective, lens distortion, paper that does not
// lie quite flat, print that is not to scale, blur, noise, dirt, glare and JPEG.
// It is for tests only and shares no code with what measures the pictures: rays
// are traced from the picture to the things, never the other way. Ranges are
// our own guesses; a drawn picture is no proof for a real one.
//
// Things stand in mm: x along the frame, y across it, z towards the camera, and
// z = 0 is where the outer plates' surface and the rims of the rivets lie.
package scene

import (
	"math"
	"math/rand/v2"
)

// Thing is what lies under the window.
type Thing int

// What can lie under the window.
const (
	Chain     Thing = iota
	Scalloped       // an edge with arcs at the chain's pitch
	Holed           // a strip with round holes at the chain's pitch
	Rimless         // a chain's plates without any rivet
	Nothing         // the bare table
)

// Scene is everything a picture is drawn from.
type Scene struct {
	Seed          uint64
	Width, Height int // pixels

	// The camera.
	Focal35          float64 // mm, 35 mm equivalent
	DistanceMM       float64 // along the camera's axis to the frame's middle
	TiltXDeg         float64 // along the frame
	TiltYDeg         float64 // across it
	RollDeg          float64
	OffsetX, OffsetY float64 // of the frame's middle, as parts of width and height
	AxisX, AxisY     float64 // of the lens's axis from the picture's middle, parts of the half diagonal
	Barrel, Barrel2  float64 // distortion at the half diagonal

	// The print.
	Marks            bool
	ScaleX, ScaleY   float64 // true length over nominal length
	PaperMM          float64 // the paper's height over where its thickness puts it
	CardMM           float64 // thickness of print and card
	CurlMM           float64 // height of the paper's waves
	CurlLengthMM     float64
	WedgeMM, TwistMM float64 // how much one end, one side, lies higher than the other

	Rule Rule // in the print's stead, where it is there

	// The chain.
	Thing       Thing
	Elongation  float64 // percent
	JitterMM    float64 // of each pitch
	PhaseMM     float64 // where a rivet stands
	Pitches     int     // 0: as many as the window shows
	AcrossMM    float64
	AngleDeg    float64
	RivetMM     float64 // radius of the rim
	RimMM       float64 // its width
	RimContrast float64 // 0: invisible, 1: black
	Missing     int     // this rivet of those in sight is worn smooth; 0: none
	Doubled     bool    // every plate has a third rivet in its middle

	// Light and dirt.
	Highlight   float64 // strength of the light spots on the rivets
	DriftMM     float64 // how far the spots wander from one end to the other
	DirtShare   float64 // part of the rivets that carry dirt
	Glare       float64
	Blur        float64 // standard deviation, pixels
	Noise       float64 // standard deviation, levels of 255
	JPEGQuality int

	pins []float64 // along the chain, mm
	rng  *rand.Rand
}

// New returns an ordinary scene for the seed: within the advice given to the
// rider, but nothing is ideal.
func New(seed uint64) *Scene {
	rng := rand.New(rand.NewPCG(seed, 0x5eed))
	span := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	sizes := [][2]int{{4000, 3000}, {3264, 2448}, {2592, 1944}, {2048, 1536}}
	size := sizes[rng.IntN(len(sizes))]
	tilt, towards := span(0, 10), span(0, 2*math.Pi)
	s := &Scene{
		Seed: seed, Width: size[0], Height: size[1],
		Focal35: span(24, 28), DistanceMM: span(400, 700),
		TiltXDeg: tilt * math.Cos(towards), TiltYDeg: tilt * math.Sin(towards),
		RollDeg: span(-12, 12), OffsetX: span(-0.08, 0.08), OffsetY: span(-0.15, 0.15),
		AxisX: span(-0.01, 0.01), AxisY: span(-0.01, 0.01),
		Barrel: span(-0.02, 0.02), Barrel2: span(-0.008, 0.008),
		Marks: true, ScaleX: 1 + 0.007*rng.NormFloat64(), ScaleY: 1 + 0.004*rng.NormFloat64(),
		PaperMM: span(-0.25, 0.25), CurlMM: span(0, 0.25), CurlLengthMM: span(90, 300),
		WedgeMM: span(-0.4, 0.4), TwistMM: span(-0.2, 0.2),
		Elongation: span(-0.05, 1.3), JitterMM: 0.008, PhaseMM: span(0, 25.4),
		AcrossMM: span(-0.5, 0.5), AngleDeg: span(-0.15, 0.15),
		RivetMM: span(1.65, 1.95), RimMM: span(0.2, 0.32), RimContrast: span(0.4, 0.8),
		Highlight: span(0.2, 1), DriftMM: span(-0.9, 0.9), DirtShare: span(0, 0.3),
		Glare: span(0, 0.5), Blur: span(0.5, 1.2), Noise: span(1.5, 6), JPEGQuality: 75 + rng.IntN(21),
	}
	s.CardMM = []float64{0.1, 0.3, 0.5, 1}[seed%4]
	if rng.IntN(4) == 0 {
		s.Width, s.Height = s.Height, s.Width
		s.RollDeg += 90
	}
	if rng.IntN(6) == 0 {
		s.RollDeg += 180
	}
	return s
}

// MeasuredLineMM is what the rider reads from the check line of the nominal
// length when laying a rule along it, with an error of the given standard
// uncertainty.
func (s *Scene) MeasuredLineMM(nominalMM, standardUncertaintyMM float64) float64 {
	rng := rand.New(rand.NewPCG(s.Seed, 0x11e))
	return nominalMM*s.ScaleX + standardUncertaintyMM*rng.NormFloat64()
}

// placePins puts the rivets along the chain. Outer plates keep their pitch;
// every second pitch carries the whole wear of both.
func (s *Scene) placePins() {
	const pitch, reach = 12.7, 200.0
	grown := pitch * (1 + s.Elongation/100)
	at := -reach - math.Mod(s.PhaseMM, 2*pitch)
	first := math.Inf(-1)
	for i := 0; at < reach; i++ {
		step := pitch
		if i%2 == 1 {
			step = 2*grown - pitch
		}
		in := at > -124 && at < 124
		if in && math.IsInf(first, -1) {
			first = at
		}
		s.pins = append(s.pins, at)
		at += step + s.JitterMM*s.rng.NormFloat64()
	}
	if s.Pitches == 0 {
		return
	}
	kept := s.pins[:0]
	for _, p := range s.pins {
		if p >= first && len(kept) <= s.Pitches {
			kept = append(kept, p)
		}
	}
	s.pins = kept
}
