package wire

import (
	"bytes"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"tautspan/internal/fault"
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
	d := jsontext.NewDecoder(bytes.NewReader(data))
	out, err := canonical(d, make([]byte, 0, len(data)), 0)
	if err == nil {
		if _, err = d.ReadToken(); errors.Is(err, io.EOF) {
			return out, nil
		}
	}
	var f *fault.Error
	if errors.As(err, &f) {
		return nil, f
	}
	if err := checkSyntax(data); err != nil {
		return nil, err
	}
	return nil, fault.New(fault.InvalidJSON, "", "this is not JSON (RFC 8259)")
}

func canonical(d *jsontext.Decoder, out []byte, depth int) ([]byte, error) {
	switch kind := d.PeekKind(); kind {
	case '{', '[':
		if depth == maxDepth {
			return nil, fault.New(fault.TooLarge, "", "objects and lists lie too deep in each other; allowed are "+strconv.Itoa(maxDepth)+" levels")
		}
		if _, err := d.ReadToken(); err != nil {
			return nil, err
		}
		if kind == '{' {
			return canonicalObject(d, out, depth+1)
		}
		return canonicalList(d, out, depth+1)
	}
	token, err := d.ReadToken()
	if err != nil {
		return nil, err
	}
	switch token.Kind() {
	case '"':
		return AppendText(out, token.String()), nil
	case '0':
		v, err := strconv.ParseFloat(token.String(), 64)
		if err != nil {
			return nil, fault.New(fault.OutOfRange, "", "the number "+shorten(token.String())+" is too large")
		}
		return appendNumber(out, v), nil
	}
	return append(out, token.String()...), nil
}

func canonicalObject(d *jsontext.Decoder, out []byte, depth int) ([]byte, error) {
	members := []Member{}
	for d.PeekKind() == '"' {
		name, err := d.ReadToken()
		if err != nil {
			return nil, err
		}
		key := name.String()
		value, err := canonical(d, nil, depth)
		if err != nil {
			return nil, err
		}
		members = append(members, Member{key, value})
	}
	if _, err := d.ReadToken(); err != nil {
		return nil, err
	}
	order.By(members, func(a, b Member) int { return strings.Compare(a.Name, b.Name) })
	return AppendMembers(out, members), nil
}

func canonicalList(d *jsontext.Decoder, out []byte, depth int) ([]byte, error) {
	out = append(out, '[')
	for first := true; d.PeekKind() != ']'; first = false {
		if !first {
			out = append(out, ',')
		}
		var err error
		if out, err = canonical(d, out, depth); err != nil {
			return nil, err
		}
	}
	_, err := d.ReadToken()
	return append(out, ']'), err
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
