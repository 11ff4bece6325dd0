package photo

import (
	"math"

	"tautspan/internal/photo/raster"
)

// refineCorner moves (x, y) to where four checks meet in the full picture: the
// point c for which the gradients g at points p around it are at right angles
// to p - c, least squares (Förstner and Gülch 1987). half is the window's half
// side in pixels. False where the window leaves the picture or holds no corner.
func refineCorner(g *raster.Gray, x, y, half float64) (cx, cy float64, ok bool) {
	reach := int(math.Ceil(half))
	spread := 2 / (half * half)
	for range 5 {
		px, py := int(math.Floor(x)), int(math.Floor(y))
		if px-reach < 1 || py-reach < 1 || px+reach+2 > g.Width || py+reach+2 > g.Height {
			return 0, 0, false
		}
		var a, b, d, u, v float64
		for j := py - reach; j <= py+reach; j++ {
			for i := px - reach; i <= px+reach; i++ {
				gx := float64(g.At(i+1, j)) - float64(g.At(i-1, j))
				gy := float64(g.At(i, j+1)) - float64(g.At(i, j-1))
				dx, dy := float64(i)+0.5-x, float64(j)+0.5-y
				w := math.Exp(-spread * (dx*dx + dy*dy))
				a, b, d = a+w*gx*gx, b+w*gx*gy, d+w*gy*gy
				along := w * (gx*dx + gy*dy)
				u, v = u+gx*along, v+gy*along
			}
		}
		det := a*d - b*b
		if det < 1e-3*(a+d)*(a+d) {
			return 0, 0, false
		}
		dx, dy := (d*u-b*v)/det, (a*v-b*u)/det
		if math.Hypot(dx, dy) > half {
			return 0, 0, false
		}
		x, y = x+dx, y+dy
		if math.Hypot(dx, dy) < 0.005 {
			break
		}
	}
	return x, y, true
}
