package wire

import (
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/jsonscan"
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
	err := jsonscan.Check(data)
	if err == nil {
		return nil
	}
	return fault.New(fault.InvalidJSON, err.Path, syntaxTexts[err.Kind])
}

var syntaxTexts = [...]string{
	jsonscan.Malformed: "this is not JSON (RFC 8259): numbers are plain decimals, and NaN and Infinity are not numbers",
	jsonscan.Short:     "the JSON text is empty or ends too early; send one whole JSON object",
	jsonscan.Trailing:  "there is more text after the end of the JSON object; send exactly one object",
	jsonscan.Repeated:  "this name stands twice; each name may stand once",
	jsonscan.NotUTF8:   "this text is not valid UTF-8",
	jsonscan.TooDeep:   "objects and lists lie too deep in each other; allowed are 100 levels",
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
	o := room.Get().(*Object)
	defer o.release()
	o.source = source
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
	if jsonscan.KindOf(raw) != '{' {
		return nil, wrongType(path, "an object", raw)
	}
	return &members{path: path, all: jsonscan.Members(raw)}, nil
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
	raw, given := s.find(f.name)
	if !given && !f.required && f.fallback == "" {
		return nil
	}
	path := join(s.path, f.name)
	switch {
	case given:
		return f.value.read(raw, f, path)
	case f.required:
		return fault.New(fault.MissingField, path, "this field is required"+f.allowed())
	}
	return f.value.read([]byte(f.fallback), f, path)
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
