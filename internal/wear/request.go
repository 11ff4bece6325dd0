package wear

import (
	"tautspan/internal/chain"
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// Request asks what one reading means.
type Request struct {
	Drive         chain.Drive
	RearSprockets *int
	PitchMM       float64
	LimitPercent  *float64
	Reading       Reading
}

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	wire.Choice(o, "drive", &r.Drive, chain.Drives()...).Required().Doc("kind of drive", "")
	o.OptionalInteger("rear_sprockets", &r.RearSprockets).Between(1, 14).Doc("required for derailleur", "")
	o.Number("pitch_mm", &r.PitchMM).Between(8, 26).Default("12.7").Doc("pin-to-pin pitch", "mm")
	o.OptionalNumber("limit_percent", &r.LimitPercent).Between(0.1, 3).Doc("overrides the default limit", "percent")
	wire.Nested(o, "reading", &r.Reading).Required().Doc("what was measured", "")
}

// Response is a reading's meaning. Percentages are of pitch.
type Response struct {
	Elongation          float64
	Correction          float64
	StandardUncertainty float64
	Interval95          *[2]float64
	Budget              []BudgetLine
	Limit               float64
	ProbabilityPast     float64
	Verdict             Verdict
	WornSinceNew        float64
	WornUncertainty     float64
	Reasons             []words.Note
	NextSteps           []words.Note
	Cautions            []words.Note
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	o.Number("elongation_percent", &r.Elongation).Required().Doc("best estimate, after correction", "percent")
	o.Number("correction_percent", &r.Correction).Required().Doc("known bias that was subtracted", "percent")
	o.Number("standard_uncertainty_percent", &r.StandardUncertainty).Required().Doc("JCGM 100:2008", "percent")
	o.Pair("interval95_percent", &r.Interval95).Required().Doc("central 95 % interval", "percent")
	wire.List(o, "budget", &r.Budget).Required().Doc("root sum of squares is the standard uncertainty", "")
	o.Number("limit_percent", &r.Limit).Required().Doc("limit used", "percent")
	o.Number("probability_past_limit", &r.ProbabilityPast).Required().Doc("JCGM 106:2012 conformity probability, 0 to 1", "")
	wire.Choice(o, "verdict", &r.Verdict, Ride, Plan, Change, ChangeAndInspect, MeasureAgain).Required()
	o.Number("worn_since_new_percent", &r.WornSinceNew).Required().
		Doc("elongation less the mean of what a new chain may be long, 0 to 0.15 %", "percent")
	o.Number("worn_since_new_standard_uncertainty_percent", &r.WornUncertainty).Required().
		Doc("with the new chain's length tolerance in it", "percent")
	o.Notes("reasons", "reason", &r.Reasons)
	o.Notes("next_steps", "next_step", &r.NextSteps)
	o.Notes("cautions", "caution", &r.Cautions)
}

// BudgetLine is one line of the uncertainty budget.
type BudgetLine struct {
	Source              string
	StandardUncertainty float64
	Note                words.Note
}

// Fields declares the line's JSON.
func (b *BudgetLine) Fields(o *wire.Object) {
	o.Text("source", &b.Source).Required().Doc("short name of the source of uncertainty", "")
	o.Number("standard_uncertainty_percent", &b.StandardUncertainty).Required().Doc("its standard uncertainty", "percent")
	o.Note("note", "where the figure comes from", &b.Note)
}
