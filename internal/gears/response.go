package gears

import (
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// Response is what the gears of a bicycle do.
type Response struct {
	Gears           []Gear
	RangePercent    float64
	StepsPercent    []float64
	CircumferenceMM float64
	Laboratory      Laboratory
	Notes           []words.Note
	Warnings        []words.Note
	Cautions        []words.Note
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	wire.List(o, "gears", &r.Gears).Required().Doc("every chainring with every sprocket, lowest gear first", "")
	o.Number("range_percent", &r.RangePercent).Required().Doc("100 times the highest ratio over the lowest", "percent")
	o.Numbers("steps_percent", &r.StepsPercent).Required().
		Doc("from each gear to the next in the list: how much higher; one entry fewer than gears, 0 between equal gears", "percent")
	o.Number("wheel_circumference_mm", &r.CircumferenceMM).Required().Doc("circumference used", "mm")
	wire.Nested(o, "laboratory", &r.Laboratory).Required().Doc("what was measured on clean chains in a laboratory; see the notes", "")
	o.Notes("notes", "note", &r.Notes)
	o.Notes("warnings", "warning", &r.Warnings)
	o.Notes("cautions", "caution", &r.Cautions)
}

// Laboratory writes the published efficiencies; it holds nothing.
type Laboratory struct{}

// Fields declares the laboratory's JSON.
func (Laboratory) Fields(o *wire.Object) {
	efficiency := &[2]float64{WorstEfficiencyPercent, BestEfficiencyPercent}
	tension := &[2]float64{WorstEfficiencyN, BestEfficiencyN}
	o.Pair("efficiency_percent", &efficiency).Required().Doc("worst and best of a derailleur drive", "percent")
	o.Pair("tension_n", &tension).Required().Doc("pull of the chain at the worst and at the best", "N")
}

// Pair names a gear.
type Pair struct{ Ring, Sprocket int }

// Fields declares the pair's JSON.
func (p *Pair) Fields(o *wire.Object) {
	o.Integer("ring", &p.Ring).Required().Doc("chainring", "teeth")
	o.Integer("sprocket", &p.Sprocket).Required().Doc("sprocket", "teeth")
}

// Gear is one chainring with one sprocket.
type Gear struct {
	Pair
	Ratio         float64
	DevelopmentM  float64
	GearInches    float64
	GainRatio     *float64
	SpeedKmh      *float64
	ChainAngleDeg *float64
	Articulation  Articulation
	DuplicateOf   *Pair
	ChainReaches  *bool
	TensionN      *float64
}

// Fields declares the gear's JSON.
func (g *Gear) Fields(o *wire.Object) {
	g.Pair.Fields(o)
	o.Number("ratio", &g.Ratio).Required().Doc("turns of the wheel for one of the cranks", "")
	o.Number("development_m", &g.DevelopmentM).Required().Doc("way for one turn of the cranks", "m")
	o.Number("gear_inches", &g.GearInches).Required().Doc("ratio times wheel diameter", "in")
	o.OptionalNumber("gain_ratio", &g.GainRatio).OrNull().Doc("way of the bicycle over way of the pedal; null without crank_mm", "")
	o.OptionalNumber("speed_kmh", &g.SpeedKmh).OrNull().Doc("null without cadence_rpm", "km/h")
	o.OptionalNumber("chain_angle_deg", &g.ChainAngleDeg).OrNull().
		Doc("how far out of line the chain runs, 0 or more; null without chainstay_mm and sprocket_spacing_mm", "degrees")
	wire.Nested(o, "articulation_deg", &g.Articulation).Required().Doc("by how much a link turns each time it runs on or off", "")
	wire.Optional(o, "duplicate_of", &g.DuplicateOf).OrNull().
		Doc("a gear as high as this one that is easier on the chain: straighter if the angles are known, on larger wheels if not; null if there is none", "")
	o.OptionalBoolean("chain_reaches", &g.ChainReaches).OrNull().
		Doc("longest_pitches leaves at least 1 pitch for the derailleur; null without chainstay_mm and longest_pitches", "")
	o.OptionalNumber("tension_n", &g.TensionN).OrNull().Doc("pull of the chain averaged over a turn of the cranks; null without power_w", "N")
}

// Articulation is the angle in degrees a link turns by on each wheel.
type Articulation struct{ RingDeg, SprocketDeg float64 }

// Fields declares the articulation's JSON.
func (a *Articulation) Fields(o *wire.Object) {
	o.Number("ring", &a.RingDeg).Required().Doc("360 / teeth", "degrees")
	o.Number("sprocket", &a.SprocketDeg).Required().Doc("360 / teeth", "degrees")
}
