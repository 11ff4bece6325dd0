package api_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/server/api"
)

// sample is one line of OpenMetrics 1.0: name, labels, value.
var sample = regexp.MustCompile(`^(tautspan_[a-z_]+)(\{[a-z]+="[^"\n]*"(?:,[a-z]+="[^"\n]*")*\})? ([0-9.e+-]+)$`)

// Metrics count what happened, in the form of OpenMetrics, and name nobody.
func TestMetrics(t *testing.T) {
	p := newPlace(t, func(c *api.Config) { c.OpenMetrics = true })
	m := p.stocked()
	p.sync(m, "", `{"op_id":7}`, put(m, 9, "bikes", bikeA, `{"colour":"red"}`))
	p.call("GET", "/api/v1/garages/"+m.GarageID+"/export.json", "wrong", "")
	w := p.call("GET", "/metrics", "", "")
	require.Equal(t, 200, w.Code)
	text := w.Body.String()
	for _, secret := range []string{m.GarageID, m.DeviceID, m.Token, p.address, "192.0.2.1"} {
		assert.NotContains(t, text, secret)
	}
	values := map[string]float64{}
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	require.Equal(t, "# EOF", lines[len(lines)-1])
	for _, line := range lines[:len(lines)-1] {
		if strings.HasPrefix(line, "# ") {
			assert.Regexp(t, `^# (TYPE|HELP|UNIT) tautspan_[a-z_]+ .+$`, line)
			continue
		}
		parts := sample.FindStringSubmatch(line)
		require.NotNil(t, parts, line)
		v, err := strconv.ParseFloat(parts[3], 64)
		require.NoError(t, err)
		require.NotContains(t, values, parts[1]+parts[2], "each once")
		values[parts[1]+parts[2]] = v
	}
	assert.Equal(t, 4.0, values["tautspan_ops_kept_total"])
	assert.Equal(t, 2.0, values["tautspan_ops_rejected_total"])
	assert.Equal(t, 1.0, values["tautspan_garages"])
	assert.Equal(t, 1.0, values["tautspan_devices"])
	assert.Positive(t, values["tautspan_database_bytes"])
	assert.Equal(t, 2.0, values[`tautspan_calls_total{method="POST",route="/api/v1/garages/{id}/sync",status="2xx"}`])
	assert.Equal(t, 1.0, values[`tautspan_calls_total{method="GET",route="/api/v1/garages/{id}/export.json",status="4xx"}`])
	last := 0.0
	for _, bound := range []string{"0.001", "0.003", "0.01", "0.03", "0.1", "0.3", "1", "3", "+Inf"} {
		v, ok := values[`tautspan_call_seconds_bucket{method="POST",route="/api/v1/garages/{id}/sync",le="`+bound+`"}`]
		require.True(t, ok, bound)
		assert.GreaterOrEqual(t, v, last, "classes hold all below them")
		last = v
	}
	assert.Equal(t, 2.0, last)
}

// A server that stops says so to whoever spreads calls over several.
func TestReady_stopping(t *testing.T) {
	done := make(chan struct{})
	p := newPlace(t, func(c *api.Config) { c.Done = done })
	assert.Equal(t, 200, p.call("GET", "/readyz", "", "").Code)
	close(done)
	assert.Equal(t, 503, p.call("GET", "/readyz", "", "").Code)
	assert.Equal(t, 200, p.call("GET", "/healthz", "", "").Code)
}
