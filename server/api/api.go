// Package api holds the HTTP actions under /api/v1, one file an action.
package api

import (
	"io"
	"net/http"
	"strconv"

	"github.com/gorilla/mux"

	"tautspan/internal/fault"
	"tautspan/server/reply"
)

// Routes adds every action to r.
func Routes(r *mux.Router) {
	v1 := r.PathPrefix("/api/v1").Subrouter()
	v1.HandleFunc("/calc/{name}", calcRun).Methods(http.MethodPost)
	v1.HandleFunc("/openapi.json", openapiGet).Methods(http.MethodGet)
	for _, r := range []*mux.Router{r, v1} {
		r.HandleFunc("/healthz", healthGet).Methods(http.MethodGet)
	}
	v1.NotFoundHandler = http.HandlerFunc(notFound)
	v1.MethodNotAllowedHandler = http.HandlerFunc(methodNotAllowed)
}

func notFound(w http.ResponseWriter, r *http.Request) {
	reply.Error(w, r, fault.New(fault.NotFound, "", "there is nothing at this address"))
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
