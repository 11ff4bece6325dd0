package ride

import (
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// maxRequestBytes of a file inside a JSON request; no request may be larger.
const maxRequestBytes = 256 << 10

// Request asks for the distance of the rides in one GPX file.
type Request struct{ GPX string }

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	o.Text("gpx", &r.GPX).Required().Length(1, maxRequestBytes).
		Doc("a GPX 1.1 file as text; on the phone a file of up to 32 MiB is read without a request", "")
}

// Response is what a file recorded.
type Response struct {
	DistanceKM         float64
	LongestLegKM       float64
	Segments, Points   int
	StartedAt, EndedAt *string
	Skipped            []Skipped
	Notes              []words.Note
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	o.Number("distance_km", &r.DistanceKM).Required().Doc("sum of the geodesics within each segment, on WGS84", "km")
	o.Number("longest_leg_km", &r.LongestLegKM).Required().Doc("the longest way between two following points", "km")
	o.Integer("segments", &r.Segments).Required().Doc("track segments with at least one point used", "")
	o.Integer("points", &r.Points).Required().Doc("track points used", "")
	o.OptionalText("started_at", &r.StartedAt).OrNull().Doc("earliest time of a point used, RFC 3339 in UTC", "")
	o.OptionalText("ended_at", &r.EndedAt).OrNull().Doc("latest time of a point used, RFC 3339 in UTC", "")
	wire.List(o, "skipped", &r.Skipped).Required().Doc("track points that were not used", "")
	o.Notes("notes", "note", &r.Notes)
}

// Skipped counts the track points left out for one reason.
type Skipped struct {
	Code  string
	Why   words.Note
	Count int
}

// Fields declares the entry's JSON.
func (s *Skipped) Fields(o *wire.Object) {
	o.Text("code", &s.Code).Required().Doc("the reason as a code", "")
	o.Note("why", "the reason in words", &s.Why)
	o.Integer("count", &s.Count).Required().Doc("how many points", "")
}
