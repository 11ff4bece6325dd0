package photo_test

import (
	"bytes"
	"encoding/json"
	"image"
	"image/png"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/photo"
	"tautspan/internal/testkit/scene"
)

func measureRuled(t testing.TB, s *scene.Scene, change ...func(*photo.Request)) *photo.Response {
	t.Helper()
	thick := s.StatedThickMM()
	r := &photo.Request{Reference: photo.Rule, ThickMM: &thick}
	for _, f := range change {
		f(r)
	}
	answer, err := photo.Measure(s.JPEG(), r)
	require.NoError(t, err)
	checkShape(t, answer)
	return answer
}

// The same bounds as for the frame. The truth is the drawing's own elongation;
// rule, thickness and how it lies are off by what the budget says of them.
func TestMeasure_ruledPictures(t *testing.T) {
	unlessBriefly(t)
	held := tally{}
	for seed := *firstOne; seed < *firstOne+*pictures; seed++ {
		s := scene.NewRuled(seed)
		held.add(t, seed, measureRuled(t, s), s.Elongation)
	}
	held.holds(t)
}

// plainRuled is a picture with nothing wrong, small enough to be quick.
func plainRuled() *scene.Scene {
	s := scene.NewRuled(5)
	s.Width, s.Height, s.Focal35, s.DistanceMM = 2800, 2100, 26, 420
	s.TiltXDeg, s.TiltYDeg, s.RollDeg, s.OffsetX, s.OffsetY = 3, 2, 4, 0, 0
	s.Blur, s.DirtShare, s.Glare, s.Noise = 0.7, 0, 0, 2
	return s
}

func TestMeasure_ruledRefusals(t *testing.T) {
	unlessBriefly(t)
	ordinary := measureRuled(t, plainRuled())
	require.True(t, ordinary.Accepted, "the picture the others are made of")
	for name, c := range map[string]struct {
		codes  string
		change func(*scene.Scene)
	}{
		"no rule":                      {"no_rule", func(s *scene.Scene) { s.Rule.There = false }},
		"the print instead":            {"no_rule", func(s *scene.Scene) { s.Rule.There, s.Marks = false, true }},
		"ten pitches":                  {"few_pitches", func(s *scene.Scene) { s.Pitches = 10 }},
		"tilted along":                 {"tilted", func(s *scene.Scene) { s.TiltXDeg = 17 }},
		"tilted across":                {"tilted", func(s *scene.Scene) { s.TiltYDeg = -17 }},
		"near":                         {"too_near", func(s *scene.Scene) { s.DistanceMM, s.Focal35 = 320, 24 }},
		"far":                          {"coarse", func(s *scene.Scene) { dark(s); s.DistanceMM, s.Blur = 620, 0.5 }},
		"blurred":                      {"no_rule", func(s *scene.Scene) { s.Blur = 4 }},
		"scalloped edge":               {"not_a_chain", func(s *scene.Scene) { s.Thing = scene.Scalloped }},
		"strip with holes":             {"not_a_chain", func(s *scene.Scene) { s.Thing = scene.Holed }},
		"bare table":                   {"not_a_chain", func(s *scene.Scene) { s.Thing = scene.Nothing }},
		"a third rivet in each plate":  {"count", func(s *scene.Scene) { s.Doubled = true }},
		"one rivet more in the length": {"not_possible", func(s *scene.Scene) { s.Elongation = 100.0/21 - 0.6 }},
		"one rivet less in the length": {"few_pitches count not_possible", func(s *scene.Scene) { s.Elongation = 0.6 - 100.0/21 }},
		"bent":                         {"rule_bent", func(s *scene.Scene) { s.Rule.WavesMM = 1 }},
		"uneven, thick and tilted":     {"rule_uncertain", func(s *scene.Scene) { uneven(s, 0.12); s.Rule.ThickMM, s.Rule.Steel = 3, 0.4 }},
		"marks of 1/16 in":             {"too_near not_a_chain", func(s *scene.Scene) { s.Rule.StepMM = 25.4 / 16 }},
	} {
		t.Run(name, func(t *testing.T) {
			s := plainRuled()
			c.change(s)
			assertRefused(t, measureRuled(t, s), c.codes)
		})
	}
	assertRefused(t, measureRuled(t, plainRuled(), func(r *photo.Request) { r.ThickMM = nil }), "no_thickness")
	for _, off := range []int{-1, 1} {
		assertRefused(t, measureRuled(t, plainRuled(), func(r *photo.Request) { r.Rivets = ptr(ordinary.Rivets + off) }), "count")
	}
}

