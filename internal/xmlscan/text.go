package xmlscan

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"
)

// readText reads up to the next < or the end of the input.
func (s *Scanner) readText() error {
	for {
		if err := s.keep(s.in.plain()); err != nil {
			return err
		}
		next := s.in.peek(1)
		if len(next) == 0 || next[0] == '<' {
			return nil
		}
		switch {
		case next[0] == '&':
			r, size, err := s.reference(s.in.peek(maxReference))
			if err != nil {
				return err
			}
			s.in.at += size
			if len(s.open) == 0 {
				return s.outside()
			}
			if err := s.keep(utf8.AppendRune(nil, r)); err != nil {
				return err
			}
		case next[0] == ']' && s.in.has("]]>"):
			return s.broken("a text holds ]]>")
		default:
			if err := s.keepCharacter(); err != nil {
				return err
			}
		}
	}
}

// keep takes in a piece of text.
func (s *Scanner) keep(text []byte) error {
	if len(s.open) == 0 && len(trimLeft(text)) > 0 {
		return s.outside()
	}
	if s.collecting && len(s.text) <= MaxTextBytes {
		s.text = append(s.text, text[:min(len(text), MaxTextBytes+1)]...)
	}
	return nil
}

func blank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// trimLeft returns b without the white space at its start.
func trimLeft(b []byte) []byte {
	for len(b) > 0 && blank(b[0]) {
		b = b[1:]
	}
	return b
}

// sameLetters tells whether two ASCII texts are the same but for capitals; want
// is in small letters.
func sameLetters(got []byte, want string) bool {
	if len(got) != len(want) {
		return false
	}
	for i, c := range got {
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		if c != want[i] {
			return false
		}
	}
	return true
}

func (s *Scanner) outside() error {
	if s.rooted {
		return s.broken("there is text after the end of the document")
	}
	return s.broken("the file does not start with an element; it is no XML file")
}

// keepCharacter takes in the next character, whatever it is.
func (s *Scanner) keepCharacter() error {
	c := s.in.character()
	if len(c) == 0 {
		return s.illegal()
	}
	s.in.at += len(c)
	return s.keep(c)
}

func (s *Scanner) illegal() error {
	return s.broken("there is a byte that is no text in UTF-8 or a control character; the file is damaged or in another encoding")
}

// characterData reads <![CDATA[ … ]]>.
func (s *Scanner) characterData() error {
	s.in.at += len("<![CDATA[")
	if len(s.open) == 0 {
		return s.outside()
	}
	for !s.in.has("]]>") {
		if len(s.in.peek(1)) == 0 {
			return s.broken("the file ends inside <![CDATA[")
		}
		if err := s.keep(s.in.plain()); err != nil {
			return err
		}
		if len(s.in.peek(1)) == 0 || s.in.has("]]>") {
			continue
		}
		if err := s.keepCharacter(); err != nil {
			return err
		}
	}
	s.in.at += len("]]>")
	return nil
}

// comment reads <!-- … -->, which may not hold -- inside.
func (s *Scanner) comment() error {
	s.in.at += len("<!--")
	if err := s.skipTo("--", "a comment"); err != nil {
		return err
	}
	if !s.in.has("-->") {
		return s.broken("a comment holds --")
	}
	s.in.at += len("-->")
	return nil
}

// instruction skips <?target … ?>.
func (s *Scanner) instruction() error {
	s.in.at += len("<?")
	head := s.in.peek(MaxTagBytes)
	size := nameLength(head)
	target := head[:size]
	if size == 0 || bytes.IndexByte(target, ':') >= 0 {
		return s.broken("<? is not followed by a name")
	}
	if sameLetters(target, "xml") {
		return s.broken("<?xml stands elsewhere than at the start of the file")
	}
	s.in.at += size
	if !s.in.has("?>") && len(trimLeft(s.in.peek(1))) > 0 {
		return s.broken("<? is not followed by a name and a space")
	}
	if err := s.skipTo("?>", "<?"); err != nil {
		return err
	}
	s.in.at += len("?>")
	return nil
}

// skipTo skips legal characters up to the given text.
func (s *Scanner) skipTo(text, inside string) error {
	for !s.in.has(text) {
		if len(s.in.peek(1)) == 0 {
			return s.broken("the file ends inside " + inside)
		}
		c := s.in.character()
		if len(c) == 0 {
			return s.illegal()
		}
		s.in.at += len(c)
	}
	return nil
}

// maxReference is the most bytes of a reference, &#x0010FFFF; and some zeros.
const maxReference = 16

// reference reads a predefined entity or a character number at the start of b,
// and returns its character and how many bytes it takes.
func (s *Scanner) reference(b []byte) (rune, int, error) {
	end := bytes.IndexByte(b[:min(len(b), maxReference)], ';')
	if end < 0 {
		return 0, 0, s.refuse("an & is not followed by one of lt, gt, amp, apos, quot or a character number, and ;")
	}
	name := string(b[1:end])
	if r, ok := predefined[name]; ok {
		return r, end + 1, nil
	}
	base := 10
	digits, isNumber := strings.CutPrefix(name, "#")
	if hex, ok := strings.CutPrefix(digits, "x"); ok {
		base, digits = 16, hex
	}
	n, err := strconv.ParseUint(digits, base, 31)
	if !isNumber || err != nil || !legal(rune(n)) {
		return 0, 0, s.refuse("the entity " + quote(b[:end+1]) + " is not allowed; allowed are lt, gt, amp, apos, quot and character numbers")
	}
	return rune(n), end + 1, nil
}

var predefined = map[string]rune{"lt": '<', "gt": '>', "amp": '&', "apos": '\'', "quot": '"'}
