package wire

import (
	"bytes"
	"errors"
	"io"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"tautspan/internal/fault"
)

// Read fills m from JSON text. The text must be one JSON object holding only
// declared fields, each once. Any failure is a *fault.Error; m may then be
// partly filled and must not be used.
func Read(data []byte, m Message) error {
	if err := checkSyntax(data); err != nil {
		return err
	}
	return readObject(data, m, "")
}

// checkSyntax makes sure data is exactly one JSON value (RFC 8259, with unique
// names as RFC 7493 asks), so that the readers below meet no syntax errors.
func checkSyntax(data []byte) error {
	d := jsontext.NewDecoder(bytes.NewReader(data))
	_, err := d.ReadValue()
	if err == nil {
		if _, err = d.ReadToken(); errors.Is(err, io.EOF) {
			return nil
		}
		return fault.New(fault.InvalidJSON, "",
			"there is more text after the end of the JSON object; send exactly one object")
	}
	field := ""
	var syntax *jsontext.SyntacticError
	if errors.As(err, &syntax) {
		field = dotted(syntax.JSONPointer)
	}
	if errors.Is(err, jsontext.ErrDuplicateName) {
		return fault.New(fault.InvalidJSON, field, "this name stands twice; each name may stand once")
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return fault.New(fault.InvalidJSON, field,
			"the JSON text is empty or ends too early; send one whole JSON object")
	}
	return fault.New(fault.InvalidJSON, field,
		"this is not JSON (RFC 8259): numbers are plain decimals, and NaN and Infinity are not numbers")
}

// dotted turns a JSON pointer ("/reading/steps/1") into "reading.steps[1]".
func dotted(p jsontext.Pointer) string {
	path := ""
	for token := range p.Tokens() {
		switch {
		case token != "" && strings.Trim(token, "0123456789") == "":
			path += "[" + token + "]"
		case path == "":
			path = token
		default:
			path += "." + token
		}
	}
	return path
}

// members is one JSON object taken apart.
type members struct {
	path string
	all  []Member
}

func (s *members) find(name string) (raw []byte, given bool) {
	for _, m := range s.all {
		if m.Name == name {
			return m.Value, true
		}
	}
	return nil, false
}

func readObject(raw []byte, m Message, path string) error {
	source, err := takeApart(raw, path)
	if err != nil {
		return err
	}
	o := &Object{source: source}
	m.Fields(o)
	if o.fault != nil {
		return o.fault
	}
	if err := source.refuseUnknown(o.fields); err != nil {
		return err
	}
	for _, f := range o.fields {
		if err := source.readField(f); err != nil {
			return err
		}
	}
	return nil
}

func takeApart(raw []byte, path string) (*members, error) {
	if jsontext.Value(raw).Kind() != '{' {
		return nil, wrongType(path, "an object", raw)
	}
	s := &members{path: path}
	d := jsontext.NewDecoder(bytes.NewReader(raw))
	_, err := d.ReadToken()
	for err == nil && d.PeekKind() == '"' {
		var name jsontext.Token
		if name, err = d.ReadToken(); err != nil {
			break
		}
		key := name.String()
		var value jsontext.Value
		value, err = d.ReadValue()
		end := d.InputOffset()
		s.all = append(s.all, Member{key, raw[end-int64(len(value)) : end]})
	}
	if err != nil {
		return nil, fault.New(fault.InvalidJSON, path, "this is not a JSON object")
	}
	return s, nil
}

func (s *members) refuseUnknown(fields []*Field) error {
	for _, m := range s.all {
		if !declared(fields, m.Name) {
			return fault.New(fault.UnknownField, join(s.path, shorten(m.Name)),
				"this field is not known here; allowed are "+nameAll(fields))
		}
	}
	return nil
}

func declared(fields []*Field, name string) bool {
	for _, f := range fields {
		if f.name == name {
			return true
		}
	}
	return false
}

func nameAll(fields []*Field) string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.name
	}
	return strings.Join(names, ", ")
}

func (s *members) readField(f *Field) error {
	path := join(s.path, f.name)
	raw, given := s.find(f.name)
	switch {
	case given:
		return f.value.read(raw, f, path)
	case f.required:
		return fault.New(fault.MissingField, path, "this field is required"+f.allowed())
	case f.fallback != "":
		return f.value.read([]byte(f.fallback), f, path)
	}
	return nil
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// shorten keeps a hostile name from filling the error with itself.
func shorten(text string) string {
	const most = 60
	if len(text) <= most {
		return text
	}
	return strings.ToValidUTF8(text[:most], "") + "…"
}
