package photo

import "tautspan/internal/photo/raster"

// workSide is what the longer side is reduced to, about, to look for marks:
// there a check is 7 pixels at 700 mm and 14 at 350 mm.
const workSide = 1400

// plane is a picture of real levels.
type plane struct {
	pix           []float32
	width, height int
}

func newPlane(width, height int) *plane {
	return &plane{make([]float32, width*height), width, height}
}

// reduce averages squares of k × k pixels.
func reduce(g *raster.Gray, k int) *plane {
	out := newPlane(g.Width/k, g.Height/k)
	sums := make([]uint32, out.width)
	scale := 1 / float32(k*k)
	for y := range out.height {
		clear(sums)
		for row := y * k; row < (y+1)*k; row++ {
			pix := g.Pix[row*g.Stride : row*g.Stride+out.width*k]
			for x := range sums {
				for _, v := range pix[:k] {
					sums[x] += uint32(v)
				}
				pix = pix[k:]
			}
		}
		line := out.pix[y*out.width:]
		for x, sum := range sums {
			line[x] = float32(sum) * scale
		}
	}
	return out
}

// smooth blurs with the kernel 1 4 6 4 1 in both directions, a Gaussian of
// standard deviation 1.
func (p *plane) smooth() *plane {
	half := newPlane(p.width, p.height)
	for y := range p.height {
		in, out := p.pix[y*p.width:(y+1)*p.width], half.pix[y*p.width:(y+1)*p.width]
		copy(out, in)
		for x := 2; x < len(in)-2; x++ {
			out[x] = (6*in[x] + 4*(in[x-1]+in[x+1]) + in[x-2] + in[x+2]) / 16
		}
	}
	out := newPlane(p.width, p.height)
	copy(out.pix, half.pix)
	w := p.width
	for y := 2; y < p.height-2; y++ {
		a, b, c := half.pix[(y-2)*w:(y-1)*w], half.pix[(y-1)*w:y*w], half.pix[y*w:(y+1)*w]
		d, e := half.pix[(y+1)*w:(y+2)*w], half.pix[(y+2)*w:(y+3)*w]
		line := out.pix[y*w : (y+1)*w]
		for x := range line {
			line[x] = (6*c[x] + 4*(b[x]+d[x]) + a[x] + e[x]) / 16
		}
	}
	return out
}
