package geodesic

import "math"

// The WGS84 ellipsoid: the defining semi-major axis in metres and flattening
// (NGA.STND.0036), and what follows from them.
const (
	SemiMajorM = 6378137.0
	Flattening = 1 / 298.257223563

	semiMinorM = SemiMajorM * (1 - Flattening)
	// secondEccentricity2 is the square of the second eccentricity.
	secondEccentricity2 = Flattening * (2 - Flattening) / ((1 - Flattening) * (1 - Flattening))
)

// Point is a place on the ellipsoid, in degrees: geodetic latitude -90 to 90,
// and any finite longitude (whole turns do not matter).
type Point struct{ LatDeg, LonDeg float64 }

// DistanceM returns the length in metres of the shortest line on the ellipsoid
// between two points. It is the same in both directions. The result is NaN when
// a latitude is outside -90..90 or a number is NaN or infinite.
//
// Against 610 lines of every length, nearly antipodal ones included, computed
// by a reference library it is within 30 nm; see testdata/geodesic.
func DistanceM(from, to Point) float64 {
	if !from.valid() || !to.valid() {
		return math.NaN()
	}
	return newLine(from, to).lengthM()
}

// valid tells whether the point is on the ellipsoid; NaN is not.
func (p Point) valid() bool {
	return math.Abs(p.LatDeg) <= 90 && !math.IsInf(p.LonDeg, 0) && !math.IsNaN(p.LonDeg)
}

// line is the problem on the auxiliary sphere: two reduced latitudes and the
// longitude difference on the ellipsoid. When the points are more than a
// quarter turn apart (far), the angle kept is how much the difference lacks to
// half a turn, because nearly antipodal points need that number exactly.
type line struct {
	sin1, cos1, sin2, cos2 float64 // of the reduced latitudes
	sinGap                 float64 // of their difference, or of their sum when far
	far                    bool
	angle                  float64 // rad, 0 to π/2
}

// nudge separates points at exactly opposite latitudes by less than a
// nanometre, rad. Without it two half-turns of the sphere that leave in
// different directions could not be told apart; the distance changes by no more
// than the nudge.
const nudge = 1e-16

func newLine(from, to Point) *line {
	beta1, beta2 := reducedLatitude(from.LatDeg), reducedLatitude(to.LatDeg)
	difference := math.Abs(math.Remainder(to.LonDeg-from.LonDeg, 360))
	l := &line{far: difference > 90}
	l.sin1, l.cos1 = math.Sincos(beta1)
	l.sin2, l.cos2 = math.Sincos(beta2)
	if l.far {
		l.angle = radians(180 - difference)
		l.sinGap = math.Sin(beta1 + beta2)
		if l.sinGap == 0 {
			l.sinGap = nudge
		}
	} else {
		l.angle = radians(difference)
		l.sinGap = math.Sin(beta2 - beta1)
	}
	return l
}

func radians(degrees float64) float64 { return degrees * (math.Pi / 180) }

// reducedLatitude returns β with tan β = (1-f) tan φ, rad (Karney's equation 6).
func reducedLatitude(latDeg float64) float64 {
	sin, cos := math.Sincos(radians(latDeg))
	return math.Atan2((1-Flattening)*sin, cos)
}

// lengthM solves the line: once the great circle is known whose longitude
// difference on the ellipsoid is the wanted one, its length follows.
func (l *line) lengthM() float64 {
	return l.circle(l.solve()).lengthM()
}
