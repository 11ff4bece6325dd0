package photo

import (
	"math"
	"slices"
)

// rivet is one rivet as found by its rim.
type rivet struct {
	place  int     // counted along the chain
	x, y   float64 // of the rim's middle, mm
	closed float64 // part of the rim that was seen, 0 to 1
	clear  bool    // enough of it, all round
	u      float64 // standard uncertainty of x from the rim's scatter, mm
}

// The polar picture of a rivet.
const (
	angles    = 48
	profileMM = 0.05 // step along a radius
	firstMM   = 0.7
	profileN  = 44 // up to 2.85 mm
	shiftN    = 9  // a rim may lie up to 0.45 mm from where it is looked for
	leastRim  = 0.62
	widestGap = 14 // of the angles in a row without a rim: 105°
)

// slopes is how fast the level rises along each radius from (x, y).
type slopes [angles][profileN]float64

func (w *window) slopes(x, y float64) *slopes {
	s := &slopes{}
	for a := range s {
		sin, cos := math.Sincos(2 * math.Pi * float64(a) / angles)
		line := [profileN + 4]float64{}
		for k := range line {
			r := firstMM + float64(k-2)*profileMM
			line[k] = w.at(x+r*cos, y+r*sin)
		}
		for k := range s[a] {
			s[a][k] = line[k+4] + line[k+3] - line[k+1] - line[k]
		}
	}
	return s
}

// inside says whether the point at an angle and the rim's outer reach lies in
// the window, where the chain can be seen at all.
func inside(y, radius float64, a int) bool {
	return math.Abs(y+(radius+0.5)*math.Sin(2*math.Pi*float64(a)/angles)) < windowMM/2
}

// template is the rim as this picture shows it: the median slope at each radius
// over all rivets and angles, which no light spot and no dirt can move, kept
// between from and to.
type template struct {
	slope    [profileN]float64
	from, to int
	size     float64
}

func newTemplate(all []*slopes) template {
	t := template{}
	column := make([]float64, 0, len(all)*angles)
	for k := range t.slope {
		column = column[:0]
		for _, s := range all {
			for a := range s {
				column = append(column, s[a][k])
			}
		}
		t.slope[k] = median(column)
	}
	// The rim is the stretch of 1 mm that holds the most slope.
	const stretch = 20
	best := -1.0
	for from := shiftN; from+stretch+shiftN <= profileN; from++ {
		sum := 0.0
		for _, v := range t.slope[from : from+stretch] {
			sum += v * v
		}
		if sum > best {
			best, t.from, t.to = sum, from, from+stretch
		}
	}
	t.size = math.Sqrt(best)
	return t
}

// radius is the middle of the rim, mm.
func (t *template) radius() float64 { return firstMM + float64(t.from+t.to)/2*profileMM }

// offset returns how much farther out than the template the rim lies on a
// radius, mm, and how alike the two are, -1 to 1.
func (t *template) offset(slope *[profileN]float64) (mm, alike float64) {
	scores := [2*shiftN + 1]float64{}
	best := 0
	for s := range scores {
		dot, size := 0.0, 1e-9
		for k := t.from; k < t.to; k++ {
			v := slope[k+s-shiftN]
			dot += v * t.slope[k]
			size += v * v
		}
		scores[s] = dot / (math.Sqrt(size) * t.size)
		if scores[s] > scores[best] {
			best = s
		}
	}
	shift := float64(best - shiftN)
	if best > 0 && best < len(scores)-1 {
		a, b, c := scores[best-1], scores[best], scores[best+1]
		if bend := a - 2*b + c; bend < 0 {
			shift += 0.5 * (a - c) / bend
		}
	}
	return shift * profileMM, scores[best]
}

