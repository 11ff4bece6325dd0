package forecast

import (
	"tautspan/internal/chain"
	"tautspan/internal/wear"
	"tautspan/internal/wire"
)

// ReadingAt is one reading and the distance it was taken at.
type ReadingAt struct {
	AtKM    float64
	Reading wear.Reading
}

// Fields declares the reading's JSON.
func (r *ReadingAt) Fields(o *wire.Object) {
	o.Number("at_km", &r.AtKM).Between(0, 500000).Required().Doc("distance since the chain was new", "km")
	wire.Nested(o, "reading", &r.Reading).Required().Doc("what was measured", "")
}

// EarlierChain is a finished chain of the same bike under the same care.
type EarlierChain struct{ Readings []ReadingAt }

// Fields declares the earlier chain's JSON.
func (c *EarlierChain) Fields(o *wire.Object) {
	wire.List(o, "readings", &c.Readings).Length(1, 200).Required().Doc("its readings, in any order", "")
}

// Request asks when a chain will reach its limit.
type Request struct {
	LimitPercent  *float64
	Drive         chain.Drive // empty when LimitPercent is given instead
	RearSprockets *int
	PitchMM       float64
	Care          chain.Care // empty: usual is assumed
	Readings      []ReadingAt
	NowKM         *float64 // nil: the distance of the last reading
	Earlier       []EarlierChain
	DistanceSD    float64
	KMPerWeek     *float64
	Risk          float64
}

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	o.OptionalNumber("limit_percent", &r.LimitPercent).Between(0.1, 3).Doc("limit; or give drive and rear_sprockets for the default", "percent")
	wire.Choice(o, "drive", &r.Drive, chain.Drives()...).Doc("kind of drive", "")
	o.OptionalInteger("rear_sprockets", &r.RearSprockets).Between(1, 14).Doc("required for derailleur without limit_percent", "")
	o.Number("pitch_mm", &r.PitchMM).Between(8, 26).Default("12.7").Doc("pin-to-pin pitch", "mm")
	wire.Choice(o, "care", &r.Care, chain.Cares()...).Doc("how the chain is kept; usual when absent", "")
	wire.List(o, "readings", &r.Readings).Length(0, 1000).Doc("readings of this chain, in any order; may be empty", "")
	o.OptionalNumber("now_km", &r.NowKM).Between(0, 500000).Doc("distance since the chain was new; that of the last reading when absent", "km")
	wire.List(o, "earlier_chains", &r.Earlier).Length(0, 12).Doc("finished chains of this bike under the same care", "")
	o.Number("distance_relative_standard_uncertainty", &r.DistanceSD).Between(0, 0.5).Default("0").
		Doc("how well the distances are known: 0 for an odometer, 0.2 for about so many km a week", "")
	o.OptionalNumber("km_per_week", &r.KMPerWeek).Between(0.1, 5000).Doc("for check_again_in_days", "km")
	o.Number("risk", &r.Risk).Between(0.001, 0.5).Default("0.1").Doc("accepted probability of being past the limit at the next check", "")
}
