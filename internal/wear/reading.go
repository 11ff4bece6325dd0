package wear

import (
	"tautspan/internal/fault"
	"tautspan/internal/units"
	"tautspan/internal/wire"
)

// Kind is how a reading was taken.
type Kind string

// The kinds of reading.
const (
	Rule    Kind = "rule"    // span from pin to pin against a rule
	Compare Kind = "compare" // worn chain hung beside a new one
	Gauge   Kind = "gauge"   // go/no-go steps
	Caliper Kind = "caliper" // jaws pushing two rollers apart
	Screen  Kind = "screen"  // the phone's calibrated screen as a rule
	Photo   Kind = "photo"   // a photograph, as internal/photo measures it
)

// Bearing is what a gauge bears on.
type Bearing string

// The two ways a gauge can bear.
const (
	OpposedRollers Bearing = "opposed_rollers" // pushes rollers apart: adds roller play
	SameSide       Bearing = "same_side"       // bears on one side of both: does not
)

// Step is one step of a gauge and whether it dropped into the chain.
type Step struct {
	Percent float64
	Drops   bool
}

// Fields declares the step's JSON.
func (s *Step) Fields(o *wire.Object) {
	o.Number("percent", &s.Percent).Between(0.05, 3).Required().Doc("elongation the step stands for", "percent")
	o.Boolean("drops", &s.Drops).Required().Doc("whether it dropped in fully", "")
}

// Reading is one reading of any kind; only the fields of its kind are used.
// Lengths are in mm.
type Reading struct {
	Kind        Kind
	Pitches     int
	BiasPercent *float64 // how much too long the instrument is known to read

	SpanMM                *float64 // rule
	SpanIn                *string  // rule, inches as typed
	SpanText              *string  // rule, with its unit as typed
	ResolutionMM          *float64 // rule, compare, caliper
	ResolutionIn          *string  // rule, number or text
	StandardUncertaintyMM *float64 // rule, compare: replaces the budget

	GrowthMM float64 // compare

	Steps   []Step // gauge
	BearsOn Bearing

	InsideMM     float64 // caliper
	RollerMM     float64
	RollerPlayMM *float64

	SpanPx                     float64 // screen
	PxPerMM                    float64
	PxPerMMStandardUncertainty float64
	StandardUncertaintyPx      *float64

	ElongationPercent          float64 // photo
	StandardUncertaintyPercent float64
	SharedUncertaintyPercent   *float64
}

// Fields declares the reading's JSON.
func (r *Reading) Fields(o *wire.Object) {
	wire.Tag(o, "kind", &r.Kind, Rule, Compare, Gauge, Caliper, Screen, Photo)
	if r.Kind != Gauge {
		o.Integer("pitches", &r.Pitches).Between(1, 400).Required().Doc("pin-to-pin steps in the measured span", "")
	}
	o.OptionalNumber("bias_percent", &r.BiasPercent).Between(-1, 1).
		Doc("how much too long the instrument is known to read; subtracted", "percent")
	switch r.Kind {
	case Rule:
		o.OptionalNumber("span_mm", &r.SpanMM).Between(1, 6000).Doc("measured span", "mm")
		o.OptionalText("span_in", &r.SpanIn).Length(1, 40).Doc("measured span in inches, as typed: 12 1/16 or 12.06", "in")
		o.OptionalText("span_text", &r.SpanText).Length(1, 40).Doc("measured span with its unit, as typed: 12 1/16 in, 306,4 mm, 30.64 cm", "")
		resolution(o, r)
		o.OptionalQuantity("resolution_in", &r.ResolutionIn).Length(1, 40).Doc("smallest step the rule can be read to in inches, a number or a text such as 1/16", "in")
		replaces(o, r)
	case Compare:
		o.Number("growth_mm", &r.GrowthMM).Between(-50, 200).Required().Doc("how much longer than the new chain", "mm")
		resolution(o, r)
		replaces(o, r)
	case Gauge:
		wire.List(o, "steps", &r.Steps).Length(1, 12).Required().Doc("steps tried", "")
		wire.Choice(o, "bears_on", &r.BearsOn, OpposedRollers, SameSide).Required().
			Doc("opposed_rollers pushes two rollers apart and so adds roller play; same_side does not", "")
	case Caliper:
		o.Number("inside_mm", &r.InsideMM).Between(1, 6000).Required().Doc("between the jaws pushing two rollers apart", "mm")
		o.Number("roller_mm", &r.RollerMM).Between(3, 20).Default("7.75").Doc("roller diameter", "mm")
		resolution(o, r)
		o.OptionalNumber("roller_play_mm", &r.RollerPlayMM).Between(0, 2).Doc("known play of the two rollers together", "mm")
	case Screen:
		o.Number("span_px", &r.SpanPx).Between(1, 100000).Required().Doc("measured span", "px")
		o.Number("px_per_mm", &r.PxPerMM).Between(0.5, 200).Required().Doc("calibration of the screen", "px/mm")
		o.Number("px_per_mm_standard_uncertainty", &r.PxPerMMStandardUncertainty).Between(0, 20).Required().
			Doc("standard uncertainty of the calibration", "px/mm")
		o.OptionalNumber("standard_uncertainty_px", &r.StandardUncertaintyPx).Between(0.001, 10000).
			Doc("standard uncertainty of reading the span", "px")
	case Photo:
		o.Number("elongation_percent", &r.ElongationPercent).Between(-5, 10).Required().Doc("as the photograph gives it", "percent")
		o.Number("standard_uncertainty_percent", &r.StandardUncertaintyPercent).Between(0.01, 1).Required().
			Doc("of the photograph, without the pull on the chain", "percent")
		o.OptionalNumber("shared_standard_uncertainty_percent", &r.SharedUncertaintyPercent).Between(0, 1).
			Doc("the part of it that is the measurement of the print or rule, the same in every picture with it", "percent")
	}
}

