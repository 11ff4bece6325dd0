package gears

import (
	"slices"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// Request asks what the gears of a bicycle do.
type Request struct {
	Chainrings           []int
	Sprockets            []int
	WheelCircumferenceMM *float64
	ETRTO                *string
	CrankMM              *float64
	CadenceRpm           *float64
	PowerW               *float64
	ChainstayMM          *float64
	ChainlineMM          *float64
	RearChainlineMM      *float64
	ChainringSpacingMM   float64
	SprocketSpacingMM    *float64
	LongestPitches       *int
	DuplicatePercent     float64
	PitchMM              float64
}

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	o.Integers("chainrings", &r.Chainrings).Between(chain.LeastTeeth, chain.MostTeeth).Length(1, 4).Required().Doc("teeth of each", "teeth")
	o.Integers("sprockets", &r.Sprockets).Between(chain.LeastTeeth, chain.MostTeeth).Length(1, 14).Required().Doc("teeth of each", "teeth")
	o.OptionalNumber("wheel_circumference_mm", &r.WheelCircumferenceMM).Between(500, 4000).
		Doc("rolled-out circumference of the driven wheel; either this or etrto is required", "mm")
	o.OptionalText("etrto", &r.ETRTO).Length(1, 20).Doc("tyre size as ISO 5775 writes it, width-bead, like 37-622", "")
	o.OptionalNumber("crank_mm", &r.CrankMM).Between(50, 300).Doc("crank length, for gain_ratio", "mm")
	o.OptionalNumber("cadence_rpm", &r.CadenceRpm).Between(1, 300).Doc("turns of the cranks, for speed_kmh", "per minute")
	o.OptionalNumber("power_w", &r.PowerW).Between(1, 3000).Doc("power at the cranks, for tension_n; needs cadence_rpm", "W")
	o.OptionalNumber("chainstay_mm", &r.ChainstayMM).Between(100, 3000).Doc("bottom-bracket axis to rear axle, for chain_angle_deg and chain_reaches", "mm")
	o.OptionalNumber("chainline_mm", &r.ChainlineMM).Between(0, 150).
		Doc("middle of the bicycle to the middle of the chainrings", "mm")
	o.OptionalNumber("rear_chainline_mm", &r.RearChainlineMM).Between(0, 150).
		Doc("middle of the bicycle to the middle of the sprockets; taken equal to chainline_mm where left out", "mm")
	o.Number("chainring_spacing_mm", &r.ChainringSpacingMM).Between(1, 30).Default("7.5").Doc("from chainring to chainring (common practice)", "mm")
	o.OptionalNumber("sprocket_spacing_mm", &r.SprocketSpacingMM).Between(1, 15).Doc("from sprocket to sprocket, for chain_angle_deg", "mm")
	o.OptionalInteger("longest_pitches", &r.LongestPitches).Between(2, 1000).
		Doc("count of the chain that is fitted, or the longest there is, for chain_reaches", "pitches")
	o.Number("duplicate_percent", &r.DuplicatePercent).Between(0, 10).Default("1").
		Doc("gears whose ratios differ by no more are duplicates", "percent")
	o.Number("pitch_mm", &r.PitchMM).Between(8, 26).Default("12.7").Doc("pin-to-pin pitch", "mm")
}

// circumferenceMM returns the wheel's circumference, however it was given.
func (r *Request) circumferenceMM() (float64, error) {
	switch {
	case r.WheelCircumferenceMM != nil && r.ETRTO != nil:
		return 0, fault.New(fault.Contradiction, "etrto", "give the wheel once, as wheel_circumference_mm or etrto")
	case r.WheelCircumferenceMM != nil:
		return *r.WheelCircumferenceMM, nil
	case r.ETRTO == nil:
		return 0, fault.New(fault.MissingField, "wheel_circumference_mm",
			"the wheel is required: give wheel_circumference_mm, 500 to 4000 mm, or etrto, like 37-622")
	}
	tyre, err := ParseTyre(*r.ETRTO)
	return tyre.CircumferenceMM(), fault.Under("etrto", err)
}

// check refuses what each field allows but all of them together do not.
func (r *Request) check() error {
	if err := chain.CheckTeeth(r.Chainrings, "chainrings"); err != nil {
		return err
	}
	if err := chain.CheckTeeth(r.Sprockets, "sprockets"); err != nil {
		return err
	}
	if r.PowerW != nil && r.CadenceRpm == nil {
		return fault.New(fault.MissingField, "cadence_rpm", "the chain's tension at a power depends on the cadence; give cadence_rpm, 1 to 300, or leave power_w out")
	}
	if r.RearChainlineMM != nil && r.ChainlineMM == nil {
		return fault.New(fault.MissingField, "chainline_mm", "rear_chainline_mm says nothing without chainline_mm; give both, 0 to 150 mm")
	}
	if r.ChainstayMM == nil {
		return nil
	}
	return chain.NewLoop(slices.Max(r.Chainrings), slices.Max(r.Sprockets)).CheckRoom(*r.ChainstayMM, r.PitchMM, "chainstay_mm")
}
