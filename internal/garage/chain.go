package garage

import (
	"cmp"

	"tautspan/internal/order"
	"tautspan/internal/record"
)

// Place is where a chain is.
type Place string

// The places.
const (
	OnBike  Place = "on_bike"
	Resting Place = "resting" // waits its turn in a rotation
	Retired Place = "retired" // taken off for good
)

// Chain is one chain with what happened to it.
type Chain struct {
	ID string
	record.Chain
	Bike     *Bike
	Place    Place
	KM       float64    // what it has run since it was new
	Readings []*Reading // by distance, voided ones too
	Care     []*Care    // by time
	// fittedStamp says which of two chains put on at one distance came later.
	fittedStamp record.Stamp
}

// Reading is one reading with the text of what was measured.
type Reading struct {
	ID string
	record.Reading
	AtMS int64  // milliseconds since 1970
	Text []byte // the reading as JSON, as calculations take it
}

// Counts reports whether the reading was not voided.
func (r *Reading) Counts() bool { return r.VoidReason == nil }

// LastReading returns the latest reading that counts, by time; nil for none.
func (c *Chain) LastReading() *Reading {
	var last *Reading
	for _, r := range c.Readings {
		if r.Counts() && (last == nil || r.AtMS >= last.AtMS) {
			last = r
		}
	}
	return last
}

// settle works out which chain is on the bike and how far each has run. A chain
// runs from the distance at which it was put on until the next one was put on,
// else until it was retired, else until now:
//
//	KM = km_before + (end − fitted_at_km)
//
// A chain without fitted_at_km rests with km_before. Of two put on at the same
// distance the one put on by the later operation is on the bike.
func (b *Bike) settle() {
	order.By(b.Chains, func(x, y *Chain) int {
		return cmp.Or(cmp.Compare(fittedAt(x), fittedAt(y)), cmp.Compare(x.fittedStamp, y.fittedStamp), cmp.Compare(x.ID, y.ID))
	})
	for i, c := range b.Chains {
		c.Place = Resting
		c.KM = value(c.KMBefore)
		if c.RetiredAt != nil {
			c.Place = Retired
		}
		if c.FittedAtKM == nil {
			continue
		}
		end, next := b.Count.KM, i+1 < len(b.Chains)
		if next {
			end = fittedAt(b.Chains[i+1])
		} else if c.RetiredAt != nil {
			retired, _ := record.ParseInstant(*c.RetiredAt)
			end = b.Count.At(retired)
		}
		c.KM += max(0, end-*c.FittedAtKM)
		if c.Place == Resting && !next {
			c.Place = OnBike
			b.Fitted = c
		}
	}
}

// fittedAt is the distance at which a chain was put on, below all others when
// it is not on.
func fittedAt(c *Chain) float64 {
	if c.FittedAtKM == nil {
		return -1
	}
	return *c.FittedAtKM
}

func value(p *float64) float64 {
	if p == nil {
		return 0
	}
	return *p
}
