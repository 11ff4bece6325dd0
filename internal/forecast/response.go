package forecast

import (
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// Response says when the chain will reach its limit.
type Response struct {
	Answer
	LimitPercent   float64
	CheckAgainDays *int // nil without km_per_week
	Aside          []AsideLine
	Drawn          []Drawn
	DrawnEarlier   []DrawnChain
	Notes          []words.Note
	Cautions       []words.Note
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	o.Number("limit_percent", &r.LimitPercent).Required().Doc("limit used", "percent")
	wire.Nested(o, "elongation_now_percent", &r.Elongation).Required().Doc("elongation now; quantiles", "percent")
	wire.Nested(o, "km_to_limit", &r.KMToLimit).Required().Doc("distance from now to the limit, 0 if past; quantiles", "km")
	wire.Nested(o, "rate_percent_per_1000_km", &r.Rate).Required().Doc("mean wear rate from new to the limit; quantiles", "percent per 1000 km")
	o.Number("mean_rate_percent_per_1000_km", &r.MeanRate).Required().Doc("its harmonic mean, for costs", "percent per 1000 km")
	o.Number("probability_past_limit_now", &r.PastLimitNow).Required().Doc("0 to 1", "")
	o.Number("check_again_in_km", &r.CheckAgainKM).Required().
		Doc("distance from now at which the probability of being past the limit first exceeds risk, 0 if it does already, or if a last reading past the limit is set aside without a slip to explain it", "km")
	o.OptionalInteger("check_again_in_days", &r.CheckAgainDays).OrNull().Doc("the same in whole days, null without km_per_week", "days")
	wire.List(o, "set_aside", &r.Aside).Required().Doc("readings that do not go with the others and count for almost nothing", "")
	wire.List(o, "curve", &r.Curve).Required().Doc("elongation from now on", "")
	wire.List(o, "marks", &r.Drawn).Required().Doc("the readings as they are drawn beside the curve, in the order of the request", "")
	wire.List(o, "earlier_chains", &r.DrawnEarlier).Required().Doc("the same of each earlier chain", "")
	o.Notes("notes", "note", &r.Notes)
	o.Notes("cautions", "caution", &r.Cautions)
}

// Fields declares the quantiles' JSON.
func (q *Quantiles) Fields(o *wire.Object) {
	o.Number("p05", &q.P05).Required().Doc("5 % lie below", "")
	o.Number("p25", &q.P25).Required().Doc("25 % lie below", "")
	o.Number("p50", &q.P50).Required().Doc("half lies below", "")
	o.Number("p75", &q.P75).Required().Doc("75 % lie below", "")
	o.Number("p95", &q.P95).Required().Doc("95 % lie below", "")
}

// Fields declares the point's JSON.
func (p *Point) Fields(o *wire.Object) {
	o.Number("km", &p.KM).Required().Doc("distance since the chain was new", "km")
	o.Number("p05", &p.P05).Required().Doc("5 % lie below", "percent")
	o.Number("p50", &p.P50).Required().Doc("half lies below", "percent")
	o.Number("p95", &p.P95).Required().Doc("95 % lie below", "percent")
}

// AsideLine is one reading set aside, as it is answered.
type AsideLine struct {
	SetAside
	Why         words.Note
	FitsEntered *float64 // nil when no slip fits
	FitsPercent *float64
}

// Fields declares the line's JSON.
func (l *AsideLine) Fields(o *wire.Object) {
	o.Integer("index", &l.Index).Required().Doc("position in readings, from 0", "")
	o.Note("why", "what is wrong and what may have happened", &l.Why)
	o.Text("why_code", &l.Why.Code).Required().Doc("the same as a code", "")
	o.Number("probability", &l.Probability).Required().Doc("that the reading is a blunder, given all others", "")
	wire.Choice(o, "slip", &l.Fits.Kind, NoSlip, TenTimes, TenthPart, DigitsSwapped, UnitsMixed, PitchesOff).Required().
		Doc("slip of the pen that would explain it", "")
	o.OptionalNumber("fits_entered", &l.FitsEntered).OrNull().Doc("the number as it would have been entered without the slip: a length in mm, or pitches", "")
	o.OptionalNumber("fits_percent", &l.FitsPercent).OrNull().Doc("the elongation that gives", "percent")
	o.Number("others_low_percent", &l.Low).Required().Doc("5 % point of what the other readings say of this distance", "percent")
	o.Number("others_high_percent", &l.High).Required().Doc("95 % point", "percent")
}
