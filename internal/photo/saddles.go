package photo

import (
	"cmp"
	"math"
	"slices"
)

// saddle is a point where four checks meet.
type saddle struct {
	x, y     float64 // in the plane's pixels; a pixel's middle is at half integers
	strength float32
	turn     float64 // twice the direction of the bright pair, radians
}

// Bounds of the search for saddles.
const (
	leastSaddle = 60   // strength, levels squared: 8 levels of difference
	mostSaddles = 1500 // the strongest are kept
)

// findSaddles returns the strongest saddles: where -det of the Hessian, made of
// differences two pixels apart, has a maximum, and where the levels around it
// change between bright and dark four times.
func findSaddles(p *plane) []saddle {
	p = p.smooth()
	w := p.width
	strength := newPlane(w, p.height)
	for y := 6; y < p.height-6; y++ {
		up, mid, down := p.pix[(y-2)*w:(y-1)*w], p.pix[y*w:(y+1)*w], p.pix[(y+2)*w:(y+3)*w]
		out := strength.pix[y*w : (y+1)*w]
		for x := 6; x < w-6; x++ {
			twice := 2 * mid[x]
			xx, yy := mid[x-2]+mid[x+2]-twice, up[x]+down[x]-twice
			xy := (up[x-2] + down[x+2] - up[x+2] - down[x-2]) / 4
			out[x] = xy*xy - xx*yy
		}
	}
	found := []saddle{}
	for y := 6; y < p.height-6; y++ {
		for x := 6; x < w-6; x++ {
			if s := strength.pix[y*w+x]; s > leastSaddle && strength.highest(x, y) {
				if turn, ok := p.fourChanges(x, y); ok {
					found = append(found, saddle{float64(x) + 0.5, float64(y) + 0.5, s, turn})
				}
			}
		}
	}
	slices.SortFunc(found, func(a, b saddle) int {
		return cmp.Or(cmp.Compare(b.strength, a.strength), cmp.Compare(a.y, b.y), cmp.Compare(a.x, b.x))
	})
	return found[:min(len(found), mostSaddles)]
}

// highest says whether no neighbour within 2 pixels is higher.
func (p *plane) highest(x, y int) bool {
	at := y*p.width + x
	s := p.pix[at]
	for dy := -2; dy <= 2; dy++ {
		for dx := -2; dx <= 2; dx++ {
			if o := p.pix[at+dy*p.width+dx]; o > s || o == s && (dy < 0 || dy == 0 && dx < 0) {
				return false
			}
		}
	}
	return true
}

// circle has 16 offsets at a distance of about 3 pixels.
var circle = [16][2]int{{3, 0}, {3, 1}, {2, 2}, {1, 3}, {0, 3}, {-1, 3}, {-2, 2}, {-3, 1},
	{-3, 0}, {-3, -1}, {-2, -2}, {-1, -3}, {0, -3}, {1, -3}, {2, -2}, {3, -1}}

// fourChanges looks at the levels on a circle: on a saddle the second harmonic
// holds most of their variance. Its phase is twice the bright pair's direction.
func (p *plane) fourChanges(x, y int) (turn float64, ok bool) {
	mean, power := 0.0, 0.0
	levels := [16]float64{}
	for i, c := range circle {
		levels[i] = float64(p.pix[(y+c[1])*p.width+x+c[0]])
		mean += levels[i] / 16
	}
	re, im := 0.0, 0.0
	for i, v := range levels {
		v -= mean
		power += v * v
		angle := 2 * math.Atan2(float64(circle[i][1]), float64(circle[i][0]))
		re += v * math.Cos(angle)
		im += v * math.Sin(angle)
	}
	return math.Atan2(im, re), (re*re+im*im)/8 > 0.6*power
}
