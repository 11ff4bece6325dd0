package api_test

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/mux"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/server/api"
	"tautspan/server/store"
)

var now = time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)

// place is a server with a real store, called without a socket.
type place struct {
	t       testing.TB
	store   *store.Store
	router  *mux.Router
	address string // where calls come from
	now     time.Time
}

func newPlace(t testing.TB, change ...func(*api.Config)) *place {
	t.Helper()
	s, err := store.Open(t.TempDir(), store.DefaultQuota())
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	p := &place{t: t, store: s, router: mux.NewRouter(), address: "192.0.2.1:1000", now: now}
	cfg := api.Config{Store: s, Now: func() time.Time { return p.now }, OpenRegistration: true}
	for _, c := range change {
		c(&cfg)
	}
	api.Routes(p.router, http.NotFoundHandler(), cfg)
	return p
}

// cutter is the caller of a stream who goes away once it has begun.
type cutter struct {
	*httptest.ResponseRecorder
	cut func()
}

func (c cutter) Flush() {
	c.ResponseRecorder.Flush()
	c.cut()
}

// call answers one request; a stream is cut once it has begun.
func (p *place) call(method, path, token, body string) *httptest.ResponseRecorder {
	p.t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	r := httptest.NewRequestWithContext(ctx, method, path, strings.NewReader(body))
	r.RemoteAddr = p.address
	if token != "" {
		r.Header.Set("Authorization", "Bearer "+token)
	}
	w := httptest.NewRecorder()
	if strings.HasSuffix(path, "/events") {
		p.router.ServeHTTP(cutter{w, cancel}, r)
	} else {
		p.router.ServeHTTP(w, r)
	}
	return w
}

// member is one device as it was told about itself.
type member struct {
	GarageID string `json:"garage_id"`
	DeviceID string `json:"device_id"`
	Token    string
	Role     record.Role
}

func (p *place) found() member {
	p.t.Helper()
	return p.welcomed(p.call("POST", "/api/v1/garages", "", `{"name":"Club","device_name":"phone"}`))
}

func (p *place) welcomed(w *httptest.ResponseRecorder) member {
	p.t.Helper()
	require.Equal(p.t, http.StatusCreated, w.Code, w.Body)
	var m member
	require.NoError(p.t, json.Unmarshal(w.Body.Bytes(), &m))
	return m
}

// invite returns a code for one more device.
func (p *place) invite(owner member, role record.Role) string {
	p.t.Helper()
	w := p.call("POST", "/api/v1/garages/"+owner.GarageID+"/invites", owner.Token, fmt.Sprintf(`{"role":%q}`, role))
	require.Equal(p.t, http.StatusCreated, w.Code, w.Body)
	var invite struct{ Code, URL string }
	require.NoError(p.t, json.Unmarshal(w.Body.Bytes(), &invite))
	before, after, _ := strings.Cut(invite.URL, "#")
	require.NotContains(p.t, before, invite.Code)
	require.Contains(p.t, after, invite.Code, "the secret is in the fragment only")
	return invite.Code
}

func (p *place) join(owner member, role record.Role) member {
	p.t.Helper()
	return p.welcomed(p.call("POST", "/api/v1/join", "", fmt.Sprintf(`{"code":%q,"device_name":"helper"}`, p.invite(owner, role))))
}

// put is an operation of a member; n makes its id and clock.
func put(m member, n int, table, id, fields string) string {
	return fmt.Sprintf(`{"op_id":"017f22e2-79b0-7cc3-98c4-%012x","hlc":"2026-03-01T07:00:00.000Z-%04x","device_id":%q,"table":%q,"record_id":%q,"put":%s}`,
		n, n, m.DeviceID, table, id, fields)
}

// synced is a sync's answer.
type synced struct {
	Cursor   string
	Ops      []json.RawMessage
	More     bool
	Role     record.Role
	Rejected []struct {
		OpID        string `json:"op_id"`
		Code, Field string
		Message     string
	}
}

func (p *place) sync(m member, cursor string, ops ...string) synced {
	p.t.Helper()
	w := p.call("POST", "/api/v1/garages/"+m.GarageID+"/sync", m.Token, fmt.Sprintf(`{"cursor":%q,"ops":[%s]}`, cursor, strings.Join(ops, ",")))
	require.Equal(p.t, http.StatusOK, w.Code, w.Body)
	var s synced
	require.NoError(p.t, json.Unmarshal(w.Body.Bytes(), &s))
	return s
}

func requireError(t testing.TB, w *httptest.ResponseRecorder, status int, code, field string) {
	t.Helper()
	var e struct {
		Error struct{ Code, Field, Message string }
	}
	require.Equal(t, status, w.Code, w.Body)
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &e))
	assert.Equal(t, code, e.Error.Code, e.Error.Message)
	assert.Equal(t, field, e.Error.Field, e.Error.Message)
	assert.Greater(t, len(e.Error.Message), 10)
}

const (
	bikeA    = "11111111-1111-4111-8111-11111111111a"
	chainA   = "22222222-2222-4222-8222-22222222222a"
	readingA = "33333333-3333-4333-8333-33333333333a"
)
