package forecast

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"tautspan/internal/chain"
)

// steady returns a question with n readings, evenly spaced over 2500 km of a
// chain that wears 0.2 % per 1000 km, measured with u = 0.08 %.
func steady(n int) Question {
	rng := rand.New(rand.NewPCG(7, uint64(n)))
	q := Question{Limit: 0.75, Care: chain.Usual, NowKM: 2500, Risk: 0.1}
	for i := range n {
		km := 2500 * float64(i+1) / float64(n)
		q.Marks = append(q.Marks, Exact(km, 0.03+0.0002*km+0.08*rng.NormFloat64(), 0.08))
	}
	return q
}

// gauged is the same with a gauge that bears on opposed rollers.
func gauged(n int) Question {
	q := steady(n)
	for i := range q.Marks {
		m := &q.Marks[i]
		lo, hi := 0.0, 0.5
		if m.percent > 0.5 {
			lo, hi = 0.5, 0.75
		}
		*m = Between(m.KM, lo, hi, RollerPlay)
	}
	return q
}

// calibrated is the same with an instrument whose own error is half of it.
func calibrated(n int) Question {
	q := steady(n)
	for i := range q.Marks {
		q.Marks[i] = q.Marks[i].Sharing("screen", 0.06)
	}
	return q
}

// BenchmarkForecast: 10 readings at most 15 ms, 500 at most 60 ms native; time
// grows no faster than the readings up to 32 distances and is flat beyond but
// for weighing each reading once. Allocations are reported.
func BenchmarkForecast(b *testing.B) {
	run := func(name string, q Question) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Forecast(q); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	for _, n := range []int{0, 1, 3, 10, 32, 100, 500} {
		run("readings="+strconv.Itoa(n), steady(n))
	}
	for _, n := range []int{10, 32, 500} {
		run("gauge="+strconv.Itoa(n), gauged(n))
		run("screen="+strconv.Itoa(n), calibrated(n))
	}
	withHistory := steady(10)
	for range 3 {
		withHistory.Earlier = append(withHistory.Earlier, steady(10).Marks)
	}
	run("readings=10,earlier=3x10", withHistory)
}
