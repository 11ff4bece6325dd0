// Package api holds the HTTP actions under /api/v1, one file an action.
package api

import (
	"bytes"
	"net/http"
	"strconv"
	"strings"
	"sync/atomic"
	"time"

	"github.com/gorilla/mux"

	"tautspan/internal/fault"
	"tautspan/server/caller"
	"tautspan/server/reply"
	"tautspan/server/store"
)

// v1 is where the API lives. Routes carry it in full: in a subrouter the router
// forgets that an address exists for another method and answers 404 for 405.
const v1 = "/api/v1"

// Config is what the actions need.
type Config struct {
	Store            *store.Store
	Now              func() time.Time
	OpenRegistration bool           // anybody may found a garage
	Proxies          caller.Trusted // of the operator's own, which tell who calls
	OpenMetrics      bool           // /metrics for everybody, not only for this machine
	// Done is closed when the server begins to stop; event streams end then.
	Done <-chan struct{}
}

// actions is what every action shares.
type actions struct {
	Config
	foundings, joins *limiter
	meters           []meter      // by route
	unreadable       atomic.Int64 // operations refused for their form
}

// Routes adds every action to r. Whatever matches none of them goes to page,
// except below /api/, which answers in JSON.
func Routes(r *mux.Router, page http.Handler, cfg Config) {
	a := &actions{Config: cfg, foundings: newLimiter(60, 10*time.Second), joins: newLimiter(120, time.Second), meters: make([]meter, len(routes))}
	for i, route := range routes {
		r.Handle(route.Path, a.meters[i].metered(route.Stream, a.guarded(route))).Methods(route.Method)
	}
	r.MethodNotAllowedHandler = http.HandlerFunc(methodNotAllowed)
	r.NotFoundHandler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/api/") {
			reply.Error(w, r, fault.New(fault.NotFound, "", "there is nothing at this address"))
			return
		}
		page.ServeHTTP(w, r)
	})
}

func methodNotAllowed(w http.ResponseWriter, r *http.Request) {
	reply.ErrorStatus(w, r, http.StatusMethodNotAllowed,
		fault.New(fault.NotAllowed, "", "this address does not take the method "+r.Method))
}

// readBody returns the whole body, or a fault when it is larger than most bytes
// or ends early.
func readBody(w http.ResponseWriter, r *http.Request, most int64) ([]byte, error) {
	var body bytes.Buffer
	body.Grow(int(min(max(r.ContentLength, 0), most, 64<<10)) + bytes.MinRead)
	_, err := body.ReadFrom(http.MaxBytesReader(w, r.Body, most))
	if err == nil {
		return body.Bytes(), nil
	}
	if _, tooLarge := err.(*http.MaxBytesError); tooLarge {
		return nil, fault.New(fault.TooLarge, "", "the request is too large; allowed are at most "+strconv.FormatInt(most, 10)+" bytes")
	}
	return nil, fault.New(fault.InvalidJSON, "", "the request did not arrive whole; send it again")
}
