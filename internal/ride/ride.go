package ride

import (
	"io"
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/words"
	"tautspan/internal/xmlscan"
)

// MaxFileBytes is the largest file Measure reads, 32 MiB: some 300,000 points,
// or 80 hours at one a second.
const MaxFileBytes = 32 << 20

// longLegKM is the length of a leg from which a note asks whether it was ridden.
// Recorders write a point at least every few hundred metres (common practice,
// no source).
const longLegKM = 1.0

// Calculate measures the file in the request; see Measure.
func Calculate(r *Request) (*Response, error) {
	return Measure(strings.NewReader(r.GPX))
}

// Measure reads a GPX 1.1 file of at most MaxFileBytes to its end, in constant
// memory. Errors are *fault.Error on the field gpx: too_large; not_allowed for
// a document type, an encoding, a version or a size that is refused; unreadable
// for what is damaged, cut off or no XML, and for a file without a usable track
// point; unavailable when reading fails.
func Measure(file io.Reader) (*Response, error) {
	t := &track{scanner: xmlscan.New(file, MaxFileBytes), skipped: map[string]int{}}
	if err := t.read(); err != nil {
		return nil, fault.Under("gpx", err)
	}
	if t.points == 0 {
		return nil, fault.New(fault.Unreadable, "gpx", t.nothing())
	}
	answer := &Response{
		DistanceKM: t.sumM / 1000, LongestLegKM: t.longestM / 1000,
		Segments: t.segments, Points: t.points,
	}
	if t.first.known {
		start, end := t.first.text(), t.last.text()
		answer.StartedAt, answer.EndedAt = &start, &end
	}
	for _, code := range reasons {
		if count := t.skipped[code]; count > 0 {
			answer.Skipped = append(answer.Skipped, Skipped{code, words.N("ride_" + code), count})
		}
	}
	answer.Notes = t.notes()
	return answer, nil
}

// nothing says why no distance can be given.
func (t *track) nothing() string {
	switch {
	case len(t.skipped) > 0:
		return "no track point in the file has a usable position; allowed are lat -90 to 90 and lon -180 to below 180, as plain decimal numbers"
	case t.routes > 0:
		return "the file holds a planned route and no recorded ride; a ride is a track (trk) with points"
	}
	return "the file holds no recorded ride; a ride is a track (trk) with points"
}

// notes says what the distance does and does not count.
func (t *track) notes() []words.Note {
	skipped := 0
	for _, count := range t.skipped {
		skipped += count
	}
	notes := []words.Note{words.N("ride_expect")}
	for _, row := range []struct {
		code   string
		number float64
		least  float64 // from which the note is given
		name   string
		digits int
	}{
		{"ride_segments", float64(t.segments), 2, "count", 0},
		{"ride_routes", float64(t.routes), 1, "count", 0},
		{"ride_waypoints", float64(t.waypoints), 1, "count", 0},
		{"ride_long_leg", t.longestM / 1000, longLegKM, "km", 1},
		{"ride_skipped", float64(skipped), 1, "count", 0},
		{"ride_times", float64(t.badTimes), 1, "count", 0},
	} {
		if row.number >= row.least {
			notes = append(notes, words.N(row.code, words.V(row.name, row.number, row.digits)))
		}
	}
	return notes
}
