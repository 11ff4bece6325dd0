package xmlscan

// Name returns the namespace and the local name of the element of the last
// event; a reader of a known format asks with Is.
func (s *Scanner) Name() (space, local string) { return s.space, string(s.local) }
