package api_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/server/api"
)

const hostile = "=HYPERLINK(\"x\");\r\nBEGIN:VEVENT, \\ ü \U0001F6B2\u0001 " // to be tamed in every format

// stocked founds a garage with one bike, one chain, one reading, one distance.
func (p *place) stocked() member {
	m := p.found()
	name, err := json.Marshal(hostile)
	require.NoError(p.t, err)
	s := p.sync(m, "",
		put(m, 1, "bikes", bikeA, fmt.Sprintf(`{"name":%s,"drive":"derailleur","rear_sprockets":10,"km_per_week":100}`, name)),
		put(m, 2, "chains", chainA, fmt.Sprintf(`{"bike_id":%q,"fitted_at_km":0}`, bikeA)),
		put(m, 3, "readings", readingA, fmt.Sprintf(`{"chain_id":%q,"at":"2026-02-20T08:00:00Z","at_km":800,"reading":{"kind":"rule","pitches":24,"span_mm":305.6},"note":"-1+1"}`, chainA)),
		put(m, 4, "distances", "44444444-4444-4444-8444-44444444444a", fmt.Sprintf(`{"bike_id":%q,"at":"2026-02-27T08:00:00Z","odometer_km":1000}`, bikeA)))
	require.Empty(p.t, s.Rejected)
	return m
}

func TestSync(t *testing.T) {
	p := newPlace(t)
	owner := p.found()
	checker := p.join(owner, record.Checker)
	one := put(owner, 1, "bikes", bikeA, `{"name":"Loaner","drive":"hub"}`)
	ahead := strings.Replace(put(owner, 2, "bikes", bikeA, `{"note":"n"}`), "2026-03-01T07", "2026-03-02T09", 1)
	s := p.sync(owner, "", one, `{"op_id":7}`, ahead, put(owner, 3, "bikes", bikeA, `{"colour":"red"}`))
	require.Len(t, s.Rejected, 3)
	assert.Equal(t, "ops[1].op_id", s.Rejected[0].Field)
	assert.Equal(t, "clock_ahead", s.Rejected[1].Code)
	assert.Equal(t, "put.colour", s.Rejected[2].Field)
	assert.Len(t, s.Ops, 1, "its own comes back")
	p.now = p.now.Add(3 * time.Hour)
	assert.Empty(t, p.sync(owner, s.Cursor, ahead).Rejected, "a clock that was ahead is not for ever")

	s = p.sync(checker, "", put(checker, 4, "bikes", bikeA, `{"name":"Mine"}`), put(checker, 5, "care", chainA, fmt.Sprintf(`{"chain_id":%q,"at":"2026-03-01T08:00:00Z","did":["wiped"]}`, chainA)))
	require.Len(t, s.Rejected, 1)
	assert.Equal(t, "denied", s.Rejected[0].Code)
	assert.Len(t, s.Ops, 3)
}

func TestSync_bad(t *testing.T) {
	p := newPlace(t)
	m := p.found()
	for _, row := range []struct {
		name, body  string
		status      int
		code, field string
	}{
		{"empty", ``, 400, "invalid_json", ""},
		{"cut", `{"cursor":"","ops":[{"op_id"`, 400, "invalid_json", "ops[0].op_id"},
		{"list", `[]`, 400, "wrong_type", ""},
		{"unknown field", `{"curser":""}`, 400, "unknown_field", "curser"},
		{"cursor of nobody", `{"cursor":"17"}`, 400, "unreadable", "cursor"},
		{"long cursor", `{"cursor":"` + strings.Repeat("7", 101) + `"}`, 400, "out_of_range", "cursor"},
		{"ops is text", `{"ops":"x"}`, 400, "wrong_type", "ops"},
		{"501 operations", `{"ops":[` + strings.Repeat("1,", 500) + `1]}`, 400, "out_of_range", "ops"},
		{"too large", `{"ops":["` + strings.Repeat("x", 9<<20) + `"]}`, 413, "too_large", ""},
		{"deep", `{"ops":[` + strings.Repeat("[", 20000) + `]}`, 400, "invalid_json", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			w := p.call("POST", "/api/v1/garages/"+m.GarageID+"/sync", m.Token, row.body)
			if row.name == "deep" || row.name == "cut" {
				assert.Equal(t, row.status, w.Code)
				return
			}
			requireError(t, w, row.status, row.code, row.field)
		})
	}
}

