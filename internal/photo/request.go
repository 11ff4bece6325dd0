package photo

import "tautspan/internal/wire"

// Request is what the rider knows beside the picture.
type Request struct {
	Reference    Reference
	CheckLineMM  *float64 // of the frame; none: refused
	CheckLineUMM float64
	ThickMM      *float64 // of frame or rule; none: refused
	Focal35      *float64
	Rivets       *int
}

// Reference is what lies on the chain and shows the scale.
type Reference string

// What can be the reference.
const (
	Frame Reference = "frame" // the print, with checks on both sides
	Rule  Reference = "rule"  // a steel rule with a mark each millimetre
)

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	wire.Choice(o, "reference", &r.Reference, Frame, Rule).Doc("what lies on the outer plates; the printed frame when absent", "")
	o.OptionalNumber("thickness_mm", &r.ThickMM).Between(0, 3).
		Doc("of the rule, or of print and card together: so far the marks lie over the plates; without it there is no result", "mm")
	o.OptionalNumber("check_line_mm", &r.CheckLineMM).Between(0.9*LineMM, 1.1*LineMM).
		Doc("the print's check line of nominal 240 mm, as measured with a rule; without it there is no result", "mm")
	o.Number("check_line_standard_uncertainty_mm", &r.CheckLineUMM).Between(0.02, 5).Default("0.12").
		Doc("of that measurement; 0.12 mm is a steel rule read four times", "mm")
	o.OptionalNumber("focal_35mm_mm", &r.Focal35).Between(10, 200).
		Doc("focal length, 35 mm equivalent; otherwise the file's, otherwise 26 mm", "mm")
	o.OptionalInteger("rivets", &r.Rivets).Between(2, 60).Doc("rivets in the overlay as the rider counted them", "")
}

// Response is what the picture says. Lengths are mm, percentages of pitch.
type Response struct {
	Accepted    bool
	Elongation  *float64
	U           *float64
	Budget      []BudgetLine
	Rivets      int
	Pitches     int
	DistanceMM  *float64
	FocalFrom   FocalFrom
	TiltDegrees *float64
	BlurMM      *float64
	Refusals    []Refusal
	Overlay     Overlay
}

// FocalFrom is where the focal length, and so the distance, comes from.
type FocalFrom string

// Where a focal length can come from.
const (
	FocalGiven   FocalFrom = "request"
	FocalFile    FocalFrom = "file"
	FocalAssumed FocalFrom = "assumed"
)

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	o.Boolean("accepted", &r.Accepted).Required().Doc("false where anything refuses the figure", "")
	o.OptionalNumber("elongation_percent", &r.Elongation).OrNull().Doc("null when refused", "percent")
	o.OptionalNumber("standard_uncertainty_percent", &r.U).OrNull().Doc("JCGM 100:2008; null when refused", "percent")
	wire.List(o, "budget", &r.Budget).Required().Doc("root sum of squares is the standard uncertainty", "")
	o.Integer("rivets", &r.Rivets).Required().Doc("rivets from the first to the last measured", "")
	o.Integer("pitches", &r.Pitches).Required().Doc("an even number: whole links", "")
	o.OptionalNumber("distance_mm", &r.DistanceMM).OrNull().Doc("from the camera to the frame's middle", "mm")
	wire.Choice(o, "focal_from", &r.FocalFrom, FocalGiven, FocalFile, FocalAssumed).Required().Doc("where the focal length comes from", "")
	o.OptionalNumber("tilt_degrees", &r.TiltDegrees).OrNull().Doc("between the picture's and the frame's plane", "degrees")
	o.OptionalNumber("blur_mm", &r.BlurMM).OrNull().Doc("standard deviation of an edge's spread", "mm")
	wire.List(o, "refusals", &r.Refusals).Required().Doc("why there is no figure; empty when accepted", "")
	wire.Nested(o, "overlay", &r.Overlay).Required().Doc("what was found, in the picture as it is shown (Exif orientation applied)", "")
}

// Refusal is one reason to give no figure.
type Refusal struct{ Code, Text string }

// Fields declares the refusal's JSON.
func (r *Refusal) Fields(o *wire.Object) {
	o.Text("code", &r.Code).Required().Doc("the reason as a code", "")
	o.Text("text", &r.Text).Required().Doc("the reason, and what to do about it", "")
}

// BudgetLine is one line of the uncertainty budget.
type BudgetLine struct {
	Source string
	U      float64
	Note   string
}

// Fields declares the line's JSON.
func (b *BudgetLine) Fields(o *wire.Object) {
	o.Text("source", &b.Source).Required().Doc("short name of the source of uncertainty", "")
	o.Number("standard_uncertainty_percent", &b.U).Required().Doc("its standard uncertainty", "percent")
	o.Text("note", &b.Note).Required().Doc("what it stands for", "")
}

// Overlay is everything found, in pixels.
type Overlay struct {
	Width, Height int
	Marks         []Point
	Rivets        []Ring
}

// Fields declares the overlay's JSON.
func (v *Overlay) Fields(o *wire.Object) {
	o.Integer("width", &v.Width).Required().Doc("of the picture as shown", "px")
	o.Integer("height", &v.Height).Required().Doc("of the picture as shown", "px")
	wire.List(o, "marks", &v.Marks).Required().Doc("corners of the checks that were used", "")
	wire.List(o, "rivets", &v.Rivets).Required().Doc("in order along the chain", "")
}

// Point is a place in the picture.
type Point struct{ X, Y float64 }

// Fields declares the point's JSON.
func (p *Point) Fields(o *wire.Object) {
	o.Number("x", &p.X).Required().Doc("from the left", "px")
	o.Number("y", &p.Y).Required().Doc("from the top", "px")
}

// Ring is a rivet's rim in the picture.
type Ring struct {
	Point
	Radius float64
	Clear  bool
}

// Fields declares the ring's JSON.
func (r *Ring) Fields(o *wire.Object) {
	r.Point.Fields(o)
	o.Number("radius", &r.Radius).Required().Doc("of the rim", "px")
	o.Boolean("clear", &r.Clear).Required().Doc("false: counted, but not measured, because too little of its rim shows", "")
}
