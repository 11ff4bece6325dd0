package api

import (
	"net/http"
	"time"

	"tautspan/internal/fault"
	"tautspan/server/store"
)

const (
	maxStreams  = 4                // of one device
	pulse       = 25 * time.Second // a comment now and then keeps the line open
	streamWrite = 10 * time.Second // for one write
)

// eventsStream is GET /api/v1/garages/{id}/events: one event named cursor
// whenever there is something new, after the stream has opened. A client that
// comes back says with Last-Event-ID what it knows, and hears at once if that
// is not all.
func eventsStream(a *actions, w http.ResponseWriter, r *http.Request, who *store.Session) error {
	watcher := a.Store.Watch(who, maxStreams)
	if watcher == nil {
		return fault.New(fault.TooMany, "", "this device has as many open streams as are allowed")
	}
	defer a.Store.Unwatch(watcher)
	again, err := a.Store.Authenticate(token(r))
	if err != nil || again == nil {
		return store.ErrShutOut // revoked before we watched
	}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	if again.Role != who.Role {
		return nil // changed before we watched: the stream ends, as it does after
	}
	h.Set("X-Accel-Buffering", "no")
	s := &stream{w: w, control: http.NewResponseController(w)}
	s.send(": open\n\n")
	if known := r.Header.Get("Last-Event-ID"); known != "" {
		if page, err := a.Store.Pull(who, known); err == nil && (page.SetBack || len(page.Ops) > 0) {
			s.event(page.Cursor)
		}
	}
	s.follow(watcher, r, a.Done)
	return nil
}

// stream writes events; after a failed write it writes nothing more.
type stream struct {
	w       http.ResponseWriter
	control *http.ResponseController
	broken  bool
}

func (s *stream) follow(watcher *store.Watcher, r *http.Request, done <-chan struct{}) {
	tick := time.NewTicker(pulse)
	defer tick.Stop()
	for !s.broken {
		select {
		case cursor, open := <-watcher.Cursors:
			if !open {
				return
			}
			s.event(cursor)
		case <-tick.C:
			s.send(": \n\n")
		case <-r.Context().Done():
			return
		case <-done:
			return
		}
	}
}

func (s *stream) event(cursor string) {
	s.send("event: cursor\nid: " + cursor + "\ndata: {\"cursor\":\"" + cursor + "\"}\n\n")
}

func (s *stream) send(text string) {
	_ = s.control.SetWriteDeadline(time.Now().Add(streamWrite)) // without it the server's own deadline holds
	if _, err := s.w.Write([]byte(text)); err != nil || s.control.Flush() != nil {
		s.broken = true
	}
}
