package garage

import (
	"slices"

	"tautspan/internal/chain"
	"tautspan/internal/record"
)

// Care is one entry of care.
type Care struct {
	ID string
	record.Care
	AtMS int64
}

// CareRequest returns the request that asks the calculation care about a chain:
// how it lives, what it runs on and how far it has run since each task. What is
// not known is left out, or is what asks for care soonest. A chain found dirty
// is dirty until it is cleaned; one ridden wet or heard running dry stays so
// until it is lubricated, for wiping alone puts back nothing that was washed
// out; what else was found does not last. A chain whose whole distance is known
// came with the maker's grease and clean, so a task that was never noted is as
// old as the chain.
func (c *Chain) CareRequest() []byte {
	class := c.Bike.Care
	if class == "" {
		class = chain.Usual
	}
	out := append(append([]byte(`{"care":"`), class...), `","lubricant":"`...)
	out = append(append(out, c.lubricant()...), '"')
	for _, deed := range []record.Deed{record.Wiped, record.Cleaned, record.Lubricated} {
		if km, known := c.kmSince(deed); known {
			out = append(append(append(out, `,"km_since_`...), deed...), `":`...)
			out = number(out, km)
		}
	}
	for _, found := range findings {
		if c.still(found) {
			out = append(append(append(out, `,"`...), found.name...), `":true`...)
		}
	}
	if c.Bike.KMPerWeek != nil && *c.Bike.KMPerWeek >= 0.1 {
		out = number(append(out, `,"km_per_week":`...), *c.Bike.KMPerWeek)
	}
	return append(out, '}')
}

// lubricants are those that the calculation knows. The first has the shortest
// interval and stands for any other; the last is what a new chain comes with.
var lubricants = []string{"oil", "liquid_wax", "hot_wax", "factory_grease"}

func (c *Chain) lubricant() string {
	for i := len(c.Care) - 1; i >= 0; i-- {
		l := c.Care[i].Lubricant
		switch {
		case l == nil:
		case slices.Contains(lubricants, *l):
			return *l
		default:
			return lubricants[0]
		}
	}
	if c.KMBefore != nil {
		return lubricants[len(lubricants)-1]
	}
	return lubricants[0]
}

// kmSince says how far the chain has run since something was last done to it.
func (c *Chain) kmSince(deed record.Deed) (km float64, known bool) {
	for i := len(c.Care) - 1; i >= 0; i-- {
		entry := c.Care[i]
		if !slices.Contains(entry.Did, deed) {
			continue
		}
		switch {
		case entry.AtKM != nil:
			return min(max(0, c.KM-*entry.AtKM), mostSinceKM), true
		case c.Place == OnBike:
			ran := c.Bike.Count.KM - max(*c.FittedAtKM, c.Bike.Count.At(entry.AtMS))
			return min(max(0, ran), mostSinceKM), true
		}
		return 0, false
	}
	return min(c.KM, mostSinceKM), c.KMBefore != nil
}

// mostSinceKM is the longest distance since a task that the calculation takes.
const mostSinceKM = 100000

// finding is something found out about a chain before anything was done to it,
// and what ends it.
type finding struct {
	name string
	of   func(*record.Care) *bool
	ends record.Deed
}

var findings = []finding{
	{"dirty", func(c *record.Care) *bool { return c.Dirty }, record.Cleaned},
	{"ridden_wet", func(c *record.Care) *bool { return c.RiddenWet }, record.Lubricated},
	{"sounds_dry", func(c *record.Care) *bool { return c.SoundsDry }, record.Lubricated},
}

// still says whether the last that was found holds yet.
func (c *Chain) still(found finding) bool {
	for i := len(c.Care) - 1; i >= 0; i-- {
		entry := c.Care[i]
		if slices.Contains(entry.Did, found.ends) {
			return false
		}
		if was := found.of(&entry.Care); was != nil {
			return *was
		}
	}
	return false
}
