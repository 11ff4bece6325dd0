package xmlscan

import (
	"bytes"
	"unicode/utf8"
)

// attribute is one attribute of a tag, its references resolved.
type attribute struct{ prefix, local, value []byte }

// readAttributes reads what follows the name in a tag. Before each attribute
// there is white space.
func (s *Scanner) readAttributes(b []byte) error {
	s.attributes = s.attributes[:0]
	for {
		rest := trimLeft(b)
		if len(rest) == 0 {
			return nil
		}
		size := nameLength(rest)
		prefix, local, ok := split(rest[:size])
		if !ok || len(rest) == len(b) {
			return s.broken("a tag holds something that is no attribute")
		}
		if len(s.attributes) == MaxAttributes {
			return s.refuse("a tag has more than 64 attributes; that is the most allowed")
		}
		for _, a := range s.attributes {
			if bytes.Equal(a.local, local) && bytes.Equal(a.prefix, prefix) {
				return s.broken("a tag has the attribute " + quote(rest[:size]) + " twice")
			}
		}
		value, after, ok := quoted(rest[size:])
		if !ok {
			return s.broken("the attribute " + quote(rest[:size]) + " has no value between quotes")
		}
		value, err := s.attributeValue(value)
		if err != nil {
			return err
		}
		s.attributes = append(s.attributes, attribute{prefix, local, value})
		b = after
	}
}

// quoted reads = and a text between quotes at the start of b.
func quoted(b []byte) (value, after []byte, ok bool) {
	b = trimLeft(b)
	if len(b) == 0 || b[0] != '=' {
		return nil, nil, false
	}
	b = trimLeft(b[1:])
	if len(b) == 0 || b[0] != '"' && b[0] != '\'' {
		return nil, nil, false
	}
	end := bytes.IndexByte(b[1:], b[0]) + 1
	if end == 0 {
		return nil, nil, false
	}
	return b[1:end], b[end+1:], true
}

// attributeValue resolves the references in a value.
func (s *Scanner) attributeValue(raw []byte) ([]byte, error) {
	if bytes.IndexByte(raw, '<') >= 0 {
		return nil, s.broken("an attribute holds <; there it is written &lt;")
	}
	if bytes.IndexByte(raw, '&') < 0 {
		return raw, nil
	}
	value := make([]byte, 0, len(raw))
	for len(raw) > 0 {
		if raw[0] != '&' {
			value, raw = append(value, raw[0]), raw[1:]
			continue
		}
		r, size, err := s.reference(raw)
		if err != nil {
			return nil, err
		}
		value, raw = utf8.AppendRune(value, r), raw[size:]
	}
	return value, nil
}

// nameLength is how many bytes at the start of b can belong to a name.
func nameLength(b []byte) int {
	for i, c := range b {
		if !nameByte(c) {
			return i
		}
	}
	return len(b)
}

func nameByte(c byte) bool {
	return nameStart(c) || c >= '0' && c <= '9' || c == '-' || c == '.' || c == ':'
}

func nameStart(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' || c >= utf8.RuneSelf
}

// split cuts a name into its prefix and the rest, and tells whether both are names.
func split(name []byte) (prefix, local []byte, ok bool) {
	local, ok = name, true
	if colon := bytes.IndexByte(name, ':'); colon >= 0 {
		prefix, local = name[:colon], name[colon+1:]
		ok = len(prefix) > 0 && nameStart(prefix[0])
	}
	return prefix, local, ok && len(local) > 0 && nameStart(local[0]) && bytes.IndexByte(local, ':') < 0
}
