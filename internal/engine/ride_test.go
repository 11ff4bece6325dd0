package engine_test

import (
	"encoding/json"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/fault"
	"tautspan/internal/ride"
	"tautspan/internal/testkit"
)

// The door for files answers byte for byte as the calculation does.
func TestRide_asTheCalculation(t *testing.T) {
	for _, g := range testkit.Goldens(t) {
		if g.Calculation != "ride" || g.Name == "empty" { // an empty text is refused before it is read
			continue
		}
		t.Run(g.Name, func(t *testing.T) {
			var request struct{ GPX string }
			require.NoError(t, json.Unmarshal(g.Request, &request))
			got, err := engine.Ride(strings.NewReader(request.GPX))
			if err != nil {
				got = engine.ErrorJSON(err)
			}
			assert.Equal(t, string(answer("ride", g.Request)), string(got))
		})
	}
}

// file is a GPX file of at least so many bytes: two points and much space.
func file(bytes int64) io.Reader {
	return io.MultiReader(
		strings.NewReader(`<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1"><trk><trkseg><trkpt lat="52" lon="5"/>`),
		io.LimitReader(spaces{}, bytes),
		strings.NewReader(`<trkpt lat="52.001" lon="5"/></trkseg></trk></gpx>`))
}

type spaces struct{}

func (spaces) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	return len(p), nil
}

func TestRide_size(t *testing.T) {
	response, err := engine.Ride(file(engine.MaxRequestBytes * 4))
	require.NoError(t, err)
	assert.Contains(t, string(response), `"points":2`)

	_, err = engine.Ride(file(ride.MaxFileBytes))
	var f *fault.Error
	require.True(t, errors.As(err, &f))
	assert.Equal(t, fault.TooLarge, f.Code)
	assert.Equal(t, "gpx", f.Field)
}

type thrower struct{}

func (thrower) Read([]byte) (int, error) { panic("thrown") }

func TestRide_panics(t *testing.T) {
	_, err := engine.Ride(thrower{})
	var f *fault.Error
	require.True(t, errors.As(err, &f))
	assert.Equal(t, fault.Internal, f.Code)
}
