package forecast

import (
	"math"
	"math/rand/v2"

	"tautspan/internal/chain"

	"gonum.org/v1/gonum/stat/distuv"
)

// world makes riders, their chains and their readings. All of it is invented;
// it proves the method, not the priors.
type world struct {
	name string
	// misspecified breaks the model: the seasons move the rate by 40 %, 0.02 to
	// 0.04 % of running-in comes in the first 200 km, wear speeds up to 1.6 times
	// at the limit, stated uncertainties are a quarter too small, three readings
	// in a hundred are slips, and one rider in four names the wrong care class.
	misspecified bool
	// ownErrors gives every rider an instrument whose own error is a large part of
	// its uncertainty, and up to 16 readings with it; otherwise nearly as modelled.
	ownErrors bool
}

// The worlds' own numbers. They do not follow the model's when those change: the
// model is deliberately wider than the nearer world.
const (
	trueNewMean, trueNewSD         = 0.03, 0.03 // percent
	trueBikeSD, trueMisjudgedSD    = 0.5, 1.0
	trueMisjudgedPart, trueChainSD = 0.1, 0.3
	trueNu                         = 5.0
	trueSpeedUp                    = 0.6 // in the misspecified world
	trueUnderstated                = 1 / 0.75
	typos, seasons, wrongCare      = 0.03, 0.4, 0.25
)

var worlds = []world{{name: "nearly as modelled"}, {name: "misspecified", misspecified: true},
	{name: "instruments with errors of their own", ownErrors: true}}

// rider is a question with the answer that time will give.
type rider struct {
	q      Question // without earlier chains
	before [][]Mark // two earlier chains of the same bike
	toGo   float64  // true distance from now to the limit, km, 0 when past
}

// instrument is how a rider reads a chain.
type instrument struct {
	gauge, opposed bool
	play, u        float64
	own, off       float64 // standard uncertainty of its own error, part of u, and that error
	resolution     float64 // percent, readings are rounded to it
}

// draw makes one rider whose last reading does not ask for a change yet. Riders
// are chosen by their readings only, never by what is hidden.
func (w world) draw(rng *rand.Rand) rider {
	for {
		if r, riding := w.tryRider(rng); riding {
			return r
		}
	}
}

func (w world) tryRider(rng *rand.Rand) (rider, bool) {
	class := pick(rng, 0.1, 0.25, 0.45, 0.2)
	told := class
	if w.misspecified && rng.Float64() < wrongCare {
		told = min(max(class+1-2*rng.IntN(2), 0), 3)
	}
	q := Question{Limit: []float64{0.5, 0.75, 1}[pick(rng, 0.4, 0.4, 0.2)], Care: chain.Cares()[told], Risk: 0.1}
	sd := trueBikeSD
	if rng.Float64() < trueMisjudgedPart {
		sd = trueMisjudgedSD
	}
	bike := math.Log(medianRate(chain.Cares()[class])) + sd*rng.NormFloat64()
	tool, most := drawInstrument(rng), 8
	if w.ownErrors {
		tool, most = drawOwnError(rng), 16
	}
	life := 1000 * q.Limit / medianRate(q.Care)
	r := rider{q: q}
	for range 2 {
		c := w.newChain(rng, bike, q.Limit)
		marks, _ := w.readings(rng, c, tool, life, 4)
		r.before = append(r.before, marks)
	}
	c := w.newChain(rng, bike, q.Limit)
	marks, riding := w.readings(rng, c, tool, life, 1+rng.IntN(most))
	r.q.Marks = marks
	r.q.NowKM = marks[len(marks)-1].KM
	r.toGo = max(0, c.reaches(q.Limit)-r.q.NowKM)
	return r, riding
}

// readings are taken at uneven distances until there are n or one says change.
func (w world) readings(rng *rand.Rand, c *path, tool instrument, life float64, n int) (marks []Mark, riding bool) {
	every := life * (0.06 + 0.2*rng.Float64()) * min(1, 8/float64(n))
	km := 0.0
	for range n {
		km += every * (0.5 + rng.Float64())
		m := w.read(rng, km, c.at(km), tool)
		marks = append(marks, m)
		if m.interval && m.lo >= c.limit || !m.interval && m.percent >= c.limit {
			return marks, false
		}
	}
	return marks, true
}

