package wear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/wear"
	"tautspan/internal/wire"
)

// The budget of every kind of reading, line by line, in percent. Each line was
// computed apart from this program: a half-width a as a/sqrt(3) (JCGM 100:2008,
// 4.3.7), a resolution r at both ends as r/sqrt(6) (F.2.2.1), mm over the nominal
// span. The half-widths are common practice, no source; 0.15 % is ISO 606 as
// quoted by an industrial maker; 0.34 % of 127 mm is our simulation.
func TestCalculate_budget(t *testing.T) {
	for _, row := range []struct {
		name, reading string
		correction    float64
		lines         map[string]float64
	}{
		{"rule", `{"kind":"rule","pitches":24,"span_mm":306}`, 0,
			map[string]float64{"resolution": 0.0669699, "alignment": 0.0267879, "rule_accuracy": 0.0189419, "tension": 0.0173205}},
		{"rule in sixteenths", `{"kind":"rule","pitches":20,"span_mm":255,"resolution_in":"1/16"}`, 0,
			map[string]float64{"resolution": 0.2551552, "alignment": 0.0321455, "rule_accuracy": 0.0227303, "tension": 0.0173205}},
		{"rule as stated", `{"kind":"rule","pitches":20,"span_mm":255,"standard_uncertainty_mm":0.254}`, 0,
			map[string]float64{"stated": 0.1}},
		{"compare", `{"kind":"compare","pitches":100,"growth_mm":5}`, 0,
			map[string]float64{"resolution": 0.0321455, "alignment": 0.0113652, "new_chain": 0.0866025, "tension": 0.0173205}},
		{"compare to half a mm", `{"kind":"compare","pitches":50,"growth_mm":5,"resolution_mm":0.5}`, 0,
			map[string]float64{"resolution": 0.0321455, "alignment": 0.0227303, "new_chain": 0.0866025, "tension": 0.0173205}},
		{"compare as stated", `{"kind":"compare","pitches":100,"growth_mm":5,"standard_uncertainty_mm":1.27}`, 0,
			map[string]float64{"stated": 0.1}},
		{"caliper", `{"kind":"caliper","pitches":10,"inside_mm":120}`, 0.0456693,
			map[string]float64{"resolution": 0.0032146, "roller": 0.0227303, "roller_play": 0.0440945, "tension": 0.0173205}},
		{"caliper, play known", `{"kind":"caliper","pitches":10,"inside_mm":120,"roller_play_mm":0.127,"resolution_mm":0.05}`, 0.1,
			map[string]float64{"resolution": 0.0160728, "roller": 0.0227303, "roller_play": 0.02, "tension": 0.0173205}},
		{"screen", `{"kind":"screen","pitches":10,"span_px":768,"px_per_mm":6,"px_per_mm_standard_uncertainty":0.01}`, 0,
			map[string]float64{"calibration": 0.1679790, "reading": 0.3385827, "tension": 0.0173205}},
		{"screen, reading stated", `{"kind":"screen","pitches":10,"span_px":768,"px_per_mm":6,"px_per_mm_standard_uncertainty":0,"standard_uncertainty_px":3}`, 0,
			map[string]float64{"calibration": 0, "reading": 0.3937008, "tension": 0.0173205}},
		{"photo", `{"kind":"photo","pitches":18,"elongation_percent":0.6,"standard_uncertainty_percent":0.07}`, 0,
			map[string]float64{"photo": 0.07, "tension": 0.0173205}},
		{"photo of a measured print", `{"kind":"photo","pitches":18,"elongation_percent":0.6,"standard_uncertainty_percent":0.07,"shared_standard_uncertainty_percent":0.05}`, 0,
			map[string]float64{"calibration": 0.05, "photo": 0.0489898, "tension": 0.0173205}},
		{"photo, all of it shared", `{"kind":"photo","pitches":18,"elongation_percent":0.6,"standard_uncertainty_percent":0.07,"shared_standard_uncertainty_percent":0.07}`, 0,
			map[string]float64{"calibration": 0.07, "photo": 0, "tension": 0.0173205}},
		{"gauge", `{"kind":"gauge","bears_on":"same_side","steps":[{"percent":0.5,"drops":true},{"percent":0.75,"drops":false}]}`, 0,
			map[string]float64{"steps": 0.0721688, "gauge": 0.05}},
		{"gauge on opposed rollers", `{"kind":"gauge","bears_on":"opposed_rollers","steps":[{"percent":0.75,"drops":false}]}`, 0.0575,
			map[string]float64{"steps": 0.2165064, "gauge": 0.05, "roller_play": 0.0554}},
		{"gauge, all drop", `{"kind":"gauge","bears_on":"same_side","steps":[{"percent":0.5,"drops":true}]}`, 0,
			map[string]float64{"steps": 0.1443376, "gauge": 0.05}},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := ask(t, `{"drive":"hub","reading":`+row.reading+`}`)
			sum, got := 0.0, map[string]float64{}
			for _, line := range a.Budget {
				got[line.Source] = line.StandardUncertainty
			}
			for source, u := range row.lines {
				sum += u * u
				assert.InDelta(t, u, got[source], 6e-8, source)
			}
			assert.Len(t, got, len(row.lines))
			assert.InDelta(t, math.Sqrt(sum), a.StandardUncertainty, 2e-7)
			assert.InDelta(t, row.correction, a.Correction, 6e-8)
		})
	}
}

