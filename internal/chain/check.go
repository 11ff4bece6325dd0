package chain

import (
	"math"
	"slices"
	"strconv"

	"tautspan/internal/fault"
)

// CheckTeeth refuses a list that holds one tooth count twice, with a
// *fault.Error on the entry of field.
func CheckTeeth(teeth []int, field string) error {
	for i, z := range teeth {
		if slices.Contains(teeth[:i], z) {
			return fault.New(fault.Contradiction, field+"["+strconv.Itoa(i)+"]",
				strconv.Itoa(z)+" teeth stand in this list twice; give each tooth count once")
		}
	}
	return nil
}

// CheckRoom refuses axles so near each other that the wheels would touch, with a
// *fault.Error on field.
func (l Loop) CheckRoom(centreMM, pitchMM float64, field string) error {
	least := l.LeastCentre() * pitchMM
	if centreMM > least {
		return nil
	}
	return fault.New(fault.Contradiction, field, "at "+strconv.FormatFloat(centreMM, 'f', -1, 64)+
		" mm wheels with these teeth would touch; allowed is "+strconv.FormatFloat(math.Floor(least)+1, 'f', 0, 64)+" mm or more for them")
}
