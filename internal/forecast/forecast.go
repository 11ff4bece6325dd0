package forecast

import (
	"math"
	"strconv"

	"tautspan/internal/chain"
	"tautspan/internal/fault"
)

// Question is all that is known of a chain.
type Question struct {
	Limit      float64    // percent, 0.1 to 3
	Care       chain.Care // one of chain.Cares
	Marks      []Mark     // in any order; may be empty
	NowKM      float64    // since the chain was new, not before any mark
	Earlier    [][]Mark   // finished chains of the same bike under the same care
	DistanceSD float64    // relative standard deviation of the distances, 0 to 0.5
	Risk       float64    // accepted probability of being past the limit, 0.001 to 0.5
}

// Answer is what can be said of it. Distances are in km from now.
type Answer struct {
	Elongation   Quantiles // now, percent
	KMToLimit    Quantiles // 0 where past
	Rate         Quantiles // percent per 1000 km
	PastLimitNow float64   // probability
	MeanRate     float64   // harmonic mean of the rate: the limit over the mean distance to it
	CheckAgainKM float64   // where P(past the limit) first exceeds the risk, 0 with LastAside
	SetAside     []SetAside
	Curve        []Point
	// LastAside is true where a reading set aside, with none after it that stands
	// and no slip to explain it, puts the chain past the limit by itself. Until it
	// is measured again it may be the true one, and the next check is now.
	LastAside bool
	// Beyond is true where the 95 % point of the elongation lies beyond the
	// scale; it is then a lower bound.
	Beyond bool
}

// Forecast answers q. Errors are *fault.Error: now before a mark, a number that
// is not finite or out of range.
func Forecast(q Question) (*Answer, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	p := q.posterior()
	left := newRemaining(p)
	x := p.elongation()
	a := &Answer{
		Elongation:   quantiles(func(share float64) float64 { return p.lattice.quantile(x, share) }),
		KMToLimit:    quantiles(func(share float64) float64 { return 1000 * left.quantile(share) }),
		Rate:         quantiles(p.rate.quantile),
		MeanRate:     p.rate.harmonicMean(),
		PastLimitNow: min(1, left.past),
		CheckAgainKM: 1000 * left.quantile(q.Risk),
		SetAside:     p.setAside(),
	}
	if a.LastAside = q.lastAside(a.SetAside); a.LastAside {
		a.CheckAgainKM = 0
	}
	a.Beyond = a.Elongation.P95 >= p.lattice.at(float64(p.lattice.n-1))
	a.Curve = p.curve(q.NowKM/1000, max(leastHorizon, 1.2*a.KMToLimit.P50/1000))
	return a, nil
}

// The curve looks a fifth past the median distance to the limit, but at least
// this far, 1000 km.
const leastHorizon = 0.2

func (q *Question) posterior() *posterior {
	earlier := make([]rateLaw, 0, len(q.Earlier))
	for _, marks := range q.Earlier {
		if len(marks) > 0 {
			earlier = append(earlier, rateLikelihood(marks, q.Limit, q.DistanceSD))
		}
	}
	prior := ratePrior(q.Care, earlier)
	c := newCourse(q.Marks, mostEpochs, newLattice(q.Limit, q.reach()), q.DistanceSD)
	return update(c, &prior, q.NowKM/1000)
}

// mostReach is where the scale ends, percent: twice the point at which any
// chain has had its day.
const mostReach = 4.0

// severalTimes is how many times the usual rate the scale must have room for:
// one chain in twenty wears faster than three times, chance adds to that, and
// wear speeds up.
const severalTimes = 7

// reach returns how far the lattice has to go, percent: past every believable
// mark, and past where a chain that wears several times as fast as usual for its
// care would be by now, counted from the last mark that says how far at most.
func (q *Question) reach() float64 {
	last := 0.0
	for i := range q.Marks {
		if m := &q.Marks[i]; !m.interval || !math.IsInf(m.hi, 1) {
			last = max(last, m.KM)
		}
	}
	grown := severalTimes * medianRate(q.Care) * (q.NowKM - last) / 1000
	return min(mostReach, max(reachOf(q.Marks), chain.NewTolerancePercent)+grown)
}

// reachOf returns how far a lattice has to go to hold a chain's believable marks
// with room for their uncertainty, percent.
func reachOf(marks []Mark) float64 {
	const room = 4.5
	top := 0.0
	for i := range marks {
		if end := marks[i].top(room); end <= mostReach {
			top = max(top, end)
		}
	}
	return top
}

func (q *Question) check() error {
	for i := range q.Marks {
		if !(q.Marks[i].KM >= 0) || math.IsInf(q.Marks[i].KM, 1) {
			return fault.New(fault.OutOfRange, "readings", "a distance must be a number of km from 0 up")
		}
		if q.Marks[i].KM > q.NowKM {
			return fault.New(fault.Contradiction, "now_km", "this lies before the reading at "+
				shown(q.Marks[i].KM)+" km; give the distance the chain has done by now, at least that")
		}
	}
	return nil
}

func shown(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
