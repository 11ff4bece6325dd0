package garage

import (
	"cmp"

	"tautspan/internal/order"
	"tautspan/internal/record"
)

// Distance is how far a bike has gone, on its own count.
type Distance struct {
	KM     float64 // at the latest entry
	LastMS int64   // when that was, 0 without any
	// Doubtful lists the entries that cannot be true together with later ones,
	// or that began a new count: an odometer that fell.
	Doubtful []string
	points   []point
}

// point is the count after one entry.
type point struct {
	atMS int64
	km   float64
}

// entry is one record of table distances.
type entry struct {
	id       string
	atMS     int64
	stamp    record.Stamp
	odometer *float64
	add      float64
}

func newEntry(r *record.Record, d *record.Distance) entry {
	at, _ := record.ParseInstant(d.At)
	return entry{r.ID, at, r.Latest(), d.OdometerKM, value(d.AddKM)}
}

// count goes through a bike's entries by time. A ride adds to the count; an
// odometer entry states it. Where an odometer shows less than before, one of
// these is true, tried in this order, and the entry is listed as doubtful:
// the entry is a slip, because a later one is back at the old figure; the old
// figure was the slip, because the entry continues from the one before that; or
// this is a new odometer, and only what it shows from then on adds.
func count(entries []entry) Distance {
	order.By(entries, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.atMS, b.atMS), cmp.Compare(a.stamp, b.stamp))
	})
	c, later := counter{last: none, before: none}, highest(entries)
	for i, e := range entries {
		if e.odometer == nil {
			c.KM += e.add
		} else {
			c.odometer(e, later[i+1])
		}
		c.LastMS = e.atMS
		c.points = append(c.points, point{e.atMS, c.KM})
	}
	return c.Distance
}

// none stands for no odometer entry yet.
const none = -1.0

// counter is a count as it grows.
type counter struct {
	Distance
	offset       float64 // what earlier odometers had counted
	last, before float64 // the latest two figures of this odometer
	lastID       string
}

// odometer takes an odometer entry; later is the highest figure after it.
func (c *counter) odometer(e entry, later float64) {
	shown := *e.odometer
	switch {
	case c.last == none && shown < c.KM:
		c.offset = c.KM - shown // rides were counted before the odometer was
	case shown >= c.last:
		c.KM = shown + c.offset
	case later >= c.last:
		c.Doubtful = append(c.Doubtful, e.id)
		return
	case c.before != none && shown >= c.before:
		c.Doubtful = append(c.Doubtful, c.lastID)
		c.KM = shown + c.offset
		for i := len(c.points) - 1; i >= 0 && c.points[i].km > c.KM; i-- { // they never fall
			c.points[i].km = c.KM
		}
		c.last = c.before
	default:
		c.Doubtful = append(c.Doubtful, e.id)
		c.offset = c.KM - shown
		c.last = none
	}
	c.before, c.last, c.lastID = c.last, shown, e.id
}

// highest is, for each place, the highest odometer figure from there on.
func highest(entries []entry) []float64 {
	all := make([]float64, len(entries)+1)
	all[len(entries)] = none
	for i := len(entries) - 1; i >= 0; i-- {
		all[i] = all[i+1]
		if shown := entries[i].odometer; shown != nil {
			all[i] = max(all[i], *shown)
		}
	}
	return all
}

// At returns the count as the latest entry until an instant gave it, 0 before
// the first.
func (d *Distance) At(ms int64) float64 {
	km := 0.0
	for _, p := range d.points {
		if p.atMS <= ms {
			km = p.km
		}
	}
	return km
}
