package photo

import "math"

// The chain that is looked for, mm.
const (
	pitchMM      = 12.7
	leastRimMM   = 1.3 // radius of a rivet's rim
	mostRimMM    = 2.3
	acrossMM     = 1.6 // how far a rivet may lie from the middle line
	combReach    = 4   // cells a rivet may lie from an even comb
	leastPitch   = 0.975
	mostPitch    = 1.05
	extraOfRivet = 0.5  // part of a rivet's votes that makes something be looked at
	extraClosed  = 0.75 // part of its rim that must show
	farMM        = 3.2  // from every tooth, to be something else
)

// candidate is a place where many edges point to at one distance.
type candidate struct {
	x, y  float64 // mm
	votes float64
}

// centres lets every edge in the window vote for the points at a radius from it
// on both sides, and returns the votes. Edges count by their sharpness up to a
// cap, so that a light spot has no more say than a rim.
func centres(w *window, radius float64) *plane {
	votes := newPlane(w.width, w.height)
	reach := radius / cellMM
	top, bottom := int((halfMM-marginY)/cellMM), int((halfMM+marginY)/cellMM)
	for j := top; j <= bottom; j++ {
		for i := 1; i < w.width-1; i++ {
			p := w.pix[j*w.width+i:]
			gx := float64(p[1] - w.pix[j*w.width+i-1])
			gy := float64(p[w.width] - w.pix[(j-1)*w.width+i])
			size := math.Sqrt(gx*gx + gy*gy)
			if size < 1 {
				continue
			}
			weight := float32(min(size, 8))
			dx, dy := gx/size*reach, gy/size*reach
			for _, way := range [2]float64{1, -1} {
				x, y := int(float64(i)+way*dx+0.5), int(float64(j)+way*dy+0.5)
				if x >= 0 && y >= 0 && x < votes.width && y < votes.height {
					votes.pix[y*votes.width+x] += weight
				}
			}
		}
	}
	return votes
}

// crest is, for every place along the window, the highest of the votes, smoothed,
// near the middle line and where it is.
func crest(votes *plane) (height []float64, row []int) {
	const from, to, border = int((halfMM - acrossMM) / cellMM), int((halfMM + acrossMM) / cellMM), 4
	height, row = make([]float64, votes.width), make([]int, votes.width)
	near := &plane{votes.pix[(from-border)*votes.width : (to+border+1)*votes.width], votes.width, to - from + 1 + 2*border}
	near = near.smooth().smooth() // which leaves its border as it was
	for j := from; j <= to; j++ {
		for i, v := range near.pix[(j-from+border)*votes.width : (j-from+border+1)*votes.width] {
			if v := float64(v); v > height[i] {
				height[i], row[i] = v, j
			}
		}
	}
	return height, row
}

// findComb returns the rivets' places: the even comb whose teeth, each free to
// move a little, collect the most votes above what lies between them, over all
// radii; and what has many votes and stands between.
func findComb(w *window) (teeth, betweens []candidate) {
	best := 0.0
	for r := leastRimMM; r <= mostRimMM; r += 0.1 {
		height, row := crest(centres(w, r))
		wide, at := widest(height, combReach)
		base := median(height)
		step, phase, score := bestComb(wide, base)
		if score <= best {
			continue
		}
		best, teeth = score, nil
		for x := phase; int(x+0.5) < len(wide); x += step {
			i := at[int(x+0.5)]
			teeth = append(teeth, candidate{w.x0 + float64(i)*cellMM, w.y0 + float64(row[i])*cellMM, height[i] - base})
		}
		betweens = between(height, row, base, teeth, w)
	}
	return teeth, betweens
}

// widest is the highest value within reach of each place, and where it stands.
func widest(height []float64, reach int) (high []float64, at []int) {
	high, at = make([]float64, len(height)), make([]int, len(height))
	for i := range height {
		for k := max(0, i-reach); k <= min(len(height)-1, i+reach); k++ {
			if height[k] > high[i] {
				high[i], at[i] = height[k], k
			}
		}
	}
	return high, at
}

// bestComb tries every pitch and phase; positions are in cells.
func bestComb(wide []float64, base float64) (step, phase, score float64) {
	const nominal = pitchMM / cellMM
	for s := nominal * leastPitch; s <= nominal*mostPitch; s += 0.25 {
		for p := 0.0; p < s; p++ {
			sum, n := 0.0, 0.0
			for x := p; int(x+0.5) < len(wide); x += s {
				sum += min(wide[int(x+0.5)]-base, 3*base)
				n++
			}
			if sum/n > score {
				step, phase, score = s, p, sum/n
			}
		}
	}
	return step, phase, score
}

// between lists the peaks of votes away from the teeth.
func between(height []float64, row []int, base float64, teeth []candidate, w *window) []candidate {
	votes := []float64{}
	for _, t := range teeth {
		votes = append(votes, t.votes)
	}
	enough := extraOfRivet * median(votes)
	found := []candidate{}
	for i, h := range height {
		c := candidate{w.x0 + float64(i)*cellMM, w.y0 + float64(row[i])*cellMM, h - base}
		far := c.x > teeth[0].x && c.x < teeth[len(teeth)-1].x
		for _, t := range teeth {
			far = far && math.Abs(t.x-c.x) > farMM
		}
		if !far || c.votes < enough {
			continue
		}
		last := len(found) - 1
		switch {
		case last < 0 || c.x-found[last].x > 2:
			found = append(found, c)
		case c.votes > found[last].votes:
			found[last] = c
		}
	}
	return found
}

// extraRivets counts those of the places between the teeth that have a closed
// rim like the rivets'.
func extraRivets(w *window, places []candidate, t *template) (count int) {
	for _, c := range places {
		v := rivet{x: c.x, y: c.y}
		for range 3 {
			v.fitRim(w.slopes(v.x, v.y), t)
		}
		if v.clear && v.closed > extraClosed && math.Hypot(v.x-c.x, v.y-c.y) < 0.8 {
			count++
		}
	}
	return count
}
