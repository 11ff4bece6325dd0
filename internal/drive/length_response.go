package drive

import (
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// LengthResponse is how long the chain must be and what that means in every
// combination of chainring and sprocket.
type LengthResponse struct {
	Pitches             int
	HalfLink            bool
	LengthMM            float64
	Methods             []Method
	ExactLargeLarge     float64
	RemovePitches       *int
	Cut                 *Cut
	CapacityNeededTeeth int
	CapacityOK          *bool
	JudgedPitches       int
	Combinations        []Combination
	Drawing             Drawing
	Warnings            []words.Note
	NextSteps           []words.Note
	Cautions            []words.Note
}

// Fields declares the response's JSON.
func (r *LengthResponse) Fields(o *wire.Object) {
	o.Integer("pitches", &r.Pitches).Required().Doc("recommended count, joining link included: the larger of the methods", "pitches")
	o.Boolean("half_link", &r.HalfLink).Required().Doc("the count is odd and needs a half link", "")
	o.Number("length_mm", &r.LengthMM).Required().Doc("recommended count at nominal pitch", "mm")
	wire.List(o, "methods", &r.Methods).Required().Doc("what each method asks for", "")
	o.Number("exact_large_large_pitches", &r.ExactLargeLarge).Required().
		Doc("exact length round the largest pair at the longest distance, without derailleur or reserve", "pitches")
	o.OptionalInteger("remove_pitches", &r.RemovePitches).OrNull().
		Doc("stock less recommendation; negative where the stock chain is too short", "pitches")
	wire.Optional(o, "cut", &r.Cut).OrNull().Doc("how to cut the stock chain", "")
	o.Integer("capacity_needed_teeth", &r.CapacityNeededTeeth).Required().
		Doc("(largest - smallest chainring) + (largest - smallest sprocket)", "teeth")
	o.OptionalBoolean("capacity_ok", &r.CapacityOK).OrNull().Doc("whether the cage takes up that many; null where its capacity is not known", "")
	o.Integer("judged_pitches", &r.JudgedPitches).Required().Doc("count the combinations are judged for", "pitches")
	wire.List(o, "combinations", &r.Combinations).Required().Doc("every chainring with every sprocket", "")
	wire.Nested(o, "drawing", &r.Drawing).Required().Doc("the largest pair at the longest distance, to scale", "")
	o.Notes("warnings", "warning", &r.Warnings)
	o.Notes("next_steps", "next_step", &r.NextSteps)
	o.Notes("cautions", "caution", &r.Cautions)
}

// MethodName names a way to find the length.
type MethodName string

// The methods.
const (
	LargeLargePlus     MethodName = "large_large_plus"
	RuleOfThumbFormula MethodName = "rule_of_thumb_formula"
)

// Method is what one method asks for.
type Method struct {
	Name         MethodName
	ExactPitches float64
	Pitches      int
}

// Fields declares the method's JSON.
func (m *Method) Fields(o *wire.Object) {
	wire.Choice(o, "name", &m.Name, LargeLargePlus, RuleOfThumbFormula).Required().
		Doc("large_large_plus: exact length of the largest pair, rounded up to a count that closes, plus add_pitches; "+
			"rule_of_thumb_formula: 2C + F/4 + R/4 + 1 in inches, rounded up to the whole inch", "")
	o.Number("exact_pitches", &m.ExactPitches).Required().Doc("before rounding and before add_pitches", "pitches")
	o.Integer("pitches", &m.Pitches).Required().Doc("count the method asks for", "pitches")
}

// Cut is how to make the recommended count out of the stock chain.
type Cut struct {
	KeepPairs       int
	HalfLinks       int
	RemovePairs     int
	RemoveHalfLinks int
	MissingPairs    int
}

// Fields declares the cut's JSON.
func (c *Cut) Fields(o *wire.Object) {
	o.Integer("keep_pairs", &c.KeepPairs).Required().Doc("link pairs (an inner and an outer link) to keep, joining link included", "pairs")
	o.Integer("half_links", &c.HalfLinks).Required().Doc("half links in the finished chain", "")
	o.Integer("remove_pairs", &c.RemovePairs).Required().Doc("link pairs to take out", "pairs")
	o.Integer("remove_half_links", &c.RemoveHalfLinks).Required().Doc("half links of the stock chain to take out", "")
	o.Integer("missing_pairs", &c.MissingPairs).Required().Doc("link pairs the stock chain is short of", "pairs")
}

// State is how the chain sits in a combination.
type State string

// The states.
const (
	OK    State = "ok"
	Slack State = "slack" // more spare chain than the cage can take up, or more play than wanted
	Tight State = "tight" // less spare chain than must be left, or less play than wanted
)

// Combination is one chainring with one sprocket.
type Combination struct {
	Ring, Sprocket      int
	ExactPitches        float64
	SparePitches        float64
	SparePitchesLongest float64
	State               State
	CagePercent         *float64
	Drawing             Drawing
}

// Fields declares the combination's JSON.
func (c *Combination) Fields(o *wire.Object) {
	o.Integer("ring", &c.Ring).Required().Doc("chainring", "teeth")
	o.Integer("sprocket", &c.Sprocket).Required().Doc("sprocket", "teeth")
	o.Number("exact_pitches", &c.ExactPitches).Required().Doc("exact length round the two at chainstay_mm, without the derailleur", "pitches")
	o.Number("spare_pitches", &c.SparePitches).Required().Doc("what the chain has beyond that for the derailleur to take up", "pitches")
	o.Number("spare_pitches_longest", &c.SparePitchesLongest).Required().Doc("the same at longest_chainstay_mm", "pitches")
	wire.Choice(o, "state", &c.State, OK, Slack, Tight).Required().
		Doc("tight: under 1 pitch spare at the longest distance; slack: at rest more than the cage can take up, "+
			"which is half a pitch a tooth of its capacity plus the 4 pitches of the workshop rule", "")
	o.OptionalNumber("cage_percent", &c.CagePercent).OrNull().
		Doc("share of what the cage can take up that is used at rest; null where its capacity is not known", "percent")
	wire.Nested(o, "drawing", &c.Drawing).Required().Doc("the pair at chainstay_mm with the judged count, to scale", "")
}
