package photo_test

import (
	"encoding/json"
	"flag"
	"math"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/photo"
	"tautspan/internal/testkit/scene"
)

var (
	pictures = flag.Uint64("pictures", 40, "drawn pictures to measure")
	firstOne = flag.Uint64("first-picture", 1, "seed of the first")
)

// briefly leaves out what draws many pictures.
var briefly bool

func unlessBriefly(t *testing.T) {
	t.Helper()
	if briefly {
		t.Skip("draws many pictures; run without the race detector")
	}
}

// lineU is a steel rule read four times along the check line, mm.
const lineU = 0.12

func measure(t testing.TB, s *scene.Scene) *photo.Response {
	t.Helper()
	return measureFile(t, s, s.JPEG())
}

func measureFile(t testing.TB, s *scene.Scene, file []byte, change ...func(*photo.Request)) *photo.Response {
	t.Helper()
	line := s.MeasuredLineMM(photo.LineMM, lineU)
	r := &photo.Request{CheckLineMM: &line, CheckLineUMM: lineU, ThickMM: &s.CardMM}
	for _, f := range change {
		f(r)
	}
	answer, err := photo.Measure(file, r)
	require.NoError(t, err)
	checkShape(t, answer)
	return answer
}

// checkShape holds what is true of every answer.
func checkShape(t testing.TB, a *photo.Response) {
	t.Helper()
	assert.Equal(t, a.Accepted, len(a.Refusals) == 0)
	assert.Equal(t, a.Accepted, a.Elongation != nil)
	assert.Equal(t, a.Accepted, a.U != nil)
	for _, r := range a.Refusals {
		assert.NotEqual(t, r.Code, r.Text, "a code without words")
	}
	if a.Accepted {
		sum := 0.0
		for _, line := range a.Budget {
			sum += line.U * line.U
		}
		assert.InDelta(t, *a.U, math.Sqrt(sum), 1e-12)
		assert.Equal(t, 0, a.Pitches%2, "whole links only")
		assert.Equal(t, a.Pitches+1, a.Rivets)
		assert.Len(t, a.Overlay.Rivets, a.Rivets)
	}
}

// The bounds are those the product must hold. The truth is the drawing's own
// elongation; the line is read with an error of its stated uncertainty.
func TestMeasure_drawnPictures(t *testing.T) {
	held := tally{}
	for seed := *firstOne; seed < *firstOne+*pictures; seed++ {
		s := scene.New(seed)
		held.add(t, seed, measure(t, s), s.Elongation)
	}
	held.holds(t)
}

// plain is a picture with nothing wrong, small enough to be quick.
func plain() *scene.Scene {
	s := scene.New(2)
	s.Width, s.Height, s.Focal35, s.DistanceMM = 2048, 1536, 26, 420
	s.TiltXDeg, s.TiltYDeg, s.RollDeg, s.OffsetX, s.OffsetY = 3, 2, 4, 0, 0
	s.Blur, s.DirtShare, s.Glare, s.CurlMM = 0.7, 0, 0, 0.05
	return s
}

