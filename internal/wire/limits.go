package wire

import (
	"strconv"
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
)

// splitList cuts a JSON array into the texts of its entries.
func splitList(raw []byte, path string) ([][]byte, error) {
	if jsonscan.KindOf(raw) != '[' {
		return nil, wrongType(path, "a list", raw)
	}
	return jsonscan.Items(raw), nil
}

func wrongType(path, want string, raw []byte) error {
	got := "a number"
	switch jsonscan.KindOf(raw) {
	case 'n':
		got = "null (leave the field out instead)"
	case 't':
		got = "true"
	case 'f':
		got = "false"
	case '"':
		got = "a text"
	case '{':
		got = "an object"
	case '[':
		got = "a list"
	}
	return fault.New(fault.WrongType, path, "this must be "+want+", not "+got)
}

// allowed says, as the end of a sentence, what the field may hold.
func (f *Field) allowed() string {
	c, isChoice := f.value.(choice)
	switch {
	case isChoice:
		return "; allowed are " + strings.Join(c.allowed, ", ")
	case f.bounded:
		unit := f.unit
		if unit != "" {
			unit = " " + unit
		}
		return "; allowed is " + show(f.lo) + " to " + show(f.hi) + unit
	case f.most > 0:
		return "; allowed is " + strconv.Itoa(f.least) + " to " + strconv.Itoa(f.most)
	}
	return ""
}

func show(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
