package ride_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/geodesic"
	"tautspan/internal/ride"
)

const head = `<?xml version="1.0" encoding="UTF-8"?><gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="test">`

// gpx puts a body into a GPX 1.1 file.
func gpx(body string) string { return head + body + "</gpx>" }

// segment is one track of one segment.
func segment(points string) string { return "<trk><trkseg>" + points + "</trkseg></trk>" }

func point(lat, lon string) string { return `<trkpt lat="` + lat + `" lon="` + lon + `"/>` }

func measure(t *testing.T, file string) *ride.Response {
	t.Helper()
	answer, err := ride.Measure(strings.NewReader(file))
	require.NoError(t, err)
	return answer
}

// The six-point track, its legs and its sum were computed with GeographicLib;
// 1e-6 m is the rounding of the printed figures.
func TestMeasure_sixPoints(t *testing.T) {
	places := [][2]string{{"52", "5"}, {"52.001", "5.001"}, {"52.002", "5.003"}, {"52.0035", "5.003"}, {"52.0035", "5.006"}, {"52.001", "5.008"}}
	legs := []float64{130.755462, 176.764953, 166.901108, 206.017980, 310.229748}
	all := ""
	for i, p := range places {
		all += point(p[0], p[1])
		if i > 0 {
			leg := measure(t, gpx(segment(point(places[i-1][0], places[i-1][1])+point(p[0], p[1]))))
			assert.InDelta(t, legs[i-1]/1000, leg.DistanceKM, 1e-9)
		}
	}
	whole := measure(t, gpx(segment(all)))
	assert.InDelta(t, 0.990669251, whole.DistanceKM, 1e-9)
	assert.InDelta(t, 0.310229748, whole.LongestLegKM, 1e-9)
	assert.Equal(t, 6, whole.Points)
	assert.Equal(t, 1, whole.Segments)
}

// Two segments are measured one by one: what lies between is not ridden.
func TestMeasure_segmentsAreNotJoined(t *testing.T) {
	a, b := point("52", "5")+point("52.001", "5"), point("53", "5")+point("53.001", "5")
	lone := measure(t, gpx(segment(a))).DistanceKM + measure(t, gpx(segment(b))).DistanceKM
	for _, body := range []string{segment(a) + segment(b), "<trk><trkseg>" + a + "</trkseg><trkseg/><trkseg>" + b + "</trkseg></trk>"} {
		answer := measure(t, gpx(body))
		assert.InDelta(t, lone, answer.DistanceKM, 1e-12)
		assert.Equal(t, 2, answer.Segments)
	}
	joined := measure(t, gpx(segment(a+b)))
	assert.Greater(t, joined.DistanceKM, 100.0)
	assert.Contains(t, codes(joined), "ride_long_leg")
}

func codes(r *ride.Response) []string {
	found := []string{}
	for _, n := range r.Notes {
		found = append(found, n.Code)
	}
	return found
}

func TestMeasure_onlyTracksCount(t *testing.T) {
	answer := measure(t, gpx(`<metadata><time>1999-01-01T00:00:00Z</time></metadata><wpt lat="0" lon="0"/><wpt lat="9" lon="0"/>`+
		`<rte><rtept lat="1" lon="1"/><rtept lat="2" lon="1"/></rte>`+segment(point("52", "5")+point("52.001", "5"))+
		`<extensions><x:trk xmlns:x="urn:other"><x:trkseg><x:trkpt lat="0" lon="0"/></x:trkseg></x:trk></extensions>`))
	assert.InDelta(t, 0.111267363, answer.DistanceKM, 1e-9)
	assert.Equal(t, []string{"ride_expect", "ride_routes", "ride_waypoints"}, codes(answer))
	assert.Empty(t, answer.Skipped)
	assert.Nil(t, answer.StartedAt)
}

// A prefix for the namespace of GPX is as good as none.
func TestMeasure_prefix(t *testing.T) {
	answer := measure(t, `<g:gpx xmlns:g="http://www.topografix.com/GPX/1/1" version="1.1" creator=""><g:trk><g:trkseg>`+
		`<g:trkpt lat="52" lon="5"><g:time>2026-03-01T10:00:00+02:00</g:time></g:trkpt><trkpt lat="0" lon="0"/><g:trkpt lat="52.001" lon="5"/></g:trkseg></g:trk></g:gpx>`)
	assert.InDelta(t, 0.111267363, answer.DistanceKM, 1e-9)
	assert.Equal(t, "2026-03-01T08:00:00Z", *answer.StartedAt)
	assert.Equal(t, "2026-03-01T08:00:00Z", *answer.EndedAt)
}

