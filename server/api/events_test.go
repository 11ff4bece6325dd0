package api_test

import (
	"bufio"
	"context"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
)

// stream opens an event stream over a real connection and returns its lines.
func (p *place) stream(url string, m member, known string) (lines chan string, stop func()) {
	p.t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	r, err := http.NewRequestWithContext(ctx, "GET", url+"/api/v1/garages/"+m.GarageID+"/events", nil)
	require.NoError(p.t, err)
	r.Header.Set("Authorization", "Bearer "+m.Token)
	if known != "" {
		r.Header.Set("Last-Event-ID", known)
	}
	resp, err := http.DefaultClient.Do(r)
	require.NoError(p.t, err)
	require.Equal(p.t, 200, resp.StatusCode)
	require.Equal(p.t, "text/event-stream", resp.Header.Get("Content-Type"))
	lines = make(chan string, 100)
	go func() {
		defer close(lines)
		defer func() { _ = resp.Body.Close() }()
		for scan := bufio.NewScanner(resp.Body); scan.Scan(); {
			if text := scan.Text(); text != "" && !strings.HasPrefix(text, ":") {
				lines <- text
			}
		}
	}()
	return lines, cancel
}

// next is the next line, or nothing when the stream ended.
func next(t *testing.T, lines chan string) string {
	t.Helper()
	select {
	case line := <-lines:
		return line
	case <-time.After(time.Minute):
		t.Fatal("no event came")
		return ""
	}
}

func TestEvents(t *testing.T) {
	p := newPlace(t)
	server := httptest.NewServer(p.router)
	defer server.Close()
	owner := p.found()
	helper, stranger := p.join(owner, record.Viewer), p.found()
	lines, stop := p.stream(server.URL, helper, "")
	defer stop()
	other, stopOther := p.stream(server.URL, stranger, "")
	defer stopOther()

	s := p.sync(owner, "", put(owner, 1, "bikes", bikeA, `{"name":"a","drive":"hub"}`))
	assert.Equal(t, "event: cursor", next(t, lines))
	assert.Equal(t, "id: "+s.Cursor, next(t, lines))
	assert.Equal(t, `data: {"cursor":"`+s.Cursor+`"}`, next(t, lines))

	p.sync(owner, "", put(owner, 1, "bikes", bikeA, `{"name":"a","drive":"hub"}`))
	again, stopAgain := p.stream(server.URL, helper, s.Cursor)
	defer stopAgain()
	two := p.sync(owner, "", put(owner, 2, "bikes", bikeA, `{"note":"n"}`))
	assert.Equal(t, "event: cursor", next(t, again), "nothing for what was there already")
	assert.Equal(t, "id: "+two.Cursor, next(t, again))
	late, stopLate := p.stream(server.URL, helper, s.Cursor)
	defer stopLate()
	assert.Equal(t, "event: cursor", next(t, late), "at once when something was missed")

	p.call("DELETE", "/api/v1/garages/"+owner.GarageID+"/devices/"+helper.DeviceID, owner.Token, "")
	for range lines { // it ends
	}
	assert.Empty(t, other, "another garage hears nothing")
}

func TestEvents_tooMany(t *testing.T) {
	p := newPlace(t)
	server := httptest.NewServer(p.router)
	defer server.Close()
	m := p.found()
	for range 4 {
		_, stop := p.stream(server.URL, m, "")
		defer stop()
	}
	requireError(t, p.call("GET", "/api/v1/garages/"+m.GarageID+"/events", m.Token, ""), 429, "too_many", "")
}
