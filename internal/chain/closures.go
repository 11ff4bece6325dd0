package chain

// Closure is a way of joining a chain's ends.
type Closure string

// The closures of the trade. What each asks for is common practice, no source;
// the caution about special pins is from The Complete Guide to Chain, p. 111.
const (
	SpringClip   Closure = "spring_clip_joining_link" // outer plate held by a clip, can be opened again
	ReusableLink Closure = "reusable_joining_link"    // two plates that snap together, can be opened again
	OneUseLink   Closure = "one_use_joining_link"     // two plates that snap together once
	OneUsePin    Closure = "one_use_pin"              // special pin pressed in once, its guide broken off
	HalfLink     Closure = "half_link"                // cranked link of one pitch, for an odd count
)

// Closures lists every closure.
func Closures() []Closure {
	return []Closure{SpringClip, ReusableLink, OneUseLink, OneUsePin, HalfLink}
}
