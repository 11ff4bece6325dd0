package wire

import (
	"bytes"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"tautspan/internal/fault"
)

// splitList cuts a JSON array into the texts of its entries.
func splitList(raw []byte, path string) ([][]byte, error) {
	if jsontext.Value(raw).Kind() != '[' {
		return nil, wrongType(path, "a list", raw)
	}
	d := jsontext.NewDecoder(bytes.NewReader(raw))
	_, err := d.ReadToken()
	items := [][]byte{}
	for err == nil && d.PeekKind() != ']' {
		var value jsontext.Value
		value, err = d.ReadValue()
		end := d.InputOffset()
		items = append(items, raw[end-int64(len(value)):end])
	}
	if err != nil {
		return nil, fault.New(fault.InvalidJSON, path, "this is not a JSON list")
	}
	return items, nil
}

func wrongType(path, want string, raw []byte) error {
	got := map[jsontext.Kind]string{
		'n': "null (leave the field out instead)", 't': "true", 'f': "false",
		'"': "a text", '0': "a number", '{': "an object", '[': "a list",
	}[jsontext.Value(raw).Kind()]
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
