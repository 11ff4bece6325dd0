package xmlscan

import "strings"

// binding says which namespace a prefix stands for; the empty prefix is that of
// elements without one.
type binding struct{ prefix, space string }

// bind takes in the namespaces the tag declares and checks the prefixes of its
// attributes.
func (s *Scanner) bind() error {
	for _, a := range s.attributes {
		prefix := ""
		switch {
		case string(a.prefix) == "xmlns":
			prefix = string(a.local)
			if len(a.value) == 0 || strings.HasPrefix(prefix, "xml") {
				return s.broken("the namespace prefix " + quote(a.local) + " cannot stand for " + quote(a.value))
			}
		case len(a.prefix) > 0 || string(a.local) != "xmlns":
			continue
		}
		s.bindings = append(s.bindings, binding{prefix, string(a.value)})
	}
	for _, a := range s.attributes {
		if len(a.prefix) == 0 || string(a.prefix) == "xmlns" || string(a.prefix) == "xml" {
			continue
		}
		if _, ok := s.lookup(a.prefix); !ok {
			return s.unbound(a.prefix)
		}
	}
	return nil
}

// lookup returns the namespace a prefix stands for here; no prefix without a
// declaration stands for none.
func (s *Scanner) lookup(prefix []byte) (space string, ok bool) {
	for i := len(s.bindings) - 1; i >= 0; i-- {
		if s.bindings[i].prefix == string(prefix) {
			return s.bindings[i].space, true
		}
	}
	return "", len(prefix) == 0
}

func (s *Scanner) unbound(prefix []byte) error {
	return s.broken("the namespace prefix " + quote(prefix) + " is not declared")
}

// leave closes the element of the last End and forgets the namespaces it declared.
func (s *Scanner) leave() {
	e := s.open[len(s.open)-1]
	s.open = s.open[:len(s.open)-1]
	s.names = s.names[:e.nameStart]
	s.bindings = s.bindings[:e.bindings]
}
