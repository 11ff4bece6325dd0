package identify

import (
	"cmp"

	"tautspan/internal/chain"
	"tautspan/internal/num"
	"tautspan/internal/order"
	"tautspan/internal/wire"
)

// Comb is every family's outer width on one scale, narrowest first, for a
// picture with the reading laid over it.
type Comb struct {
	ReadingMM    *float64    // outer width as read; nil when not read
	Interval95MM *[2]float64 // reading ± 1.96 standard uncertainties (JCGM 100)
	Families     []CombRow
}

// Fields declares the comb's JSON.
func (c *Comb) Fields(o *wire.Object) {
	o.OptionalNumber("reading_mm", &c.ReadingMM).OrNull().Doc("outer width as read, null when not read", "mm")
	o.Pair("interval95_mm", &c.Interval95MM).OrNull().Doc("where it lies 95 times in 100", "mm")
	wire.List(o, "families", &c.Families).Required().Doc("every family whose outer width is known, narrowest first", "")
}

// CombRow is one family on the comb.
type CombRow struct {
	Class        chain.Class
	Name         string
	OuterWidthMM *[2]float64
	Probability  float64
}

// Fields declares the row's JSON.
func (r *CombRow) Fields(o *wire.Object) {
	o.Text("class", (*string)(&r.Class)).Required().Doc("chain family", "")
	o.Text("name", &r.Name).Required().Doc("the family in words", "")
	o.Pair("outer_width_mm", &r.OuterWidthMM).Required().Doc("over the pin ends", "mm")
	o.Number("probability", &r.Probability).Required().Doc("as among the candidates; 0 where it is none of them", "")
}

// comb lays the families of the table side by side, with the probabilities that
// the candidates have.
func (e *evidence) comb(candidates []Candidate) Comb {
	var c Comb
	if e.outer != nil {
		half := num.NormalQuantile(0.975) * e.outer.u
		c.ReadingMM = &e.outer.mm
		c.Interval95MM = &[2]float64{e.outer.mm - half, e.outer.mm + half}
	}
	families := chain.Families()
	for i := range families {
		f := &families[i]
		if f.WidthKnown() {
			c.Families = append(c.Families, CombRow{Class: f.Class, Name: className(f.Class),
				OuterWidthMM: &f.OuterWidthMM, Probability: probabilityOf(f.Class, candidates)})
		}
	}
	order.By(c.Families, func(a, b CombRow) int { return cmp.Compare(a.OuterWidthMM[0], b.OuterWidthMM[0]) })
	return c
}

func probabilityOf(class chain.Class, candidates []Candidate) float64 {
	for i := range candidates {
		if candidates[i].Class == class {
			return candidates[i].Probability
		}
	}
	return 0
}
