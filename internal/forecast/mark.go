package forecast

import (
	"cmp"
	"math"

	"tautspan/internal/num"
	"tautspan/internal/order"
)

// Bias is what an instrument adds to every reading taken with it.
type Bias int

// The classes of bias.
const (
	NoBias     Bias = iota
	RollerPlay      // bears on opposed rollers: their play reads as wear
)

// Mark is one piece of evidence: what was read at one distance. Make one with
// Exact, Compared or Between. Percentages are of pitch.
type Mark struct {
	KM       float64 // distance since the chain was new, >= 0
	interval bool
	percent  float64 // best estimate
	u        float64 // its standard uncertainty, > 0
	lo, hi   float64 // ends of an interval, infinite where open
	bias     Bias
	own      float64 // part of u that is the instrument's own error, percent
	by       string  // whose error that is
	// Slips returns what the reading would have been without one usual slip of
	// the pen. It is asked only when the mark does not go with the others, and
	// may be nil.
	Slips func() []Slip
}

// Exact returns a mark for a measured elongation and its standard uncertainty,
// both in percent.
func Exact(km, percent, u float64) Mark {
	return Mark{KM: km, percent: percent, u: u}
}

// Compared returns a mark for growth against a new chain. That chain has an
// offset of its own, 0.04 % on average with a standard uncertainty of 0.02 %
// (the mean and spread of the prior of a new chain).
func Compared(km, percent, u float64) Mark {
	const offset, offsetU = 0.04, 0.02
	return Exact(km, percent+offset, math.Hypot(u, offsetU)).Sharing("new chain", offsetU)
}

// Sharing returns the mark with a part of its standard uncertainty, percent,
// taken for the error of an instrument: unknown, but the same in every mark by
// it, so that many of them do not average it away. A part that leaves nothing
// else is cut to 95 % of the whole.
func (m Mark) Sharing(by string, own float64) Mark {
	m.by, m.own = by, min(own, 0.95*m.u)
	return m
}

// Between returns a mark for an elongation known to lie between lo and hi, as
// the instrument sees it; either end may be infinite.
func Between(km, lo, hi float64, bias Bias) Mark {
	return Mark{KM: km, interval: true, lo: lo, hi: hi, bias: bias}
}

// top returns where a mark's evidence ends, room standard uncertainties above
// its value; an interval open above reaches half a percent.
func (m *Mark) top(room float64) float64 {
	switch {
	case !m.interval:
		return m.percent + room*m.u
	case math.IsInf(m.hi, 1):
		return m.lo + 0.5
	}
	return m.hi + room*gaugeU
}

// past returns the probability that the chain is past the limit by this mark
// alone; for an interval 1 if any of it is.
func (m *Mark) past(limit float64) float64 {
	switch {
	case !m.interval:
		return num.NormalCDF((m.percent - limit) / m.u)
	case m.top(0) > limit:
		return 1
	}
	return 0
}

// sameAs tells whether two marks are one reading sent twice.
func (m *Mark) sameAs(o *Mark) bool {
	return m.KM == o.KM && m.interval == o.interval && m.percent == o.percent && m.u == o.u &&
		m.lo == o.lo && m.hi == o.hi && m.bias == o.bias && m.own == o.own && m.by == o.by
}

// epoch is the marks that share one distance.
type epoch struct {
	at    float64 // 1000 km
	marks []int   // indices into the list given
}

// epochs sorts marks by distance, drops repeats and puts marks at one distance
// together. More than most distances are merged: the span is cut into that many
// equal parts, and the marks of a part move to their mean distance, so none
// moves by more than the part's width. Sorting is by value throughout, so the
// order of the list does not matter.
func epochs(marks []Mark, most int) []epoch {
	ordered := make([]int, len(marks))
	for i := range ordered {
		ordered[i] = i
	}
	order.By(ordered, func(i, j int) int { return compareMarks(&marks[i], &marks[j]) })
	made := []epoch{}
	for k, i := range ordered {
		switch {
		case k == 0 || marks[i].KM != marks[ordered[k-1]].KM:
			made = append(made, epoch{at: marks[i].KM / 1000})
		case marks[i].sameAs(&marks[ordered[k-1]]):
			continue
		}
		last := &made[len(made)-1]
		last.marks = append(last.marks, i)
	}
	if len(made) > most {
		return merged(made, most)
	}
	return made
}

func merged(all []epoch, most int) []epoch {
	first := all[0].at
	width := (all[len(all)-1].at - first) / float64(most)
	made, lastPart := []epoch{}, -1
	for _, e := range all {
		part := min(int((e.at-first)/width), most-1)
		if part != lastPart {
			made, lastPart = append(made, epoch{}), part
		}
		last := &made[len(made)-1]
		had, adds := float64(len(last.marks)), float64(len(e.marks))
		last.at = (last.at*had + e.at*adds) / (had + adds)
		last.marks = append(last.marks, e.marks...)
	}
	return made
}

func compareMarks(a, b *Mark) int {
	return cmp.Or(cmp.Compare(a.KM, b.KM), cmp.Compare(a.percent, b.percent), cmp.Compare(a.u, b.u),
		cmp.Compare(a.lo, b.lo), cmp.Compare(a.hi, b.hi), cmp.Compare(a.bias, b.bias),
		cmp.Compare(a.own, b.own), cmp.Compare(a.by, b.by))
}
