package chain_test

import (
	"math"
	"slices"
)

type point struct{ x, y float64 }

// polygon has corners of a regular polygon of unit side round (centre, 0),
// turned by a part of one tooth.
func polygon(teeth int, part, centre float64) []point {
	radius := 1 / (2 * math.Sin(math.Pi/float64(teeth)))
	points := make([]point, teeth)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + part) / float64(teeth))
		points[i] = point{centre + radius*cos, radius * sin}
	}
	return points
}

// hull returns the corners of the convex hull in order: the lower side from
// left to right, then the upper side back.
func hull(points []point) []point {
	slices.SortFunc(points, func(a, b point) int {
		switch {
		case a.x < b.x || a.x == b.x && a.y < b.y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	lower := side(points)
	slices.Reverse(points)
	upper := side(points)
	return append(lower[:len(lower)-1], upper[:len(upper)-1]...)
}

func side(points []point) []point {
	var kept []point
	for _, p := range points {
		for len(kept) > 1 && turn(kept[len(kept)-2], kept[len(kept)-1], p) <= 0 {
			kept = kept[:len(kept)-1]
		}
		kept = append(kept, p)
	}
	return kept
}

// turn is positive where the way from a over b to c bends to the left.
func turn(a, b, c point) float64 {
	return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)
}

func perimeter(corners []point) float64 {
	sum := 0.0
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		sum += math.Hypot(q.x-p.x, q.y-p.y)
	}
	return sum
}
