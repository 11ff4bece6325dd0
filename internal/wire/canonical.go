package wire

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
	"tautspan/internal/order"
)

// maxDepth is how deep objects and lists may lie in each other where a canonical
// form is asked for.
const maxDepth = 16

// Canonical returns the one form a JSON value has under RFC 8785: names sorted,
// no blanks, numbers and texts at their shortest. Names outside ASCII are sorted
// by bytes, which the RFC does otherwise; nothing we accept has any. Any failure
// is a *fault.Error: no JSON, or deeper than 16 levels.
func Canonical(data []byte) ([]byte, error) {
	if isCanonical(data) {
		return slices.Clone(data), nil
	}
	return makeCanonical(data)
}

func makeCanonical(data []byte) ([]byte, error) {
	if err := checkSyntax(data); err != nil {
		return nil, err
	}
	return canonical(make([]byte, 0, len(data)), bytes.Trim(data, " \t\r\n"), 0)
}

func canonical(out, raw []byte, depth int) ([]byte, error) {
	switch kind := jsonscan.KindOf(raw); kind {
	case '{', '[':
		if depth == maxDepth {
			return nil, fault.New(fault.TooLarge, "", "objects and lists lie too deep in each other; allowed are "+strconv.Itoa(maxDepth)+" levels")
		}
		if kind == '{' {
			return canonicalObject(out, raw, depth+1)
		}
		return canonicalList(out, raw, depth+1)
	case '"':
		return AppendText(out, jsonscan.Text(raw)), nil
	case '0':
		v, err := strconv.ParseFloat(string(raw), 64)
		if err != nil {
			return nil, fault.New(fault.OutOfRange, "", "the number "+shorten(string(raw))+" is too large")
		}
		return appendNumber(out, v), nil
	}
	return append(out, raw...), nil
}

func canonicalObject(out, raw []byte, depth int) ([]byte, error) {
	members := jsonscan.Members(raw)
	order.By(members, func(a, b Member) int { return strings.Compare(a.Name, b.Name) })
	out = append(out, '{')
	for i, m := range members {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(AppendText(out, m.Name), ':')
		var err error
		if out, err = canonical(out, m.Value, depth); err != nil {
			return nil, err
		}
	}
	return append(out, '}'), nil
}

func canonicalList(out, raw []byte, depth int) ([]byte, error) {
	out = append(out, '[')
	for i, item := range jsonscan.Items(raw) {
		if i > 0 {
			out = append(out, ',')
		}
		var err error
		if out, err = canonical(out, item, depth); err != nil {
			return nil, err
		}
	}
	return append(out, ']'), nil
}

// AppendMembers appends members to out as one JSON object.
func AppendMembers(out []byte, members []Member) []byte {
	out = append(out, '{')
	for i, m := range members {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(AppendText(out, m.Name), ':')
		out = append(out, m.Value...)
	}
	return append(out, '}')
}

// appendNumber writes a number as RFC 8785 section 3.2.2.3 asks, which is how
// ECMAScript writes it: plain from 1e-6 to below 1e21, else with an exponent
// without leading zeros; -0 is 0.
func appendNumber(out []byte, v float64) []byte {
	size := math.Abs(v)
	if size == 0 || size >= 1e-6 && size < 1e21 {
		return strconv.AppendFloat(out, v+0, 'f', -1, 64)
	}
	text := strconv.FormatFloat(v, 'e', -1, 64)
	sign := strings.IndexByte(text, 'e') + 2
	return append(append(out, text[:sign]...), strings.TrimLeft(text[sign:], "0")...)
}
