package scene

import (
	"math"
	"math/rand/v2"
)

// painter holds what is drawn at random once per picture.
type painter struct {
	*Scene
	spots      []spot // one per pin
	dirt       []blot
	letters    []float64
	lightAngle float64
	plate      float64 // brightness of the outer plates, 0 to 1
	inner      float64
	waist      float64
	eyeMM      float64 // radius of a plate's round end
	shadowUp   float64
	tableTone  float64
	grain      [256]float64
	sin, cos   float64
}

type spot struct{ x, y, strength, size, head float64 }

type blot struct{ x, y, long, wide, sin, cos, tone float64 }

func (s *Scene) painter() *painter {
	s.rng = rand.New(rand.NewPCG(s.Seed, 0xdab))
	s.pins = nil
	s.placePins()
	span := func(lo, hi float64) float64 { return lo + (hi-lo)*s.rng.Float64() }
	p := &painter{Scene: s, lightAngle: span(0, 2*math.Pi), plate: span(0.3, 0.6), waist: span(2.9, 3.4),
		eyeMM: span(4.0, 4.3), shadowUp: span(-1, 1), tableTone: span(0.1, 0.5)}
	p.inner = p.plate * span(0.35, 0.7)
	p.sin, p.cos = math.Sincos(s.AngleDeg * math.Pi / 180)
	for i := range p.grain {
		p.grain[i] = s.rng.NormFloat64()
	}
	for _, at := range s.pins {
		p.letters = append(p.letters, span(3, 10))
		drift := s.DriftMM * at / 125
		p.spots = append(p.spots, spot{
			x: drift + 0.2*s.rng.NormFloat64(), y: 0.5 * s.rng.NormFloat64(),
			strength: s.Highlight * span(0.3, 1), size: span(0.2, 0.45), head: p.plate * span(0.75, 1.2),
		})
		if s.rng.Float64() < s.DirtShare {
			b := blot{x: at + span(-3, 3), y: span(-3, 3), long: span(0.5, 1.8), wide: span(0.3, 1), tone: span(0.03, 0.15)}
			b.sin, b.cos = math.Sincos(span(0, math.Pi))
			p.dirt = append(p.dirt, b)
		}
	}
	return p
}

// tone returns the light that comes back along the ray, 0 to 1 and above.
func (p *painter) tone(r ray) float64 {
	if p.Marks {
		x, y := r.at(p.CardMM + p.PaperMM)
		x, y = r.at(p.paperAt(x, y))
		if tone, there := p.paper(x/p.ScaleX, y/p.ScaleY); there {
			return tone
		}
	}
	if tone, there := p.ruleTone(r); there {
		return tone
	}
	x, y := r.at(0)
	a, b := x*p.cos+y*p.sin, y*p.cos-x*p.sin-p.AcrossMM
	if p.Thing == Nothing || math.Abs(y) > 12 {
		return p.table(r)
	}
	tone := p.under(r, a, b)
	for _, d := range p.dirt {
		da, db := a-d.x, b-d.y
		u, v := (da*d.cos+db*d.sin)/d.long, (db*d.cos-da*d.sin)/d.wide
		if cover := u*u + v*v; cover < 1.3 {
			tone += (d.tone - tone) * min(1, (1.3-cover)/0.4)
		}
	}
	if p.Marks || p.Rule.There { // the paper's edge throws a soft shadow to one side
		edge := 3.5 - b*math.Copysign(1, p.shadowUp)
		if p.Rule.There {
			edge = p.Rule.EdgeMM - b*p.Rule.Side
		}
		if edge < 1 {
			tone *= 1 - 0.5*math.Abs(p.shadowUp)*(1-max(0, edge))
		}
	}
	return tone
}

func (p *painter) paperAt(x, y float64) float64 {
	return p.CardMM + p.PaperMM + p.CurlMM*math.Sin(2*math.Pi*x/p.CurlLengthMM+float64(p.Seed%7)) + p.WedgeMM*x/260 + p.TwistMM*y/30
}

// paper is the frame: two bands of two rows of 5 mm checks whose middles lie
// 19.2 mm apart, and a window 7 mm wide between them.
func (p *painter) paper(x, y float64) (tone float64, there bool) {
	up := math.Abs(y)
	if math.Abs(x) > 134 || up > 18 || up < 3.5 && math.Abs(x) < 130 {
		return 0, false
	}
	white := 0.8 + 0.01*p.noise(x*3, y*3)
	row := math.Floor((up-9.6)/5 + 1)
	if math.Abs(x) >= 130 || row < 0 || row > 1 {
		return white, true
	}
	if (int(math.Floor(x/5))+int(row))%2 == 0 {
		return 0.04, true
	}
	return white, true
}

