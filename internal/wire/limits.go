package wire

import (
	"strconv"
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
)

// splitList cuts a JSON array into the texts of its entries, as many as f allows.
func splitList(raw []byte, f *Field, path string) ([][]byte, error) {
	if jsonscan.KindOf(raw) != '[' {
		return nil, wrongType(path, "a list", raw)
	}
	items := jsonscan.Items(raw)
	if f.most > 0 && (len(items) < f.least || len(items) > f.most) {
		return nil, fault.New(fault.OutOfRange, path, "this list has "+strconv.Itoa(len(items))+" entries; allowed is "+
			strconv.Itoa(f.least)+" to "+strconv.Itoa(f.most))
	}
	return items, nil
}

func entryPath(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }

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
	switch {
	case f.words != nil:
		return "; allowed are " + strings.Join(f.words, ", ")
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
