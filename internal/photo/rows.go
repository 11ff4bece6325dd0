package photo

import "math"

// row is a line of saddles with their places in it; both rows of a frame count
// their places from the same end.
type row struct {
	places []int
	at     []saddle
}

// leastColumns is how many columns of marks are needed: 12 pitches and a rest.
const leastColumns = 32

// findRows returns the two rows of marks, places running from the left of the
// upper row, or false where there is no such pair.
func findRows(saddles []saddle) (upper, lower row, ok bool) {
	used := make([]bool, len(saddles))
	rows := []row{}
	for i := range saddles {
		if used[i] || len(rows) == 6 {
			continue
		}
		r := longestThrough(saddles, used, i)
		if len(r.at) < leastColumns*3/4 {
			continue
		}
		for _, other := range rows {
			if a, b, ok := pair(r, other); ok {
				return a, b, true
			}
		}
		rows = append(rows, r)
	}
	return row{}, row{}, false
}

// longestThrough grows a row from saddle i towards each near neighbour and
// returns the longest, its saddles marked as used.
func longestThrough(saddles []saddle, used []bool, i int) row {
	best, bestTaken := row{}, []int{}
	for j := range saddles {
		if j == i || used[j] {
			continue
		}
		dx, dy := saddles[j].x-saddles[i].x, saddles[j].y-saddles[i].y
		if d := math.Hypot(dx, dy); d < 4 || d > 40 || !opposed(saddles[i], saddles[j]) {
			continue
		}
		r, taken := grow(saddles, used, i, dx, dy)
		if len(r.at) > len(best.at) {
			best, bestTaken = r, taken
		}
		if len(best.at) >= 45 {
			break
		}
	}
	if len(best.at) >= leastColumns*3/4 {
		for _, k := range bestTaken {
			used[k] = true
		}
	}
	return best
}

// opposed says whether the bright pairs of two saddles stand across each other,
// as they do on neighbours.
func opposed(a, b saddle) bool { return math.Cos(a.turn-b.turn) < -0.6 }

// grow follows equal steps from saddle i both ways; two saddles in a row may be
// missing.
func grow(saddles []saddle, used []bool, i int, dx, dy float64) (r row, taken []int) {
	type found struct{ place, index int }
	line := []found{{0, i}}
	for _, way := range []int{1, -1} {
		at, stepX, stepY := saddles[i], float64(way)*dx, float64(way)*dy
		place, gap := 0, 1
		for gap <= 3 {
			x, y := at.x+float64(gap)*stepX, at.y+float64(gap)*stepY
			k := nearest(saddles, x, y, 0.22*math.Hypot(stepX, stepY)*(1+0.25*float64(gap-1)))
			if k < 0 || used[k] || (gap%2 == 1) != opposed(at, saddles[k]) {
				gap++
				continue
			}
			place += way * gap
			newX, newY := (saddles[k].x-at.x)/float64(gap), (saddles[k].y-at.y)/float64(gap)
			stepX, stepY = 0.5*(stepX+newX), 0.5*(stepY+newY)
			at, gap = saddles[k], 1
			if way > 0 {
				line = append(line, found{place, k})
			} else {
				line = append([]found{{place, k}}, line...)
			}
		}
	}
	for _, f := range line {
		r.places, r.at, taken = append(r.places, f.place), append(r.at, saddles[f.index]), append(taken, f.index)
	}
	return r, taken
}

// nearest returns the saddle closest to (x, y) within reach, or -1.
func nearest(saddles []saddle, x, y, reach float64) int {
	best, at := reach*reach, -1
	for k := range saddles {
		dx, dy := saddles[k].x-x, saddles[k].y-y
		if d := dx*dx + dy*dy; d < best {
			best, at = d, k
		}
	}
	return at
}

// pair brings two rows to a common count of places when they lie beside each
// other as the frame's do: 19.2 mm apart for steps of 5 mm.
func pair(a, b row) (upper, lower row, ok bool) {
	mid := len(a.at) / 2
	p, step := a.at[mid], a.step()
	length := math.Hypot(step[0], step[1])
	ux, uy := step[0]/length, step[1]/length
	if along := b.step(); along[0]*ux+along[1]*uy < 0 {
		b = b.reversed()
	}
	// The columns cross the rows at nearly a right angle. Marks of one column
	// mirror each other, so their bright pairs are opposed.
	best, offset, across := math.Inf(1), 0, 0.0
	for k, q := range b.at {
		dx, dy := q.x-p.x, q.y-p.y
		skew := math.Abs(dx*ux + dy*uy)
		if skew < best && opposed(p, q) {
			best, offset, across = skew, a.places[mid]-b.places[k], (dy*ux-dx*uy)/length
		}
	}
	along := b.step()
	ratio := math.Hypot(along[0], along[1]) / length
	if best > length || math.Abs(across) < 3.1 || math.Abs(across) > 4.6 || ratio < 0.9 || ratio > 1.1 {
		return row{}, row{}, false
	}
	for k := range b.places {
		b.places[k] += offset
	}
	if across < 0 { // seen along the steps, b must lie to the right: y runs down
		a, b = b, a
	}
	return a, b, true
}

// step is the mean step from one place to the next.
func (r row) step() [2]float64 {
	last := len(r.at) - 1
	n := float64(r.places[last] - r.places[0])
	return [2]float64{(r.at[last].x - r.at[0].x) / n, (r.at[last].y - r.at[0].y) / n}
}

func (r row) reversed() (turned row) {
	for i := len(r.at) - 1; i >= 0; i-- {
		turned.at = append(turned.at, r.at[i])
		turned.places = append(turned.places, -r.places[i])
	}
	return turned
}
