package record

import (
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// Distance is a record of table distances: what the odometer shows, or how much
// was ridden.
type Distance struct {
	BikeID       string
	At           string
	OdometerKM   *float64
	AddKM        *float64
	Source, Note *string
}

// Fields declares the distance's JSON.
func (d *Distance) Fields(o *wire.Object) {
	id(o, "bike_id", &d.BikeID).Doc("the bike that was ridden", "")
	at(o, "at", &d.At).Doc("when", "")
	o.OptionalNumber("odometer_km", &d.OdometerKM).Between(0, mostKM).Doc("what the odometer shows", "km")
	o.OptionalNumber("add_km", &d.AddKM).Between(0, 1e5).Doc("how much was ridden", "km")
	o.OptionalText("source", &d.Source).Length(1, 80).Doc("where the figure comes from", "")
	note(o, "note", &d.Note)
}

func (d *Distance) check() error {
	if d.OdometerKM != nil && d.AddKM != nil {
		return fault.New(fault.Contradiction, "add_km", "give either odometer_km or add_km, not both")
	}
	if err := checkID("bike_id", d.BikeID); err != nil {
		return err
	}
	return checkInstant("at", &d.At)
}

// Deed is one thing done to a chain.
type Deed string

// The deeds.
const (
	Wiped      Deed = "wiped"
	Cleaned    Deed = "cleaned"
	Lubricated Deed = "lubricated"
	Inspected  Deed = "inspected"
)

// Care is a record of table care: what was done to a chain.
type Care struct {
	ChainID         string
	At              string
	AtKM            *float64 // since the chain was new; nil when not known
	Did             []Deed
	Dirty           *bool // how it was found; nil when nobody looked
	RiddenWet       *bool // whether it had been ridden wet; nil when nobody said
	SoundsDry       *bool // whether it squeaked or rattled; nil when nobody said
	Lubricant, Note *string
}

// Fields declares the care's JSON.
func (c *Care) Fields(o *wire.Object) {
	id(o, "chain_id", &c.ChainID).Doc("the chain it was done to", "")
	at(o, "at", &c.At).Doc("when", "")
	o.OptionalNumber("at_km", &c.AtKM).Between(0, mostChainKM).Doc("what the chain had run since it was new", "km")
	wire.Choices(o, "did", &c.Did, Wiped, Cleaned, Lubricated, Inspected).Length(1, 4).Doc("what was done", "")
	o.OptionalBoolean("dirty", &c.Dirty).Doc("whether it was found black, gritty or caked, before anything was done", "")
	o.OptionalBoolean("ridden_wet", &c.RiddenWet).Doc("whether it had been ridden in rain or on a wet road, before anything was done", "")
	o.OptionalBoolean("sounds_dry", &c.SoundsDry).Doc("whether it squeaked or rattled, before anything was done", "")
	o.OptionalText("lubricant", &c.Lubricant).Length(1, 80).Doc("with what", "")
	note(o, "note", &c.Note)
}

func (c *Care) check() error {
	if err := checkID("chain_id", c.ChainID); err != nil {
		return err
	}
	return checkInstant("at", &c.At)
}

// Prices is a record of table prices, in minor units of the currency.
type Prices struct {
	Currency                    string
	Chain, Sprockets, Chainring *int
}

// Fields declares the prices' JSON.
func (p *Prices) Fields(o *wire.Object) {
	o.Text("currency", &p.Currency).Length(3, 3).Doc("ISO 4217, three capital letters", "")
	o.OptionalInteger("chain", &p.Chain).Between(0, 1e9).Doc("a chain", "minor units")
	o.OptionalInteger("sprockets", &p.Sprockets).Between(0, 1e9).Doc("a cassette or sprocket", "minor units")
	o.OptionalInteger("chainring", &p.Chainring).Between(0, 1e9).Doc("a chainring", "minor units")
}

func (p *Prices) check() error {
	for i := range len(p.Currency) {
		if p.Currency[i] < 'A' || p.Currency[i] > 'Z' {
			return fault.New(fault.NotAllowed, "currency", "a currency is three capital letters (ISO 4217), such as EUR")
		}
	}
	return nil
}
