package xmlscan

import (
	"bytes"
)

// tag returns the bytes from < to > without using them; a > between quotes
// does not end a tag.
func (s *Scanner) tag() ([]byte, error) {
	quoted := byte(0)
	for i := 1; ; i++ {
		if i > MaxTagBytes {
			return nil, s.refuse("a tag is longer than 16 KiB; that is the most allowed")
		}
		if s.in.at+i >= s.in.end && !s.in.fill() {
			return nil, s.broken("the file ends inside a tag; it was cut off, get it again in full")
		}
		switch c := s.in.buffer[s.in.at+i]; {
		case quoted != 0:
			if c == quoted {
				quoted = 0
			}
		case c == '"' || c == '\'':
			quoted = c
		case c == '>':
			return s.checked(s.in.buffer[s.in.at : s.in.at+i+1])
		}
	}
}

// checked refuses a tag that holds what is no legal character.
func (s *Scanner) checked(tag []byte) ([]byte, error) {
	for rest := tag; len(rest) > 0; {
		size := 1
		if special[rest[0]] {
			size = characterLength(rest)
		}
		if size == 0 {
			return nil, s.illegal()
		}
		rest = rest[size:]
	}
	return tag, nil
}

// startTag reads <name attributes> or <name attributes/>.
func (s *Scanner) startTag() error {
	tag, err := s.tag()
	if err != nil {
		return err
	}
	inner := tag[1 : len(tag)-1]
	inner, s.empty = bytes.CutSuffix(inner, []byte("/"))
	size := nameLength(inner)
	prefix, local, ok := split(inner[:size])
	switch {
	case !ok:
		return s.broken("a < is not followed by a name; in text it is written &lt;")
	case len(s.open) == 0 && s.rooted:
		return s.broken("there is a second element beside the first one, " + quote(inner[:size]))
	case len(s.open) == MaxDepth:
		return s.refuse("elements are nested deeper than 64; that is the most allowed")
	}
	if err := s.readAttributes(inner[size:]); err != nil {
		return err
	}
	e := element{nameStart: len(s.names), bindings: len(s.bindings)}
	e.local = e.nameStart + size - len(local)
	if err := s.bind(); err != nil {
		return err
	}
	if e.space, ok = s.lookup(prefix); !ok {
		return s.unbound(prefix)
	}
	s.names = append(s.names, inner[:size]...)
	s.open = append(s.open, e)
	s.rooted = true
	s.local, s.space = s.names[e.local:], e.space
	s.in.at += len(tag)
	return nil
}

// endTag reads </name>.
func (s *Scanner) endTag() error {
	tag, err := s.tag()
	if err != nil {
		return err
	}
	name := tag[2 : len(tag)-1]
	for len(name) > 0 && blank(name[len(name)-1]) {
		name = name[:len(name)-1]
	}
	if len(s.open) == 0 {
		return s.broken("the element " + quote(name) + " ends and was never started")
	}
	e := s.open[len(s.open)-1]
	if string(name) != string(s.names[e.nameStart:]) {
		return s.broken("the element " + s.quoteOpen() + " is ended as " + quote(name))
	}
	s.in.at += len(tag)
	s.attributes = s.attributes[:0]
	s.local, s.space, s.ending = s.names[e.local:], e.space, true
	return nil
}
