package cost

import (
	"math"
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/num"
)

const (
	// newPercent is x0, how long a new chain reads, percent of pitch. Ours, from
	// the length tolerance 0 to +0.15 %.
	newPercent = 0.03
	// endPercent is where any roller chain ends (general limit, two industrial
	// makers).
	endPercent = 3.0
	// together is the A up to which a chain and the sprockets it wore in with
	// still run. Ours.
	together = 2.0
)

// damage is the law A(x) = a (x - x0) + b (x^3 - x0^3)/3 by which chains use up
// sprockets, a and b not negative and not both zero.
type damage struct{ a, b float64 }

// basis are the two terms of A at x percent.
func basis(x float64) (linear, cubic float64) {
	return x - newPercent, (x*x*x - newPercent*newPercent*newPercent) / 3
}

// at returns A(x), x in percent, at least x0.
func (d damage) at(x float64) float64 {
	linear, cubic := basis(x)
	return d.a*linear + d.b*cubic
}

// reaching returns the x in percent at which A(x) = level > 0, at most endPercent.
func (d damage) reaching(level float64) float64 {
	return crossing(func(x float64) float64 { return d.at(x) - level }, newPercent, endPercent)
}

// crossing returns where f rises through zero between lo and hi, or the end
// nearest to that.
func crossing(f func(float64) float64, lo, hi float64) float64 {
	x, err := num.Root(f, lo, hi, 1e-12)
	switch {
	case err == nil:
		return x
	case f(lo) > 0:
		return lo
	}
	return hi
}

// fit returns the damage law through two counts of chains per sprocket set. The
// counts must differ in elongation and lie between damage in proportion to
// elongation (b = 0) and damage in proportion to its cube (a = 0).
func fit(counts []ChainCount) (damage, error) {
	const field = "chains_per_sprockets"
	first, second := counts[0], counts[1]
	if first.AtPercent >= second.AtPercent {
		return damage{}, fault.New(fault.Contradiction, field, "the second row must be at a higher elongation than the first")
	}
	l1, c1 := basis(first.AtPercent)
	l2, c2 := basis(second.AtPercent)
	determinant := l1*c2 - l2*c1
	d := damage{
		a: (c2/first.Chains - c1/second.Chains) / determinant,
		b: (l1/second.Chains - l2/first.Chains) / determinant,
	}
	most, least := first.Chains*l1/l2, first.Chains*c1/c2
	if second.Chains > most*(1+1e-9) || second.Chains < least*(1-1e-9) {
		return damage{}, fault.New(fault.Contradiction, field, "with "+show(first.Chains)+" chains at "+show(first.AtPercent)+
			" % the count at "+show(second.AtPercent)+" % must lie between "+show(least)+" and "+show(most)+
			": sprockets suffer at least in proportion to elongation and at most to its cube")
	}
	return damage{math.Max(d.a, 0), math.Max(d.b, 0)}, nil
}

func show(v float64) string { return strconv.FormatFloat(v, 'g', 4, 64) }
