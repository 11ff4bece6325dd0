package chain

import "slices"

// Class names a chain family. Classes are part of the JSON contract and of
// saved records: add, never rename.
type Class string

// The chain families.
const (
	Derailleur5to6 Class = "derailleur_5_6"
	Derailleur7to8 Class = "derailleur_7_8"
	Derailleur9    Class = "derailleur_9"
	Derailleur10   Class = "derailleur_10"
	Derailleur11   Class = "derailleur_11"
	Derailleur12   Class = "derailleur_12"
	Derailleur13   Class = "derailleur_13"
	Single3to32    Class = "single_3_32"
	Single1to8     Class = "single_1_8"
	Cargo5to32     Class = "cargo_5_32"
	Cargo3to16     Class = "cargo_3_16"
	Pitch10MM      Class = "pitch_10_mm"
	Pitch5to8Inch  Class = "pitch_5_8_in"
	Pitch1Inch     Class = "pitch_1_in"
)

// Nominal inner widths in mm: exact conversions of 11/128, 3/32, 1/8, 5/32 and
// 3/16 in.
const (
	width11to128 = 11.0 / 128 * 25.4
	width3to32   = 3.0 / 32 * 25.4
	width1to8    = 1.0 / 8 * 25.4
	width5to32   = 5.0 / 32 * 25.4
	width3to16   = 3.0 / 16 * 25.4
)

// Family is one row of the table of chain families. A range is [low, high] in
// mm; [0, 0] means not known.
type Family struct {
	Class         Class
	Drives        []Drive    // kinds of drive it is made for
	RearSprockets []int      // numbers of rear sprockets it is made for
	PitchMM       float64    // nominal pin-to-pin pitch
	InnerWidthMM  [2]float64 // between the inner plates: nominal, and the widest usual
	OuterWidthMM  [2]float64 // over the pin ends
	Closures      []Closure
	Source        string // where the widths come from
}

// WidthKnown reports whether the table holds the family's widths.
func (f *Family) WidthKnown() bool { return f.OuterWidthMM[1] > 0 }

const (
	seen     = "outer width: general cycling pages; inner width: common practice, no source"
	practice = "common practice, no source"
	memory   = "from memory"
)

// families is the table. Which closures a family takes is common practice, no
// source. Inner widths reach from the nominal inch fraction to the width a
// handbook or catalogue gives: 1/2 x 1/8 in 3.30 and 1/2 x 3/32 in 2.38 mm (The
// Complete Guide to Chain, table 1.8), 083 4.88 mm (two catalogues); where none
// does, 0.12 mm above nominal, as those two are.
var families = []Family{
	derailleur(Derailleur5to6, []int{5, 6}, width3to32, 7.8, 8.0, seen, ReusableLink, OneUsePin),
	derailleur(Derailleur7to8, []int{7, 8}, width3to32, 7.0, 7.3, seen, ReusableLink, OneUsePin),
	derailleur(Derailleur9, []int{9}, width11to128, 6.5, 6.8, seen, ReusableLink, OneUseLink, OneUsePin),
	derailleur(Derailleur10, []int{10}, width11to128, 5.84, 6.2, seen, ReusableLink, OneUseLink, OneUsePin),
	derailleur(Derailleur11, []int{11}, width11to128, 5.46, 5.74, seen, ReusableLink, OneUseLink, OneUsePin),
	derailleur(Derailleur12, []int{12}, width11to128, 5.15, 5.3, seen, OneUseLink, OneUsePin),
	derailleur(Derailleur13, []int{13}, width11to128, 4.9, 5.0, seen, OneUseLink),
	single(Single3to32, width3to32, 7.3, 8.6, memory, SpringClip, ReusableLink, HalfLink),
	single(Single1to8, width1to8, 8.6, 10.2, practice, SpringClip, ReusableLink, HalfLink),
	single(Cargo5to32, width5to32, 9.4, 11.5, memory, SpringClip),
	single(Cargo3to16, width3to16, 11.0, 14.8,
		"12.9 mm: size 083 in two catalogues; 14.8 mm (size 084) and the lower end: from memory", SpringClip),
	odd(Pitch10MM, 10),
	odd(Pitch5to8Inch, 15.875),
	odd(Pitch1Inch, 25.4),
}

func derailleur(c Class, sprockets []int, inner, lo, hi float64, source string, closures ...Closure) Family {
	return Family{Class: c, Drives: []Drive{Derailleur}, RearSprockets: sprockets, PitchMM: PitchMM,
		InnerWidthMM: [2]float64{inner, inner + 0.12}, OuterWidthMM: [2]float64{lo, hi}, Closures: closures, Source: source}
}

func single(c Class, inner, lo, hi float64, source string, closures ...Closure) Family {
	f := derailleur(c, []int{1}, inner, lo, hi, source, closures...)
	f.Drives = []Drive{Single, Hub}
	return f
}

// odd is an old or odd pitch; its widths differ from maker to maker.
func odd(c Class, pitchMM float64) Family {
	return Family{Class: c, Drives: []Drive{Single, Hub}, RearSprockets: []int{1}, PitchMM: pitchMM,
		Closures: []Closure{SpringClip}, Source: memory}
}

// Families returns the table of chain families, from the widest derailleur
// family to the odd pitches. The caller must not change it.
func Families() []Family { return families }

// Fit says whether a chain family suits a bike.
type Fit int

// The answers of Fits.
const (
	FitUnknown Fit = iota // depends on something the drive does not tell
	FitYes
	FitNo
)

// Fits reports whether the family suits a bike with the given drive and number
// of rear sprockets (0 when not known), taken to have half-inch sprockets:
//   - another pitch never fits;
//   - a derailleur bike takes the family made for its number of sprockets; below
//     five it takes the widest derailleur family; above 13 the table ends;
//   - one sprocket takes a 1/8 in chain, which runs on 3/32 in teeth as well.
//     Whether 3/32, 5/32 or 3/16 in suits depends on the teeth; 11/128 in is too
//     narrow for any of them.
//
// Source: common practice, no source.
func (f *Family) Fits(d Drive, rearSprockets int) Fit {
	switch {
	case f.PitchMM != PitchMM:
		return FitNo
	case d == Derailleur:
		return f.fitsDerailleur(rearSprockets)
	case f.InnerWidthMM[0] < width3to32:
		return FitNo
	case f.Class == Single1to8:
		return FitYes
	}
	return FitUnknown
}

func (f *Family) fitsDerailleur(rearSprockets int) Fit {
	switch {
	case !slices.Contains(f.Drives, Derailleur):
		return FitNo
	case rearSprockets == 0 || rearSprockets > 13:
		return FitUnknown
	case slices.Contains(f.RearSprockets, max(rearSprockets, 5)):
		return FitYes
	}
	return FitNo
}
