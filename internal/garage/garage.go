// Package garage says what a garage's records mean: which chain is on which
// bike since when, how far each chain has run, what is due, and how every bike
// stands in a round. It reads merged records and changes nothing.
package garage

import (
	"cmp"

	"tautspan/internal/order"
	"tautspan/internal/record"
)

// Garage is the meaning of merged records.
type Garage struct {
	Bikes  []*Bike  // by name, then id
	Rounds []*Round // the latest start first
}

// Bike is one bike with its chains.
type Bike struct {
	ID string
	record.Bike
	Chains []*Chain // in the order they were put on, those never put on first
	Fitted *Chain   // the one on the bike, nil for none
	Count  Distance // the bike's distance
}

// Read makes sense of merged records. Hidden records do not count; a record
// that cannot be read, or that belongs to nothing, is left out.
func Read(state record.State) *Garage {
	g := &Garage{}
	bikes, chains := map[string]*Bike{}, map[string]*Chain{}
	entries := map[string][]entry{}
	all := []*record.Record{}
	for _, r := range state.Sorted() {
		if !r.Hidden() {
			all = append(all, r)
		}
	}
	for _, r := range all {
		switch r.Table {
		case "bikes":
			b := &Bike{ID: r.ID}
			if record.Read(r, &b.Bike) == nil {
				bikes[r.ID] = b
				g.Bikes = append(g.Bikes, b)
			}
		case "distances":
			d := record.Distance{}
			if record.Read(r, &d) == nil {
				entries[d.BikeID] = append(entries[d.BikeID], newEntry(r, &d))
			}
		}
	}
	for _, r := range all {
		if r.Table != "chains" {
			continue
		}
		c := &Chain{ID: r.ID, fittedStamp: r.StampOf("fitted_at_km")}
		if record.Read(r, &c.Chain) == nil && bikes[c.BikeID] != nil {
			c.Bike = bikes[c.BikeID]
			c.Bike.Chains = append(c.Bike.Chains, c)
			chains[r.ID] = c
		}
	}
	readOntoChains(all, chains)
	for _, b := range g.Bikes {
		b.Count = count(entries[b.ID])
		b.settle()
	}
	g.Rounds = readRounds(all, g.Bikes)
	order.By(g.Bikes, func(a, b *Bike) int { return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.ID, b.ID)) })
	return g
}

// readOntoChains adds readings and care to the chains they are about.
func readOntoChains(all []*record.Record, chains map[string]*Chain) {
	for _, r := range all {
		switch r.Table {
		case "readings":
			reading := &Reading{ID: r.ID}
			if record.Read(r, &reading.Reading) != nil || chains[reading.ChainID] == nil {
				continue
			}
			reading.AtMS, _ = record.ParseInstant(reading.At)
			reading.Text = r.Value("reading")
			c := chains[reading.ChainID]
			c.Readings = append(c.Readings, reading)
		case "care":
			care := &Care{ID: r.ID}
			if record.Read(r, &care.Care) != nil || chains[care.ChainID] == nil {
				continue
			}
			care.AtMS, _ = record.ParseInstant(care.At)
			c := chains[care.ChainID]
			c.Care = append(c.Care, care)
		}
	}
	for _, c := range chains {
		order.By(c.Readings, func(a, b *Reading) int {
			return cmp.Or(cmp.Compare(a.AtKM, b.AtKM), cmp.Compare(a.AtMS, b.AtMS), cmp.Compare(a.ID, b.ID))
		})
		order.By(c.Care, func(a, b *Care) int { return cmp.Or(cmp.Compare(a.AtMS, b.AtMS), cmp.Compare(a.ID, b.ID)) })
	}
}
