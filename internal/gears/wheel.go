package gears

import (
	"math"
	"strconv"
	"strings"

	"tautspan/internal/fault"
)

// Tyre is a tyre size as ISO 5775 designates it: section width and bead seat
// diameter.
type Tyre struct {
	WidthMM int
	BeadMM  int
}

// Sizes a designation may have (our choice, wider than any on the road).
const (
	leastWidthMM, mostWidthMM = 10, 150
	leastBeadMM, mostBeadMM   = 80, 700
)

// ParseTyre reads a designation such as "37-622": width, hyphen, bead seat
// diameter, in whole mm. Spaces round the numbers and an en dash are accepted.
// Anything else is a *fault.Error without a field.
func ParseTyre(text string) (Tyre, error) {
	before, after, _ := strings.Cut(strings.Replace(text, "–", "-", 1), "-")
	width, okWidth := digits(before)
	bead, okBead := digits(after)
	if !okWidth || !okBead {
		return Tyre{}, fault.New(fault.Unreadable, "", "this is not a tyre size as ISO 5775 writes it; write width-bead in mm, like 37-622")
	}
	if width < leastWidthMM || width > mostWidthMM || bead < leastBeadMM || bead > mostBeadMM {
		return Tyre{}, fault.New(fault.OutOfRange, "", "width "+strconv.Itoa(width)+" and bead "+strconv.Itoa(bead)+
			" mm is no tyre; allowed is a width of 10 to 150, first, and a bead seat of 80 to 700, like 37-622")
	}
	return Tyre{width, bead}, nil
}

// digits reads one to four decimal digits with spaces round them.
func digits(text string) (int, bool) {
	text = strings.TrimSpace(text)
	if text == "" || len(text) > 4 || strings.Trim(text, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	return n, err == nil
}

// CircumferenceMM returns pi (bead + 2 width), the circumference of the unloaded
// tyre if it is as high as it is wide. Under a rider it rolls one or two percent
// less (common practice, no source).
func (t Tyre) CircumferenceMM() float64 {
	return math.Pi * float64(t.BeadMM+2*t.WidthMM)
}
