package record_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
)

// The oracle is package time, which the engine itself does not import.
func TestParseInstant_likePackageTime(t *testing.T) {
	for _, text := range []string{
		"1970-01-01T00:00:00Z", "2026-03-01T08:00:00Z", "2024-02-29T23:59:59.999Z", "2000-02-29T12:00:00+14:00",
		"9999-12-31T23:59:59Z", "2026-03-01T08:00:00.5-08:30", "2026-03-01T08:00:00.123456789Z", "2100-03-01T00:00:00Z",
	} {
		want, err := time.Parse(time.RFC3339Nano, text)
		require.NoError(t, err)
		ms, ok := record.ParseInstant(text)
		assert.True(t, ok, text)
		assert.Equal(t, want.UnixMilli(), ms, text)
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		ms := r.Int64N(253402300800000) // the end of the year 9999
		text := record.FormatInstant(ms)
		assert.Equal(t, time.UnixMilli(ms).UTC().Format("2006-01-02T15:04:05.000Z"), text)
		back, ok := record.ParseInstant(text)
		assert.True(t, ok)
		assert.Equal(t, ms, back)
	}
}

func TestParseInstant_bad(t *testing.T) {
	for _, text := range []string{
		"", "2026-03-01", "2026-02-29T00:00:00Z", "1900-01-01T00:00:00Z", "1969-12-31T23:59:59Z", "2026-13-01T00:00:00Z",
		"2026-00-01T00:00:00Z", "2026-03-01T24:00:00Z", "2026-03-01T08:60:00Z", "2026-03-01T08:00:61Z", "2026-03-01t08:00:00z",
		"2026-03-01T08:00:00", "2026-03-01T08:00:00.Z", "2026-03-01T08:00:00+1:00", "2026-03-01T08:00:00+25:00",
		"2026-03-01T08:00:00ZZ", "2026-03-01 08:00:00Z", "10000-01-01T00:00:00Z", "1970-01-01T00:00:00+00:01", "２026-03-01T08:00:00Z",
	} {
		_, ok := record.ParseInstant(text)
		assert.False(t, ok, text)
	}
}

// RFC 9562 appendix A.6 gives the example value, its milliseconds and its
// random bits.
func TestUUIDv7_exampleOfTheRFC(t *testing.T) {
	got := record.UUIDv7(0x017F22E279B0, [10]byte{0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f})
	assert.Equal(t, "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", got)
	assert.True(t, record.ValidUUIDv7(got))
}

func TestValidUUIDv7_bad(t *testing.T) {
	for _, text := range []string{
		"", "017f22e2-79b0-7cc3-98c4-dc0c0c07398", "017F22E2-79B0-7CC3-98C4-DC0C0C07398F", "017f22e279b07cc398c4dc0c0c07398f",
		"017f22e2-79b0-4cc3-98c4-dc0c0c07398f", "017f22e2-79b0-7cc3-c8c4-dc0c0c07398f", "{17f22e2-79b0-7cc3-98c4-dc0c0c07398f",
	} {
		assert.False(t, record.ValidUUIDv7(text), text)
	}
}

func TestClock_Valid(t *testing.T) {
	assert.True(t, record.Clock("2026-03-01T08:00:00.000Z-00ff").Valid())
	for _, text := range []string{
		"", "2026-03-01T08:00:00.000Z-00FF", "2026-03-01T08:00:00Z-0000", "2026-02-30T08:00:00.000Z-0000",
		"2026-03-01T08:00:00.000Z-0000 ", "2026-03-01T08:00:00.000Z_0000", "2026-03-01T08:00:60.000Z-0000", "1969-12-31T23:59:59.999Z-0000",
	} {
		assert.False(t, record.Clock(text).Valid(), text)
	}
}

func TestClock_Next(t *testing.T) {
	const now = int64(1772352000000)
	for _, row := range []struct {
		name, last string
		nowMS      int64
		want       string
	}{
		{"first", "", now, "2026-03-01T08:00:00.000Z-0000"},
		{"same millisecond", "2026-03-01T08:00:00.000Z-0000", now, "2026-03-01T08:00:00.000Z-0001"},
		{"wall clock went on", "2026-03-01T08:00:00.000Z-00ff", now + 1, "2026-03-01T08:00:00.001Z-0000"},
		{"wall clock a day behind", "2026-03-02T08:00:00.000Z-000f", now, "2026-03-02T08:00:00.000Z-0010"},
		{"counter used up", "2026-03-01T08:00:00.000Z-ffff", now, "2026-03-01T08:00:00.001Z-0000"},
	} {
		t.Run(row.name, func(t *testing.T) {
			next := record.Clock(row.last).Next(row.nowMS)
			assert.Equal(t, row.want, string(next))
			assert.True(t, next.Valid())
			assert.Greater(t, string(next), row.last)
		})
	}
}
