package record

const uuidShape = "xxxxxxxx-xxxx-xxxx-xxxx-xxxxxxxxxxxx"

// ValidUUID reports whether text is a UUID of any version in lower case, as
// RFC 9562 section 4 writes it.
func ValidUUID(text string) bool { return len(text) == len(uuidShape) && shaped(text, uuidShape) }

// ValidUUIDv7 reports whether text is a UUID of version 7 in lower case
// (RFC 9562 section 5.7: version digit 7, variant bits 10).
func ValidUUIDv7(text string) bool {
	return ValidUUID(text) && text[14] == '7' && (text[19] == '8' || text[19] == '9' || text[19] == 'a' || text[19] == 'b')
}

// UUIDv7 returns the UUID of version 7 for an instant and ten random bytes
// (RFC 9562 section 5.7): 48 bits of milliseconds since 1970, then version,
// variant and 74 random bits. Negative instants count as 0.
func UUIDv7(ms int64, random [10]byte) string {
	ms = max(ms, 0)
	var b [16]byte
	for i := range 6 {
		b[i] = byte(ms >> (40 - 8*i))
	}
	copy(b[6:], random[:])
	b[6] = b[6]&0x0f | 0x70
	b[8] = b[8]&0x3f | 0x80
	const hex = "0123456789abcdef"
	out := make([]byte, 0, len(uuidShape))
	for i, v := range b {
		if i == 4 || i == 6 || i == 8 || i == 10 {
			out = append(out, '-')
		}
		out = append(out, hex[v>>4], hex[v&15])
	}
	return string(out)
}
