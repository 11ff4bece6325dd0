package jsonscan

import "unicode/utf8"

func (c *checker) word(want string) *Error {
	for i := range len(want) {
		if err := c.take(want[i]); err != nil {
			return err
		}
	}
	return nil
}

// number follows the grammar of RFC 8259 section 6.
func (c *checker) number() *Error {
	if c.next() == '-' {
		c.at++
	}
	if c.next() == '0' {
		c.at++
	} else if err := c.digits(); err != nil {
		return err
	}
	if c.next() == '.' {
		c.at++
		if err := c.digits(); err != nil {
			return err
		}
	}
	if c.next()|0x20 != 'e' {
		return nil
	}
	c.at++
	if sign := c.next(); sign == '+' || sign == '-' {
		c.at++
	}
	return c.digits()
}

func (c *checker) digits() *Error {
	if !isDigit(c.next()) {
		return c.wrong()
	}
	for isDigit(c.next()) {
		c.at++
	}
	return nil
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

// text follows the grammar of RFC 8259 section 7.
func (c *checker) text() *Error {
	if err := c.take('"'); err != nil {
		return err
	}
	for c.at < len(c.data) {
		switch b := c.data[c.at]; {
		case b == '"':
			c.at++
			return nil
		case b == '\\':
			if err := c.escape(); err != nil {
				return err
			}
		case b < ' ':
			return c.wrong()
		case b < utf8.RuneSelf:
			c.at++
		default:
			r, size := utf8.DecodeRune(c.data[c.at:])
			if r == utf8.RuneError && size == 1 {
				return &Error{Kind: NotUTF8}
			}
			c.at += size
		}
	}
	return c.wrong()
}

func (c *checker) escape() *Error {
	c.at++
	if c.next() != 'u' {
		if _, ok := escaped(c.next()); !ok {
			return c.wrong()
		}
		c.at++
		return nil
	}
	high, err := c.hex()
	if err != nil || high < 0xD800 || high > 0xDFFF {
		return err
	}
	if high > 0xDBFF || c.next() != '\\' {
		return c.half()
	}
	c.at++
	if c.next() != 'u' {
		return c.half()
	}
	low, err := c.hex()
	if err == nil && (low < 0xDC00 || low > 0xDFFF) {
		return &Error{Kind: NotUTF8}
	}
	return err
}

// half is the error of an escape that names half a surrogate pair.
func (c *checker) half() *Error {
	if c.at >= len(c.data) {
		return &Error{Kind: Short}
	}
	return &Error{Kind: NotUTF8}
}

// hex goes past u and four hexadecimal digits.
func (c *checker) hex() (rune, *Error) {
	c.at++
	v := rune(0)
	for range 4 {
		digit := hexDigit(c.next())
		if digit < 0 {
			return 0, c.wrong()
		}
		v = v<<4 | digit
		c.at++
	}
	return v, nil
}

func hexDigit(b byte) rune {
	switch {
	case isDigit(b):
		return rune(b - '0')
	case 'a' <= b|0x20 && b|0x20 <= 'f':
		return rune(b|0x20-'a') + 10
	}
	return -1
}
