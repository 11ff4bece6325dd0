package geodesic_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/geodesic"
	"tautspan/internal/testkit"
)

func at(lat, lon float64) geodesic.Point { return geodesic.Point{LatDeg: lat, LonDeg: lon} }

// dms reads degrees, minutes and seconds of one sign.
func dms(d, m, s float64) float64 { return d + m/60 + s/3600 }

func TestDistanceM_published(t *testing.T) {
	for _, row := range []struct {
		name                   string
		lat1, lon1, lat2, lon2 float64
		wantM, toleranceM      float64
	}{
		// From the test set published with GeographicLib (first cases of its
		// GeodTest), recomputed with GeographicLib 2.1.2.
		{"GeodTest 1", 35.60777, -139.44815, -11.17491, -69.95921, 8935244.5604818305, 1e-7},
		{"GeodTest 2", 55.52454, 106.05087, 77.03196, 197.18234, 4105086.1713924406, 1e-7},
		{"GeodTest 3", -19.79938, -174.47484, -11.99349, -154.35109, 2319004.8601169389, 1e-7},
		{"GeodTest 4", -68.82867, -74.28391, -50.63005, -8.36685, 3956936.926063544, 1e-7},
		{"GeodTest 5", -41.22777, 122.32875, -7.57291, 130.37946, 3812686.035106021, 1e-7},
		{"GeodSolve 7 cm", 36.493349428792, 0, 36.49334942879201, 0.0000008, 0.071679, 1e-6},
		{"GeodSolve more than a turn", 0, 539, 0, 181, 222638.981587, 1e-6},
		// From memory: nearly antipodal cases of GeographicLib's GeodSolve tests
		// (millimetres are all that is printed); recomputed, same digits.
		{"GeodSolve antipodal 88", 88.202499451857, 0, -88.202499451857, 179.981022032992859592, 20003898.214, 5.1e-4},
		{"GeodSolve antipodal 89.26", 89.262080389218, 0, -89.262080389218, 179.992207982775375662, 20003925.854, 5.1e-4},
		{"GeodSolve antipodal 89.33", 89.333123580033, 0, -89.333123580032997687, 179.99295812360148422, 20003926.881, 5.1e-4},
		{"GeodSolve antipodal 56", 56.320923501171, 0, -56.320923501171, 179.664747671772880215, 19993558.287, 5.1e-4},
		{"GeodSolve antipodal 52", 52.784459512564, 0, -52.784459512563990912, 179.634407464943777557, 19991596.095, 5.1e-4},
		{"GeodSolve antipodal 48", 48.522876735459, 0, -48.52287673545898293, 179.599720456223079643, 19989144.774, 5.1e-4},
		{"GeodSolve equator 179", 0, 0, 0, 179, 19926189, 0.51},
		{"GeodSolve equator 179.5", 0, 0, 0, 179.5, 19980862, 0.51},
		{"GeodSolve antipodes", 0, 0, 0, 180, 20003931, 0.51},
		{"GeodSolve one degree off", 0, 0, 1, 180, 19893357, 0.51},
		{"GeodSolve half a degree off", 0, 0, 0.5, 179.5, 19936289, 0.51},
		// The textbook line of the Geodetic Datum of Australia manual, printed to
		// the millimetre on an ellipsoid that differs from WGS84 by 0.1 mm here.
		{"Flinders Peak to Buninyong", -dms(37, 57, 3.72030), dms(144, 25, 29.52440),
			-dms(37, 39, 10.15610), dms(143, 55, 35.38390), 54972.271, 6e-4},
		// Computed with GeographicLib; a separate Vincenty code agrees within 1 µm.
		{"short on the equator", 0, 0, 0, 0.001, 111.319491, 1e-6},
		{"short on a meridian", 0, 0, 0.001, 0, 110.574276, 1e-6},
		{"short north", 52, 5, 52.001, 5, 111.267363, 1e-6},
		{"short east", 52, 5, 52, 5.001, 68.678016, 1e-6},
		{"3 km aslant", 45, 7, 45.02, 7.03, 3245.507728, 1e-6},
		{"over the zero meridian", 51.5, -0.0005, 51.5, 0.0005, 69.440517, 1e-6},
		{"over the antimeridian", 0, 179.9995, 0, -179.9995, 111.319491, 1e-6},
		{"over the pole", 89.999, 0, 89.999, 180, 223.387959, 1e-6},
		{"one degree of the equator", 0, 0, 0, 1, 111319.490793, 1e-6},
		{"first degree of latitude", 0, 0, 1, 0, 110574.388558, 1e-6},
		{"degree 45 to 46", 45, 0, 46, 0, 111141.548474, 1e-6},
	} {
		t.Run(row.name, func(t *testing.T) {
			a, b := at(row.lat1, row.lon1), at(row.lat2, row.lon2)
			assert.InDelta(t, row.wantM, geodesic.DistanceM(a, b), row.toleranceM)
			assert.InDelta(t, row.wantM, geodesic.DistanceM(b, a), row.toleranceM)
		})
	}
}

