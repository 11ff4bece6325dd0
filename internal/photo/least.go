package photo

import "math"

// solve returns x with a x = b for a symmetric positive definite a, by Cholesky;
// false when it is not. a and b are overwritten.
func solve(a [][]float64, b []float64) ([]float64, bool) {
	n := len(b)
	for j := range n {
		for k := range j {
			a[j][j] -= a[j][k] * a[j][k]
		}
		if !(a[j][j] > 0) {
			return nil, false
		}
		a[j][j] = math.Sqrt(a[j][j])
		for i := j + 1; i < n; i++ {
			for k := range j {
				a[i][j] -= a[i][k] * a[j][k]
			}
			a[i][j] /= a[j][j]
		}
	}
	for i := range n {
		for k := range i {
			b[i] -= a[i][k] * b[k]
		}
		b[i] /= a[i][i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			b[i] -= a[k][i] * b[k]
		}
		b[i] /= a[i][i]
	}
	return b, true
}

// normal builds the normal equations of a least-squares fit, row by row.
type normal struct {
	a   [][]float64
	b   []float64
	sum float64 // of the squares of what was to be explained
}

func newNormal(n int) *normal {
	s := &normal{a: make([][]float64, n), b: make([]float64, n)}
	for i := range s.a {
		s.a[i] = make([]float64, n)
	}
	return s
}

// add takes in one row: factors · x = value, with a weight.
func (s *normal) add(factors []float64, value, weight float64) {
	for i, f := range factors {
		if f == 0 {
			continue
		}
		for j := range i + 1 {
			s.a[i][j] += weight * f * factors[j]
			if j < i {
				s.a[j][i] = s.a[i][j]
			}
		}
		s.b[i] += weight * f * value
	}
	s.sum += weight * value * value
}

// descend makes the sum of squares of residuals small from a start
// (Levenberg-Marquardt, derivatives by differences of step). residuals appends
// to a slice and must always give the same count.
func descend(x, step []float64, residuals func(x, out []float64) []float64) []float64 {
	x = append([]float64{}, x...)
	now := residuals(x, nil)
	cost, damping := squares(now), 1e-3
	for range 60 {
		columns := make([][]float64, len(x))
		for k := range x {
			moved := append([]float64{}, x...)
			moved[k] += step[k]
			columns[k] = residuals(moved, nil)
			for i := range columns[k] {
				columns[k][i] = (columns[k][i] - now[i]) / step[k]
			}
		}
		better := false
		for !better && damping < 1e8 {
			next, ok := leap(x, now, columns, damping)
			if ok {
				if there := residuals(next, nil); squares(there) < cost {
					small := cost-squares(there) < 1e-10*cost
					x, now, cost, better = next, there, squares(there), true
					damping = max(damping/8, 1e-12)
					if small {
						return x
					}
					continue
				}
			}
			damping *= 8
		}
		if !better {
			break
		}
	}
	return x
}

func leap(x, now []float64, columns [][]float64, damping float64) ([]float64, bool) {
	n := newNormal(len(x))
	factors := make([]float64, len(x))
	for i, r := range now {
		for k := range factors {
			factors[k] = columns[k][i]
		}
		n.add(factors, -r, 1)
	}
	for k := range x {
		n.a[k][k] *= 1 + damping
	}
	d, ok := solve(n.a, n.b)
	if !ok {
		return nil, false
	}
	for k := range d {
		d[k] += x[k]
	}
	return d, true
}

func squares(r []float64) (sum float64) {
	for _, v := range r {
		sum += v * v
	}
	return sum
}