func TestMeasure_refusals(t *testing.T) {
	unlessBriefly(t)
	require.True(t, measure(t, plain()).Accepted, "the picture the others are made of")
	for name, c := range map[string]struct {
		codes  string
		change func(*scene.Scene)
	}{
		"no marks":                      {"no_marks", func(s *scene.Scene) { s.Marks = false }},
		"no chain, no marks":            {"no_marks", func(s *scene.Scene) { s.Marks, s.Thing = false, scene.Nothing }},
		"marks half out of the picture": {"no_marks", func(s *scene.Scene) { s.OffsetX = 0.5 }},
		"ten pitches":                   {"few_pitches", func(s *scene.Scene) { s.Pitches = 10 }},
		"tilted along":                  {"tilted", func(s *scene.Scene) { s.TiltXDeg = 17 }},
		"tilted across":                 {"tilted", func(s *scene.Scene) { s.TiltYDeg = -17 }},
		"near":                          {"too_near", func(s *scene.Scene) { s.DistanceMM = 320 }},
		"bent":                          {"not_flat", func(s *scene.Scene) { s.CurlMM, s.CurlLengthMM = 2, 130 }},
		"blurred":                       {"blurred", func(s *scene.Scene) { dark(s); s.Blur = 1.95 }},
		"far":                           {"coarse", func(s *scene.Scene) { dark(s); s.DistanceMM, s.Width, s.Height, s.Blur = 660, 1700, 1275, 0.5 }},
		"scalloped edge":                {"not_a_chain", func(s *scene.Scene) { s.Thing = scene.Scalloped }},
		"strip with holes":              {"not_a_chain", func(s *scene.Scene) { s.Thing = scene.Holed }},
		"plates without rivets":         {"not_a_chain", func(s *scene.Scene) { s.Thing = scene.Rimless }},
		"bare table":                    {"not_a_chain", func(s *scene.Scene) { s.Thing = scene.Nothing }},
		"a third rivet in each plate":   {"count", func(s *scene.Scene) { s.Doubled = true }},
		"one rivet more in the length":  {"not_possible", func(s *scene.Scene) { s.Elongation = 100.0/21 - 0.6 }},
		"one rivet less in the length":  {"not_possible", func(s *scene.Scene) { s.Elongation = 0.6 - 100.0/21 }},
		"uneven, thick and tilted":      {"uncertain", func(s *scene.Scene) { uneven(s, 0.16); s.CardMM = 3 }},
	} {
		t.Run(name, func(t *testing.T) {
			s := plain()
			c.change(s)
			assertRefused(t, measure(t, s), c.codes)
		})
	}
	file := plain().JPEG()
	with := func(change func(*photo.Request)) *photo.Response { return measureFile(t, plain(), file, change) }
	assertRefused(t, with(func(r *photo.Request) { r.CheckLineUMM = 0.3 }), "uncertain")
	assertRefused(t, with(func(r *photo.Request) { r.CheckLineMM = nil }), "not_calibrated")
	assertRefused(t, with(func(r *photo.Request) { r.ThickMM = nil }), "no_thickness")
	found := with(func(*photo.Request) {}).Rivets
	for counted, accepted := range map[int]bool{found - 1: false, found: true, found + 1: false} {
		a := with(func(r *photo.Request) { r.Rivets = &counted })
		assert.Equal(t, accepted, a.Accepted)
		if !accepted {
			assertRefused(t, a, "count")
		}
	}
}

// uneven is a chain of few pitches that are not alike, from a tilted phone: each
// of it may pass, all of it is too uncertain.
func uneven(s *scene.Scene, jitterMM float64) {
	s.JitterMM, s.Pitches, s.TiltXDeg, s.DistanceMM = jitterMM, 12, 12, 365
}

// dark makes rims that show in a poor picture, too.
func dark(s *scene.Scene) { s.RimContrast, s.RimMM = 0.95, 0.32 }

// assertRefused holds that these are the reasons, and no others.
func assertRefused(t *testing.T, a *photo.Response, want string) {
	t.Helper()
	codes := []string{}
	for _, r := range a.Refusals {
		codes = append(codes, r.Code)
	}
	assert.False(t, a.Accepted)
	assert.Equal(t, strings.Fields(want), codes)
}

// A rivet without a rim is counted and left out; the rest measures.
func TestMeasure_oneRivetHidden(t *testing.T) {
	unlessBriefly(t)
	s := plain()
	s.Missing = 8
	a := measure(t, s)
	require.True(t, a.Accepted)
	hidden := 0
	for _, r := range a.Overlay.Rivets {
		if !r.Clear {
			hidden++
		}
	}
	assert.Equal(t, 1, hidden)
	assert.InDelta(t, s.Elongation, *a.Elongation, 2**a.U)
}

// Light spots that wander by 0.9 mm from one end to the other would fake 0.7 %.
func TestMeasure_lightSpotsWander(t *testing.T) {
	unlessBriefly(t)
	s := plain()
	s.Highlight, s.DriftMM = 0, 0
	without := measure(t, s)
	s.Highlight, s.DriftMM = 1, 0.9
	with := measure(t, s)
	require.True(t, without.Accepted && with.Accepted)
	assert.InDelta(t, *without.Elongation, *with.Elongation, 0.03)
}

// Where the drawing puts a thing is found by tracing rays, on their own.
func TestMeasure_overlayLiesOnTheMarks(t *testing.T) {
	s := plain()
	s.ScaleX, s.ScaleY, s.CurlMM, s.WedgeMM, s.TwistMM, s.PaperMM, s.CardMM = 1, 1, 0, 0, 0, 0, 0
	a := measure(t, s)
	require.NotEmpty(t, a.Overlay.Marks)
	for _, corner := range [][2]float64{{-125, 9.6}, {0, 9.6}, {125, -9.6}, {60, -9.6}} {
		u, v := s.Pixel(corner[0], corner[1], 0)
		nearest := math.Inf(1)
		for _, m := range a.Overlay.Marks {
			nearest = min(nearest, math.Hypot(m.X-u, m.Y-v))
		}
		assert.Less(t, nearest, 0.5, "%v", corner)
	}
	assert.InDelta(t, s.DistanceMM, *a.DistanceMM, 0.01*s.DistanceMM)
	assert.InDelta(t, math.Hypot(s.TiltXDeg, s.TiltYDeg), *a.TiltDegrees, 0.5)
	assert.Equal(t, photo.FocalAssumed, a.FocalFrom)
}

