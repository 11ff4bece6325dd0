package garage

import (
	"strconv"

	"tautspan/internal/chain"
)

// ForecastRequest returns the request that asks the calculation forecast about
// a chain: its readings that count, how far it has run, its bike and care, and
// the finished chains of the same bike.
func (c *Chain) ForecastRequest() []byte {
	b := c.Bike
	out := append([]byte(`{"drive":"`), b.Drive...)
	out = append(out, '"')
	switch {
	case c.LimitPercent != nil:
		out = number(append(out, `,"limit_percent":`...), *c.LimitPercent)
	case b.RearSprockets != nil:
		out = strconv.AppendInt(append(out, `,"rear_sprockets":`...), int64(*b.RearSprockets), 10)
	case b.Drive == chain.Derailleur:
		out = strconv.AppendInt(append(out, `,"rear_sprockets":`...), chain.MostSprockets, 10)
	}
	if b.Care != "" {
		out = append(append(append(out, `,"care":"`...), b.Care...), '"')
	}
	if b.KMPerWeek != nil && *b.KMPerWeek >= 0.1 {
		out = number(append(out, `,"km_per_week":`...), *b.KMPerWeek)
	}
	list, furthest := c.readings()
	out = append(append(out, `,"readings":`...), list...)
	out = number(append(out, `,"now_km":`...), max(c.KM, furthest))
	return append(append(append(out, `,"earlier_chains":`...), b.earlier(c)...), '}')
}

// maxEarlier and maxReadings are what the calculation takes.
const (
	maxEarlier  = 12
	maxReadings = 200
)

// earlier lists the readings of the bike's retired chains, the latest ones.
func (b *Bike) earlier(than *Chain) []byte {
	out, n := []byte{'['}, 0
	for i := len(b.Chains) - 1; i >= 0 && n < maxEarlier; i-- {
		c := b.Chains[i]
		list, _ := c.readings()
		if c == than || c.Place != Retired || len(list) == len("[]") {
			continue
		}
		if n++; n > 1 {
			out = append(out, ',')
		}
		out = append(append(append(out, `{"readings":`...), list...), '}')
	}
	return append(out, ']')
}

// readings lists the chain's readings that count, the latest ones, with the
// greatest distance among them.
func (c *Chain) readings() (list []byte, furthest float64) {
	counting := []*Reading{}
	for _, r := range c.Readings {
		if r.Counts() {
			counting = append(counting, r)
		}
	}
	list = []byte{'['}
	for i, r := range counting[max(0, len(counting)-maxReadings):] {
		if i > 0 {
			list = append(list, ',')
		}
		list = number(append(list, `{"at_km":`...), r.AtKM)
		list = append(append(append(list, `,"reading":`...), r.Text...), '}')
		furthest = max(furthest, r.AtKM)
	}
	return append(list, ']'), furthest
}

func number(out []byte, v float64) []byte { return strconv.AppendFloat(out, v, 'g', -1, 64) }