func TestJoin_usedUpAndExpired(t *testing.T) {
	p := newPlace(t)
	owner := p.found()
	code := p.invite(owner, record.Leader)
	ask := fmt.Sprintf(`{"code":%q,"device_name":"helper"}`, code)
	joined := p.call("POST", "/api/v1/join", "", ask)
	assert.Contains(t, joined.Body.String(), `"name":"Club"`)
	assert.Equal(t, record.Leader, p.welcomed(joined).Role)
	requireError(t, p.call("POST", "/api/v1/join", "", ask), 404, "not_found", "code")
	code = p.invite(owner, record.Leader)
	p.now = p.now.Add(25 * time.Hour)
	requireError(t, p.call("POST", "/api/v1/join", "", fmt.Sprintf(`{"code":%q,"device_name":"h"}`, code)), 404, "not_found", "code")
	requireError(t, p.call("POST", "/api/v1/garages/"+owner.GarageID+"/invites", owner.Token, `{"role":"owner"}`), 400, "not_allowed", "role")
}

func TestDevices(t *testing.T) {
	p := newPlace(t)
	owner := p.found()
	helper := p.join(owner, record.Checker)
	devices := "/api/v1/garages/" + owner.GarageID + "/devices"
	assert.Equal(t, 403, p.call("DELETE", devices+"/"+owner.DeviceID, helper.Token, "").Code)
	assert.Equal(t, 204, p.call("DELETE", devices+"/"+helper.DeviceID, helper.Token, "").Code, "oneself")
	assert.Equal(t, 401, p.call("POST", "/api/v1/garages/"+owner.GarageID+"/sync", helper.Token, `{}`).Code)
	requireError(t, p.call("DELETE", devices+"/"+helper.DeviceID, owner.Token, ""), 404, "not_found", "")
	var list []map[string]string
	require.NoError(t, json.Unmarshal(p.call("GET", devices, owner.Token, "").Body.Bytes(), &list))
	require.Len(t, list, 2)
	for _, d := range list {
		assert.Equal(t, d["device_id"] == helper.DeviceID, d["revoked_at"] != "")
	}
}

func TestGarageCreate_closed(t *testing.T) {
	p := newPlace(t, func(c *api.Config) { c.OpenRegistration = false })
	requireError(t, p.call("POST", "/api/v1/garages", "", `{"name":"G","device_name":"p"}`), 403, "denied", "")
}

func TestLimits(t *testing.T) {
	p := newPlace(t)
	found := func() *httptest.ResponseRecorder {
		return p.call("POST", "/api/v1/garages", "", `{"name":"G","device_name":"p"}`)
	}
	for range 60 {
		require.Equal(t, 201, found().Code)
	}
	w := found()
	requireError(t, w, http.StatusTooManyRequests, "too_many", "")
	assert.Equal(t, "11", w.Header().Get("Retry-After"))
	p.address = "192.0.2.2:1000"
	assert.Equal(t, 201, found().Code, "others are not held up")
	p.address, p.now = "192.0.2.1:1000", p.now.Add(11*time.Second)
	assert.Equal(t, 201, found().Code)
	assert.Equal(t, 429, found().Code)
	p.address = "[2001:db8::1]:1"
	for range 120 {
		require.Equal(t, 404, p.call("POST", "/api/v1/join", "", `{"code":"guess","device_name":"p"}`).Code)
	}
	p.address = "[2001:db8::2]:1" // the same household
	assert.Equal(t, 429, p.call("POST", "/api/v1/join", "", `{"code":"guess","device_name":"p"}`).Code)
}

