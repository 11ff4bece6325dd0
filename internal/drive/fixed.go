package drive

import (
	"math"

	"tautspan/internal/chain"
)

// PlayMM returns the total up-and-down movement t at mid-span of a run
// straightMM long, when the whole loop has spareMM more chain than a taut one:
// t = sqrt((s + spare)² - s²). Pushed to one side, the run makes two straight
// pieces; the other run is then pulled straight, so all the spare chain shows in
// this one. It is 0 where nothing is spare.
func PlayMM(straightMM, spareMM float64) float64 {
	if spareMM <= 0 {
		return 0
	}
	return math.Sqrt(spareMM * (2*straightMM + spareMM))
}

// SpareForPlayMM returns the spare chain that gives the play t, the inverse of
// PlayMM: 2 sqrt((s/2)² + (t/2)²) - s (common practice).
func SpareForPlayMM(straightMM, playMM float64) float64 {
	return math.Hypot(straightMM, playMM) - straightMM
}

// fixed is a worn chain on two wheels. A worn chain lies on a larger circle, for
// each link still spans one tooth; so the whole loop scales with its pitch, and
// elongation e moves the axle by e times the distance, not by e times half the
// chain.
type fixed struct {
	loop    chain.Loop
	pitchMM float64 // with wear
}

func newFixed(ring, sprocket int, r *CentreRequest) fixed {
	return fixed{chain.NewLoop(ring, sprocket), r.PitchMM * (1 + r.ElongationPercent/100)}
}

// exact returns the length of the taut loop in pitches of the worn chain.
func (f fixed) exact(centreMM float64) float64 { return f.loop.Pitches(centreMM / f.pitchMM) }

// straightMM returns the length of one straight run.
func (f fixed) straightMM(centreMM float64) float64 {
	return f.pitchMM * f.loop.Straight(centreMM/f.pitchMM)
}

// playMM returns the play of a chain of the given count.
func (f fixed) playMM(pitches int, centreMM float64) float64 {
	return PlayMM(f.straightMM(centreMM), (float64(pitches)-f.exact(centreMM))*f.pitchMM)
}

// axleMM returns the distance at which a chain of the given count has the given
// play; with no play it is taut. It returns chain.ErrNoRoom where the wheels
// would touch there.
func (f fixed) axleMM(pitches int, playMM float64) (float64, error) {
	play := playMM / f.pitchMM
	centre, err := f.loop.Centre(float64(pitches))
	for range 60 {
		if err != nil || play == 0 {
			break
		}
		before := centre
		centre, err = f.loop.Centre(float64(pitches) - SpareForPlayMM(f.loop.Straight(before), play))
		if math.Abs(centre-before) < 1e-13*before {
			break
		}
	}
	return centre * f.pitchMM, err
}

// reservePercent returns the further elongation, in percent of the nominal
// pitch, at which a chain of the given count has the given play with the axle at
// centreMM, as far back as it goes. It is 0 or more where the axle has that play
// at centreMM or nearer now.
func (f fixed) reservePercent(pitches int, centreMM, playMM, nominalMM float64) float64 {
	now := f.pitchMM
	for range 60 {
		axle, err := f.axleMM(pitches, playMM)
		if err != nil {
			return 0
		}
		before := f.pitchMM
		f.pitchMM *= centreMM / axle
		if math.Abs(f.pitchMM-before) < 1e-13*before {
			break
		}
	}
	return max(0, 100*(f.pitchMM-now)/nominalMM)
}