func ptr[T any](v T) *T { return &v }

// Marks that lie t over the rivets, seen from h over them, make the chain look
// shorter by t/h (intercept theorem): 1 mm at 420 mm is 0.24 %.
func TestMeasure_ruleThickness(t *testing.T) {
	unlessBriefly(t)
	s := plainRuled()
	right, thin := s.StatedThickMM(), s.StatedThickMM()-0.3
	a := measureRuled(t, s)
	b := measureRuled(t, s, func(r *photo.Request) { r.ThickMM = &thin })
	require.True(t, a.Accepted && b.Accepted)
	assert.InDelta(t, 100*(right-thin)/s.DistanceMM, *a.Elongation-*b.Elongation, 0.004)
}

// What repeats like a rule's marks, over the whole picture, bent or torn off, is
// answered, and not with a figure.
func TestMeasure_stripesAreNoRule(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 3))
	for name, level := range map[string]func(x, y float64) float64{
		"stripes of 3 pixels":  func(x, _ float64) float64 { return 127 + 120*math.Cos(2*math.Pi*x/3) },
		"stripes of 7 pixels":  func(x, y float64) float64 { return 127 + 120*math.Cos(2*math.Pi*(x+0.1*y)/7) },
		"one row, ever closer": func(x, y float64) float64 { return 127 + band(y)*math.Cos(x*(1+x/900)) },
		"one row, torn":        func(x, y float64) float64 { return 127 + band(y)*math.Cos(x+math.Floor(x/300)) },
		"rings":                func(x, y float64) float64 { return 127 + 120*math.Cos(math.Hypot(x-700, y-500)) },
		"noise":                func(_, _ float64) float64 { return 255 * dice.Float64() },
		"nothing":              func(_, _ float64) float64 { return 0 },
	} {
		t.Run(name, func(t *testing.T) {
			m := image.NewGray(image.Rect(0, 0, 1400, 1000))
			for i := range m.Pix {
				m.Pix[i] = uint8(level(float64(i%1400), float64(i/1400)))
			}
			var file bytes.Buffer
			require.NoError(t, png.Encode(&file, m))
			var answer struct{ Accepted *bool }
			require.NoError(t, json.Unmarshal(photo.Answer(file.Bytes(), []byte(`{"reference":"rule","thickness_mm":1}`)), &answer))
			require.NotNil(t, answer.Accepted, "an answer, no error")
			assert.False(t, *answer.Accepted)
		})
	}
}

// band is a strip of 24 rows in the middle.
func band(y float64) float64 {
	if math.Abs(y-500) < 12 {
		return 100
	}
	return 0
}

// tally is how pictures of known truth were measured.
type tally struct{ drawn, accepted, inside, sum, squares, stated float64 }

func (y *tally) add(t *testing.T, seed uint64, a *photo.Response, truth float64) {
	y.drawn++
	if !a.Accepted {
		t.Logf("%d refused: %s", seed, a.Refusals[0].Code)
		return
	}
	miss := *a.Elongation - truth
	t.Logf("%d: %+.3f %% off, stated %.3f %%, %d pitches", seed, miss, *a.U, a.Pitches)
	assert.LessOrEqual(t, math.Abs(miss), 0.3, "seed %d", seed)
	y.accepted++
	y.sum, y.squares, y.stated = y.sum+miss, y.squares+miss*miss, y.stated+*a.U**a.U
	if math.Abs(miss) <= 2**a.U {
		y.inside++
	}
}

// holds checks the bounds that the product must hold.
func (y *tally) holds(t *testing.T) {
	share, bias, rms := y.accepted/y.drawn, y.sum/y.accepted, math.Sqrt(y.squares/y.accepted)
	t.Logf("accepted %.0f %%, bias %+.3f %%, RMS %.3f %%, stated %.3f %%, inside 2u %.0f %%",
		100*share, bias, rms, math.Sqrt(y.stated/y.accepted), 100*y.inside/y.accepted)
	assert.GreaterOrEqual(t, share, 0.75)
	if y.drawn < 40 {
		return // too few for the rest to mean anything
	}
	assert.LessOrEqual(t, math.Abs(bias), 0.04)
	assert.LessOrEqual(t, rms, 0.10)
	// 15 %, and what chance does to the RMS of so few.
	assert.InDelta(t, 1, math.Sqrt(y.stated/y.accepted)/rms, 0.15+1/math.Sqrt(2*y.accepted))
	assert.GreaterOrEqual(t, y.inside/y.accepted, 0.9)
}
