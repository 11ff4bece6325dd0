package care

import "tautspan/internal/chain"

// interval is in km: due from the first, overdue from the second.
type interval [2]float64

// Intervals by class of care. Common practice, no source: oil every 150 to
// 300 km, hot or liquid wax every 200 to 400 km, which the classes share out.
// How often to wipe and clean, how long factory grease lasts, and everything in
// a full case is from memory.
var (
	wipeEvery  = map[chain.Care]interval{chain.Gritty: {50, 80}, chain.Usual: {100, 150}, chain.Clean: {150, 250}, chain.Enclosed: {600, 1200}}
	cleanEvery = map[chain.Care]interval{chain.Gritty: {300, 500}, chain.Usual: {500, 800}, chain.Clean: {800, 1200}, chain.Enclosed: {3000, 5000}}
	oilEvery   = map[chain.Care]interval{chain.Gritty: {150, 200}, chain.Usual: {200, 250}, chain.Clean: {250, 300}, chain.Enclosed: {600, 1200}}
	waxEvery   = map[chain.Care]interval{chain.Gritty: {200, 270}, chain.Usual: {270, 330}, chain.Clean: {330, 400}, chain.Enclosed: {800, 1600}}
)

func lubricateEvery(l Lubricant, c chain.Care) interval {
	if l == Oil {
		return oilEvery[c]
	}
	return waxEvery[c]
}
