package wear

import (
	"math"

	"tautspan/internal/num"
	"tautspan/internal/words"
)

// component is one line of an uncertainty budget, in percent of pitch.
type component struct {
	source string
	u      float64
	note   words.Note
}

// measurement is elongation as a distribution: a rectangular part of half-width
// halfWidth (zero for spans) around estimate, blurred by a normal part.
type measurement struct {
	estimate   float64 // best estimate after correction, percent
	correction float64 // what was subtracted, percent
	nominalMM  float64 // nominal span, 0 when there is none
	halfWidth  float64 // of the rectangular part, percent
	openHigh   bool    // the upper end is an assumption: a gauge's largest step dropped
	components []component
	notes      []words.Note
}

func (m *measurement) add(source string, u float64, note words.Note) {
	m.components = append(m.components, component{source, u, note})
}

func (m *measurement) addMM(source string, uMM float64, note words.Note) {
	m.add(source, 100*uMM/m.nominalMM, note)
}

func (m *measurement) addTension() {
	m.add("tension", rectangular(tensionPercent), words.N("budget_tension", words.V("half", tensionPercent, 2)))
}

func (m *measurement) correct(percent float64) {
	m.correction += percent
	m.estimate -= percent
	if percent != 0 {
		m.notes = append(m.notes, words.N("play_subtracted", words.V("play", percent, 3)))
	}
}

// unbias takes off how much too long the instrument is known to read (JCGM
// 100:2008, 3.2.4); the correction is taken as exact.
func (m *measurement) unbias(percent *float64) {
	if percent == nil || *percent == 0 {
		return
	}
	m.correction += *percent
	m.estimate -= *percent
	code := "bias_subtracted"
	if *percent < 0 {
		code = "bias_added"
	}
	m.notes = append(m.notes, words.N(code, words.V("bias", math.Abs(*percent), 3)))
}

// replaced puts the rider's own standard uncertainty in place of the budget.
func (m *measurement) replaced(uMM *float64) bool {
	if uMM != nil {
		m.addMM("stated", *uMM, words.N("budget_stated", words.V("u", *uMM, 3)))
	}
	return uMM != nil
}

// u is the combined standard uncertainty in percent, root sum of squares of the
// components (JCGM 100:2008, 5.1.2).
func (m *measurement) u() float64 {
	sum := 0.0
	for _, c := range m.components {
		sum += c.u * c.u
	}
	return math.Sqrt(sum)
}

// normalU is the standard uncertainty of the normal part alone.
func (m *measurement) normalU() float64 {
	box := rectangular(m.halfWidth)
	return math.Sqrt(max(0, m.u()*m.u()-box*box))
}

// above returns the probability that the elongation is above x. For a pure
// normal it is Phi((estimate-x)/u), the conformity probability of JCGM 106:2012
// clause 7; for a rectangle blurred by a normal it is the mean of that over the
// rectangle, whose integral is psi(z) = z Phi(z) + phi(z).
func (m *measurement) above(x float64) float64 {
	u := m.normalU()
	if m.halfWidth == 0 {
		return num.NormalCDF((m.estimate - x) / u)
	}
	lo, hi := (m.estimate-m.halfWidth-x)/u, (m.estimate+m.halfWidth-x)/u
	return min(1, max(0, (psi(hi)-psi(lo))/(hi-lo)))
}

func psi(z float64) float64 {
	return z*num.NormalCDF(z) + math.Exp(-z*z/2)/math.Sqrt(2*math.Pi)
}

// interval95 is the central interval that holds 95 % of the distribution.
func (m *measurement) interval95() [2]float64 {
	if m.halfWidth == 0 {
		half := num.NormalQuantile(0.975) * m.u()
		return [2]float64{m.estimate - half, m.estimate + half}
	}
	reach := m.halfWidth + 10*m.normalU()
	lo, hi := m.estimate-reach, m.estimate // the 2.5 % point lies below the middle
	for range 60 {
		mid := (lo + hi) / 2
		if m.above(mid) > 0.975 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return [2]float64{lo, 2*m.estimate - lo}
}
