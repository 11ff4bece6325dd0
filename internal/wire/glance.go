package wire

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// isCanonical reports whether data is one JSON value in the form that Canonical
// gives, with texts that need no escapes. Phones send that form; for all else
// the answer is no, and Canonical does the work.
func isCanonical(data []byte) bool {
	c := &canonicalScan{s: data}
	return c.value(0) && c.i == len(data)
}

type canonicalScan struct {
	s []byte
	i int
}

// take goes over one byte if it is the wanted one.
func (c *canonicalScan) take(want byte) bool {
	if c.i < len(c.s) && c.s[c.i] == want {
		c.i++
		return true
	}
	return false
}

func (c *canonicalScan) value(depth int) bool {
	if c.i == len(c.s) {
		return false
	}
	switch c.s[c.i] {
	case '{':
		return depth < maxDepth && c.object(depth+1)
	case '[':
		return depth < maxDepth && c.list(depth+1)
	case '"':
		_, ok := c.text()
		return ok
	case 't':
		return c.word("true")
	case 'f':
		return c.word("false")
	case 'n':
		return c.word("null")
	}
	return c.number()
}

func (c *canonicalScan) object(depth int) bool {
	c.i++
	if c.take('}') {
		return true
	}
	for last, first := "", true; ; first = false {
		name, ok := c.text()
		if !ok || !first && string(name) <= last || !c.take(':') || !c.value(depth) {
			return false
		}
		if last = string(name); !c.take(',') {
			return c.take('}')
		}
	}
}

func (c *canonicalScan) list(depth int) bool {
	c.i++
	if c.take(']') {
		return true
	}
	for c.value(depth) {
		if !c.take(',') {
			return c.take(']')
		}
	}
	return false
}

func (c *canonicalScan) text() (inside []byte, ok bool) {
	if !c.take('"') {
		return nil, false
	}
	ascii := true
	for begin := c.i; c.i < len(c.s); c.i++ {
		switch b := c.s[c.i]; {
		case b == '"':
			inside = c.s[begin:c.i]
			c.i++
			return inside, ascii || utf8.Valid(inside)
		case b < ' ' || b == '\\':
			return nil, false
		case b >= utf8.RuneSelf:
			ascii = false
		}
	}
	return nil, false
}

func (c *canonicalScan) word(want string) bool {
	if len(c.s)-c.i < len(want) || string(c.s[c.i:c.i+len(want)]) != want {
		return false
	}
	c.i += len(want)
	return true
}

func (c *canonicalScan) number() bool {
	begin := c.i
	for c.i < len(c.s) && (c.s[c.i] >= '0' && c.s[c.i] <= '9' || strings.IndexByte("+-.e", c.s[c.i]) >= 0) {
		c.i++
	}
	given := c.s[begin:c.i]
	var room [40]byte
	if len(given) > len(room) {
		return false
	}
	v, err := strconv.ParseFloat(string(given), 64)
	return err == nil && string(appendNumber(room[:0], v)) == string(given)
}
