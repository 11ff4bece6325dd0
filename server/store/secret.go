package store

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"

	"tautspan/internal/record"
)

// A secret text (a device's token, an invite's code) is the base64url of 16
// bytes that name its row and 32 random bytes. The row is found by the name, so
// that the secret itself is compared in constant time; the database holds only
// the SHA-256 of it, which needs no salt for 256 random bits.
const (
	nameBytes   = 16
	secretBytes = 32
)

// newID returns a UUIDv7.
func newID(nowMS int64) string {
	var random [10]byte
	_, _ = rand.Read(random[:]) // never fails: see crypto/rand
	return record.UUIDv7(nowMS, random)
}

// newSecret returns a fresh secret text for the row named id, a UUID, and the
// hash to keep.
func newSecret(id string) (text string, hash []byte) {
	raw := make([]byte, nameBytes+secretBytes)
	name := readUUID(id)
	copy(raw, name[:])
	_, _ = rand.Read(raw[nameBytes:])
	sum := sha256.Sum256(raw[nameBytes:])
	return base64.RawURLEncoding.EncodeToString(raw), sum[:]
}

// readSecret takes a secret text apart. ok is false when it has not the form.
func readSecret(text string) (id string, hash []byte, ok bool) {
	raw, err := base64.RawURLEncoding.Strict().DecodeString(text)
	if err != nil || len(raw) != nameBytes+secretBytes {
		return "", nil, false
	}
	sum := sha256.Sum256(raw[nameBytes:])
	return uuid(raw[:nameBytes]).String(), sum[:], true
}

func sameHash(a, b []byte) bool { return subtle.ConstantTimeCompare(a, b) == 1 }
