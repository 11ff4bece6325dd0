package drive

import (
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// CentreResponse is which counts close on the given axles, and how.
type CentreResponse struct {
	ExactPitches       float64
	Pitches            *int
	Options            []Option
	WearReservePercent float64
	Pairs              []Pair
	Drawing            Drawing
	Warnings           []words.Note
	NextSteps          []words.Note
	Cautions           []words.Note
}

// Fields declares the response's JSON.
func (r *CentreResponse) Fields(o *wire.Object) {
	o.Number("exact_pitches", &r.ExactPitches).Required().
		Doc("exact length of the taut loop at centre_mm, in pitches of the chain as worn as it is", "pitches")
	o.OptionalInteger("pitches", &r.Pitches).OrNull().
		Doc("recommended count: fits, preferably without a half link, and leaves the most wear reserve; null where none fits", "pitches")
	wire.List(o, "options", &r.Options).Required().Doc("counts that close nearest to the distances the axle can take", "")
	o.Number("wear_reserve_percent", &r.WearReservePercent).Required().
		Doc("further elongation the adjustment can take up with the recommended count, until the play passes the wanted range; 0 where none fits", "percent")
	wire.List(o, "pairs", &r.Pairs).Doc("pairs that close with the axle where it is, best first", "")
	wire.Nested(o, "drawing", &r.Drawing).Required().Doc("the drive at centre_mm with a taut chain, to scale", "")
	o.Notes("warnings", "warning", &r.Warnings)
	o.Notes("next_steps", "next_step", &r.NextSteps)
	o.Notes("cautions", "caution", &r.Cautions)
}

// Option is one count of pitches.
type Option struct {
	Pitches            int
	HalfLink           bool
	CentreMM           float64
	ShiftMM            float64
	Fits               bool
	State              State
	AxleShiftMM        float64
	PlayMM             float64
	WearReservePercent float64
	Drawing            Drawing
}

// Fields declares the option's JSON.
func (p *Option) Fields(o *wire.Object) {
	o.Integer("pitches", &p.Pitches).Required().Doc("count, joining link included", "pitches")
	o.Boolean("half_link", &p.HalfLink).Required().Doc("the count is odd and needs a half link", "")
	o.Number("centre_mm", &p.CentreMM).Required().Doc("distance between the axles at which the chain is taut", "mm")
	o.Number("shift_mm", &p.ShiftMM).Required().Doc("that less the distance now", "mm")
	o.Boolean("fits", &p.Fits).Required().Doc("the wanted play can be had within the adjustment", "")
	wire.Choice(o, "state", &p.State, OK, Slack, Tight).Required().
		Doc("tight: even with the axle as far forward as it goes there is less play than wanted, none at all where play_mm_at_wanted is 0; "+
			"slack: even as far back as it goes there is more", "")
	o.Number("axle_shift_mm", &p.AxleShiftMM).Required().Doc("from where the axle is now to where it goes for the middle of the wanted play, or as near as the adjustment reaches", "mm")
	o.Number("play_mm_at_wanted", &p.PlayMM).Required().Doc("total play at mid-span with the axle there", "mm")
	o.Number("wear_reserve_percent", &p.WearReservePercent).Required().Doc("as above, for this count", "percent")
	wire.Nested(o, "drawing", &p.Drawing).Required().Doc("the drive with the axle there and this count, to scale", "")
}

// Pair is one chainring and sprocket on the given axles.
type Pair struct {
	Ring, Sprocket int
	Ratio          float64
	Pitches        int
	ExcessMM       float64
	PlayMM         float64
	Fits           bool
}

// Fields declares the pair's JSON.
func (p *Pair) Fields(o *wire.Object) {
	o.Integer("ring", &p.Ring).Required().Doc("chainring", "teeth")
	o.Integer("sprocket", &p.Sprocket).Required().Doc("sprocket", "teeth")
	o.Number("ratio", &p.Ratio).Required().Doc("turns of the wheel for one of the cranks", "")
	o.Integer("pitches", &p.Pitches).Required().Doc("smallest count that closes", "pitches")
	o.Number("excess_mm", &p.ExcessMM).Required().Doc("how much longer than the taut loop it is", "mm")
	o.Number("play_mm", &p.PlayMM).Required().Doc("total up-and-down play at mid-span that gives", "mm")
	o.Boolean("fits", &p.Fits).Required().Doc("the play is in the wanted range", "")
}
