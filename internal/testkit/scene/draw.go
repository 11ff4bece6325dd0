package scene

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
)

// Draw returns the picture. The same scene gives the same picture.
func (s *Scene) Draw() *image.YCbCr {
	p, c := s.painter(), s.camera()
	light := make([]float32, s.Width*s.Height)
	box := image.Rect(s.Width, s.Height, 0, 0) // where blur matters
	for y := 0; y < s.Height; y += 2 {
		for x := 0; x < s.Width; x += 2 {
			r := c.ray(float64(x)+1, float64(y)+1)
			px, py := r.at(0)
			here := image.Rect(x, y, min(x+2, s.Width), min(y+2, s.Height))
			far := math.Abs(px) > 145 || math.Abs(py) > 24
			tone := 0.0
			if far { // nothing but the table, which may be coarse
				tone = p.table(r)
			} else {
				box = box.Union(here)
				tone = p.glare(px, py)
			}
			for v := here.Min.Y; v < here.Max.Y; v++ {
				for u := here.Min.X; u < here.Max.X; u++ {
					light[v*s.Width+u] = float32(tone)
					if !far {
						light[v*s.Width+u] += float32(p.average(c, u, v))
					}
				}
			}
		}
	}
	if !box.Empty() {
		blur(light, s.Width, box.Intersect(image.Rect(0, 0, s.Width, s.Height)), s.Blur)
	}
	return s.develop(light)
}

// JPEG returns the picture as a file.
func (s *Scene) JPEG() []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, s.Draw(), &jpeg.Options{Quality: s.JPEGQuality}); err != nil {
		panic("scene: " + err.Error()) // a buffer takes everything
	}
	return b.Bytes()
}

// average is the mean tone over the pixel's area.
func (p *painter) average(c *camera, x, y int) float64 {
	const n = 3
	sum := 0.0
	for i := range n {
		for j := range n {
			sum += p.tone(c.ray(float64(x)+(float64(i)+0.5)/n, float64(y)+(float64(j)+0.5)/n))
		}
	}
	return sum / (n * n)
}

// glare is one broad reflection somewhere on the frame.
func (p *painter) glare(x, y float64) float64 {
	at, across := 100*math.Sin(float64(p.Seed)), 6*math.Cos(float64(p.Seed)*1.7)
	return p.Glare * math.Exp(-(sq(x-at)/sq(22)+sq(y-across)/sq(9))/2)
}

// blur is a Gaussian of the given standard deviation, in place, within box.
func blur(light []float32, stride int, box image.Rectangle, sigma float64) {
	reach := int(math.Ceil(3 * sigma))
	weights := make([]float32, 2*reach+1)
	sum := float32(0)
	for i := range weights {
		weights[i] = float32(math.Exp(-sq(float64(i-reach)/sigma) / 2))
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	run := func(start, step, n int) {
		line := make([]float32, n)
		for i := range line {
			line[i] = light[start+i*step]
		}
		for i := range line {
			v := float32(0)
			for k, w := range weights {
				v += w * line[min(max(i+k-reach, 0), n-1)]
			}
			light[start+i*step] = v
		}
	}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		run(y*stride+box.Min.X, 1, box.Dx())
	}
	for x := box.Min.X; x < box.Max.X; x++ {
		run(box.Min.Y*stride+x, stride, box.Dy())
	}
}

// develop adds uneven light and noise and makes levels of it.
func (s *Scene) develop(light []float32) *image.YCbCr {
	rng := rand.New(rand.NewPCG(s.Seed, 0xdec))
	out := image.NewYCbCr(image.Rect(0, 0, s.Width, s.Height), image.YCbCrSubsampleRatio420)
	noise := [1 << 14]float32{}
	for i := range noise {
		noise[i] = float32(s.Noise * rng.NormFloat64())
	}
	levels := [4096]float32{}
	for i := range levels {
		levels[i] = float32(255 * math.Pow(float64(i)/4095, 0.45))
	}
	slopeX, slopeY := float32(0.4*(rng.Float64()-0.5)), float32(0.4*(rng.Float64()-0.5))
	dice := rng.Uint64() | 1
	for i, v := range light {
		x, y := float32(i%s.Width)/float32(s.Width)-0.5, float32(i/s.Width)/float32(s.Height)-0.5
		v *= 1 + slopeX*x + slopeY*y
		dice ^= dice << 13
		dice ^= dice >> 7
		dice ^= dice << 17
		level := levels[min(max(int(v*4095), 0), 4095)] + noise[dice>>50]
		out.Y[i] = uint8(min(max(level+0.5, 0), 255))
	}
	for i := range out.Cb {
		out.Cb[i], out.Cr[i] = 122, 132
	}
	return out
}
