package identify

import (
	"math"

	"tautspan/internal/chain"
	"tautspan/internal/words"
)

// candidate describes the family and what speaks for or against it.
func (e *evidence) candidate(f *chain.Family, probability float64) Candidate {
	fits, fitReason := e.fits(f)
	c := Candidate{
		Class: f.Class, Name: className(f.Class), RearSprockets: f.RearSprockets,
		Probability: probability, PitchMM: f.PitchMM,
		Closures: f.Closures, ClosureAdvice: closureAdvice(f), Fits: fits, Source: f.Source,
		Reasons: append(e.reasons(f), fitReason),
	}
	if f.WidthKnown() {
		c.InnerWidthMM, c.OuterWidthMM = &f.InnerWidthMM[0], &f.OuterWidthMM
	}
	for i, n := range c.Reasons {
		if i > 0 {
			c.Why += " "
		}
		c.Why += n.Text()
	}
	return c
}

// className is the family in words.
func className(c chain.Class) string { return words.N("class_" + string(c)).Text() }

// closureAdvice says how each closure of the family is used, and what never to do.
func closureAdvice(f *chain.Family) []words.Note {
	advice := make([]words.Note, 0, len(f.Closures)+1)
	for _, c := range f.Closures {
		advice = append(advice, words.N("closure_"+string(c)))
	}
	return append(advice, words.N("closure_never"))
}

func (e *evidence) reasons(f *chain.Family) []words.Note {
	var notes []words.Note
	if e.outer != nil {
		notes = append(notes, widthReason("outer", e.outer, f, f.OuterWidthMM, outerStray))
	}
	if e.inner != nil {
		notes = append(notes, widthReason("inner", e.inner, f, f.InnerWidthMM, innerStray))
	}
	if e.pitch != nil {
		notes = append(notes, e.pitchReason(f))
	}
	if e.roller != nil {
		notes = append(notes, words.N("identify_roller"))
	}
	return notes
}

// widthReason says whether a width lies inside, at the edge of or outside what
// the family has.
func widthReason(which string, q *quantity, f *chain.Family, width [2]float64, stray float64) words.Note {
	if !f.WidthKnown() {
		return words.N("identify_" + which + "_unknown")
	}
	place := "inside"
	switch miss := q.miss(width[0], width[1], stray); {
	case miss > farthest:
		place = "outside"
	case miss > 0:
		place = "edge"
	}
	return words.N("identify_"+which+"_"+place,
		words.V("read", q.mm, 2), words.V("lo", width[0], 2), words.V("hi", width[1], 2))
}

func (e *evidence) pitchReason(f *chain.Family) words.Note {
	longer := 100 * (e.pitch.mm/f.PitchMM - 1)
	read := words.V("read", e.pitch.mm, 2)
	switch {
	case e.pitch.miss(shortest*f.PitchMM, longest*f.PitchMM, 0) > farthest:
		return words.N("identify_pitch_outside", read, words.V("nominal", f.PitchMM, 2))
	case longer > chain.NewTolerancePercent:
		return words.N("identify_pitch_long", read, words.V("nominal", f.PitchMM, 2), words.V("percent", longer, 1))
	}
	return words.N("identify_pitch_inside", read, words.V("nominal", f.PitchMM, 2))
}

// fits answers whether the family suits the bike, and why. One rear sprocket
// with no drive named is a single drive.
func (e *evidence) fits(f *chain.Family) (*bool, words.Note) {
	drive := e.drive
	switch {
	case f.PitchMM != chain.PitchMM && drive == "" && e.rearSprockets == 0:
		return nil, words.N("identify_fits_other_pitch")
	case drive == "" && e.rearSprockets == 0:
		return nil, words.N("identify_fits_no_bike")
	case drive == "" && e.rearSprockets == 1:
		drive = chain.Single
	case drive == "":
		drive = chain.Derailleur
	}
	yes, no := true, false
	switch f.Fits(drive, e.rearSprockets) {
	case chain.FitYes:
		return &yes, words.N("identify_fits_yes")
	case chain.FitNo:
		if f.PitchMM != chain.PitchMM {
			return &no, words.N("identify_fits_other_pitch")
		}
		return &no, words.N("identify_fits_no")
	}
	return nil, words.N(unknownFit(drive, e.rearSprockets))
}

func unknownFit(drive chain.Drive, rearSprockets int) string {
	switch {
	case drive != chain.Derailleur:
		return "identify_fits_teeth"
	case rearSprockets > lastInTable:
		return "identify_fits_beyond_table"
	}
	return "identify_fits_no_count"
}

// advise adds what to measure next and the cautions.
func (a *Response) advise(e *evidence) {
	next := func(code string) { a.NextSteps = append(a.NextSteps, words.N(code)) }
	switch {
	case a.NoneFit:
		next("identify_next_again")
	case e.outer == nil:
		next("identify_next_outer")
	case a.Candidates[0].Probability < sure && e.inner == nil:
		next("identify_next_inner")
	case a.Candidates[0].Probability < sure:
		next("identify_next_marks")
	}
	if e.pitch != nil && !a.NoneFit && e.pitch.mm > a.Candidates[0].PitchMM*(1+chain.NewTolerancePercent/100) {
		next("identify_next_wear")
	}
	if e.pitch != nil && math.Abs(e.pitch.mm/(2*chain.PitchMM)-1) < longest-1 {
		next("identify_next_count")
	}
	caution := func(code string) { a.Cautions = append(a.Cautions, words.N(code)) }
	if e.roller != nil && e.outer == nil && e.inner == nil {
		caution("identify_caution_roller")
	}
	if a.NoneFit {
		caution("identify_caution_none")
	} else if a.Candidates[0].Probability < sure {
		caution("identify_caution_unsure")
	}
	caution("identify_caution_match")
	caution("caution_closure")
	caution("caution_guidance")
}

// sure is the probability from which one candidate is taken as the answer. Ours.
const sure = 0.9
