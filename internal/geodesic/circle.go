package geodesic

import "math"

// circle is an arc of a great circle on the auxiliary sphere.
type circle struct {
	sinAlpha0 float64 // sine of the azimuth at the equator
	start     float64 // σ1, arc from the equator to the first point, rad
	arc       float64 // σ2 - σ1, rad, 0 to π
	k2        float64 // k² of Karney's equation 9
}

// circle returns the great circle between the two reduced latitudes when the
// longitude difference on the sphere is t, or π - t for a far line; t in rad.
// The components of the first azimuth are written with sin(β2-β1) or
// sin(β1+β2), so that nothing cancels for short or nearly antipodal lines.
func (l *line) circle(t float64) circle {
	sinHalf := math.Sin(t / 2)
	versine, cosine := 2*sinHalf*sinHalf, math.Cos(t)
	if l.far {
		versine, cosine = -versine, -cosine
	}
	east := l.cos2 * math.Sin(t)
	north := l.sinGap + l.sin1*l.cos2*versine
	sinArc := math.Hypot(east, north)
	sinAlpha1, cosAlpha1 := 0.0, 1.0
	if sinArc > 0 {
		sinAlpha1, cosAlpha1 = east/sinArc, north/sinArc
	}
	sinAlpha0 := sinAlpha1 * l.cos1
	cosAlpha0 := math.Hypot(cosAlpha1, sinAlpha1*l.sin1)
	return circle{
		sinAlpha0: sinAlpha0,
		start:     math.Atan2(l.sin1, cosAlpha1*l.cos1),
		arc:       math.Atan2(sinArc, l.sin1*l.sin2+l.cos1*l.cos2*cosine),
		k2:        secondEccentricity2 * cosAlpha0 * cosAlpha0,
	}
}

// lengthM is the geodesic's length: b ∫ √(1 + k² sin² σ) dσ (Karney's equation 7).
func (c circle) lengthM() float64 {
	return semiMinorM * c.integral(func(root float64) float64 { return root })
}

// lag is how much the longitude difference on the ellipsoid falls short of the
// one on the sphere, rad, 0 to fπ: f sin α0 ∫ (2-f)/(1 + (1-f)√(1 + k² sin² σ)) dσ
// (Karney's equation 8).
func (c circle) lag() float64 {
	return Flattening * c.sinAlpha0 * c.integral(func(root float64) float64 {
		return (2 - Flattening) / (1 + (1-Flattening)*root)
	})
}

// integral of f(√(1 + k² sin² σ)) along the arc.
func (c circle) integral(f func(root float64) float64) float64 {
	rule := longRule
	if c.arc < shortArc {
		rule = shortRule
	}
	half, sum := c.arc/2, 0.0
	for _, node := range rule {
		sin := math.Sin(c.start + half*(1+node.at))
		sum += node.weight * f(math.Sqrt(1+c.k2*sin*sin))
	}
	return sum * half
}