// under is what lies in the window at (a, b) along and across the chain.
func (p *painter) under(r ray, a, b float64) float64 {
	switch p.Thing {
	case Scalloped:
		near := a - 12.7*math.Round(a/12.7)
		depth := b - (math.Sqrt(max(0, 16-near*near)) - 2.2)
		if math.Abs(depth) < 0.15 {
			return 0.3 * p.plate
		}
		if depth < 0 {
			return p.plate * (1 + 0.03*p.noise(a, b))
		}
		return p.table(r)
	case Holed:
		rho := math.Hypot(a-12.7*math.Round(a/12.7), b)
		return p.disc(rho, math.Atan2(b, a), p.plate, 0.2) * (1 + 0.03*p.noise(a, b))
	}
	return p.links(r, a, b)
}

func (p *painter) links(r ray, a, b float64) float64 {
	i := p.nearest(a)
	da := a - p.pins[i]
	rho := math.Hypot(da, b)
	mate := i ^ 1 // the other pin of the same outer plate
	if p.Doubled && mate < len(p.pins) {
		if m := math.Hypot(a-(p.pins[i]+p.pins[mate])/2, b); m < 2.4 {
			return p.disc(m, math.Atan2(b, da), p.plate, p.spots[i].head)
		}
	}
	if rho < p.eyeMM {
		if rho < 2.6 && p.Thing != Rimless && !(p.Missing > 0 && i == p.seen(p.Missing)) {
			s := p.spots[i]
			light := s.strength * math.Exp(-(sq(da-s.x)+sq(b-s.y))/(2*s.size*s.size))
			return p.disc(rho, math.Atan2(b, da), p.plate, s.head) + light
		}
		return p.outer(a, b, p.eyeMM-rho)
	}
	if mate < len(p.pins) && (a-p.pins[i])*(p.pins[mate]-p.pins[i]) > 0 && math.Abs(b) < p.waist {
		return p.outer(a, b, p.waist-math.Abs(b))
	}
	x, y := r.at(-1.3)
	a, b = x*p.cos+y*p.sin, y*p.cos-x*p.sin-p.AcrossMM
	i = p.nearest(a)
	if a > p.pins[0] && a < p.pins[len(p.pins)-1] && math.Abs(b) < p.waist+0.1 || math.Hypot(a-p.pins[i], b) < p.eyeMM-0.1 {
		return p.inner * (1 + 0.05*p.noise(a*2, b*2))
	}
	return p.table(r)
}

// outer is an outer plate's surface, depth mm inside its border, with letters
// on every other one.
func (p *painter) outer(a, b, depth float64) float64 {
	tone := p.plate * (1 + 0.04*p.noise(a*6, b/2))
	if depth < 0.25 {
		tone *= 0.75
	}
	i := p.nearest(a)
	if i%4 < 2 && math.Abs(b) < 0.9 && math.Mod(math.Abs(a)*1.3, 1) < 0.35 && math.Abs(a-p.pins[i]) > 3 {
		tone *= 0.6
	}
	return tone
}

// disc is a rivet's head inside its rim, a dark groove.
func (p *painter) disc(rho, angle, outside, inside float64) float64 {
	groove := math.Abs(rho-p.RivetMM) / (p.RimMM / 2)
	tone := outside
	if rho < p.RivetMM {
		tone = inside * (1 + 0.15*(rho/p.RivetMM-0.5))
	}
	if groove < 1.4 {
		dark := p.RimContrast * (1 + 0.35*math.Cos(angle-p.lightAngle)) * min(1, (1.4-groove)/0.8)
		tone *= max(0.05, 1-dark)
	}
	return tone
}

func (p *painter) table(r ray) float64 {
	x, y := r.at(-5)
	return p.tableTone * (1 + 0.15*p.noise(x/3, y*2) + 0.05*p.noise(x*3, y*3))
}

func (p *painter) nearest(a float64) int {
	lo, hi := 0, len(p.pins)-1
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; p.pins[mid] < a {
			lo = mid
		} else {
			hi = mid
		}
	}
	if math.Abs(p.pins[hi]-a) < math.Abs(p.pins[lo]-a) {
		return hi
	}
	return lo
}

// seen is the index of the n-th pin in the window, from 1.
func (p *painter) seen(n int) int {
	for i, at := range p.pins {
		if at > -124 {
			return i + n - 1
		}
	}
	return -1
}

// noise is smooth noise of standard deviation about 1 and unit cell 1.
func (p *painter) noise(x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	x, y = x-fx, y-fy
	i, j := int(fx), int(fy)
	at := func(i, j int) float64 { return p.grain[uint8(i*37+j*101+(i*j)%13)] }
	top := at(i, j)*(1-x) + at(i+1, j)*x
	return top*(1-y) + (at(i, j+1)*(1-x)+at(i+1, j+1)*x)*y
}

func sq(x float64) float64 { return x * x }
