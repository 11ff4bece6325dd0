package chain

// Care is how a chain lives: what it is ridden through and how it is looked
// after.
type Care string

// The classes of care.
const (
	Enclosed Care = "enclosed" // in a full case
	Clean    Care = "clean"    // dry roads, cleaned often
	Usual    Care = "usual"    // all weathers, now and then cleaned
	Gritty   Care = "gritty"   // mud, sand or salt, or seldom cleaned
)

// Cares lists every class of care.
func Cares() []Care { return []Care{Enclosed, Clean, Usual, Gritty} }
