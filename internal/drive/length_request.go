package drive

import (
	"slices"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// LengthRequest asks how long the chain of a derailleur drive must be.
type LengthRequest struct {
	ChainstayMM        float64
	LongestChainstayMM *float64
	Chainrings         []int
	Sprockets          []int
	Derailleur         *Derailleur
	AddPitches         int
	HalfLinkAllowed    bool
	StockPitches       *int
	FittedPitches      *int
	PitchMM            float64
}

// Derailleur is what is known of a rear derailleur.
type Derailleur struct {
	MaxSprocket   *int
	CapacityTeeth *int
}

// Fields declares the derailleur's JSON.
func (d *Derailleur) Fields(o *wire.Object) {
	o.OptionalInteger("max_sprocket", &d.MaxSprocket).Between(chain.LeastTeeth, chain.MostTeeth).
		Doc("largest sprocket its maker allows", "teeth")
	o.OptionalInteger("capacity_teeth", &d.CapacityTeeth).Between(0, 150).
		Doc("total capacity its maker states: how many teeth its cage can take up", "teeth")
}

// Fields declares the request's JSON.
func (r *LengthRequest) Fields(o *wire.Object) {
	o.Number("chainstay_mm", &r.ChainstayMM).Between(leastCentreMM, mostCentreMM).Required().
		Doc("bottom-bracket axis to rear axle, at rest", "mm")
	o.OptionalNumber("longest_chainstay_mm", &r.LongestChainstayMM).Between(leastCentreMM, mostCentreMM).
		Doc("the same with the rear suspension where it is longest", "mm")
	o.Integers("chainrings", &r.Chainrings).Between(chain.LeastTeeth, chain.MostTeeth).Length(1, 4).Required().Doc("teeth of each", "teeth")
	o.Integers("sprockets", &r.Sprockets).Between(chain.LeastTeeth, chain.MostTeeth).Length(1, 14).Required().Doc("teeth of each", "teeth")
	wire.Optional(o, "derailleur", &r.Derailleur).Doc("what is known of the rear derailleur", "")
	o.Integer("add_pitches", &r.AddPitches).Between(0, 12).Default("2").
		Doc("reserve added to the largest pair; the workshop rule is 2 (1 in)", "pitches")
	o.Boolean("half_link_allowed", &r.HalfLinkAllowed).Default("false").Doc("odd counts may be closed with a half link", "")
	o.OptionalInteger("stock_pitches", &r.StockPitches).Between(2, mostPitches).
		Doc("count of the chain to be cut, its joining link included", "pitches")
	o.OptionalInteger("fitted_pitches", &r.FittedPitches).Between(2, mostPitches).
		Doc("judge the combinations for a chain of this count, already on the bike, instead of the recommendation", "pitches")
	pitchField(o, &r.PitchMM)
}

// longestMM is the distance at which the chain is needed longest.
func (r *LengthRequest) longestMM() float64 {
	if r.LongestChainstayMM != nil {
		return *r.LongestChainstayMM
	}
	return r.ChainstayMM
}

// check refuses what each field allows but all of them together do not.
func (r *LengthRequest) check() error {
	if r.longestMM() < r.ChainstayMM {
		return fault.New(fault.Contradiction, "longest_chainstay_mm",
			"the longest distance, "+shown(r.longestMM())+" mm, is below chainstay_mm, "+shown(r.ChainstayMM)+" mm; allowed is that or more")
	}
	if err := chain.CheckTeeth(r.Chainrings, "chainrings"); err != nil {
		return err
	}
	if err := chain.CheckTeeth(r.Sprockets, "sprockets"); err != nil {
		return err
	}
	return chain.NewLoop(slices.Max(r.Chainrings), slices.Max(r.Sprockets)).CheckRoom(r.ChainstayMM, r.PitchMM, "chainstay_mm")
}
