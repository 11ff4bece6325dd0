package forecast

import "slices"

// ownCounts is from where on the errors that readings share are kept apart: the
// sum over an instrument's readings of (shared/rest)^2, which is its own error
// over what is left of the others' in their mean, squared.
const ownCounts = 0.5

// withOneBias returns the bias nodes a list of marks needs, and the marks as the
// filter takes them. One instrument's bias is kept apart, because every further
// one would multiply the work: the roller play of a gauge, otherwise the own
// error of the instrument where it counts most. What the others share counts
// as if it were new each time. Only marks of the epochs count, so that one sent
// twice is still one.
func withOneBias(marks []Mark, groups []epoch) ([]Mark, []biasNode) {
	nodes, by := withoutBias, ""
	most, sums := ownCounts, map[string]float64{}
	for _, i := range marksOf(groups) {
		m := &marks[i]
		if m.bias == RollerPlay {
			nodes, by = rollerPlay, ""
			break
		}
		if m.own == 0 {
			continue
		}
		sums[m.by] += m.own * m.own / (m.u*m.u - m.own*m.own)
		if sums[m.by] > most {
			most, nodes, by = sums[m.by], ownError, m.by
		}
	}
	taken := slices.Clone(marks)
	for i := range taken {
		if taken[i].by != by {
			taken[i].own = 0
		}
	}
	return taken, nodes
}

func marksOf(groups []epoch) (all []int) {
	for _, g := range groups {
		all = append(all, g.marks...)
	}
	return all
}
