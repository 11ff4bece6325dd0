package drive

import (
	"math"
	"strconv"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// mostSearched is how many ring and sprocket pairs one search may compare, so
// that it stays quick on a phone.
const mostSearched = 300

// CentreRequest asks which chain closes on axles a fixed distance apart.
type CentreRequest struct {
	CentreMM          float64
	AdjustMM          *[2]float64
	Chainring         int
	Sprocket          int
	ElongationPercent float64
	HalfLinkAllowed   bool
	SlackMM           *[2]float64
	PitchMM           float64
	Search            *Search
}

// Fields declares the request's JSON.
func (r *CentreRequest) Fields(o *wire.Object) {
	o.Number("centre_mm", &r.CentreMM).Between(leastCentreMM, mostCentreMM).Required().
		Doc("distance between the axles where the rear axle or the eccentric is now", "mm")
	o.Pair("adjust_mm", &r.AdjustMM).Between(-100, 100).Default("[0,0]").
		Doc("how far that can change, forward negative and backward positive; [0,0] where it cannot", "mm")
	o.Integer("chainring", &r.Chainring).Between(chain.LeastTeeth, chain.MostTeeth).Required().Doc("chainring", "teeth")
	o.Integer("sprocket", &r.Sprocket).Between(chain.LeastTeeth, chain.MostTeeth).Required().Doc("sprocket", "teeth")
	o.Number("elongation_percent", &r.ElongationPercent).Between(0, 3).Default("0").Doc("how worn the chain is", "percent")
	o.Boolean("half_link_allowed", &r.HalfLinkAllowed).Default("false").Doc("odd counts may be closed with a half link", "")
	o.Pair("slack_mm", &r.SlackMM).Between(0, 100).Default("[10,15]").
		Doc("wanted total up-and-down play at mid-span", "mm")
	pitchField(o, &r.PitchMM)
	wire.Optional(o, "search", &r.Search).Doc("find pairs that close with the axle where it is", "")
}

// Search bounds the pairs to compare.
type Search struct {
	Chainrings *[2]float64
	Sprockets  *[2]float64
	Ratio      *[2]float64
}

// Fields declares the search's JSON.
func (s *Search) Fields(o *wire.Object) {
	o.Pair("chainrings", &s.Chainrings).Between(chain.LeastTeeth, chain.MostTeeth).Required().Doc("least and most teeth, whole numbers", "teeth")
	o.Pair("sprockets", &s.Sprockets).Between(chain.LeastTeeth, chain.MostTeeth).Required().Doc("least and most teeth, whole numbers", "teeth")
	o.Pair("ratio", &s.Ratio).Between(0.04, 25).Doc("least and most chainring teeth per sprocket tooth; any where left out", "")
}

// check refuses what each field allows but all of them together do not.
func (r *CentreRequest) check() error {
	worn := newFixed(r.Chainring, r.Sprocket, r)
	if err := worn.loop.CheckRoom(r.CentreMM, worn.pitchMM, "centre_mm"); err != nil {
		return err
	}
	if err := worn.loop.CheckRoom(r.CentreMM+r.AdjustMM[0], worn.pitchMM, "adjust_mm"); err != nil {
		return err
	}
	if r.Search == nil {
		return nil
	}
	return fault.Under("search", r.Search.check())
}

func (s *Search) check() error {
	rings, err := whole(*s.Chainrings, "chainrings")
	if err != nil {
		return err
	}
	sprockets, err := whole(*s.Sprockets, "sprockets")
	if err != nil {
		return err
	}
	if n := rings * sprockets; n > mostSearched {
		return fault.New(fault.OutOfRange, "", "this would compare "+strconv.Itoa(n)+" pairs; allowed are at most "+
			strconv.Itoa(mostSearched)+": narrow chainrings or sprockets")
	}
	return nil
}

// whole returns how many tooth counts a range holds.
func whole(bounds [2]float64, field string) (int, error) {
	for _, v := range bounds {
		if v != math.Trunc(v) {
			return 0, fault.New(fault.WrongType, field, shown(v)+" is not a whole number of teeth")
		}
	}
	return int(bounds[1]-bounds[0]) + 1, nil
}
