// Package jsonscan is a strict reader of JSON (RFC 8259) held in memory. Check
// looks at every byte once and says where and what is wrong; what it passed can
// be taken apart by the other functions without copying.
//
// It accepts what encoding/json accepts, except: a name that stands twice in
// one object, bytes that are not UTF-8 and escapes that name half a surrogate
// pair (RFC 7493 section 2.1 and 2.3 refuse these too), and nesting beyond
// MaxDepth (RFC 8259 section 9 lets a reader set a limit).
package jsonscan

import (
	"bytes"
	"strconv"
)

// MaxDepth is how many objects and lists may lie in each other.
const MaxDepth = 100

// Kind is what is wrong with a text.
type Kind int

// What can be wrong.
const (
	Malformed Kind = iota // a byte that cannot stand there
	Short                 // the text ends too early
	Trailing              // more text after the value
	Repeated              // a name that stands twice in one object
	NotUTF8               // a text that is not Unicode
	TooDeep               // more than MaxDepth objects and lists in each other
)

// Error says what is wrong where: Path leads to the value, as in
// "reading.steps[1]", with names of more than 60 bytes cut; it is empty for the
// whole.
type Error struct {
	Kind Kind
	Path string
}

// Check returns nil when data is exactly one JSON value, with blanks around it
// where RFC 8259 allows them.
func Check(data []byte) *Error {
	c := &checker{data: data}
	c.blanks()
	if err := c.value(0); err != nil {
		return err
	}
	c.blanks()
	if c.at < len(data) {
		return &Error{Kind: Trailing}
	}
	return nil
}

type checker struct {
	data  []byte
	at    int
	names [][]byte // of the open objects, one object behind the other
}

func (c *checker) blanks() { c.at = skipBlanks(c.data, c.at) }

// wrong is the error at the present place.
func (c *checker) wrong() *Error {
	if c.at >= len(c.data) {
		return &Error{Kind: Short}
	}
	return &Error{Kind: Malformed}
}

// take goes past the byte b.
func (c *checker) take(b byte) *Error {
	if c.at >= len(c.data) || c.data[c.at] != b {
		return c.wrong()
	}
	c.at++
	return nil
}

func (c *checker) next() byte {
	if c.at < len(c.data) {
		return c.data[c.at]
	}
	return 0
}

func (c *checker) value(depth int) *Error {
	switch b := c.next(); b {
	case '{', '[':
		if depth == MaxDepth {
			return &Error{Kind: TooDeep}
		}
		c.at++
		c.blanks()
		if b == '[' {
			return c.list(depth + 1)
		}
		before := len(c.names)
		err := c.object(depth+1, before)
		c.names = c.names[:before]
		return err
	case '"':
		return c.text()
	case 't':
		return c.word("true")
	case 'f':
		return c.word("false")
	case 'n':
		return c.word("null")
	}
	return c.number()
}

func (c *checker) list(depth int) *Error {
	if c.next() == ']' {
		c.at++
		return nil
	}
	for i := 0; ; i++ {
		if err := c.value(depth); err != nil {
			return err.under("[" + strconv.Itoa(i) + "]")
		}
		c.blanks()
		if c.next() != ',' {
			return c.take(']')
		}
		c.at++
		c.blanks()
	}
}

// object reads the members after the brace; c.names holds its names from first.
func (c *checker) object(depth, first int) *Error {
	if c.next() == '}' {
		c.at++
		return nil
	}
	seen := seenNames{}
	for {
		start := c.at
		if err := c.text(); err != nil {
			return err
		}
		name := plain(c.data[start:c.at])
		c.names = append(c.names, name)
		if seen.again(c.names[first:]) {
			return (&Error{Kind: Repeated}).under(string(name))
		}
		if err := c.member(depth); err != nil {
			return err.under(string(name))
		}
		c.blanks()
		if c.next() != ',' {
			return c.take('}')
		}
		c.at++
		c.blanks()
	}
}

// member reads the colon and the value.
func (c *checker) member(depth int) *Error {
	c.blanks()
	if err := c.take(':'); err != nil {
		return err
	}
	c.blanks()
	return c.value(depth)
}

// seenNames finds a repeated name: by looking at all of few, by a table of many.
type seenNames struct{ table map[string]bool }

// again is true when the last name stands among those before it. It wants to be
// asked after each name.
func (s *seenNames) again(names [][]byte) bool {
	const few = 16
	last := len(names) - 1
	if last < few {
		for _, name := range names[:last] {
			if bytes.Equal(name, names[last]) {
				return true
			}
		}
		return false
	}
	if s.table == nil {
		s.table = map[string]bool{}
		for _, name := range names[:last] {
			s.table[string(name)] = true
		}
	}
	again := s.table[string(names[last])]
	s.table[string(names[last])] = true
	return again
}

// under puts the error's place below a name or an entry ("[1]").
func (e *Error) under(name string) *Error {
	const most = 60
	if len(name) > most {
		name = cut(name, most) + "…"
	}
	if e.Path != "" && e.Path[0] != '[' {
		name += "."
	}
	e.Path = name + e.Path
	return e
}