func resolution(o *wire.Object, r *Reading) {
	o.OptionalNumber("resolution_mm", &r.ResolutionMM).Between(0.001, 10).Doc("smallest step that can be read", "mm")
}

func replaces(o *wire.Object, r *Reading) {
	o.OptionalNumber("standard_uncertainty_mm", &r.StandardUncertaintyMM).Between(0.001, 50).
		Doc("replaces the whole budget", "mm")
}

// spanMM returns the measured span of a rule reading in mm, however it was
// given: exactly one of span_mm, span_in and span_text.
func (r *Reading) spanMM() (float64, error) {
	given := 0
	for _, there := range []bool{r.SpanMM != nil, r.SpanIn != nil, r.SpanText != nil} {
		if there {
			given++
		}
	}
	switch {
	case given == 0:
		return 0, fault.New(fault.MissingField, "span_mm", "the measured span is required: give span_mm, span_in or span_text")
	case given > 1:
		return 0, fault.New(fault.Contradiction, "span_in", "give the span once, as span_mm, span_in or span_text")
	case r.SpanIn != nil:
		return typedLength(*r.SpanIn, units.Inch, "span_in", 1, 6000)
	case r.SpanText != nil:
		return typedLength(*r.SpanText, units.NoUnit, "span_text", 1, 6000)
	}
	return *r.SpanMM, nil
}

// resolutionMM returns the stated resolution, or fallback when none is stated.
func (r *Reading) resolutionMM(fallback float64) (float64, error) {
	switch {
	case r.ResolutionMM != nil && r.ResolutionIn != nil:
		return 0, fault.New(fault.Contradiction, "resolution_in", "give the resolution once, as resolution_mm or resolution_in")
	case r.ResolutionMM != nil:
		return *r.ResolutionMM, nil
	case r.ResolutionIn != nil:
		return typedLength(*r.ResolutionIn, units.Inch, "resolution_in", 0.001, 10)
	}
	return fallback, nil
}

// typedLength reads text as a length between lo and hi mm.
func typedLength(text string, bare units.Unit, field string, lo, hi float64) (float64, error) {
	mm, err := units.ParseLength(text, bare)
	if err != nil {
		return 0, fault.New(fault.Unreadable, field, err.Error())
	}
	if mm < lo || mm > hi {
		return 0, fault.New(fault.OutOfRange, field, "this is "+shown(mm)+" mm; allowed is "+shown(lo)+" to "+shown(hi)+" mm")
	}
	return mm, nil
}
