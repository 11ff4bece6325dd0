package record

import (
	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// Bike is a record of table bikes. Pointers are nil where nothing is known.
type Bike struct {
	Name               string
	Drive              chain.Drive
	RearSprockets      *int
	Chainrings         []int // teeth
	Sprockets          []int // teeth
	ChainstayMM        *float64
	LongestChainstayMM *float64
	Derailleur         *Derailleur
	AdjustMM           *[2]float64
	ETRTO              *string
	Care               chain.Care
	KMPerWeek          *float64
	Tag, Set, Note     *string
	Bears              []Burden
}

// Fields declares the bike's JSON.
func (b *Bike) Fields(o *wire.Object) {
	o.Text("name", &b.Name).Length(1, 80).Doc("what people call it", "")
	wire.Choice(o, "drive", &b.Drive, chain.Drives()...).Doc("kind of drive", "")
	o.OptionalInteger("rear_sprockets", &b.RearSprockets).Between(1, 14).Doc("number of rear sprockets", "")
	o.Integers("chainrings", &b.Chainrings).Between(chain.LeastTeeth, chain.MostTeeth).Length(1, 4).Doc("teeth of each", "teeth")
	o.Integers("sprockets", &b.Sprockets).Between(chain.LeastTeeth, chain.MostTeeth).Length(1, 14).Doc("teeth of each", "teeth")
	o.OptionalNumber("chainstay_mm", &b.ChainstayMM).Between(100, 2000).Doc("bottom-bracket axis to rear axle", "mm")
	o.OptionalNumber("longest_chainstay_mm", &b.LongestChainstayMM).Between(100, 2000).Doc("the same with the suspension at its longest", "mm")
	wire.Optional(o, "derailleur", &b.Derailleur).Doc("what is known of the rear derailleur", "")
	o.Pair("adjust_mm", &b.AdjustMM).Between(-200, 200).Doc("how far the axle or the eccentric can move, low and high", "mm")
	o.OptionalText("etrto", &b.ETRTO).Length(3, 20).Doc("tyre size, 37-622", "")
	wire.Choice(o, "care", &b.Care, chain.Cares()...).Doc("how the drive lives", "")
	o.OptionalNumber("km_per_week", &b.KMPerWeek).Between(0, 3000).Doc("about how far it is ridden", "km")
	o.OptionalText("tag", &b.Tag).Length(1, 80).Doc("code on the bike's tag", "")
	o.OptionalText("set", &b.Set).Length(1, 80).Doc("group it belongs to", "")
	wire.Choices(o, "bears", &b.Bears, EDrive, ChildSeat, Load).Length(1, 3).Doc("what asks for more care than an ordinary bike", "")
	note(o, "note", &b.Note)
}

// Burden is what makes a failing chain worse than on an ordinary bike.
type Burden string

// The burdens.
const (
	EDrive    Burden = "e_drive"
	ChildSeat Burden = "child_seat"
	Load      Burden = "load"
)

func (b *Bike) check() error {
	if b.ChainstayMM != nil && b.LongestChainstayMM != nil && *b.LongestChainstayMM < *b.ChainstayMM {
		return fault.New(fault.Contradiction, "longest_chainstay_mm", "the longest distance is below chainstay_mm; allowed is that or more")
	}
	return nil
}

// Derailleur is what is known of a rear derailleur.
type Derailleur struct{ MaxSprocket, CapacityTeeth *int }

// Fields declares the derailleur's JSON.
func (d *Derailleur) Fields(o *wire.Object) {
	o.OptionalInteger("max_sprocket", &d.MaxSprocket).Between(chain.LeastTeeth, chain.MostTeeth).Doc("largest sprocket its maker allows", "teeth")
	o.OptionalInteger("capacity_teeth", &d.CapacityTeeth).Between(0, 150).Doc("total capacity its maker states", "teeth")
}

// Chain is a record of table chains. Distances are on the bike's own count,
// which its odometer shows.
type Chain struct {
	BikeID       string
	Name, Class  *string
	Pitches      *int
	LimitPercent *float64
	FittedAtKM   *float64 // nil: not on the bike, resting
	KMBefore     *float64 // what it had run before it was fitted
	RetiredAt    *string  // when it was taken off for good
	Closure      *string
	Note         *string
}

// Fields declares the chain's JSON.
func (c *Chain) Fields(o *wire.Object) {
	id(o, "bike_id", &c.BikeID).Doc("the bike it belongs to", "")
	o.OptionalText("name", &c.Name).Length(1, 80).Doc("what people call it", "")
	o.OptionalText("class", &c.Class).Length(1, 40).Doc("chain family, as identify names it", "")
	o.OptionalInteger("pitches", &c.Pitches).Between(2, 400).Doc("its length, joining link included", "pitches")
	o.OptionalNumber("limit_percent", &c.LimitPercent).Between(0.1, 3).Doc("overrides the default limit", "percent")
	o.OptionalNumber("fitted_at_km", &c.FittedAtKM).Between(0, mostKM).Doc("the bike's distance when it was put on; absent while it rests", "km")
	o.OptionalNumber("km_before", &c.KMBefore).Between(0, mostChainKM).Doc("what it had run before that", "km")
	o.OptionalText("retired_at", &c.RetiredAt).Length(1, 40).Doc("when it was taken off for good", "")
	o.OptionalText("closure", &c.Closure).Length(1, 40).Doc("how it is joined", "")
	note(o, "note", &c.Note)
}

func (c *Chain) check() error {
	if err := checkID("bike_id", c.BikeID); err != nil {
		return err
	}
	return checkInstant("retired_at", c.RetiredAt)
}