// sides says where a picture's first row and first column are shown (Exif 2.32,
// Orientation, tag 0x0112).
var sides = map[byte][2]string{1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
	5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"}}

func TestMeasure_overlayIsTurnedAsThePictureIs(t *testing.T) {
	unlessBriefly(t)
	file := plain().JPEG()
	stored := measureFile(t, plain(), file).Overlay
	for orientation, side := range sides {
		tiff := "Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00" +
			string([]byte{orientation}) + "\x00\x00\x00\x00\x00\x00\x00"
		segment := append([]byte{0xff, 0xe1, 0, byte(len(tiff) + 2)}, tiff...)
		turned := append(append(append([]byte{}, file[:2]...), segment...), file[2:]...)
		shown := measureFile(t, plain(), turned).Overlay
		require.Len(t, shown.Rivets, len(stored.Rivets))
		for i, at := range stored.Rivets {
			point := shown.Rivets[i]
			distance := map[string]float64{"left": point.X, "top": point.Y,
				"right": float64(shown.Width) - point.X, "bottom": float64(shown.Height) - point.Y}
			assert.InDelta(t, at.Y, distance[side[0]], 1e-6, "orientation %d, from the first row", orientation)
			assert.InDelta(t, at.X, distance[side[1]], 1e-6, "orientation %d, from the first column", orientation)
		}
	}
}

// Everything a picture of 12 megapixels makes is within the 200 MB it may take,
// even if nothing were ever given back.
func TestMeasure_memory(t *testing.T) {
	unlessBriefly(t)
	s := plain()
	s.Width, s.Height = 4000, 3000
	file := s.JPEG()
	line := photo.LineMM
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := photo.Measure(file, &photo.Request{CheckLineMM: &line, CheckLineUMM: lineU, ThickMM: &s.CardMM})
	require.NoError(t, err)
	runtime.ReadMemStats(&after)
	assert.Less(t, (after.TotalAlloc-before.TotalAlloc)>>20, uint64(200), "MB")
	t.Logf("%d MB in all", (after.TotalAlloc-before.TotalAlloc)>>20)
}

func TestAnswer(t *testing.T) {
	file := plain().JPEG()
	for name, c := range map[string]struct{ request, code, field string }{
		"OK":             {`{"check_line_mm":240.6,"thickness_mm":0.3}`, "", ""},
		"ErrField":       {`{"check_line":240.6}`, "unknown_field", "check_line"},
		"ErrLine":        {`{"check_line_mm":24.06}`, "out_of_range", "check_line_mm"},
		"ErrUncertainty": {`{"check_line_mm":240,"check_line_standard_uncertainty_mm":0}`, "out_of_range", "check_line_standard_uncertainty_mm"},
		"ErrType":        {`{"rivets":"19"}`, "wrong_type", "rivets"},
		"ErrThickness":   {`{"reference":"rule","thickness_mm":-0.5}`, "out_of_range", "thickness_mm"},
		"ErrReference":   {`{"reference":"coin"}`, "not_allowed", "reference"},
		"ErrJSON":        {`{`, "invalid_json", ""},
	} {
		t.Run(name, func(t *testing.T) {
			var answer struct {
				Accepted bool
				Error    struct{ Code, Field string }
			}
			require.NoError(t, json.Unmarshal(photo.Answer(file, []byte(c.request)), &answer))
			assert.Equal(t, c.code == "", answer.Accepted)
			assert.Equal(t, c.code, answer.Error.Code)
			assert.Equal(t, c.field, answer.Error.Field)
		})
	}
}

// Whatever the bytes of picture and request: an answer in JSON, never a crash.
func FuzzAnswer(f *testing.F) {
	s := plain()
	s.Width, s.Height, s.JPEGQuality = 1200, 900, 60
	f.Add(s.JPEG(), `{"check_line_mm":240.6,"thickness_mm":0.3}`)
	s.Thing = scene.Holed
	f.Add(s.JPEG(), `{"check_line_mm":240,"thickness_mm":1,"focal_35mm_mm":24,"rivets":19}`)
	f.Add(plainRuled().JPEG(), `{"reference":"rule","thickness_mm":1}`)
	f.Fuzz(func(t *testing.T, file []byte, request string) {
		var answer struct {
			Accepted *bool
			Error    *struct{ Code string }
		}
		if err := json.Unmarshal(photo.Answer(file, []byte(request)), &answer); err != nil {
			t.Fatalf("no JSON: %v", err)
		}
		if answer.Accepted == nil && (answer.Error == nil || answer.Error.Code == "internal") {
			t.Fatal("neither an answer nor a refusal")
		}
	})
}
