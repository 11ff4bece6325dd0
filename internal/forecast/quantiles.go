package forecast

import "math"

// Quantiles are five points of a distribution: half of it lies below P50, nine
// tenths between P05 and P95.
type Quantiles struct{ P05, P25, P50, P75, P95 float64 }

func quantiles(of func(p float64) float64) Quantiles {
	return Quantiles{of(0.05), of(0.25), of(0.50), of(0.75), of(0.95)}
}

// quantile returns the elongation, percent, below which the share p of f lies.
// A node's probability is spread evenly over the cell around it; the first cell
// starts at zero, and the last is a point, because it stands for all beyond.
func (l lattice) quantile(f []float64, p float64) float64 {
	last := len(f) - 1
	sum := 0.0
	for k, v := range f[:last] {
		if sum+v >= p && v > 0 {
			from := max(0, float64(k)-0.5)
			return l.at(from + (float64(k)+0.5-from)*max(0, p-sum)/v)
		}
		sum += v
	}
	return l.at(float64(last))
}

// quantile returns the rate, percent per 1000 km, below which the share p of w
// lies, each grid point's probability spread evenly over its logarithmic cell.
func (w *rateLaw) quantile(p float64) float64 {
	sum := 0.0
	for i, v := range w {
		if sum+v >= p && v > 0 {
			return math.Exp(logRateAt(i) + logRateStep*(max(0, p-sum)/v-0.5))
		}
		sum += v
	}
	return fastestRate
}

// elongation returns the distribution of x now over the lattice.
func (p *posterior) elongation() []float64 {
	x := make([]float64, p.lattice.n)
	for i := range p.rate {
		for k, v := range p.at(i) {
			x[k] += v
		}
	}
	return x
}

// harmonicMean returns 1/E[1/R], the rate that goes with the mean of distances.
func (w *rateLaw) harmonicMean() float64 {
	sum := 0.0
	for i, v := range w {
		sum += v / rateAt(i)
	}
	return 1 / sum
}
