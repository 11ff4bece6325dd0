package scene

import "math"

// camera traces rays from pixels to planes of equal z.
type camera struct {
	focal, middleX, middleY, half float64 // pixels
	barrel, barrel2               float64
	turn                          [3][3]float64 // from the camera's axes to the world's
	eye                           [3]float64
}

func (s *Scene) camera() *camera {
	diagonal := math.Hypot(float64(s.Width), float64(s.Height))
	c := &camera{
		focal: s.Focal35 / math.Hypot(36, 24) * diagonal, half: diagonal / 2,
		middleX: float64(s.Width)/2 + s.AxisX*diagonal/2, middleY: float64(s.Height)/2 + s.AxisY*diagonal/2,
		barrel: s.Barrel, barrel2: s.Barrel2,
	}
	// World to camera: look down (x right, y up, z to the eye), tilt, then roll.
	down := [3][3]float64{{1, 0, 0}, {0, -1, 0}, {0, 0, -1}}
	m := times(about(2, s.RollDeg), times(about(1, s.TiltXDeg), times(about(0, s.TiltYDeg), down)))
	middle := [3]float64{
		s.DistanceMM * s.OffsetX * float64(s.Width) / c.focal,
		s.DistanceMM * s.OffsetY * float64(s.Height) / c.focal, s.DistanceMM,
	}
	for i := range 3 {
		for j := range 3 {
			c.turn[i][j] = m[j][i]
			c.eye[i] -= m[j][i] * middle[j]
		}
	}
	return c
}

func about(axis int, degrees float64) [3][3]float64 {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	a, b := (axis+1)%3, (axis+2)%3
	m := [3][3]float64{}
	m[axis][axis] = 1
	m[a][a], m[b][b], m[a][b], m[b][a] = cos, cos, -sin, sin
	return m
}

func times(a, b [3][3]float64) (c [3][3]float64) {
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				c[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return c
}

// ray is where a pixel looks: eye + t·way.
type ray struct{ eye, way [3]float64 }

// ray of the pixel at (u, v), whose middle has half-integer coordinates.
func (c *camera) ray(u, v float64) ray {
	x, y := (u-c.middleX)/c.half, (v-c.middleY)/c.half
	r2 := x*x + y*y
	straight := (1 + c.barrel*r2 + c.barrel2*r2*r2) * c.half / c.focal
	look := [3]float64{x * straight, y * straight, 1}
	r := ray{eye: c.eye}
	for i := range 3 {
		r.way[i] = c.turn[i][0]*look[0] + c.turn[i][1]*look[1] + c.turn[i][2]
	}
	return r
}

// at returns where the ray meets the plane of that z.
func (r ray) at(z float64) (x, y float64) {
	t := (z - r.eye[2]) / r.way[2]
	return r.eye[0] + t*r.way[0], r.eye[1] + t*r.way[1]
}

// Pixel finds where a point of the world is drawn, by search: the truth for
// tests of the overlay.
func (s *Scene) Pixel(x, y, z float64) (u, v float64) {
	c := s.camera()
	u, v = c.middleX, c.middleY
	for range 60 {
		const step = 0.5
		x0, y0 := c.ray(u, v).at(z)
		xu, yu := c.ray(u+step, v).at(z)
		xv, yv := c.ray(u, v+step).at(z)
		a, b, d, e := (xu-x0)/step, (xv-x0)/step, (yu-y0)/step, (yv-y0)/step
		det := a*e - b*d
		u += (e*(x-x0) - b*(y-y0)) / det
		v += (a*(y-y0) - d*(x-x0)) / det
	}
	return u, v
}
