package xmlscan

import (
	"io"
	"strconv"

	"tautspan/internal/fault"
)

// The limits of every document; a file of positions needs a depth of ten and
// tags of a few hundred bytes.
const (
	MaxDepth      = 64
	MaxTagBytes   = 16 << 10
	MaxAttributes = 64
	MaxTextBytes  = 256 // of a text asked for with Collect; other texts have no limit
)

// Event is what Next found.
type Event int

// The events.
const (
	Start     Event = iota // an element starts; an empty element starts and ends
	End                    // an element ends
	EndOfFile              // the document is complete
)

// Scanner reads one document. What its methods return is valid until the next
// call of Next.
type Scanner struct {
	in         input
	names      []byte // names of the open elements, one behind the other
	open       []element
	bindings   []binding
	attributes []attribute
	local      []byte // name of the element of the last event, without prefix
	space      string
	empty      bool // the element just started has no content
	ending     bool // the last event was an End, whose element is still open
	started    bool // the beginning of the file is behind
	rooted     bool // the root element was seen
	collecting bool
	text       []byte
}

// element is an open element.
type element struct {
	nameStart int // in names
	local     int // where the name without prefix starts, in names
	space     string
	bindings  int // how many were there before it
}

// New returns a scanner of a document of at most maxBytes bytes.
func New(r io.Reader, maxBytes int) *Scanner {
	return &Scanner{in: input{reader: r, maxBytes: maxBytes, buffer: make([]byte, bufferBytes)}}
}

// Next goes on to the next start or end of an element. Errors are *fault.Error:
// not_allowed for what is refused by rule, unreadable for what is not XML,
// too_large and unavailable for the file as a whole. After an error, and after
// EndOfFile, it must not be called again.
func (s *Scanner) Next() (Event, error) {
	if s.empty {
		s.empty, s.ending = false, true
		return End, nil
	}
	if s.ending {
		s.ending = false
		s.leave()
	}
	if !s.started {
		s.started = true
		if err := s.begin(); err != nil {
			return 0, err
		}
	}
	for {
		if err := s.readText(); err != nil {
			return 0, err
		}
		if len(s.in.peek(1)) == 0 {
			return EndOfFile, s.end()
		}
		event, found, err := s.markup()
		if found || err != nil {
			s.collecting = false
			return event, err
		}
	}
}

// markup reads what starts with <. It found an event when that was a tag.
func (s *Scanner) markup() (event Event, found bool, err error) {
	switch {
	case s.in.has("</"):
		return End, true, s.endTag()
	case s.in.has("<?"):
		return 0, false, s.instruction()
	case s.in.has("<!--"):
		return 0, false, s.comment()
	case s.in.has("<![CDATA["):
		return 0, false, s.characterData()
	case s.in.has("<!"):
		return 0, false, s.refuse("it has a document type (<!DOCTYPE) or another declaration; a file may have none")
	}
	return Start, true, s.startTag()
}

// end checks that the document is complete.
func (s *Scanner) end() error {
	switch {
	case s.in.err != nil:
		return s.in.err
	case len(s.open) > 0:
		return s.broken("the file ends inside " + s.quoteOpen() + "; it was cut off, get it again in full")
	case !s.rooted:
		return s.broken("the file holds no element")
	}
	return nil
}

// Depth is the number of open elements; for Start and End it includes the
// element of the event.
func (s *Scanner) Depth() int {
	return len(s.open)
}

// Is tells whether the element of the last event has this name in this namespace.
func (s *Scanner) Is(space, local string) bool {
	return string(s.local) == local && s.space == space
}

// Attribute returns the value of the attribute of this name and no prefix of
// the element just started, and whether there is one.
func (s *Scanner) Attribute(name string) (string, bool) {
	for _, a := range s.attributes {
		if len(a.prefix) == 0 && string(a.local) == name {
			return string(a.value), true
		}
	}
	return "", false
}

// Collect, called after Next, keeps the text from there to the next tag.
func (s *Scanner) Collect() {
	s.collecting, s.text = true, s.text[:0]
}

// Text is what Collect kept, and whether that is all of it: a text longer than
// MaxTextBytes is not.
func (s *Scanner) Text() (string, bool) {
	return string(s.text), len(s.text) <= MaxTextBytes
}

// Refuse returns the error for a file that is XML but not what was asked for.
func (s *Scanner) Refuse(why string) error { return s.refuse(why) }

func (s *Scanner) refuse(why string) error { return s.fail(fault.NotAllowed, why) }

func (s *Scanner) broken(why string) error { return s.fail(fault.Unreadable, why) }

// fail returns the error, or the one that ended the input early and is behind it.
func (s *Scanner) fail(code fault.Code, why string) error {
	if s.in.err != nil {
		return s.in.err
	}
	return fault.New(code, "", "line "+strconv.Itoa(s.in.line())+": "+why)
}

// quote shows a name from the file, cut short, bytes outside printable ASCII as ?.
func quote(name []byte) string {
	shown := []byte{'"'}
	for _, b := range name[:min(len(name), 40)] {
		if b < ' ' || b > '~' || b == '"' {
			b = '?'
		}
		shown = append(shown, b)
	}
	return string(append(shown, '"'))
}

func (s *Scanner) quoteOpen() string {
	return quote(s.names[s.open[len(s.open)-1].nameStart:])
}
