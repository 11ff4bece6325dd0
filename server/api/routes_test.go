package api_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/gorilla/mux"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/server/api"
)

// expected is written by hand from the contract, apart from the table of
// routes: for each action what a caller without a token, with a wrong token,
// each role of the garage, and the owner of another garage get.
type expected struct {
	body                                               string
	none, wrong, viewer, checker, leader, owner, other int
}

func everybody(status int) expected {
	return expected{"", status, status, status, status, status, status, status}
}

// inGarage is an action in a garage: 401 without a good token, 404 from
// another garage.
func inGarage(body string, viewer, checker, leader, owner int) expected {
	return expected{body, 401, 401, viewer, checker, leader, owner, 404}
}

var expectations = map[string]expected{
	"POST /api/v1/calc/{name}":                        {`{"drive":"hub","reading":{"kind":"rule","pitches":24,"span_mm":305}}`, 200, 200, 200, 200, 200, 200, 200},
	"GET /api/v1/openapi.json":                        everybody(200),
	"GET /healthz":                                    everybody(200),
	"GET /api/v1/healthz":                             everybody(200),
	"GET /readyz":                                     everybody(200),
	"GET /api/v1/readyz":                              everybody(200),
	"GET /metrics":                                    everybody(404), // from another machine
	"GET /api/v1/metrics":                             everybody(404),
	"POST /api/v1/garages":                            {`{"name":"G","device_name":"p"}`, 201, 201, 201, 201, 201, 201, 201},
	"POST /api/v1/join":                               {`{"code":"x","device_name":"p"}`, 404, 404, 404, 404, 404, 404, 404},
	"DELETE /api/v1/garages/{id}":                     inGarage("", 403, 403, 403, 204),
	"POST /api/v1/garages/{id}/invites":               inGarage(`{"role":"viewer","uses":1,"expires_in_s":60}`, 403, 403, 403, 201),
	"GET /api/v1/garages/{id}/devices":                inGarage("", 403, 403, 403, 200),
	"DELETE /api/v1/garages/{id}/devices/{device_id}": inGarage("", 403, 403, 403, 204), // a device that is not one's own
	"PATCH /api/v1/garages/{id}/devices/{device_id}":  inGarage(`{"role":"owner"}`, 403, 403, 403, 204),
	"POST /api/v1/garages/{id}/sync":                  inGarage(`{"cursor":"","ops":[]}`, 200, 200, 200, 200),
	"GET /api/v1/garages/{id}/events":                 inGarage("", 200, 200, 200, 200),
	"GET /api/v1/garages/{id}/export.json":            inGarage("", 200, 200, 200, 200),
	"GET /api/v1/garages/{id}/export.csv":             inGarage("", 200, 200, 200, 200),
	"GET /api/v1/garages/{id}/checks.ics":             inGarage("", 200, 200, 200, 200),
}

// Every route the router has is in the table of routes and in the expectations
// above; a new one fails until somebody has said who may take it.
func TestRoutes_allExpected(t *testing.T) {
	p := newPlace(t)
	walked := []string{}
	require.NoError(t, p.router.Walk(func(r *mux.Route, _ *mux.Router, _ []*mux.Route) error {
		path, err := r.GetPathTemplate()
		require.NoError(t, err)
		methods, err := r.GetMethods()
		require.NoError(t, err, "%s takes any method", path)
		for _, m := range methods {
			walked = append(walked, m+" "+path)
		}
		return nil
	}))
	listed := []string{}
	for _, r := range api.Table() {
		listed = append(listed, r.Method+" "+r.Path)
	}
	assert.ElementsMatch(t, walked, listed)
	known := []string{}
	for name := range expectations {
		known = append(known, name)
	}
	assert.ElementsMatch(t, walked, known)
}

// Every route × no token, a wrong token, every role, and another garage's
// owner; the same again for a garage that does not exist, where a good token
// must get the very answer it gets for another's.
func TestRoutes_rolesAndGarages(t *testing.T) {
	for name, want := range expectations {
		method, path, _ := strings.Cut(name, " ")
		t.Run(name, func(t *testing.T) {
			p := newPlace(t)
			for _, row := range []struct {
				who    string
				status int
			}{
				{"none", want.none}, {"wrong", want.wrong}, {"viewer", want.viewer}, {"checker", want.checker},
				{"leader", want.leader}, {"owner", want.owner}, {"other", want.other},
			} {
				p.address = "192.0.2.1:1" // the limits have a test of their own
				owner := p.found()
				victim := p.join(owner, record.Viewer)
				token := p.tokenOf(row.who, owner)
				at := strings.NewReplacer("{id}", owner.GarageID, "{device_id}", victim.DeviceID, "{name}", "wear").Replace(path)
				w := p.call(method, at, token, want.body)
				assert.Equal(t, row.status, w.Code, "%s: %s", row.who, w.Body)
				if row.status >= 400 {
					assert.Contains(t, w.Body.String(), `{"error":{"code":`, row.who)
				}
				if row.status == http.StatusUnauthorized {
					assert.Equal(t, "Bearer", w.Header().Get("WWW-Authenticate"))
				}
				if strings.Contains(path, "{id}") && row.who == "other" {
					nowhere := p.call(method, strings.ReplaceAll(at, owner.GarageID, "01a21337-2c1d-7d83-9ff9-000000000000"), token, want.body)
					assert.Equal(t, w.Code, nowhere.Code)
					assert.Equal(t, w.Body.String(), nowhere.Body.String())
				}
			}
		})
	}
}

func (p *place) tokenOf(who string, owner member) string {
	switch who {
	case "none":
		return ""
	case "wrong":
		return owner.Token[:len(owner.Token)-4] + "AAAA"
	case "owner":
		return owner.Token
	case "other":
		return p.found().Token
	}
	return p.join(owner, record.Role(who)).Token
}

// A path that exists for another method is 405, in JSON, whoever asks.
func TestRoutes_otherMethods(t *testing.T) {
	p := newPlace(t)
	for _, r := range api.Table() {
		w := p.call("PUT", strings.NewReplacer("{id}", "x", "{device_id}", "x", "{name}", "wear").Replace(r.Path), "", "")
		requireError(t, w, http.StatusMethodNotAllowed, "not_allowed", "")
	}
}
