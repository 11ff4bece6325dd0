// Package chain holds the tables of the domain: kinds of drive, the limits that
// go with them, chain families and closures. Each row names its source.
package chain

// PitchMM is the pin-to-pin pitch of an ordinary cycle chain, 1/2 in exactly
// (ISO 9633, ISO 606 sizes 081 to 08B).
const PitchMM = 12.7

// NewTolerancePercent is how much longer than nominal a new chain may be: the
// length tolerance is 0 to +0.15 % (ISO 606 as quoted by an industrial maker).
const NewTolerancePercent = 0.15

// Drive is the kind of drive a chain runs in.
type Drive string

// The kinds of drive.
const (
	Derailleur Drive = "derailleur" // chain moved between sprockets
	Single     Drive = "single"     // one sprocket, no hub gear
	Hub        Drive = "hub"        // one sprocket on a hub gear
)

// Drives lists every kind of drive.
func Drives() []Drive { return []Drive{Derailleur, Single, Hub} }

// MostSprockets is how many rear sprockets a derailleur drive is taken to have
// where nobody said: it gives the strictest limit.
const MostSprockets = 12

// DefaultLimitPercent returns the elongation at which a chain is changed, in
// percent of pitch: derailleur drives 0.5 with 11 or more rear sprockets and
// 0.75 with fewer, single and hub drives 1.0. Source: common practice, no
// source. It panics on an unknown drive.
func DefaultLimitPercent(d Drive, rearSprockets int) float64 {
	switch d {
	case Derailleur:
		if rearSprockets >= 11 {
			return 0.5
		}
		return 0.75
	case Single, Hub:
		return 1.0
	}
	panic("chain: unknown drive: " + string(d))
}
