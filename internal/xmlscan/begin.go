package xmlscan

import (
	"bytes"
	"strings"
)

// begin reads the byte order mark and the XML declaration, and tells files of
// other kinds apart by their first bytes.
func (s *Scanner) begin() error {
	first := s.in.peek(4)
	switch {
	case len(first) == 0:
		if s.in.err != nil {
			return s.in.err
		}
		return s.broken("the file is empty")
	case hasAnyPrefix(first, "\xFE\xFF", "\xFF\xFE", "\x00<", "<\x00"):
		return s.refuse("the file is written in UTF-16; allowed is UTF-8")
	case hasAnyPrefix(first, "\x1F\x8B", "PK\x03\x04"):
		return s.refuse("the file is packed; unpack it first")
	case hasAnyPrefix(first, "\xEF\xBB\xBF"):
		s.in.at += 3
	}
	if start := s.in.peek(6); len(start) == 6 && string(start[:5]) == "<?xml" && blank(start[5]) {
		return s.declaration()
	}
	return nil
}

func hasAnyPrefix(b []byte, prefixes ...string) bool {
	for _, p := range prefixes {
		if strings.HasPrefix(string(b), p) {
			return true
		}
	}
	return false
}

// declaration reads <?xml version="1.0" encoding="UTF-8" standalone="yes"?>.
func (s *Scanner) declaration() error {
	tag, err := s.tag()
	if err != nil {
		return err
	}
	inner, closed := bytes.CutSuffix(tag[len("<?xml"):], []byte("?>"))
	if !closed {
		return s.broken("the first line, <?xml …, does not end in ?>")
	}
	if err := s.readAttributes(inner); err != nil {
		return err
	}
	for _, a := range s.attributes {
		value := string(a.value)
		switch string(a.local) {
		case "version":
			if value != "1.0" {
				return s.refuse("the XML version is " + quote(a.value) + "; allowed is 1.0")
			}
		case "encoding":
			if !sameLetters(a.value, "utf-8") {
				return s.refuse("the encoding is " + quote(a.value) + "; allowed is UTF-8")
			}
		case "standalone":
		default:
			return s.broken("the first line, <?xml …, says " + quote(a.local) + "; allowed are version, encoding and standalone")
		}
	}
	if len(s.attributes) == 0 || string(s.attributes[0].local) != "version" {
		return s.broken("the first line, <?xml …, does not start with the version")
	}
	s.in.at += len(tag)
	return nil
}