// What was given out can be taken in again: see TestReadExport in
// internal/record for the way back.
func TestExportJSON(t *testing.T) {
	p := newPlace(t)
	m := p.stocked()
	w := p.call("GET", "/api/v1/garages/"+m.GarageID+"/export.json", m.Token, "")
	require.Equal(t, 200, w.Code)
	assert.NotContains(t, w.Body.String(), m.Token)
	imported, err := record.ReadExport(bytes.TrimSpace(w.Body.Bytes()))
	require.NoError(t, err)
	require.Len(t, imported, 4)
	var bike struct{ Name string }
	require.NoError(t, json.Unmarshal(imported[0].Put, &bike))
	assert.Equal(t, hostile, bike.Name)
}

// The reader is the standard library's, of which the writer uses nothing.
func TestExportCSV(t *testing.T) {
	p := newPlace(t)
	m := p.stocked()
	w := p.call("GET", "/api/v1/garages/"+m.GarageID+"/export.csv", m.Token, "")
	require.Equal(t, 200, w.Code)
	assert.True(t, strings.HasSuffix(w.Body.String(), "\r\n"))
	rows, err := csv.NewReader(w.Body).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 2)
	row := map[string]string{}
	for i, name := range rows[0] {
		row[name] = rows[1][i]
	}
	assert.Equal(t, readingA, row["reading_id"])
	assert.Equal(t, "'"+strings.NewReplacer("\r\n", "\n", "\u0001", " ").Replace(hostile), row["bike"], "no formula, no control character (RFC 4180: TEXTDATA)")
	assert.Equal(t, "'-1+1", row["note"])
	// 100·(305.6/(24·12.7) − 1), computed
	assert.InDelta(t, 0.26246719, number(t, row["elongation_percent"]), 1e-6)
	assert.Equal(t, "ride", row["verdict"])
}

// A spreadsheet may part cells at semicolons and take quotes within a cell for
// what they are; then a formula may begin in the middle of a text.
func TestExportCSV_formulas(t *testing.T) {
	p := newPlace(t)
	m := p.found()
	for i, name := range []string{"=1", "a;=1", "a; @1", "a\n=1", "a\r\n+1", "a\t-1", "\u00a0=1", "\ufeff=1", "\u200b=1", "\u0085=1", "\u2028=1", "x;;\n =1", "＝1"} {
		text, err := json.Marshal(name)
		require.NoError(t, err)
		bike, chain := strings.Replace(bikeA, "11", fmt.Sprintf("%02x", i), 1), strings.Replace(chainA, "22", fmt.Sprintf("%02x", i), 1)
		require.Empty(t, p.sync(m, "", put(m, 10*i+1, "bikes", bike, fmt.Sprintf(`{"name":%s,"drive":"hub"}`, text)),
			put(m, 10*i+2, "chains", chain, fmt.Sprintf(`{"bike_id":%q}`, bike)),
			put(m, 10*i+3, "readings", strings.Replace(readingA, "33", fmt.Sprintf("%02x", i), 1),
				fmt.Sprintf(`{"chain_id":%q,"at":"2026-02-20T08:00:00Z","at_km":800,"reading":{"kind":"rule","pitches":24,"span_mm":305.6}}`, chain))).Rejected)
	}
	w := p.call("GET", "/api/v1/garages/"+m.GarageID+"/export.csv", m.Token, "")
	rows, err := csv.NewReader(w.Body).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 14)
	for _, row := range rows[1:] {
		for _, cell := range strings.FieldsFunc(row[1], func(r rune) bool { return strings.ContainsRune(";\t\n", r) }) {
			cell = strings.TrimLeft(cell, " \u00a0\ufeff\u200b\u0085\u2028")
			assert.NotContains(t, "=+-@＝", strings.SplitN(cell+"x", "", 2)[0], "%q", row[1])
		}
	}
}