// Which positions GPX 1.1 allows: latitudeType and longitudeType of its schema,
// and the lexical space of xsd:decimal.
func TestMeasure_positions(t *testing.T) {
	for _, row := range []struct{ lat, lon, skipped string }{
		{"52", "5", ""}, {"+52.", "-.5", ""}, {" 52 ", "\t5\n", ""}, {"-90", "-180", ""}, {"90.000", "179.9999999", ""},
		{"052.0", "5", ""}, {"0.00000000000000000000000000000000000000001", "5", ""},
		{"90.0000001", "5", "out_of_range"}, {"-91", "5", "out_of_range"}, {"52", "180", "out_of_range"}, {"52", "180.0", "out_of_range"},
		{"52", "-180.0001", "out_of_range"}, {"52", strings.Repeat("9", 300), "out_of_range"},
		{"52", strings.Repeat("9", 400), "unreadable_position"},
		{"5e1", "5", "unreadable_position"}, {"8E-07", "5", "unreadable_position"}, {"NaN", "5", "unreadable_position"},
		{"INF", "5", "unreadable_position"}, {"-INF", "5", "unreadable_position"}, {"", "5", "unreadable_position"}, {"52", " ", "unreadable_position"},
		{".", "5", "unreadable_position"}, {"-", "5", "unreadable_position"}, {"5-2", "5", "unreadable_position"}, {"1.2.3", "5", "unreadable_position"},
		{"52,1", "5", "unreadable_position"}, {"0x34", "5", "unreadable_position"}, {"5_2", "5", "unreadable_position"},
		{"5 2", "5", "unreadable_position"}, {"٥٢", "5", "unreadable_position"}, {"--5", "5", "unreadable_position"},
	} {
		answer := measure(t, gpx(segment(point("0", "0")+point(row.lat, row.lon))))
		if row.skipped == "" {
			assert.Equal(t, 2, answer.Points, "%q %q", row.lat, row.lon)
			continue
		}
		assert.Equal(t, 1, answer.Points, "%q %q", row.lat, row.lon)
		require.Len(t, answer.Skipped, 1)
		assert.Equal(t, row.skipped, answer.Skipped[0].Code, "%q %q", row.lat, row.lon)
		assert.Equal(t, 1, answer.Skipped[0].Count)
	}
}

// A point left out is passed by: the leg joins its neighbours.
func TestMeasure_straightPastWhatIsLeftOut(t *testing.T) {
	answer := measure(t, gpx(segment(point("52", "5")+`<trkpt lat="52"/><trkpt/>`+point("99", "5")+point("52.001", "5"))+"<trk>"+point("1", "1")+"</trk>"))
	assert.InDelta(t, 0.111267363, answer.DistanceKM, 1e-9)
	counts := map[string]int{}
	for _, s := range answer.Skipped {
		counts[s.Code] = s.Count
		assert.NotEmpty(t, s.Why.Text())
	}
	assert.Equal(t, map[string]int{"no_position": 2, "out_of_range": 1, "misplaced": 1}, counts)
	assert.Contains(t, codes(answer), "ride_skipped")
}

// The antimeridian is no gap, and the far side of the earth no trap.
func TestMeasure_roundTheEarth(t *testing.T) {
	assert.InDelta(t, 0.111319491, measure(t, gpx(segment(point("0", "179.9995")+point("0", "-179.9995")))).DistanceKM, 1e-9)
	circle := ""
	for _, lon := range []string{"0", "90", "179.999", "-90", "0"} {
		circle += point("0", lon)
	}
	want := 4 * geodesic.DistanceM(geodesic.Point{}, geodesic.Point{LonDeg: 90}) / 1000
	assert.InDelta(t, want, measure(t, gpx(segment(circle))).DistanceKM, 1e-6)
}

func TestMeasure_refused(t *testing.T) {
	for _, row := range []struct {
		name, file string
		code       fault.Code
		says       string
	}{
		{"no GPX", `<html/>`, fault.NotAllowed, "GPX 1.1"},
		{"gpx without namespace", `<gpx version="1.1"/>`, fault.NotAllowed, "namespace"},
		{"GPX 1.0", `<gpx version="1.0" xmlns="http://www.topografix.com/GPX/1/0"/>`, fault.NotAllowed, "GPX 1.1"},
		{"no version", `<gpx xmlns="http://www.topografix.com/GPX/1/1"/>`, fault.NotAllowed, "version"},
		{"document type", "<!DOCTYPE gpx>" + gpx(""), fault.NotAllowed, "DOCTYPE"},
		{"entity", gpx("<trk><name>&x;</name></trk>"), fault.NotAllowed, "entity"},
		{"nothing inside", gpx(""), fault.Unreadable, "no recorded ride"},
		{"only a route", gpx("<rte/>"), fault.Unreadable, "planned route"},
		{"no usable point", gpx(segment(point("NaN", "5"))), fault.Unreadable, "usable position"},
		{"cut off", gpx(segment(point("52", "5")))[:len(head)+40], fault.Unreadable, "cut off"},
		{"cut off behind a point", strings.TrimSuffix(gpx(segment(point("52", "5"))), "</gpx>"), fault.Unreadable, "cut off"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := ride.Measure(strings.NewReader(row.file))
			var f *fault.Error
			require.True(t, errors.As(err, &f), "%v", err)
			assert.Equal(t, row.code, f.Code, f.Message)
			assert.Equal(t, "gpx", f.Field)
			assert.Contains(t, f.Message, row.says)
		})
	}
}
