package identify

import (
	"tautspan/internal/chain"
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// Request is what is known of a chain. Lengths are in mm; nil means not known.
// At least one of a width, a pitch, a roller or the bike must be there.
type Request struct {
	Outer, OuterU *float64
	Inner, InnerU *float64
	Pitch, PitchU *float64
	Span, SpanU   *float64
	Pitches       *int
	Roller        *float64
	RollerU       *float64
	RearSprockets *int
	Drive         chain.Drive // empty when not known
}

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	o.OptionalNumber("outer_width_mm", &r.Outer).Between(2, 40).Doc("over the pin ends", "mm")
	uncertainty(o, "outer_width_standard_uncertainty_mm", &r.OuterU, "0.05")
	o.OptionalNumber("inner_width_mm", &r.Inner).Between(1, 20).Doc("between the inner plates", "mm")
	uncertainty(o, "inner_width_standard_uncertainty_mm", &r.InnerU, "0.08")
	o.OptionalNumber("pitch_mm", &r.Pitch).Between(8, 26).Doc("one pin to the next", "mm")
	uncertainty(o, "pitch_standard_uncertainty_mm", &r.PitchU, "0.05")
	o.OptionalNumber("span_mm", &r.Span).Between(8, 6000).Doc("several pitches together, in place of pitch_mm", "mm")
	uncertainty(o, "span_standard_uncertainty_mm", &r.SpanU, "0.3")
	o.OptionalInteger("pitches", &r.Pitches).Between(1, 400).Doc("how many pitches span_mm covers", "")
	o.OptionalNumber("roller_mm", &r.Roller).Between(3, 20).Doc("roller diameter", "mm")
	uncertainty(o, "roller_standard_uncertainty_mm", &r.RollerU, "0.05")
	o.OptionalInteger("rear_sprockets", &r.RearSprockets).Between(1, 14).Doc("of the bike it is on or for", "")
	wire.Choice(o, "drive", &r.Drive, chain.Drives()...).Doc("of the bike it is on or for", "")
}

func uncertainty(o *wire.Object, name string, p **float64, usual string) {
	o.OptionalNumber(name, p).Between(0.001, 5).Doc("standard uncertainty, "+usual+" when absent", "mm")
}

// Response names the families that explain the readings, most likely first.
type Response struct {
	Candidates []Candidate
	NoneFit    bool
	Nearest    *Candidate // set when NoneFit
	Comb       Comb
	NextSteps  []words.Note
	Cautions   []words.Note
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	wire.List(o, "candidates", &r.Candidates).Required().
		Doc("most likely first; probabilities sum to one; empty when none fits", "")
	o.Boolean("none_fit", &r.NoneFit).Required().Doc("no family explains every reading", "")
	wire.Optional(o, "nearest", &r.Nearest).OrNull().Doc("the family that misses by least when none fits; not an identification", "")
	wire.Nested(o, "comb", &r.Comb).Required().Doc("every family's outer width on one scale, with the reading", "")
	o.Notes("next_steps", "next_step", &r.NextSteps)
	o.Notes("cautions", "caution", &r.Cautions)
}

// Candidate is one family with what speaks for it.
type Candidate struct {
	Class         chain.Class
	Name          string
	RearSprockets []int
	Probability   float64
	PitchMM       float64
	InnerWidthMM  *float64    // nil when not known
	OuterWidthMM  *[2]float64 // nil when not known
	Closures      []chain.Closure
	ClosureAdvice []words.Note
	Fits          *bool // nil when the bike is not known, or does not tell
	Why           string
	Reasons       []words.Note
	Source        string
}

// Fields declares the candidate's JSON.
func (c *Candidate) Fields(o *wire.Object) {
	o.Text("class", (*string)(&c.Class)).Required().Doc("chain family", "")
	o.Text("name", &c.Name).Required().Doc("the family in words", "")
	o.Integers("sprockets", &c.RearSprockets).Required().Doc("numbers of rear sprockets it is made for", "")
	o.Number("probability", &c.Probability).Required().Doc("among the families of the table, 0 to 1", "")
	o.Number("pitch_mm", &c.PitchMM).Required().Doc("nominal", "mm")
	o.OptionalNumber("inner_width_mm", &c.InnerWidthMM).OrNull().Doc("nominal, null when not known", "mm")
	o.Pair("outer_width_mm", &c.OuterWidthMM).OrNull().Doc("over the pin ends, null when not known", "mm")
	wire.Choices(o, "closures", &c.Closures, chain.Closures()...).Required().Doc("ways to join it", "")
	o.Notes("closure_advice", "closure_advice", &c.ClosureAdvice)
	o.OptionalBoolean("fits_this_bike", &c.Fits).OrNull().Doc("null when the bike is not known or does not tell", "")
	o.Text("why", &c.Why).Required().Doc("the reasons as one text", "")
	o.Notes("reasons", "reason", &c.Reasons)
	o.Text("source", &c.Source).Required().Doc("where the widths come from", "")
}
