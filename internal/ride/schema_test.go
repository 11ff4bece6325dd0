package ride_test

import (
	"encoding/xml"
	"errors"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/geodesic"
	"tautspan/internal/ride"
)

// writer makes GPX files from the schema: every element it allows, in its
// order, present by chance.
type writer struct {
	*rand.Rand
	strings.Builder
}

// maybe writes the text half the times.
func (w *writer) maybe(text string) {
	if w.IntN(2) == 0 {
		w.WriteString(text)
	}
}

// some calls write up to most times.
func (w *writer) some(most int, write func()) {
	for range w.IntN(most + 1) {
		write()
	}
}

// generated returns a file of the schema made from the seed.
func generated(seed uint64) string {
	w := &writer{Rand: rand.New(rand.NewPCG(seed, 7))}
	w.maybe("\uFEFF")
	w.maybe(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	w.maybe("<!-- made for a test -->")
	w.WriteString(`<gpx xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" version='1.1' creator="a &amp; b"`)
	w.maybe(` xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd"`)
	w.WriteString(">\n")
	w.maybe(`<metadata><name>Ride &lt;1&gt;</name><author><name>R</name><email id="r" domain="example.org"/></author><link href="https://example.org/"><text>t</text></link>` +
		`<time>1999-01-01T00:00:00Z</time><keywords>a, b</keywords><bounds minlat="-1" minlon="-1" maxlat="1" maxlon="1"/></metadata>`)
	w.some(2, func() { w.waypoint("wpt") })
	w.some(2, func() {
		w.WriteString("<rte>")
		w.describe()
		w.some(3, func() { w.waypoint("rtept") })
		w.WriteString("</rte>")
	})
	w.some(3, func() {
		w.WriteString("<trk>")
		w.describe()
		w.some(3, w.segment)
		w.WriteString("</trk>\n")
	})
	w.extensions()
	w.WriteString("</gpx >\n")
	w.maybe("<!-- the end -->")
	return w.String()
}

func (w *writer) segment() {
	w.WriteString("<trkseg>")
	w.some(6, func() { w.waypoint("trkpt") })
	w.extensions()
	w.WriteString("</trkseg>")
}

// describe writes what routes and tracks have before their points.
func (w *writer) describe() {
	w.maybe("<name><![CDATA[Mill & <back>]]></name>")
	w.maybe("<cmt>größer 🚲</cmt>")
	w.maybe("<desc>&#x41;&#66; &quot;&apos;</desc>")
	w.maybe("<src>s</src>")
	w.maybe(`<link href="https://example.org/?a=1&amp;b=2"/>`)
	w.maybe("<number>1</number>")
	w.maybe("<type>ride</type>")
	w.extensions()
}

func (w *writer) extensions() {
	w.maybe(`<extensions><x:more xmlns:x="urn:test"><x:trkpt lat="1" lon="1"/><trkpt xmlns="urn:test" lat="2" lon="2"><time>x</time></trkpt></x:more></extensions>`)
}

// waypoint writes a wptType, mostly one with a position that is allowed.
func (w *writer) waypoint(name string) {
	lat := strconv.FormatFloat(w.Float64()*180-90, 'f', w.IntN(9), 64)
	lon := strconv.FormatFloat(w.Float64()*359-180, 'f', w.IntN(9), 64)
	if w.IntN(6) == 0 {
		lat = []string{"", "NaN", "1e1", "90.1", "+5.", " .5 ", "&#49;"}[w.IntN(7)]
	}
	w.WriteString("<" + name + ` lat="` + lat + `"` + "\n\tlon='" + lon + "'>")
	w.maybe("<ele>12.5</ele>")
	w.maybe("<time>" + time.UnixMilli(w.Int64N(4e12)).UTC().Format(time.RFC3339Nano) + "</time>")
	w.maybe("<magvar>1.5</magvar><geoidheight>45</geoidheight>")
	w.maybe("<name>p</name><sym>s</sym>")
	w.maybe("<fix>3d</fix><sat>7</sat><hdop>1.1</hdop><vdop>1</vdop><pdop>2</pdop><ageofdgpsdata>1</ageofdgpsdata><dgpsid>3</dgpsid>")
	w.extensions()
	w.WriteString("</" + name + ">\n")
}

// oracleFile is a GPX file as the standard library reads it.
type oracleFile struct {
	XMLName xml.Name `xml:"http://www.topografix.com/GPX/1/1 gpx"`
	Tracks  []struct {
		Segments []struct {
			Points []oraclePoint `xml:"http://www.topografix.com/GPX/1/1 trkpt"`
		} `xml:"http://www.topografix.com/GPX/1/1 trkseg"`
	} `xml:"http://www.topografix.com/GPX/1/1 trk"`
}

type oraclePoint struct {
	Lat   *string  `xml:"lat,attr"`
	Lon   *string  `xml:"lon,attr"`
	Times []string `xml:"http://www.topografix.com/GPX/1/1 time"`
}

var xsdDecimal = regexp.MustCompile(`^[ \t\r\n]*[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)[ \t\r\n]*$`)

// at returns the point's position, if it is one.
func (p oraclePoint) at() (place geodesic.Point, ok bool) {
	if p.Lat == nil || p.Lon == nil || !xsdDecimal.MatchString(*p.Lat) || !xsdDecimal.MatchString(*p.Lon) {
		return place, false
	}
	var errLat, errLon error
	place.LatDeg, errLat = strconv.ParseFloat(strings.TrimSpace(*p.Lat), 64)
	place.LonDeg, errLon = strconv.ParseFloat(strings.TrimSpace(*p.Lon), 64)
	return place, errLat == nil && errLon == nil && place.LatDeg >= -90 && place.LatDeg <= 90 && place.LonDeg >= -180 && place.LonDeg < 180
}

// total is what the oracle adds up.
type total struct {
	km          float64
	points      int
	first, last time.Time
}

func (f *oracleFile) total() (sum total) {
	for _, track := range f.Tracks {
		for _, segment := range track.Segments {
			var before *geodesic.Point
			for _, p := range segment.Points {
				here, ok := p.at()
				if !ok {
					continue
				}
				if before != nil {
					sum.km += geodesic.DistanceM(*before, here) / 1000
				}
				before = &here
				sum.points++
				sum.see(p.Times)
			}
		}
	}
	return sum
}

func (s *total) see(times []string) {
	for _, text := range times {
		at, err := time.Parse(time.RFC3339Nano, text)
		if err != nil {
			continue
		}
		if s.first.IsZero() || at.Before(s.first) {
			s.first = at
		}
		if at.After(s.last) {
			s.last = at
		}
	}
}

// Files made from the schema give what the standard library's XML reader,
// decimals by regular expression and package time give.
func TestMeasure_filesOfTheSchema(t *testing.T) {
	rides := 0
	for seed := range uint64(500) {
		text := generated(seed)
		var file oracleFile
		require.NoError(t, xml.Unmarshal([]byte(text), &file), text)
		want := file.total()
		got, err := ride.Measure(strings.NewReader(text))
		if want.points == 0 {
			require.Error(t, err)
			continue
		}
		rides++
		require.NoError(t, err, text)
		require.Equal(t, want.points, got.Points, text)
		require.InDelta(t, want.km, got.DistanceKM, 1e-9*max(1, want.km), text)
		require.Equal(t, want.first.IsZero(), got.StartedAt == nil, text)
		if got.StartedAt != nil {
			requireInstant(t, want.first, *got.StartedAt)
			requireInstant(t, want.last, *got.EndedAt)
		}
	}
	assert.Greater(t, rides, 300)
}

func requireInstant(t *testing.T, want time.Time, got string) {
	t.Helper()
	at, err := time.Parse(time.RFC3339Nano, got)
	require.NoError(t, err)
	require.True(t, want.Equal(at), "want %v, got %v", want, at)
}

// A file cut anywhere gives an error, never a shorter ride.
func TestMeasure_truncated(t *testing.T) {
	text := gpx(`<metadata><name>é &amp; c</name></metadata>` + segment(point("52", "5")+`<trkpt lat="52.001" lon="5"><time>2026-03-01T08:00:00Z</time></trkpt>`))
	measure(t, text)
	for size := range len(text) {
		_, err := ride.Measure(strings.NewReader(text[:size]))
		require.Error(t, err, text[:size])
	}
}

// FuzzMeasure holds that any bytes give a ride or a clear error, and that a
// ride in an ASCII file is the one the standard library reads from it.
func FuzzMeasure(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(generated(seed))
	}
	f.Add(gpx(segment(point("52", "5") + point("52.001", "5"))))
	f.Add("<!DOCTYPE gpx [<!ENTITY a 'b'>]>" + gpx("&a;"))
	f.Fuzz(func(t *testing.T, text string) {
		got, err := ride.Measure(strings.NewReader(text))
		if err != nil {
			var known *fault.Error
			require.True(t, errors.As(err, &known))
			require.NotEqual(t, fault.Internal, known.Code)
			return
		}
		require.GreaterOrEqual(t, got.DistanceKM, 0.0)
		require.LessOrEqual(t, got.DistanceKM, float64(got.Points)*20004)
		// The standard library does not tell lat from x:lat, and its tables of
		// letters beyond ASCII are narrower.
		if strings.Contains(text, ":l") || strings.IndexFunc(text, func(r rune) bool { return r > '~' }) >= 0 {
			return
		}
		var file oracleFile
		require.NoError(t, xml.Unmarshal([]byte(text), &file))
		want := file.total()
		require.Equal(t, want.points, got.Points)
		require.InDelta(t, want.km, got.DistanceKM, 1e-9*max(1, want.km))
	})
}

// recorded is a file of n points, one a second at some 25 km/h, as a recorder
// with a heart-rate strap writes them.
func recorded(n int) string {
	var b strings.Builder
	b.WriteString(head + "<trk><name>r</name><trkseg>\n")
	start := time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	for i := range n {
		b.WriteString(`      <trkpt lat="` + strconv.FormatFloat(52+float64(i%5000)*5e-5, 'f', 7, 64) + `" lon="` + strconv.FormatFloat(5+float64(i%3000)*5e-5, 'f', 7, 64) + `">` +
			"\n        <ele>12.4</ele>\n        <time>" + start.Add(time.Duration(i)*time.Second).Format(time.RFC3339) + "</time>\n" +
			"        <extensions><h:hr xmlns:h=\"urn:test\">140</h:hr></extensions>\n      </trkpt>\n")
	}
	b.WriteString("</trkseg></trk></gpx>\n")
	return b.String()
}

// BenchmarkMeasure reads four hours of points; MB/s is of the file.
func BenchmarkMeasure(b *testing.B) {
	text := recorded(4 * 3600)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ride.Measure(strings.NewReader(text)); err != nil {
			b.Fatal(err)
		}
	}
}
