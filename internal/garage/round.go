package garage

import (
	"cmp"
	"strings"

	"tautspan/internal/order"
	"tautspan/internal/record"
)

// Round is one round with how each of its bikes stands.
type Round struct {
	ID string
	record.Round
	StartedMS int64
	Stands    []Stand // one for each bike of its set, by the bike's name
}

// Stand is how one bike stands in a round.
type Stand struct {
	Bike  *Bike
	State record.BikeState
	Check *Check   // the check it rests on, nil when not seen
	Hold  *Check   // the last that held the bike, also when it is cleared since
	Vain  []*Check // clear a held bike with neither a reading nor a reason: they do not count
}

// Check is one round check.
type Check struct {
	ID string
	record.RoundCheck
	AtMS int64
}

func readRounds(all []*record.Record, bikes []*Bike) []*Round {
	rounds, checks := []*Round{}, map[[2]string][]*Check{}
	for _, r := range all {
		switch r.Table {
		case "rounds":
			round := &Round{ID: r.ID}
			if record.Read(r, &round.Round) == nil {
				round.StartedMS, _ = record.ParseInstant(round.StartedAt)
				rounds = append(rounds, round)
			}
		case "round_checks":
			c := &Check{ID: r.ID}
			if record.Read(r, &c.RoundCheck) == nil {
				c.AtMS, _ = record.ParseInstant(c.At)
				key := [2]string{c.RoundID, c.BikeID}
				checks[key] = append(checks[key], c)
			}
		}
	}
	for _, round := range rounds {
		for _, b := range bikes {
			if round.includes(b) || len(checks[[2]string{round.ID, b.ID}]) > 0 {
				round.Stands = append(round.Stands, stand(b, checks[[2]string{round.ID, b.ID}]))
			}
		}
		order.By(round.Stands, func(a, b Stand) int {
			return cmp.Or(cmp.Compare(a.Bike.Name, b.Bike.Name), cmp.Compare(a.Bike.ID, b.Bike.ID))
		})
	}
	order.By(rounds, func(a, b *Round) int { return cmp.Or(cmp.Compare(b.StartedMS, a.StartedMS), cmp.Compare(a.ID, b.ID)) })
	return rounds
}

func (r *Round) includes(b *Bike) bool {
	return (r.Set == nil || b.Set != nil && *b.Set == *r.Set) &&
		(r.TagStart == nil || b.Tag != nil && strings.HasPrefix(*b.Tag, *r.TagStart)) &&
		(r.Care == "" || b.Care == r.Care)
}

// stand goes through a bike's checks by time. A check clears a bike that was
// held only with a reading or a reason; without, the bike stays held. Of two
// checks at one instant the one that holds counts.
func stand(b *Bike, checks []*Check) Stand {
	order.By(checks, func(x, y *Check) int {
		return cmp.Or(cmp.Compare(x.AtMS, y.AtMS), cmp.Compare(x.State, y.State), cmp.Compare(x.ID, y.ID))
	})
	s := Stand{Bike: b, State: record.NotSeen}
	for _, c := range checks {
		if s.State == record.Held && c.State == record.Cleared && c.ReadingID == nil && c.Reason == nil {
			s.Vain = append(s.Vain, c)
			continue
		}
		s.State, s.Check = c.State, c
		if c.State == record.Held {
			s.Hold = c
		}
	}
	return s
}
