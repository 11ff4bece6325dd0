package identify

import (
	"math"
	"strconv"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
)

// quantity is one reading in mm with its standard uncertainty.
type quantity struct{ mm, u float64 }

// evidence is a checked request: what was read, and the bike.
type evidence struct {
	outer, inner, pitch, roller *quantity // nil when not read
	drive                       chain.Drive
	rearSprockets               int // 0 when not known
}

// Usual standard uncertainties in mm of a caliper in the workshop: the pin ends
// are domed, the gap between inner plates is hard to reach, one pitch is short.
// Our estimates, from no source.
const (
	outerU  = 0.05
	innerU  = 0.08
	pitchU  = 0.05
	spanU   = 0.3
	rollerU = 0.05
)

// evidence checks what the ranges of single fields cannot.
func (r *Request) evidence() (*evidence, error) {
	e := &evidence{drive: r.Drive}
	if r.RearSprockets != nil {
		e.rearSprockets = *r.RearSprockets
	}
	var err error
	read := func(field string, mm, u *float64, usual float64) *quantity {
		if err == nil && mm == nil && u != nil {
			err = fault.New(fault.Contradiction, field+"_standard_uncertainty_mm",
				"there is no "+field+"_mm that this uncertainty belongs to; give both or neither")
		}
		return newQuantity(mm, u, usual)
	}
	e.outer = read("outer_width", r.Outer, r.OuterU, outerU)
	e.inner = read("inner_width", r.Inner, r.InnerU, innerU)
	e.roller = read("roller", r.Roller, r.RollerU, rollerU)
	e.pitch = read("pitch", r.Pitch, r.PitchU, pitchU)
	span := read("span", r.Span, r.SpanU, spanU)
	if err != nil {
		return nil, err
	}
	if span != nil || r.Pitches != nil {
		if e.pitch, err = r.pitchOf(span); err != nil {
			return nil, err
		}
	}
	return e, e.check()
}

func newQuantity(mm, u *float64, usual float64) *quantity {
	switch {
	case mm == nil:
		return nil
	case u == nil:
		return &quantity{*mm, usual}
	}
	return &quantity{*mm, *u}
}

// pitchOf returns the pitch that a span over several pitches means.
func (r *Request) pitchOf(span *quantity) (*quantity, error) {
	switch {
	case r.Pitch != nil:
		return nil, fault.New(fault.Contradiction, "pitch_mm", "give the pitch once: pitch_mm, or span_mm with pitches")
	case span == nil:
		return nil, fault.New(fault.MissingField, "span_mm", "pitches says how many pitches span_mm covers, so span_mm is required with it")
	case r.Pitches == nil:
		return nil, fault.New(fault.MissingField, "pitches", "span_mm covers several pitches; say how many; allowed is 1 to 400")
	}
	n := float64(*r.Pitches)
	pitch := &quantity{span.mm / n, span.u / n}
	if pitch.mm < 8 || pitch.mm > 26 {
		return nil, fault.New(fault.Contradiction, "span_mm",
			"this span over these pitches means a pitch of "+strconv.FormatFloat(pitch.mm, 'f', 2, 64)+" mm; allowed is 8 to 26 mm, so count the pitches again, pin to pin")
	}
	return pitch, nil
}

func (e *evidence) check() error {
	oneSprocket := e.drive == chain.Single || e.drive == chain.Hub
	switch {
	case !e.measured() && e.drive == "" && e.rearSprockets == 0:
		return fault.New(fault.MissingField, "outer_width_mm",
			"there is nothing to go by; give a width, a pitch, a roller diameter, the drive or the number of rear sprockets")
	case e.outer != nil && e.inner != nil && e.outer.mm <= e.inner.mm:
		return fault.New(fault.Contradiction, "inner_width_mm",
			"the inner width is not smaller than the outer width; the inner width is the gap between the inner plates, the outer width goes over the pin ends")
	case e.roller != nil && e.pitch != nil && e.roller.mm >= e.pitch.mm:
		return fault.New(fault.Contradiction, "roller_mm", "the roller is not smaller than the pitch, so one of the two was misread")
	case oneSprocket && e.rearSprockets > 1:
		return fault.New(fault.Contradiction, "rear_sprockets",
			"a single or hub drive has one rear sprocket; give 1, leave it out, or choose derailleur")
	}
	return nil
}

func (e *evidence) measured() bool {
	return e.outer != nil || e.inner != nil || e.pitch != nil || e.roller != nil
}

// miss is how far outside [lo, hi] a reading lies, in its standard uncertainty
// blurred by stray; 0 inside.
func (q *quantity) miss(lo, hi, stray float64) float64 {
	return math.Max(0, math.Max(lo-q.mm, q.mm-hi)) / math.Hypot(q.u, stray)
}
