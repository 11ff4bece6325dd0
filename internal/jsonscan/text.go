package jsonscan

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// escaped returns the byte that a backslash and b stand for.
func escaped(b byte) (byte, bool) {
	switch b {
	case '"', '\\', '/':
		return b, true
	case 'b':
		return '\b', true
	case 'f':
		return '\f', true
	case 'n':
		return '\n', true
	case 'r':
		return '\r', true
	case 't':
		return '\t', true
	}
	return 0, false
}

// Text returns what a JSON string that was checked stands for, quotes and
// escapes undone.
func Text(raw []byte) string { return string(plain(raw)) }

// plain is Text that shares raw's memory where there are no escapes.
func plain(raw []byte) []byte {
	raw = raw[1 : len(raw)-1]
	if bytes.IndexByte(raw, '\\') < 0 {
		return raw
	}
	out := make([]byte, 0, len(raw))
	for i := 0; i < len(raw); i++ {
		if raw[i] != '\\' {
			out = append(out, raw[i])
			continue
		}
		i++
		if raw[i] != 'u' {
			b, _ := escaped(raw[i])
			out = append(out, b)
			continue
		}
		r := fourHex(raw[i+1:])
		i += 4
		if 0xD800 <= r && r <= 0xDBFF {
			r = (r-0xD800)<<10 | (fourHex(raw[i+3:]) - 0xDC00) + 0x10000
			i += 6
		}
		out = utf8.AppendRune(out, r)
	}
	return out
}

func fourHex(raw []byte) rune {
	v := rune(0)
	for _, b := range raw[:4] {
		v = v<<4 | hexDigit(b)
	}
	return v
}

// AppendText appends text to out as a JSON string, as short as RFC 8785 section
// 3.2.2.2 has it. Bytes that are not UTF-8 become replacement characters.
func AppendText(out []byte, text string) []byte {
	const hex = "0123456789abcdef"
	if !utf8.ValidString(text) {
		text = strings.ToValidUTF8(text, "\uFFFD")
	}
	out = append(out, '"')
	from := 0
	for i := range len(text) {
		b := text[i]
		if b >= ' ' && b != '"' && b != '\\' {
			continue
		}
		out = append(append(out, text[from:i]...), '\\')
		from = i + 1
		switch {
		case b >= ' ':
			out = append(out, b)
		case '\b' <= b && b <= '\r' && b != '\v':
			out = append(out, "btn-fr"[b-'\b'])
		default:
			out = append(out, 'u', '0', '0', hex[b>>4], hex[b&15])
		}
	}
	return append(append(out, text[from:]...), '"')
}

// cut returns at most the first most bytes of text, whole characters only.
func cut(text string, most int) string {
	for most > 0 && !utf8.RuneStart(text[most]) {
		most--
	}
	return text[:most]
}