func drawInstrument(rng *rand.Rand) instrument {
	switch pick(rng, 0.45, 0.2, 0.2, 0.15) {
	case 0:
		return instrument{u: 0.06 + 0.08*rng.Float64(), resolution: 0.04}
	case 1:
		return instrument{u: 0.16, resolution: 0.1}
	case 2:
		return instrument{gauge: true, opposed: true, play: drawBias(rollerPlay, rng).play}
	}
	return instrument{gauge: true}
}

// drawOwnError is a screen set by a card or a rule, photographs of one print, or
// a rule; the sizes are those of their budgets.
func drawOwnError(rng *rand.Rand) instrument {
	kind := [][2]float64{{0.09, 0.08}, {0.045, 0.07}, {0.06, 0.05}, {0.02, 0.08}}[rng.IntN(4)]
	return instrument{own: kind[0], off: kind[0] * rng.NormFloat64(), u: math.Hypot(kind[0], kind[1]), resolution: 0.01}
}

func (w world) read(rng *rand.Rand, km, x float64, tool instrument) Mark {
	if tool.gauge {
		seen := x + tool.play + gaugeU*rng.NormFloat64()
		bias := NoBias
		if tool.opposed {
			bias = RollerPlay
		}
		lo, hi := math.Inf(-1), math.Inf(1)
		for _, step := range []float64{0.5, 0.75, 1} {
			if seen >= step {
				lo = step
			} else {
				hi = min(hi, step)
			}
		}
		return Between(km, lo, hi, bias)
	}
	u := math.Sqrt(tool.u*tool.u - tool.own*tool.own)
	if w.misspecified {
		u *= trueUnderstated
	}
	y := tool.resolution * math.Round((x+tool.off+u*rng.NormFloat64())/tool.resolution)
	if w.misspecified && rng.Float64() < typos {
		slips := percentSlips(y)
		y = slips[rng.IntN(len(slips))].Percent
	}
	return Exact(km, y, tool.u).Sharing("this", tool.own)
}

// percentSlips are the slips in an elongation entered as percent, measured over
// 304.8 mm.
func percentSlips(percent float64) []Slip {
	slips := MistypedNumbers(percent)
	for i := range slips {
		slips[i].Percent = slips[i].Entered
	}
	return append(slips, Slip{UnitsMixed, percent / 3.048, percent / 3.048})
}

// path is the true elongation of one chain at even distances.
type path struct {
	step  float64 // km
	x     []float64
	limit float64
}

// newChain runs a chain to one and a half times its limit.
func (w world) newChain(rng *rand.Rand, bike, limit float64) *path {
	rate := math.Exp(bike+trueChainSD*rng.NormFloat64()) / 1000 // percent per km
	c := &path{step: limit / rate / 300, limit: limit}
	x := -1.0
	for x < 0 || x > 0.15 {
		x = trueNewMean + trueNewSD*rng.NormFloat64()
	}
	year, phase := 3000+7000*rng.Float64(), 2*math.Pi*rng.Float64()
	runningIn := 0.02 + 0.02*rng.Float64()
	worn := 0.0
	for x+worn < 1.5*limit {
		c.x = append(c.x, x+worn)
		km := c.step * float64(len(c.x))
		pace := rate
		if w.misspecified {
			pace *= (1 + seasons*math.Sin(2*math.Pi*km/year+phase)) * (1 + trueSpeedUp*min(1, (x+worn)/limit))
			x += runningIn * (math.Exp(-(km-c.step)/70) - math.Exp(-km/70))
		}
		worn += pace * 1000 / trueNu * distuv.Gamma{Alpha: trueNu * c.step / 1000, Beta: 1, Src: rng}.Rand()
	}
	return c
}

func (c *path) at(km float64) float64 {
	return c.x[min(int(km/c.step), len(c.x)-1)]
}

// reaches returns the distance at which the chain is at the limit, km.
func (c *path) reaches(limit float64) float64 {
	for i, x := range c.x {
		if x >= limit {
			return c.step * (float64(i) - 0.5)
		}
	}
	return c.step * float64(len(c.x))
}

// pick returns an index with the given weights.
func pick(rng *rand.Rand, weights ...float64) int {
	u := rng.Float64()
	for i, w := range weights {
		if u -= w; u < 0 {
			return i
		}
	}
	return len(weights) - 1
}
