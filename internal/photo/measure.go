package photo

import (
	"iter"
	"math"

	"tautspan/internal/photo/raster"
	"tautspan/internal/words/photowords"
)

// LineMM is the nominal length of the print's check line.
const LineMM = 240.0

// What a picture must keep to. Sizes of effects are from simulation, see the
// package comment.
const (
	leastPitches   = 12
	mostTilt       = 14.0 // degrees
	leastDistance  = 350.0
	mostBend       = 0.10 // mm, of the marks from a plane behind a lens
	mostDistortion = 0.05 // of the lens at the picture's corner
	mostBlur       = 0.50 // mm
	leastPerMM     = 2.0  // pixels
	leastRulePerMM = 3.5  // pixels, where marks of a rule are to be told apart
	mostUnclear    = 0.3  // part of the rivets
	mostScatter    = 0.15 // mm
	mostBow        = 1.0  // mm
	mostU          = 0.12 // percent
	lowest         = -0.5 // percent
	highest        = 3.0  // percent
	usualFocal35   = 26.0 // mm, the main camera of a phone; common practice, no source
)

// Measure reads a picture file and measures the chain in it. Errors are those
// of raster.Decode; a picture that can be read but not measured is an answer
// with refusals.
func Measure(file []byte, r *Request) (*Response, error) {
	picture, err := raster.Decode(file)
	if err != nil {
		return nil, err
	}
	s := &sight{request: r, picture: picture, answer: &Response{}}
	s.look()
	s.finish()
	return s.answer, nil
}

// sight is one picture on its way to an answer.
type sight struct {
	request *Request
	picture *raster.Picture
	answer  *Response
	frame   *frame
	fit     stretchFit
	rivets  []rivet
	rimMM   float64
}

func (s *sight) refuse(code string) {
	s.answer.Refusals = append(s.answer.Refusals, Refusal{code, photowords.Text(code)})
}

func (s *sight) refuseIf(bad bool, code string) {
	if bad {
		s.refuse(code)
	}
}

func (s *sight) look() {
	focal := s.focal()
	frames, missing := s.references()
	before := len(s.answer.Refusals)
	for f := range frames { // the one beside which there is a chain counts
		s.answer.Refusals = s.answer.Refusals[:before]
		s.frame = f
		if s.lookBeside(focal); s.answer.Pitches > 0 {
			return
		}
	}
	s.refuseIf(s.frame == nil, missing)
}

func (s *sight) lookBeside(focal float64) {
	f := s.frame
	distance, along, across := f.lens.pose(focal)
	tilt := math.Asin(min(1, math.Hypot(math.Sin(along), math.Sin(across)))) * 180 / math.Pi
	window := rectify(&s.picture.Gray, f)
	s.answer.DistanceMM, s.answer.TiltDegrees = &distance, &tilt
	s.refuseIf(tilt > mostTilt, "tilted")
	s.refuseIf(distance < leastDistance, "too_near")
	bent := f.bend > mostBend || math.Abs(f.lens.k1)+math.Abs(f.lens.k2) > mostDistortion
	if f.rule {
		s.refuseIf(bent, "rule_bent")
		s.refuseIf(f.lens.perMM(0, 0) < leastRulePerMM, "coarse")
	} else {
		blur := f.blur(&s.picture.Gray)
		s.answer.BlurMM = &blur
		s.refuseIf(bent, "not_flat")
		s.refuseIf(blur > mostBlur, "blurred")
		s.refuseIf(f.lens.perMM(0, 0) < leastPerMM, "coarse")
	}
	s.findRivets(window)
	if len(s.answer.Refusals) == 0 {
		s.weigh(distance, along)
	}
}

// references goes through what may show the scale, and says what is missing
// where there is nothing.
func (s *sight) references() (found iter.Seq[*frame], missing string) {
	s.refuseIf(s.request.ThickMM == nil, "no_thickness")
	if s.request.Reference == Rule {
		return findRules(&s.picture.Gray), "no_rule"
	}
	s.refuseIf(s.request.CheckLineMM == nil, "not_calibrated")
	return func(yield func(*frame) bool) {
		if f, ok := findFrame(&s.picture.Gray); ok {
			yield(f)
		}
	}, "no_marks"
}

// focal returns the focal length in pixels.
func (s *sight) focal() float64 {
	focal35 := usualFocal35
	s.answer.FocalFrom = FocalAssumed
	if s.picture.Focal35 > 0 {
		focal35, s.answer.FocalFrom = s.picture.Focal35, FocalFile
	}
	if s.request.Focal35 != nil {
		focal35, s.answer.FocalFrom = *s.request.Focal35, FocalGiven
	}
	diagonal := math.Hypot(float64(s.picture.Width), float64(s.picture.Height))
	return focal35 * diagonal / math.Hypot(36, 24)
}

// findRivets fills rivets, from the first to the last clear one, an even number
// of pitches apart, and refuses what is no chain.
func (s *sight) findRivets(w *window) {
	teeth, betweens := findComb(w)
	rivets, rim := fitRims(w, teeth)
	s.rimMM = rim.radius()
	var ok bool
	s.rivets, s.fit, ok = settle(rivets)
	unclear := 0
	for _, v := range s.rivets {
		if !v.clear {
			unclear++
		}
	}
	n := len(s.rivets)
	if !ok || float64(unclear) > mostUnclear*float64(n) || !plateEnds(w, s.rivets) {
		s.refuse("not_a_chain")
		return
	}
	s.answer.Rivets, s.answer.Pitches = n, n-1
	s.refuseIf(n-1 < leastPitches, "few_pitches")
	s.refuseIf(extraRivets(w, betweens, &rim) > 0 || s.request.Rivets != nil && *s.request.Rivets != n, "count")
	s.refuseIf(s.fit.scatter > mostScatter, "scattered")
	s.refuseIf(s.fit.bow > mostBow, "not_straight")
	e := s.elongation()
	s.refuseIf(!(e >= lowest && e <= highest), "not_possible")
}

// wholeLinks leaves out unclear rivets at the ends, and one more at the less
// clear end where an odd number of pitches would remain.
func wholeLinks(rivets []rivet) []rivet {
	trim := func() {
		for len(rivets) > 0 && !rivets[0].clear {
			rivets = rivets[1:]
		}
		for len(rivets) > 0 && !rivets[len(rivets)-1].clear {
			rivets = rivets[:len(rivets)-1]
		}
	}
	trim()
	for len(rivets) > 0 && len(rivets)%2 == 0 {
		if last := len(rivets) - 1; rivets[0].closed < rivets[last].closed {
			rivets = rivets[1:]
		} else {
			rivets = rivets[:last]
		}
		trim()
	}
	return rivets
}

// elongation is the estimate with the reference's scale, as far as that is
// known. Its marks lie over the plates by its thickness t: what is seen past
// them, at the height h of the camera over them, is (h + t)/h times as long.
func (s *sight) elongation() float64 {
	scale := 1.0
	if !s.frame.rule && s.request.CheckLineMM != nil {
		scale = *s.request.CheckLineMM / LineMM
	}
	if s.request.ThickMM != nil {
		scale *= 1 + *s.request.ThickMM/(*s.answer.DistanceMM*math.Cos(*s.answer.TiltDegrees*math.Pi/180))
	}
	return 100 * (scale*s.fit.pitch/pitchMM - 1)
}

func (s *sight) finish() {
	s.answer.Accepted = len(s.answer.Refusals) == 0
	s.answer.Overlay = s.overlay()
}
