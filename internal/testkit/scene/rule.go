package scene

import (
	"math"
	"math/rand/v2"
)

// Rule is a steel rule with a mark each millimetre, lying on the outer plates
// beside the rivets.
type Rule struct {
	There      bool
	ThickMM    float64 // so high its marks lie over the plates
	WideMM     float64
	EdgeMM     float64 // from the middle of the rivets to its edge
	Side       float64 // 1 or -1: on which side of the chain
	Scale      float64 // true length over marked length
	RollMM     float64 // how much its far edge lies higher than the near one
	WedgeMM    float64 // how much one end of 260 mm lies higher than the other
	WavesMM    float64 // height of waves 130 mm long: it is bent
	AngleDeg   float64 // to the chain
	StepMM     float64 // from mark to mark
	LineMM     float64 // width of a mark
	Contrast   float64
	Steel      float64 // its brightness
	ShineMM    float64 // where it shines
	BothEdges  bool
	thickError float64
}

// NewRuled is an ordinary scene with a rule instead of the print, taken by a
// camera of 8 or 12 megapixels.
func NewRuled(seed uint64) *Scene {
	s := New(seed)
	rng := rand.New(rand.NewPCG(seed, 0x401e))
	span := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	if long := max(s.Width, s.Height); long < 3264 {
		s.Width, s.Height = s.Width*4000/long, s.Height*4000/long
	}
	s.DistanceMM = span(400, 650)
	s.Marks = false
	s.Rule = Rule{
		There: true, WideMM: span(13, 20), EdgeMM: span(2.7, 3.5), Side: float64(1 - 2*rng.IntN(2)),
		Scale: 1 + span(-0.1, 0.1)/240, RollMM: span(-1, 1), WedgeMM: span(-0.4, 0.4), AngleDeg: span(-0.1, 0.1),
		StepMM: 1, LineMM: span(0.12, 0.22), Contrast: span(0.5, 0.85), Steel: span(0.3, 0.6), ShineMM: span(-130, 130),
		BothEdges: rng.IntN(2) == 0, ThickMM: []float64{0.5, 1}[rng.IntN(2)], thickError: 0.15 * rng.NormFloat64(),
	}
	return s
}

// StatedThickMM is what the rider says of the rule's thickness: off by 0.15 mm
// (standard deviation), which stands for a rule that does not sit well, too.
func (s *Scene) StatedThickMM() float64 { return s.Rule.ThickMM - s.Rule.thickError }

// ruleTone is the rule where the ray meets it.
func (p *painter) ruleTone(r ray) (tone float64, there bool) {
	rule := &p.Rule
	if !rule.There {
		return 0, false
	}
	z := rule.ThickMM
	x, y := r.at(z)
	a, b := p.onRule(x, y)
	if b < -1 || b > rule.WideMM+1 {
		return 0, false
	}
	x, y = r.at(z + rule.RollMM*b/rule.WideMM + rule.WedgeMM*a/260 + rule.WavesMM*math.Sin(2*math.Pi*a/130))
	if a, b = p.onRule(x, y); b < 0 || b > rule.WideMM || math.Abs(a) > 142 {
		return 0, false
	}
	tone = rule.Steel * (1 + 0.06*p.noise(a/3, b*9) + 0.35*math.Exp(-sq((a-rule.ShineMM)/40)))
	tone *= 1 - rule.Contrast*rule.mark(a/rule.Scale, b)
	if rule.BothEdges {
		tone *= 1 - rule.Contrast*rule.mark(a/rule.Scale, rule.WideMM-b)
	}
	if ten := a/rule.Scale - 10*math.Round(a/rule.Scale/10); math.Abs(ten+1.2) < 0.8 && b > 5.8 && b < 7.6 && p.noise(a*3, b*3) > 0 {
		tone *= 1 - rule.Contrast // its numbers
	}
	return tone, true
}

// onRule is where (x, y) is on the rule: along it, and from its near edge inwards.
func (p *painter) onRule(x, y float64) (a, b float64) {
	turn := math.Tan(p.Rule.AngleDeg*math.Pi/180) * x
	return x, (y-p.AcrossMM-math.Tan(p.AngleDeg*math.Pi/180)*x-turn)*p.Rule.Side - p.Rule.EdgeMM
}

// mark is how much of a mark stands at (a, b), 0 to 1: 4 mm long, each fifth 5.5
// and each tenth 7.5.
func (rule *Rule) mark(a, b float64) float64 {
	n := math.Round(a / rule.StepMM)
	long := 4.0
	switch {
	case math.Mod(n, 10) == 0:
		long = 7.5
	case math.Mod(n, 5) == 0:
		long = 5.5
	}
	if b < 0.05 || b > long {
		return 0
	}
	return min(1, max(0, (rule.LineMM/2-math.Abs(a-n*rule.StepMM))/0.03+0.5))
}
