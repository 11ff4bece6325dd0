// Package api holds the HTTP actions under /api/v1, one file an action.
package api

import (
	"io"
	"net/http"
	"strconv"
	"strings"

	"github.com/gorilla/mux"

	"tautspan/internal/fault"
	"tautspan/server/reply"
)

// v1 is where the API lives. Routes carry it in full: in a subrouter the router
// forgets that an address exists for another method and answers 404 for 405.
const v1 = "/api/v1"

// Routes adds every action to r. Whatever matches none of them goes to page,
// except below /api/, which answers in JSON.
func Routes(r *mux.Router, page http.Handler) {
	r.HandleFunc(v1+"/calc/{name}", calcRun).Methods(http.MethodPost)
	r.HandleFunc(v1+"/openapi.json", openapiGet).Methods(http.MethodGet)
	r.HandleFunc("/healthz", healthGet).Methods(http.MethodGet)
	r.HandleFunc(v1+"/healthz", healthGet).Methods(http.MethodGet)
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
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, most))
	if err == nil {
		return body, nil
	}
	if _, tooLarge := err.(*http.MaxBytesError); tooLarge {
		return nil, fault.New(fault.TooLarge, "", "the request is too large; allowed are at most "+strconv.FormatInt(most, 10)+" bytes")
	}
	return nil, fault.New(fault.InvalidJSON, "", "the request did not arrive whole; send it again")
}