// TestDistanceM_lines compares with a reference library; the head of the file
// says which. 30 nm is a few roundings of a number of 20,000 km.
func TestDistanceM_lines(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(testkit.Root(t), "testdata", "geodesic", "lines.txt"))
	require.NoError(t, err)
	count, worst := 0, map[string]float64{}
	for _, row := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if strings.HasPrefix(row, "#") {
			continue
		}
		words := strings.Fields(row)
		v := make([]float64, 5)
		for i := range v {
			v[i], err = strconv.ParseFloat(words[i+1], 64)
			require.NoError(t, err)
		}
		off := math.Abs(geodesic.DistanceM(at(v[0], v[1]), at(v[2], v[3])) - v[4])
		assert.LessOrEqual(t, off, 3e-8, row)
		worst[words[0]] = math.Max(worst[words[0]], off)
		count++
	}
	require.Equal(t, 610, count)
	t.Logf("greatest difference, m: %v", worst)
}

// What the definition says: the equator is a geodesic of radius a while its
// ends are less than (1-f) of half a turn apart, half a meridian is twice the
// quarter meridian 10001965.729 m (Karney 2013, section 2), every meridian
// joins the poles, and no place is away from itself.
func TestDistanceM_special(t *testing.T) {
	for _, lon := range []float64{0.5, 60, 90, 90.000001, 135, 179, 179.39} {
		want := geodesic.SemiMajorM * lon * math.Pi / 180
		assert.InDelta(t, want, geodesic.DistanceM(at(0, 10), at(0, 10+lon)), 1e-7, "equator %v", lon)
	}
	const quarterM = 10001965.729
	assert.InDelta(t, quarterM, geodesic.DistanceM(at(0, 30), at(90, -77)), 6e-4)
	for _, lon := range []float64{0, 1, 90, 179, 180} {
		assert.InDelta(t, 2*quarterM, geodesic.DistanceM(at(90, 0), at(-90, lon)), 1.1e-3, "pole to pole %v", lon)
		assert.InDelta(t, 0, geodesic.DistanceM(at(90, 0), at(90, lon)), 1e-8, "a pole has every longitude")
	}
	for _, lat := range []float64{-90, -30, 0, 1e-12, 45, 89.9} {
		assert.Zero(t, geodesic.DistanceM(at(lat, 12), at(lat, 12)))
		assert.InDelta(t, 2*quarterM, geodesic.DistanceM(at(lat, 0), at(-lat, 180)), 1.1e-3, "antipodes of %v", lat)
	}
}

// The shortest way is never longer than a detour, and turning the earth or
// mirroring it changes nothing.
func TestDistanceM_geometry(t *testing.T) {
	places := []geodesic.Point{at(0, 0), at(52, 5), at(-52, -175), at(-51.9, -175.2), at(89.9, 70), at(-90, 0), at(1e-9, 179.9), at(0, 179.5)}
	for _, a := range places {
		for _, b := range places {
			direct := geodesic.DistanceM(a, b)
			turned := geodesic.DistanceM(at(a.LatDeg, a.LonDeg+360), at(b.LatDeg, b.LonDeg-720))
			mirrored := geodesic.DistanceM(at(-a.LatDeg, -a.LonDeg), at(-b.LatDeg, -b.LonDeg))
			assert.InDelta(t, direct, turned, 2e-8)
			assert.InDelta(t, direct, mirrored, 2e-8)
			for _, c := range places {
				assert.LessOrEqual(t, direct, geodesic.DistanceM(a, c)+geodesic.DistanceM(c, b)+1e-7)
			}
		}
	}
}

func TestDistanceM_bad(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, p := range []geodesic.Point{at(nan, 0), at(0, nan), at(inf, 0), at(0, inf), at(0, -inf), at(90.0001, 0), at(-91, 0)} {
		assert.True(t, math.IsNaN(geodesic.DistanceM(p, at(0, 0))), "%v", p)
		assert.True(t, math.IsNaN(geodesic.DistanceM(at(0, 0), p)), "%v", p)
	}
}

func BenchmarkDistanceM(b *testing.B) {
	for name, to := range map[string]geodesic.Point{
		"10m": at(52.00005, 5.0001), "1000km": at(45, 15), "antipodal": at(-51.9, -175.2),
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				geodesic.DistanceM(at(52, 5), to)
			}
		})
	}
}
