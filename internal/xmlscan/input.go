package xmlscan

import (
	"bytes"
	"io"
	"strconv"
	"unicode/utf8"

	"tautspan/internal/fault"
)

// bufferBytes is how much of the file is held at once.
const bufferBytes = 64 << 10

// input is the file seen through a buffer.
type input struct {
	reader   io.Reader
	maxBytes int
	total    int // bytes read so far
	buffer   []byte
	at, end  int // what is not yet used is buffer[at:end]
	lines    int // line ends before buffer[0]
	ended    bool
	err      error // why the input ended early, nil when it was read to its end
}

// fill reads more behind what is not yet used, which moves to the front of the
// buffer. It returns false when the input has ended or the buffer is full.
func (in *input) fill() bool {
	if in.ended || in.at == 0 && in.end == len(in.buffer) {
		return false
	}
	if in.at > 0 {
		in.lines += bytes.Count(in.buffer[:in.at], newline)
		in.end = copy(in.buffer, in.buffer[in.at:in.end])
		in.at = 0
	}
	for range 100 {
		n, err := in.reader.Read(in.buffer[in.end:])
		in.end += n
		in.total += n
		switch {
		case in.total > in.maxBytes:
			in.stop(fault.New(fault.TooLarge, "",
				"the file is larger than "+strconv.Itoa(in.maxBytes)+" bytes; that is the most allowed"))
			return false
		case err == io.EOF:
			in.ended = true
			return n > 0
		case err != nil:
			failed := fault.New(fault.Unavailable, "", "the file could not be read to its end; open it again")
			failed.Cause = err
			in.stop(failed)
			return false
		case n > 0:
			return true
		}
	}
	in.stop(fault.New(fault.Unavailable, "", "the file stopped giving data; open it again"))
	return false
}

// stop ends the input with an error; nothing more of it is used.
func (in *input) stop(err error) {
	in.ended, in.err, in.end = true, err, in.at
}

var newline = []byte{'\n'}

// line is the number of the line being read, from 1.
func (in *input) line() int { return in.lines + bytes.Count(in.buffer[:in.at], newline) + 1 }

// peek returns the next n bytes without using them, fewer at the end of the input.
func (in *input) peek(n int) []byte {
	for in.end-in.at < n && in.fill() {
	}
	return in.buffer[in.at:min(in.at+n, in.end)]
}

// has tells whether the given text comes next.
func (in *input) has(text string) bool { return string(in.peek(len(text))) == text }

// plain uses and returns the next bytes of what is held that need no second
// look in text. It may return none before the input has ended.
func (in *input) plain() []byte {
	start := in.at
	for in.at < in.end && !special[in.buffer[in.at]] {
		in.at++
	}
	return in.buffer[start:in.at]
}

// special marks the bytes that may have a meaning in text, or be no part of a
// legal character: markup, controls, and everything above ASCII.
var special = func() (table [256]bool) {
	for c := range table {
		table[c] = c < ' ' && c != '\t' && c != '\n' && c != '\r' || c >= utf8.RuneSelf || c == '<' || c == '&' || c == ']'
	}
	return table
}()

// character returns the bytes of the next character without using them, and
// none when they are not the UTF-8 of a character XML allows.
func (in *input) character() []byte {
	next := in.peek(utf8.UTFMax)
	return next[:characterLength(next)]
}

// characterLength is how many bytes the character at the start of b has, 0 when
// they are not the UTF-8 of a character XML allows.
func characterLength(b []byte) int {
	r, size := utf8.DecodeRune(b)
	if r == utf8.RuneError && size <= 1 || !legal(r) {
		return 0
	}
	return size
}

// legal tells whether XML 1.0 allows the character (production 2).
func legal(r rune) bool {
	return r == '\t' || r == '\n' || r == '\r' || r >= ' ' && r <= 0xD7FF ||
		r >= 0xE000 && r <= 0xFFFD || r >= 0x10000 && r <= utf8.MaxRune
}
