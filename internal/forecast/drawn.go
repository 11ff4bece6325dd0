package forecast

import (
	"math"

	"tautspan/internal/wear"
	"tautspan/internal/wire"
)

// Drawn is a reading as the forecast sees it, to be drawn beside its curve:
// a value with its 95 % range, or what a gauge leaves between two steps.
// Percentages are of pitch, known bias subtracted.
type Drawn struct {
	AtKM    float64
	Percent *float64 // nil for a gauge
	Low     *float64 // nil where no step of a gauge dropped
	High    *float64 // nil where every step of a gauge dropped
}

// Fields declares the reading's JSON.
func (d *Drawn) Fields(o *wire.Object) {
	o.Number("at_km", &d.AtKM).Required().Doc("distance since the chain was new", "km")
	o.OptionalNumber("percent", &d.Percent).OrNull().Doc("best estimate; null for a gauge, which gives a range only", "percent")
	o.OptionalNumber("low_percent", &d.Low).OrNull().Doc("2.5 % point, or the largest step that dropped; null where none did", "percent")
	o.OptionalNumber("high_percent", &d.High).OrNull().Doc("97.5 % point, or the smallest step that did not drop; null where all did", "percent")
}

// DrawnChain is an earlier chain's readings.
type DrawnChain struct{ Marks []Drawn }

// Fields declares the chain's JSON.
func (c *DrawnChain) Fields(o *wire.Object) {
	wire.List(o, "marks", &c.Marks).Required().Doc("its readings, in the order of the request", "")
}

// normal975 is the 97.5 % point of the standard normal distribution.
const normal975 = 1.959963984540054

// drawn returns what is drawn for the marks, in their order. A gauge that bears
// on opposed rollers is drawn less the mean play it adds.
func drawn(marks []Mark) []Drawn {
	made := make([]Drawn, len(marks))
	for i := range marks {
		m := &marks[i]
		made[i] = Drawn{AtKM: m.KM}
		if !m.interval {
			made[i].Percent = &m.percent
			made[i].Low, made[i].High = finite(m.percent-normal975*m.u), finite(m.percent+normal975*m.u)
			continue
		}
		play := 0.0
		if m.bias == RollerPlay {
			play = wear.OpposedPlayPercent
		}
		made[i].Low, made[i].High = finite(m.lo-play), finite(m.hi-play)
	}
	return made
}

// finite returns nil for an open end.
func finite(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	return &v
}
