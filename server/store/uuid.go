package store

import "encoding/hex"

// uuid is a UUID as the database keeps it.
type uuid [16]byte

// readUUID reads a UUID that was checked.
func readUUID(text string) uuid {
	var u uuid
	digits := make([]byte, 0, 32)
	for _, part := range [...]string{text[:8], text[9:13], text[14:18], text[19:23], text[24:]} {
		digits = append(digits, part...)
	}
	if _, err := hex.Decode(u[:], digits); err != nil {
		panic("store: not a UUID that was checked")
	}
	return u
}

// String is the UUID as RFC 9562 writes it.
func (u uuid) String() string {
	h := hex.EncodeToString(u[:])
	return h[:8] + "-" + h[8:12] + "-" + h[12:16] + "-" + h[16:20] + "-" + h[20:]
}