// An unevenly spaced set of steps in every order: between the largest that
// dropped and the smallest that did not.
func TestReading_GaugeInterval(t *testing.T) {
	steps := []wear.Step{{Percent: 0.25, Drops: true}, {Percent: 0.5, Drops: true}, {Percent: 0.8, Drops: false}, {Percent: 1, Drops: false}}
	for range steps {
		for range steps[1:] {
			r := wear.Reading{Kind: wear.Gauge, Steps: steps}
			lo, hi, openLow, openHigh, err := r.GaugeInterval()
			require.NoError(t, err)
			assert.Equal(t, [2]float64{0.5, 0.8}, [2]float64{lo, hi})
			assert.False(t, openLow || openHigh)
			steps = []wear.Step{steps[0], steps[2], steps[3], steps[1]}
		}
		steps = append(steps[1:4:4], steps[0])
	}
	none := wear.Reading{Kind: wear.Gauge, Steps: []wear.Step{{Percent: 0.8}, {Percent: 0.3}, {Percent: 0.5}}}
	e, err := none.Evidence(12.7)
	require.NoError(t, err)
	assert.Equal(t, wear.Evidence{Interval: true, Lo: math.Inf(-1), Hi: 0.3}, e)
}

// The same length is the same reading in every unit and form: 1 in is 25.4 mm
// exactly (international inch, 1959).
func TestCalculate_sameLengthInAnyUnit(t *testing.T) {
	want := ask(t, `{"drive":"hub","reading":{"kind":"rule","pitches":24,"span_mm":306.3875,"resolution_mm":1.5875}}`)
	for _, span := range []string{`"span_in":"12 1/16"`, `"span_in":"12.0625"`, `"span_text":"12-1/16\""`, `"span_text":"30,63875 cm"`, `"span_text":"306.3875 mm"`} {
		for _, resolution := range []string{`"resolution_in":"1/16"`, `"resolution_in":0.0625`, `"resolution_mm":1.5875`} {
			got := ask(t, `{"drive":"hub","reading":{"kind":"rule","pitches":24,`+span+`,`+resolution+`}}`)
			assert.InDelta(t, want.Elongation, got.Elongation, 1e-12)
			assert.InDelta(t, want.StandardUncertainty, got.StandardUncertainty, 1e-12)
			assert.Equal(t, want.Verdict, got.Verdict)
		}
	}
}

// Where a request's fields end, and just beyond.
func TestRequest_ends(t *testing.T) {
	read := func(json string) error {
		var r wear.Request
		err := wire.Read([]byte(json), &r)
		if err == nil {
			_, err = wear.Calculate(&r)
		}
		return err
	}
	rule := func(fields string) string {
		return `{"drive":"hub","reading":{"kind":"rule","pitches":24,` + fields + `}}`
	}
	whole := `"reading":{"kind":"rule","pitches":24,"span_mm":306}}`
	for _, good := range []string{
		`{"drive":"hub","pitch_mm":8,` + whole, `{"drive":"hub","pitch_mm":26,` + whole,
		`{"drive":"hub","limit_percent":0.1,` + whole, `{"drive":"hub","limit_percent":3,` + whole,
		`{"drive":"derailleur","rear_sprockets":1,` + whole, `{"drive":"derailleur","rear_sprockets":14,` + whole,
		rule(`"span_text":"1 mm"`), rule(`"span_text":"6000 mm"`), rule(`"span_in":"0.04"`), rule(`"span_in":"236.2"`),
		rule(`"span_mm":306,"resolution_in":"0.0001"`), rule(`"span_mm":306,"resolution_in":"0.39"`),
	} {
		assert.NoError(t, read(good), good)
	}
	for _, bad := range []string{
		`{"drive":"hub","pitch_mm":7.999,` + whole, `{"drive":"hub","pitch_mm":26.001,` + whole,
		`{"drive":"hub","limit_percent":0.0999,` + whole, `{"drive":"hub","limit_percent":3.001,` + whole,
		`{"drive":"derailleur","rear_sprockets":0,` + whole, `{"drive":"derailleur","rear_sprockets":15,` + whole,
		rule(`"span_text":"0.99 mm"`), rule(`"span_text":"6000.1 mm"`), rule(`"span_in":"0.039"`), rule(`"span_in":"236.3"`),
		rule(`"span_mm":306,"resolution_in":"0.00003"`), rule(`"span_mm":306,"resolution_in":"0.394"`),
	} {
		assert.Error(t, read(bad), bad)
	}
}
