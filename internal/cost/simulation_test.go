package cost_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"tautspan/internal/cost"
)

// workshop rides chains kilometre by kilometre and buys parts when they are used
// up. It shares no formula with the package: damage is the sum of small steps of
// (a + b x^2) dx, a and b solved for by gonum.
type workshop struct {
	a, b                                float64
	chain, sprockets, setsPerRing, ring float64
	spent, kilometres                   float64
	onSprockets, onRing                 float64 // parts of the present set and ring used up
}

const (
	startPercent = 0.03
	steps        = 400 // for each chain
)

// rates are lognormal with the harmonic mean 0.15 % per 1000 km, one from each
// of n equal slices of probability, in random order.
func rates(source *rand.Rand, n int) []float64 {
	const spread = 0.4
	law := distuv.LogNormal{Mu: math.Log(0.15) + spread*spread/2, Sigma: spread}
	all := make([]float64, n)
	for i, slice := range source.Perm(n) {
		all[i] = law.Quantile((float64(slice) + source.Float64()) / float64(n))
	}
	return all
}

// ride moves x on by dx and returns the damage done.
func (w *workshop) ride(x *float64, dx, rate float64) float64 {
	mid := *x + dx/2
	*x += dx
	w.kilometres += 1000 * dx / rate
	return (w.a + w.b*mid*mid) * dx
}

// changeAt wears out one chain to the limit, buying sprockets and chainrings as
// they are used up.
func (w *workshop) changeAt(limit, rate float64) {
	w.spent += w.chain
	x, dx := startPercent, (limit-startPercent)/steps
	for range steps {
		used := w.ride(&x, dx, rate)
		w.onSprockets += used
		w.onRing += used / w.setsPerRing
	}
	for ; w.onSprockets >= 1; w.onSprockets-- {
		w.spent += w.sprockets
	}
	for ; w.onRing >= 1; w.onRing-- {
		w.spent += w.ring
	}
}

// wearOut takes n new chains in turn until they and the sprockets have worn to
// twice a set's damage; the chainring goes each time, or lasts rho sets.
func (w *workshop) wearOut(n int, ringEachTime bool, rate float64) {
	const dx = 0.001
	w.spent += float64(n)*w.chain + w.sprockets
	x := make([]float64, n)
	for i := range x {
		x[i] = startPercent
	}
	used := 0.0
	for i := 0; used < 2; i++ {
		used += w.ride(&x[i%n], dx, rate)
	}
	if ringEachTime {
		w.spent += w.ring
		return
	}
	for w.onRing += math.Min(1, used/w.setsPerRing); w.onRing >= 1; w.onRing-- {
		w.spent += w.ring
	}
}

func (w workshop) per1000KM(n int, source *rand.Rand, cycle func(w *workshop, rate float64)) float64 {
	for _, rate := range rates(source, n) {
		cycle(&w, rate)
	}
	return 1000 * w.spent / w.kilometres
}

func TestCalculate_againstSimulation(t *testing.T) {
	const cube = startPercent * startPercent * startPercent
	var law mat.VecDense
	require.NoError(t, law.SolveVec(
		mat.NewDense(2, 2, []float64{0.5 - startPercent, (0.125 - cube) / 3, 1 - startPercent, (1 - cube) / 3}),
		mat.NewVecDense(2, []float64{1 / 4.0, 1 / 1.2})))
	shop := workshop{a: law.AtVec(0), b: law.AtVec(1), chain: 3500, sprockets: 6000, ring: 5000, setsPerRing: 2.5}
	source := rand.New(rand.NewPCG(17, 15))

	for _, p := range ask(t, example+`}`).Policies {
		var simulated float64
		switch p.Kind {
		case cost.Limit:
			simulated = shop.per1000KM(20000, source, func(w *workshop, rate float64) { w.changeAt(p.ChangeAtPercent, rate) })
		case cost.Never:
			simulated = shop.per1000KM(4000, source, func(w *workshop, rate float64) { w.wearOut(1, true, rate) })
		case cost.Rotation:
			simulated = shop.per1000KM(4000, source, func(w *workshop, rate float64) { w.wearOut(int(p.Chains), false, rate) })
		}
		t.Logf("%s %.4f: %.3f simulated %.3f (%.4f %%)", p.Kind, p.ChangeAtPercent, p.CostPer1000KM, simulated, 100*(p.CostPer1000KM/simulated-1))
		assert.InEpsilon(t, simulated, p.CostPer1000KM, 1e-3, "%s %v %v", p.Kind, p.ChangeAtPercent, p.Chains)
	}
}