func number(t *testing.T, text string) float64 {
	var v float64
	_, err := fmt.Sscan(text, &v)
	require.NoError(t, err)
	return v
}

// The reader is an iCalendar module from the registry.
func TestChecksCalendar(t *testing.T) {
	p := newPlace(t)
	m := p.stocked()
	w := p.call("GET", "/api/v1/garages/"+m.GarageID+"/checks.ics", m.Token, "")
	require.Equal(t, 200, w.Code)
	text := w.Body.String()
	for _, line := range strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		assert.LessOrEqual(t, len(line), 75, "RFC 5545 section 3.1")
		assert.NotContains(t, line, "\n")
	}
	calendar, err := ics.ParseCalendar(strings.NewReader(text))
	require.NoError(t, err)
	require.Len(t, calendar.Events(), 1, "nothing in a name makes an event")
	event := calendar.Events()[0]
	assert.Equal(t, "check-"+chainA+"@tautspan", event.Id())
	tame := strings.TrimSpace(strings.NewReplacer("\r\n", "\n", "\u0001", " ").Replace(hostile))
	assert.Equal(t, "Check the chain of "+tame, strings.TrimSpace(event.GetProperty(ics.ComponentPropertySummary).Value))
	start, err := event.GetAllDayStartAt()
	require.NoError(t, err)
	assert.False(t, start.Before(now.Truncate(24*time.Hour)), "never in the past")
	assert.True(t, start.Before(now.AddDate(2, 0, 0)))
}

// A bike that is hardly ridden is due in centuries: not today, as a number of
// hours that overflows would have it.
func TestChecksCalendar_hardlyRidden(t *testing.T) {
	p := newPlace(t)
	m := p.found()
	p.sync(m, "", put(m, 1, "bikes", bikeA, `{"name":"Heron","drive":"hub","care":"enclosed","km_per_week":0.1}`),
		put(m, 2, "chains", chainA, `{"bike_id":"`+bikeA+`","fitted_at_km":0,"km_before":0}`))
	w := p.call("GET", "/api/v1/garages/"+m.GarageID+"/checks.ics", m.Token, "")
	calendar, err := ics.ParseCalendar(strings.NewReader(w.Body.String()))
	require.NoError(t, err)
	require.Len(t, calendar.Events(), 1)
	start, err := calendar.Events()[0].GetAllDayStartAt()
	require.NoError(t, err)
	assert.True(t, start.After(now.AddDate(100, 0, 0)), start.String())
}

// The OpenAPI document describes every route with its parameters.
func TestOpenAPI_complete(t *testing.T) {
	p := newPlace(t)
	var document struct {
		Paths map[string]map[string]json.RawMessage
	}
	require.NoError(t, json.Unmarshal(p.call("GET", "/api/v1/openapi.json", "", "").Body.Bytes(), &document))
	for _, r := range api.Table() {
		path := strings.ReplaceAll(r.Path, "{name}", "wear")
		assert.Contains(t, document.Paths[path], strings.ToLower(r.Method), path)
	}
}

// FuzzSync holds that any body, and any cursor, gets 200 or an error in JSON
// that is the caller's, and that what was answered 200 can be pulled.
func FuzzSync(f *testing.F) {
	p := newPlace(f)
	m := p.found()
	f.Add(`{"cursor":"","ops":[` + put(m, 1, "bikes", bikeA, `{"name":"a","drive":"hub"}`) + `]}`)
	f.Add(`{"cursor":"abcdefgh-1","ops":[]}`)
	f.Add(`{"ops":[1,"",null,{}]}`)
	f.Fuzz(func(t *testing.T, body string) {
		p.t = t
		w := p.call("POST", "/api/v1/garages/"+m.GarageID+"/sync", m.Token, body)
		require.True(t, json.Valid(w.Body.Bytes()), "%s", w.Body)
		require.Contains(t, []int{200, 400, 413}, w.Code, "%s", w.Body)
	})
}
