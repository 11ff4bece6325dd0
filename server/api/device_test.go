package api_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
)

// What a phone may do is the server's to say, at each sync; a garage with
// others in it keeps an owner, and who is the last hears what to do first.
func TestDeviceChange(t *testing.T) {
	p := newPlace(t)
	owner := p.found()
	helper := p.join(owner, record.Checker)
	devices := "/api/v1/garages/" + owner.GarageID + "/devices/"
	role := func(m member) record.Role { return p.sync(m, "").Role }
	assert.Equal(t, []record.Role{record.Owner, record.Checker}, []record.Role{role(owner), role(helper)})

	w := p.call("DELETE", devices+owner.DeviceID, owner.Token, "")
	requireError(t, w, 403, "denied", "")
	assert.Contains(t, w.Body.String(), "make another device an owner first, or delete the garage")
	w = p.call("PATCH", devices+owner.DeviceID, owner.Token, `{"role":"leader"}`)
	requireError(t, w, 403, "denied", "role")
	assert.Contains(t, w.Body.String(), "make another device an owner first")

	require.Equal(t, 204, p.call("PATCH", devices+helper.DeviceID, owner.Token, `{"role":"owner"}`).Code)
	assert.Equal(t, record.Owner, role(helper), "by its next sync, without joining again")
	p.invite(helper, record.Viewer)
	require.Equal(t, 204, p.call("DELETE", devices+owner.DeviceID, helper.Token, "").Code, "the lost phone")
	assert.Equal(t, 401, p.call("POST", "/api/v1/garages/"+owner.GarageID+"/sync", owner.Token, `{}`).Code)

	for body, code := range map[string]string{``: "invalid_json", `[]`: "wrong_type", `{}`: "missing_field", `{"role":null}`: "wrong_type", `{"role":7}`: "wrong_type",
		`{"role":"king"}`: "not_allowed", `{"role":"owner","name":"x"}`: "unknown_field", `{"role":"owner","role":"viewer"}`: "invalid_json"} {
		var answer struct{ Error struct{ Code string } }
		w := p.call("PATCH", devices+helper.DeviceID, helper.Token, body)
		assert.Equal(t, 400, w.Code, body)
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &answer), body)
		assert.Equal(t, code, answer.Error.Code, "%s: %s", body, w.Body)
	}
	for _, id := range []string{"x", "%00", "..", "01a21337-2c1d-7d83-9ff9-000000000000", p.found().DeviceID} {
		w := p.call("PATCH", devices+id, helper.Token, `{"role":"owner"}`)
		assert.Contains(t, []int{404, 301}, w.Code, id)
	}
}

// FuzzDeviceChange: whatever an owner asks of two devices, the garage keeps an owner.
func FuzzDeviceChange(f *testing.F) {
	p := newPlace(f)
	owner := p.found()
	other := p.join(owner, record.Leader)
	f.Add(`{"role":"viewer"}`)
	f.Add(`{"role":"owner"}`)
	f.Add(`{"role":["owner"]}`)
	f.Fuzz(func(t *testing.T, body string) {
		p.t = t
		for _, m := range []member{other, owner} {
			w := p.call("PATCH", "/api/v1/garages/"+owner.GarageID+"/devices/"+m.DeviceID, owner.Token, body)
			require.Contains(t, []int{204, 400, 403, 413}, w.Code, "%s", w.Body)
		}
		who, err := p.store.Authenticate(owner.Token)
		require.NoError(t, err)
		if who.Role != record.Owner { // then the other is one, and gives it back
			back := fmt.Sprintf("/api/v1/garages/%s/devices/%s", owner.GarageID, owner.DeviceID)
			require.Equal(t, 204, p.call("PATCH", back, other.Token, `{"role":"owner"}`).Code)
		}
	})
}