// fitRim moves the rivet to the middle of its rim: offsets d at angles t obey
// d = dx cos t + dy sin t + dr, fitted with Tukey's weights so that dirt,
// light spots and shadows drop out.
func (v *rivet) fitRim(s *slopes, t *template) {
	const alikeEnough = 0.45
	var offset, alike [angles]float64
	seen := 0
	for a := range s {
		offset[a], alike[a] = t.offset(&s[a])
		if inside(v.y, t.radius(), a) {
			seen++
		}
	}
	x := []float64{0, 0, 0}
	scale := 0.3
	for range 12 {
		n := newNormal(3)
		for a := range offset {
			factors, usable := rimRow(a, v.y, t.radius(), alike[a] > alikeEnough)
			miss := offset[a] - x[0]*factors[0] - x[1]*factors[1] - x[2]
			if q := miss / (4.685 * scale); usable && math.Abs(q) < 1 {
				n.add(factors, offset[a], alike[a]*(1-q*q)*(1-q*q))
			}
		}
		next, ok := solve(n.a, n.b)
		if !ok {
			v.clear, v.closed = false, 0
			return
		}
		x, scale = next, max(0.05, scale/1.5)
	}
	v.x, v.y = v.x+x[0], v.y+x[1]
	v.judge(x, offset, func(a int) bool { return alike[a] > alikeEnough }, seen, t)
}

func rimRow(a int, y, radius float64, alike bool) (factors []float64, usable bool) {
	sin, cos := math.Sincos(2 * math.Pi * float64(a) / angles)
	return []float64{cos, sin, 1}, alike && inside(y, radius, a)
}

// judge counts how much of the rim agrees with the fit x, and how well.
func (v *rivet) judge(x []float64, offset [angles]float64, alike func(int) bool, seen int, t *template) {
	sum, good := 0.0, [angles]bool{}
	count := 0
	for a := range offset {
		factors, usable := rimRow(a, v.y, t.radius(), alike(a))
		miss := offset[a] - x[0]*factors[0] - x[1]*factors[1] - x[2]
		if usable && math.Abs(miss) < 0.2 {
			good[a] = true
			count++
			sum += miss * miss
		}
	}
	v.closed = float64(count) / float64(max(seen, angles/2))
	v.clear = v.closed >= leastRim && longestGap(good, v.y, t.radius()) <= widestGap && math.Abs(x[2]) < 0.25
	v.u = math.Sqrt(sum/float64(max(count-3, 1))) * math.Sqrt(2/float64(max(count, 1)))
}

// longestGap is the most angles in a row without a rim, of those in the window.
func longestGap(good [angles]bool, y, radius float64) int {
	longest, run := 0, 0
	for a := range 2 * angles {
		switch {
		case good[a%angles]:
			run = 0
		case inside(y, radius, a%angles):
			run++
			longest = max(longest, run)
		}
	}
	return longest
}

// fitRims finds every rivet's middle. The template is made from the picture
// itself, again after each move, so a rim that looks wider, darker or brighter
// on one side shifts all rivets alike and no distance between them.
func fitRims(w *window, teeth []candidate) ([]rivet, template) {
	rivets := make([]rivet, len(teeth))
	for i, c := range teeth {
		rivets[i] = rivet{place: i, x: c.x, y: c.y}
	}
	t := template{}
	for range 4 {
		all := make([]*slopes, len(rivets))
		for i, v := range rivets {
			all[i] = w.slopes(v.x, v.y)
		}
		t = newTemplate(all)
		for i := range rivets {
			from := rivets[i]
			rivets[i].fitRim(all[i], &t)
			if math.Hypot(rivets[i].x-teeth[i].x, rivets[i].y-teeth[i].y) > 0.8 {
				rivets[i] = rivet{place: i, x: from.x, y: from.y}
			}
		}
	}
	// A rivet cut by the window's end is no rivet.
	rivets = slices.DeleteFunc(rivets, func(v rivet) bool {
		return v.x-mostRimMM-0.3 < w.x0 || v.x+mostRimMM+0.3 > w.x0+float64(w.width-1)*cellMM
	})
	return rivets, t
}
