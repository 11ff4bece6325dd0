package ride

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadMoment_OK(t *testing.T) {
	for in, want := range map[string]string{
		"2026-03-01T08:00:00Z":               "2026-03-01T08:00:00Z",
		" 2026-03-01T08:00:00\n":             "2026-03-01T08:00:00Z",
		"2026-03-01T08:00:00.5Z":             "2026-03-01T08:00:00.500Z",
		"2026-03-01T08:00:00.123999Z":        "2026-03-01T08:00:00.123Z",
		"2026-03-01T00:30:00+01:00":          "2026-02-28T23:30:00Z",
		"2024-02-29T23:30:00-01:00":          "2024-03-01T00:30:00Z",
		"2000-02-29T12:00:00+14:00":          "2000-02-28T22:00:00Z",
		"0001-01-01T00:00:00Z":               "0001-01-01T00:00:00Z",
		"9999-12-31T23:59:59.9999999999999Z": "9999-12-31T23:59:59.999Z",
	} {
		m := readMoment(in)
		require.True(t, m.known, in)
		assert.Equal(t, want, m.text(), in)
	}
}

func TestReadMoment_bad(t *testing.T) {
	for _, in := range []string{
		"", "yesterday", "2026-03-01", "2026-03-01 08:00:00Z", "2026-03-01t08:00:00Z", "2026-13-01T08:00:00Z", "2026-00-01T08:00:00Z",
		"2026-02-29T08:00:00Z", "1900-02-29T08:00:00Z", "2026-04-31T08:00:00Z", "2026-03-00T08:00:00Z", "2026-03-01T24:00:00Z",
		"2026-03-01T08:60:00Z", "2016-12-31T23:59:60Z", "2026-03-01T08:00:00.Z", "2026-03-01T08:00:00,5Z", "2026-03-01T08:00:00+1:00",
		"2026-03-01T08:00:00+15:00", "2026-03-01T08:00:00+00:60", "2026-03-01T08:00:00z", "2026-03-01T08:00:00Zx", "-026-03-01T08:00:00Z",
		"0000-03-01T08:00:00Z", "0001-01-01T00:00:00+01:00", "9999-12-31T23:59:59-01:00", "20260-03-01T08:00:00Z", "2026-3-01T008:00:00Z",
	} {
		assert.False(t, readMoment(in).known, in)
	}
}

// The standard library's time package reads the same instants.
func TestReadMoment_againstTime(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	first := time.Date(1, 1, 2, 0, 0, 0, 0, time.UTC).UnixMilli()
	last := time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC).UnixMilli()
	before, beforeMS := readMoment("0001-01-01T00:00:00Z"), first-1
	for range 5000 {
		ms := first + random.Int64N(last-first)
		at := time.UnixMilli(ms)
		zone := time.FixedZone("", 60*(random.IntN(2*14*60)-14*60))
		m := readMoment(at.In(zone).Format("2006-01-02T15:04:05.999Z07:00"))
		require.True(t, m.known)
		require.Equal(t, at.UTC().Format("2006-01-02T15:04:05.999Z"), trimmed(m.text()))
		require.Equal(t, beforeMS < ms, before.before(m))
		before, beforeMS = m, ms
	}
}

// trimmed drops the zeros at the end of the milliseconds, as time.Format does.
func trimmed(text string) string {
	if len(text) == len("2006-01-02T15:04:05Z") {
		return text
	}
	digits := text[:len(text)-1]
	for digits[len(digits)-1] == '0' {
		digits = digits[:len(digits)-1]
	}
	return digits + "Z"
}
