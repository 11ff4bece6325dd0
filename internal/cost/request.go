package cost

import (
	"tautspan/internal/forecast"
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// Request asks what each way of changing the chain costs.
type Request struct {
	Prices           Prices
	Currency         string
	ChainCounts      []ChainCount // two rows; nil for the default
	SetsPerRing      float64
	RatePercent      *float64
	RateRangePercent *[2]float64
	Forecast         *forecast.Request // in place of RatePercent
	ChangeAtPercent  []float64         // nil for the default
	RotationMax      int
}

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	wire.Nested(o, "prices", &r.Prices).Required().Doc("what the parts cost", "")
	o.Text("currency", &r.Currency).Length(3, 3).Required().Doc("ISO 4217 code, three capital letters", "")
	wire.List(o, "chains_per_sprockets", &r.ChainCounts).Length(2, 2).
		Doc("how many chains a set of sprockets outlives, at two elongations; 4 at 0.5 % and 1.2 at 1.0 % when absent", "")
	o.Number("sprockets_per_chainring", &r.SetsPerRing).Between(0.5, 20).Default("2.5").Doc("sets of sprockets a chainring outlives", "")
	o.OptionalNumber("rate_percent_per_1000_km", &r.RatePercent).Between(0.005, 5).Doc("wear rate, harmonic mean", "percent per 1000 km")
	o.Pair("rate_range_percent_per_1000_km", &r.RateRangePercent).Between(0.005, 5).
		Doc("5 % and 95 % points of a rate given as a number, for low and high", "percent per 1000 km")
	wire.Optional(o, "forecast", &r.Forecast).Doc("forecast request that gives the rate and its range instead", "")
	o.Numbers("change_at_percent", &r.ChangeAtPercent).Between(0.1, 3).Length(1, 20).
		Doc("limits to compare; 0.5, 0.75 and 1.0 when absent", "percent")
	o.Integer("rotation_max", &r.RotationMax).Between(1, 20).Default("6").Doc("largest rotation to compare; 1 for none", "")
}

// Prices are in minor units of the currency.
type Prices struct{ Chain, Sprockets, Chainring int }

// Fields declares the prices' JSON.
func (p *Prices) Fields(o *wire.Object) {
	o.Integer("chain", &p.Chain).Between(1, 1e8).Required().Doc("a chain", "minor units")
	o.Integer("sprockets", &p.Sprockets).Between(0, 1e8).Required().Doc("a cassette, or the sprocket", "minor units")
	o.Integer("chainring", &p.Chainring).Between(0, 1e8).Required().Doc("the most used chainring", "minor units")
}

// ChainCount says how many chains a set of sprockets outlives when every chain
// is changed at AtPercent.
type ChainCount struct{ AtPercent, Chains float64 }

// Fields declares the count's JSON.
func (c *ChainCount) Fields(o *wire.Object) {
	o.Number("at_percent", &c.AtPercent).Between(0.1, 3).Required().Doc("elongation of every change", "percent")
	o.Number("chains", &c.Chains).Between(0.2, 50).Required().Doc("chains a set of sprockets outlives", "")
}

// Kind is a way of changing the chain.
type Kind string

// The ways of changing the chain.
const (
	Limit    Kind = "limit"    // each chain at a limit
	Never    Kind = "never"    // chain, sprockets and chainring together, when they no longer run
	Rotation Kind = "rotation" // several chains in turn, all retired with the sprockets
)

// Policy is one way with its cost, in minor units per 1000 km.
type Policy struct {
	Kind            Kind
	ChangeAtPercent float64
	Chains          float64
	CostPer1000KM   float64
	LowPer1000KM    float64
	HighPer1000KM   float64
}

// Fields declares the policy's JSON.
func (p *Policy) Fields(o *wire.Object) {
	wire.Choice(o, "policy", &p.Kind, Limit, Never, Rotation).Required().Doc("way of changing the chain", "")
	o.Number("change_at_percent", &p.ChangeAtPercent).Required().Doc("elongation at which a chain is retired", "percent")
	o.Number("chains", &p.Chains).Required().Doc("chains used for each set of sprockets", "")
	o.Number("cost_per_1000_km", &p.CostPer1000KM).Required().Doc("chains, sprockets and chainrings", "minor units")
	o.Number("low", &p.LowPer1000KM).Required().Doc("the same at the 5 % point of the rate", "minor units")
	o.Number("high", &p.HighPer1000KM).Required().Doc("the same at the 95 % point of the rate", "minor units")
}

// Response compares the policies.
type Response struct {
	Policies             []Policy
	Best                 Policy
	CheapestLimitPercent float64
	FlatRangePercent     *[2]float64
	Currency             string
	RatePercent          float64
	Assumptions          []words.Note
	Cautions             []words.Note
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	wire.List(o, "policies", &r.Policies).Required().Doc("limits as asked, never, then rotations by number of chains", "")
	wire.Nested(o, "best", &r.Best).Required().Doc("the policy that costs least", "")
	o.Number("cheapest_limit_percent", &r.CheapestLimitPercent).Required().Doc("limit that costs least, whatever was asked", "percent")
	o.Pair("flat_range_percent", &r.FlatRangePercent).Required().Doc("limits that cost at most 2 % more than that", "percent")
	o.Text("currency", &r.Currency).Required().Doc("as asked", "")
	o.Number("rate_percent_per_1000_km", &r.RatePercent).Required().Doc("wear rate used", "percent per 1000 km")
	o.Notes("assumptions", "assumption", &r.Assumptions)
	o.Notes("cautions", "caution", &r.Cautions)
}
